#include "core/atmosphere.h"

#include <cmath>

#include "core/units.h"

namespace core {
namespace {

constexpr double kSeaLevelK = 288.15;
constexpr double kLapseKPerM = 0.0065;
constexpr double kTropopauseM = 11000.0;
constexpr double kGasConstant = 287.05287;  // J/(kg K), dry air, ICAO Doc 7488
constexpr double kGamma = 1.4;
// g / (R L): the exponent of the pressure law below the tropopause, 5.25588.
constexpr double kPressureExponent = kGravity / (kGasConstant * kLapseKPerM);
constexpr double kTropopauseK = kSeaLevelK - kLapseKPerM * kTropopauseM;

double standard_k(double altitude_ft) {
  const double h_m = altitude_ft * kMetresPerFoot;
  return h_m < kTropopauseM ? kSeaLevelK - kLapseKPerM * h_m : kTropopauseK;
}

double sound_kt(double t_k) {
  return std::sqrt(kGamma * kGasConstant * t_k) * 3600.0 / kMetresPerNm;
}

}  // namespace

double temperature_k(double altitude_ft, double isa_deviation_c) {
  return standard_k(altitude_ft) + isa_deviation_c;
}

double pressure_ratio(double altitude_ft) {
  const double h_m = altitude_ft * kMetresPerFoot;
  const double ratio = std::pow(standard_k(altitude_ft) / kSeaLevelK, kPressureExponent);
  if (h_m <= kTropopauseM) return ratio;
  return ratio * std::exp(-kGravity * (h_m - kTropopauseM) / (kGasConstant * kTropopauseK));
}

double density_ratio(double altitude_ft, double isa_deviation_c) {
  return pressure_ratio(altitude_ft) * kSeaLevelK / temperature_k(altitude_ft, isa_deviation_c);
}

double speed_of_sound_kt(double altitude_ft, double isa_deviation_c) {
  return sound_kt(temperature_k(altitude_ft, isa_deviation_c));
}

double mach_from_cas(double cas_kt, double altitude_ft) {
  const double m0 = cas_kt / sound_kt(kSeaLevelK);
  const double impact = std::pow(1.0 + 0.2 * m0 * m0, 3.5) - 1.0;
  return std::sqrt(5.0 * (std::pow(impact / pressure_ratio(altitude_ft) + 1.0, 2.0 / 7.0) - 1.0));
}

double tas_from_cas(double cas_kt, double altitude_ft, double isa_deviation_c) {
  return mach_from_cas(cas_kt, altitude_ft) * speed_of_sound_kt(altitude_ft, isa_deviation_c);
}

double cas_from_tas(double tas_kt, double altitude_ft, double isa_deviation_c) {
  const double mach = tas_kt / speed_of_sound_kt(altitude_ft, isa_deviation_c);
  const double impact =
      pressure_ratio(altitude_ft) * (std::pow(1.0 + 0.2 * mach * mach, 3.5) - 1.0);
  return sound_kt(kSeaLevelK) * std::sqrt(5.0 * (std::pow(impact + 1.0, 2.0 / 7.0) - 1.0));
}

}  // namespace core
