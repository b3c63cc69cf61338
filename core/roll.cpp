#include "core/roll.h"

namespace core {

double roll_gain_deg(double k_deg_s, double rate_rad_s, double t_s) {
  // -ln cos b, written so that small banks keep their digits: cos b = 1 - 2 sin^2(b/2).
  const double s = std::sin(0.5 * rate_rad_s * t_s);
  return -k_deg_s / rate_rad_s * std::log1p(-2.0 * s * s);
}

RollIn make_roll_in(const Turn& turn, double tas_kt, double roll_deg_s) {
  RollIn in;
  if (!(roll_deg_s > 0.0)) return in;
  in.rate_rad_s = roll_deg_s * kDegToRad;
  in.bank_rad = turn.bank_deg * kDegToRad;
  in.k_deg_s = turn.rate_deg_s / std::tan(in.bank_rad);
  in.seconds = in.bank_rad / in.rate_rad_s;
  in.gain_deg = roll_gain_deg(in.k_deg_s, in.rate_rad_s, in.seconds);
  const auto heading = [&](double t) { return roll_gain_deg(in.k_deg_s, in.rate_rad_s, t); };
  const Vec2 shape = integral_along(heading, 0.0, in.seconds) * (tas_kt * kNmPerSecondPerKnot);
  in.ahead_nm = shape.y;
  in.aside_nm = shape.x;
  return in;
}

TurnTiming rolled_turn_timing(const Turn& turn, const RollIn& in, double angle_deg) {
  if (angle_deg >= 2.0 * in.gain_deg) {
    const double whole = 2.0 * in.seconds + (angle_deg - 2.0 * in.gain_deg) / turn.rate_deg_s;
    return {whole, turn.rate_deg_s, {in.seconds, in.bank_rad, whole, 0.0}};
  }
  // Half the angle is gained at bank b: 2 sin^2(b/2) = 1 - exp(-angle/2 * rate / k).
  const double drop = -std::expm1(-0.5 * angle_deg * in.rate_rad_s / in.k_deg_s);
  const double bank = 2.0 * std::asin(std::sqrt(0.5 * drop));
  const double each = bank / in.rate_rad_s;
  return {2.0 * each, in.k_deg_s * std::tan(bank), {each, bank, 2.0 * each, 0.0}};
}

}  // namespace core
