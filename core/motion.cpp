#include "core/motion.h"

#include "core/track.h"

namespace core {
namespace {

/// Square to a direction, to its right.
Vec2 right_of(Vec2 v) { return {v.y, -v.x}; }

}  // namespace

Vec2 rolled_turn_through_air(const Setup& u, const TurnTiming& timing, double sign, double from_deg,
                             Vec2 from, Vec2 to) {
  const RollIn& in = u.roll_in;
  if (timing.roll.bank_rad == in.bank_rad) {
    // Rolled out of as rolled into, seen backwards; between them an arc at full bank.
    const Vec2 ends =
        (from + to) * in.ahead_nm + (right_of(from) - right_of(to)) * (sign * in.aside_nm);
    const double a = from_deg + sign * in.gain_deg;
    const double arc_deg = (timing.duration_s - 2.0 * in.seconds) * u.turn.rate_deg_s;
    const double half_deg = 0.5 * arc_deg;
    return ends + along(a + sign * half_deg) * (2.0 * u.turn.radius_nm * sin_deg(half_deg));
  }
  // Never at full bank.
  const Segment s{0.0,
                  timing.duration_s,
                  {0.0, 0.0},
                  from_deg,
                  sign * timing.rate_deg_s,
                  u.tas_kt * kNmPerSecondPerKnot,
                  {0.0, 0.0},
                  {0.0, 0.0},
                  timing.roll};
  return s.air_motion(timing.duration_s);
}

TurnMotion turn_motion(const Setup& u, double from_deg, double to_deg, Side side) {
  const double sign = sign_of(side);
  const double angle = turn_angle((to_deg - from_deg) * sign);
  if (u.roll_in.rate_rad_s != 0.0) {
    const TurnTiming timing = turn_timing(u.turn, u.roll_in, angle);
    const Vec2 air = turn_through_air(u, timing, sign, from_deg, along(from_deg),
                                      along(from_deg + sign * angle));
    return {angle, timing.duration_s, air + u.wind_nm_s * timing.duration_s};
  }
  const double seconds = angle / u.turn.rate_deg_s;
  const double half_deg = 0.5 * angle;
  // Chord of the arc, along the mean heading.
  const Vec2 air = along(from_deg + sign * half_deg) * (2.0 * u.turn.radius_nm * sin_deg(half_deg));
  return {angle, seconds, air + u.wind_nm_s * seconds};
}

Vec2 ground_velocity(const Setup& u, double heading_deg) {
  return along(heading_deg) * (u.tas_kt * kNmPerSecondPerKnot) + u.wind_nm_s;
}

}  // namespace core
