// core/motion.h - how a setup's aircraft moves: turns and straights in its wind.
#pragma once

#include "core/offset_path.h"
#include "core/plan.h"

namespace core {

/// Displacement and end of a turn: the piece of arithmetic that entry, laps, exact
/// solvers and intercepts share. In a wind that changes it is the turn in the setup's own.
struct TurnMotion {
  double angle_deg;  ///< >= 0
  double duration_s;
  Vec2 motion_nm;  ///< over the ground
};
[[nodiscard]] TurnMotion turn_motion(const Setup& setup, double from_deg, double to_deg, Side side);
/// The setup's aircraft, for core/offset_path.h.
[[nodiscard]] inline Mover<double> mover_of(const Setup& setup) {
  return {setup.tas_kt * kNmPerSecondPerKnot, setup.turn.radius_nm, 1.0 / setup.turn.rate_deg_s};
}
/// The short way from one heading to another; exactly opposite: toward the holding turn.
[[nodiscard]] inline Side short_way(const Setup& setup, double from_deg, double to_deg) {
  const double difference = wrap_180(to_deg - from_deg);
  if (std::abs(difference) > 180.0 - kOppositeDeg) return setup.scenario.turns;
  return difference >= 0.0 ? Side::right : Side::left;
}
/// Velocity over the ground on a heading, NM/s.
[[nodiscard]] Vec2 ground_velocity(const Setup& setup, double heading_deg);
/// turn_through_air() of a turn that is rolled into.
[[nodiscard]] Vec2 rolled_turn_through_air(const Setup& setup, const TurnTiming& timing,
                                           double sign, double from_deg, Vec2 from, Vec2 to);
/// Motion through the air of a turn by `angle_deg` >= 0 from one heading to another, whose
/// unit vectors are given, NM.
[[nodiscard]] inline Vec2 turn_through_air(const Setup& setup, const TurnTiming& timing,
                                           double sign, double from_deg, Vec2 from, Vec2 to) {
  if (setup.roll_in.rate_rad_s != 0.0) {
    return rolled_turn_through_air(setup, timing, sign, from_deg, from, to);
  }
  return Vec2{from.y - to.y, to.x - from.x} * (sign * setup.turn.radius_nm);
}

}  // namespace core
