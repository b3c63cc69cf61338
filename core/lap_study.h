// core/lap_study.h - where "triple the drift" is right, and by how much it is not.
//
// A lap begun over the fix on the inbound heading: the turn outbound, a straight, the
// turn inbound. Both turns together go once round, so what the aircraft makes good
// sideways in the one it loses in the other, and the crosswind carries it for both:
// sin(m wca) = (S + 2 T180) / S sin(wca) for a straight of S seconds (docs/theory.md
// "The exact multiple"). Steady wind, turns begun at once. Positive cross_nm is on the
// holding side.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "core/exact.h"
#include "core/json.h"

namespace core {

/// Less correction inbound than this, and a multiple of it means nothing.
inline constexpr double kLeastMultipliedDeg = 0.5;
/// Good enough at the roll-out: our own choice, no source.
inline constexpr double kGoodRolloutNm = 0.25;
/// Directions of the wind that the study goes through, 30 degrees apart.
inline constexpr int kStudiedWinds = 12;

/// What a lap's outbound heading needs for the wanted inbound leg, and where it then
/// rolls out. Where `why` is not none the numbers mean nothing.
struct LapFit {
  NoPlan why = NoPlan::misses;  ///< misses: no way is made outbound, or abeam never comes
  double outbound_s = 0.0;      ///< from the later of abeam and wings level; negative: the turn
                                ///< inbound begins before the clock would
  double straight_s = 0.0;      ///< from wings level
  double cross_nm = 0.0;
  [[nodiscard]] bool exists() const { return why == NoPlan::none; }
};
[[nodiscard]] LapFit fit_lap(const Setup& setup, double heading_deg);

/// Roll-out of a lap of `heading_deg` and `outbound_s` from the later of abeam and wings
/// level (less than none is none); does not exist where abeam never comes. `at_s` counts
/// from the fix.
[[nodiscard]] Rollout lap_rollout(const Setup& setup, double heading_deg, double outbound_s);

/// Why there is no exact multiple.
enum class NoMultiple {
  none,        ///< there is one
  no_inbound,  ///< the inbound course cannot be made good
  no_drift,    ///< inbound correction under kLeastMultipliedDeg
  no_lap,      ///< no exact lap; `lap.why` says why
};
[[nodiscard]] std::string_view name_of(NoMultiple why);

/// The exact lap's outbound correction as a multiple of the inbound one, in closed form, of the
/// setup's wind at the fix and turns begun at once; absent where there is none.
[[nodiscard]] std::optional<double> exact_multiple(const Setup& setup);

struct LapRow {
  bool exact = false;     ///< the exact lap, whatever its multiple
  double multiple = 0.0;  ///< of the inbound correction, the other way; NaN: no exact one
  double heading_deg = 0.0;
  LapFit fit;
};

/// Today's wind speed from another side.
struct StudiedWind {
  double from_deg = 360.0;  ///< magnetic
  NoMultiple why = NoMultiple::no_inbound;
  double exact = 0.0;  ///< where `why` is none
  LapFit once;
  LapFit triple;
};

struct LapStudy {
  NoMultiple why = NoMultiple::no_inbound;
  double inbound_wca_deg = 0.0;  ///< + right; means nothing where why is no_inbound
  double exact = 0.0;            ///< where `why` is none
  ExactPlan lap;                 ///< too_short also where its straight would make no way outbound
  std::array<LapRow, 5> rows;    ///< once, twice, 2.5, 3, exact; empty where why is no_inbound
  std::array<StudiedWind, kStudiedWinds> by_wind;
};

/// `lap` is exact_lap(setup); with a rate of roll the exact lap without it is worked out
/// instead. The winds studied are solved in closed form.
[[nodiscard]] LapStudy study_laps(const Setup& setup, const ExactPlan& lap);

/// The study in sentences; empty where the inbound course cannot be made good.
[[nodiscard]] std::vector<std::string> lap_study_words(const Setup& setup, const LapStudy& study);

/// The value of `multiples` in evaluate()'s answer: an object, or null where the inbound
/// course cannot be made good.
void write_multiples(Json& json, const Setup& setup, const LapStudy& study);

}  // namespace core
