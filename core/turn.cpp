#include "core/turn.h"

#include <cmath>

#include "core/units.h"

namespace core {
namespace {
constexpr double kMetresPerSecondPerKnot = kMetresPerNm / 3600.0;
}

double turn_rate_deg_s(double tas_kt, double bank_deg) {
  const double v = tas_kt * kMetresPerSecondPerKnot;
  return kGravity * std::tan(bank_deg * kDegToRad) / v * kRadToDeg;
}

double bank_for_rate_deg(double tas_kt, double rate_deg_s) {
  const double v = tas_kt * kMetresPerSecondPerKnot;
  return std::atan(v * rate_deg_s * kDegToRad / kGravity) * kRadToDeg;
}

double turn_radius_nm(double tas_kt, double rate_deg_s) {
  return tas_kt * kNmPerSecondPerKnot / (rate_deg_s * kDegToRad);
}

Turn level_turn(double tas_kt, double bank_limit_deg) {
  double bank = bank_for_rate_deg(tas_kt, kStandardRateDegS);
  double rate = kStandardRateDegS;
  if (bank > bank_limit_deg) {
    bank = bank_limit_deg;
    rate = turn_rate_deg_s(tas_kt, bank);
  }
  return {bank, rate, turn_radius_nm(tas_kt, rate)};
}

}  // namespace core
