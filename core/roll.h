// core/roll.h - rolling into and out of a turn at a rate that is not infinite.
//
// The bank changes evenly with time and the turn stays coordinated: at bank b the heading
// turns at k tan(b), k = g / TAS. So the heading gained while rolling has a closed form,
// -k ln cos(b) / roll rate, and the ground covered is a smooth integral of it, taken by
// Gauss and Legendre's rule. docs/theory.md "Rolling".
#pragma once

#include "core/turn.h"
#include "core/units.h"

namespace core {

/// A segment's rolling in, and out again. `each_s` 0: at once.
struct Roll {
  double each_s;    ///< rolling in, and as long rolling out
  double bank_rad;  ///< reached in between
  double whole_s;   ///< from first to last; the segment may be cut before
  double from_s;    ///< how far into the rolling the segment begins: one that is banked already
};
inline constexpr Roll kNoRoll{0.0, 0.0, 0.0, 0.0};

/// How a turn at full bank is rolled into: the same every time, so computed once.
struct RollIn {
  double rate_rad_s = 0.0;  ///< 0: at once, and the rest means nothing
  double k_deg_s = 0.0;     ///< turn rate by tan(bank)
  double bank_rad = 0.0;
  double seconds = 0.0;
  double gain_deg = 0.0;  ///< heading gained
  double ahead_nm = 0.0;  ///< ground covered in still air along the heading at first
  double aside_nm = 0.0;  ///< and square to it, toward the turn
};
/// `roll_deg_s` 0: at once.
[[nodiscard]] RollIn make_roll_in(const Turn& turn, double tas_kt, double roll_deg_s);

/// Heading gained, degrees, by rolling in at `rate_rad_s` for `t_s`.
[[nodiscard]] double roll_gain_deg(double k_deg_s, double rate_rad_s, double t_s);

/// Degrees before the wanted heading at which to begin rolling out, by the usual rule: half
/// the bank (FAA-H-8083-15B ch. 5 and 7, seen). What it really takes is RollIn::gain_deg.
[[nodiscard]] constexpr double roll_out_lead_by_rule_deg(double bank_deg) { return 0.5 * bank_deg; }

/// A turn by an angle: how long, and how it is rolled.
struct TurnTiming {
  double duration_s;
  double rate_deg_s;  ///< greatest; > 0
  Roll roll;
};
/// Of a turn that is rolled into, `in` not at once.
[[nodiscard]] TurnTiming rolled_turn_timing(const Turn& turn, const RollIn& in, double angle_deg);
/// `angle_deg` >= 0. A turn too short for the full bank is rolled out of when half of it
/// is flown.
[[nodiscard]] inline TurnTiming turn_timing(const Turn& turn, const RollIn& in, double angle_deg) {
  if (in.rate_rad_s == 0.0) return {angle_deg / turn.rate_deg_s, turn.rate_deg_s, kNoRoll};
  return rolled_turn_timing(turn, in, angle_deg);
}

/// Integral over [from_s, to_s] of the unit vector along a heading that changes smoothly,
/// by eight points of Gauss and Legendre: `heading_deg(t)`. Seconds.
template <class Heading>
[[nodiscard]] Vec2 integral_along(const Heading& heading_deg, double from_s, double to_s) {
  // Nodes and weights: Abramowitz and Stegun table 25.4 (from memory; the tests compare
  // with an integrator that has none of it).
  constexpr double kNodes[] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                               0.9602898564975363};
  constexpr double kWeights[] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                 0.1012285362903763};
  const double middle = 0.5 * (from_s + to_s);
  const double half = 0.5 * (to_s - from_s);
  Vec2 sum{0.0, 0.0};
  for (int i = 0; i < 4; ++i) {
    const Vec2 a = along(heading_deg(middle - half * kNodes[i]));
    const Vec2 b = along(heading_deg(middle + half * kNodes[i]));
    sum = sum + (a + b) * kWeights[i];
  }
  return sum * half;
}

}  // namespace core
