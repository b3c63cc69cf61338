// core/infer.h - the wind that explains what was seen: flown numbers and an outcome in,
// steady winds with their uncertainty and the next lap out.
//
// The wind inside the Setup is the one that was allowed for. What was flown (heading,
// time) is taken as fixed numbers; the flight is put forward in a trial wind exactly as
// core/flight.h flies it. Method and bounds: docs/theory.md "Wind inferred".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/exact.h"
#include "core/json.h"

namespace core {

/// What a pilot saw. Each ± is one standard deviation: it holds two times in three.
struct Observed {
  std::optional<double> cross_nm;      ///< at the roll-out, + holding side
  std::optional<double> inbound_s;     ///< roll-out to abeam the fix on the inbound heading, > 0
  std::optional<double> held_wca_deg;  ///< correction that held the inbound course, + right
  double cross_pm = 0.1;               ///< NM, > 0
  double inbound_pm_s = 3.0;
  double wca_pm_deg = 2.0;

  [[nodiscard]] int count() const {
    return cross_nm.has_value() + inbound_s.has_value() + held_wca_deg.has_value();
  }
};

/// The leg that the observation ends, from the fix to wings level inbound.
struct FlownLeg {
  /// What the outbound straight lasts until.
  enum class Clock {
    fix,       ///< `time_s` since the fix
    level,     ///< `time_s` since wings level
    abeam,     ///< `time_s` since the later of abeam and wings level
    distance,  ///< `distance_nm` along the course
  };
  bool after_arrival = true;  ///< starts on the arrival heading, else on the inbound one
  bool short_way = true;      ///< first turn the short way, else in the hold's direction
  Clock clock = Clock::fix;
  double heading_deg = 360.0;  ///< outbound
  double time_s = 60.0;
  double distance_nm = 0.0;
};

/// The scenario's entry as it was flown; absent where it has no plan, and for the parallel
/// entry, which does not roll out on the inbound heading. Not for a leg that a DME reading ends.
[[nodiscard]] std::optional<FlownLeg> entry_leg(const Setup& flown);
/// A lap flown on `heading_deg` for `time_s` (distance legs: to the distance).
[[nodiscard]] FlownLeg lap_leg(const Setup& flown, double heading_deg, double time_s);
/// `flown` in another wind (magnetic), with the entry of `flown`.
[[nodiscard]] Setup in_wind(const Setup& flown, Wind wind);
/// Where the leg rolls out in the setup's wind; as Flight has it for entry and laps.
[[nodiscard]] Rollout leg_rollout(const Setup& setup, const FlownLeg& leg);

/// Why no wind is told, or not all of it.
enum class NoWind {
  none,         ///< it is
  nothing,      ///< nothing observed
  one_only,     ///< one observation, two unknowns
  bad_input,    ///< an observation or its ± is not a usable number
  no_leg,       ///< there is no plan that was flown
  parallel,     ///< a parallel entry does not roll out on the inbound heading
  by_station,   ///< the leg ended at a DME reading or a radial: where, only the wind sought tells
  same_part,    ///< miss and correction both tell the crosswind alone on this leg
  unexplained,  ///< no wind up to kMostWindKt does
  contradict,   ///< the three do not fit one wind; the candidates fit best
  loose,        ///< the numbers fix it to worse than kLoosestKt
  light,        ///< fixed well, but so light that it has no direction to speak of
  gave_up,      ///< the search ran out of its budget
};
[[nodiscard]] std::string_view name_of(NoWind why);

inline constexpr double kMostWindKt = 150.0;
/// Rectangles that one inference may look at; typically it looks at 20.
inline constexpr int kMostBoxes = 4000;
inline constexpr double kLoosestKt = 30.0;
inline constexpr double kLoosestDeg = 90.0;
/// Three observations contradict each other from this misfit on: 2 standard deviations
/// of the one degree of freedom left, so one honest set in twenty is called so.
inline constexpr double kMostMisfit = 4.0;

/// A wind that explains what was seen. Uncertainties are one standard deviation, linear
/// in the ±; infinite where the numbers do not tell.
struct WindCandidate {
  Wind wind;
  double speed_pm_kt = 0.0;
  double from_pm_deg = 0.0;
  double across_pm_kt = 0.0;  ///< of the wind's part across the inbound course
  double major_kt = 0.0;      ///< semi axes of the ellipse that holds 39 %
  double minor_kt = 0.0;
  double major_deg = 180.0;  ///< direction of the long axis, in (0, 180]
  double misfit = 0.0;       ///< sum of squares of (seen - predicted) / ±
  double cross_nm = 0.0;     ///< predicted
  double inbound_s = 0.0;
  double held_wca_deg = 0.0;
};

struct InferredWind {
  NoWind why = NoWind::nothing;
  FlownLeg leg;
  /// Two observations: by speed, the least first. Three: by misfit.
  std::vector<WindCandidate> candidates;
  int boxes = 0;  ///< work done

  [[nodiscard]] bool determined() const { return why == NoWind::none; }
  /// Good enough to plan the next lap with.
  [[nodiscard]] bool usable() const { return determined() || why == NoWind::light; }
};

/// From two observations every wind up to 150 kt that gives exactly these; from three the
/// best fits. Work: at most kMostBoxes rectangles and, for three, about two
/// thousand legs flown; typically 30 and 100.
[[nodiscard]] InferredWind infer_wind(const Setup& flown, const FlownLeg& leg,
                                      const Observed& seen);
/// The same for the scenario's entry.
[[nodiscard]] InferredWind infer_wind(const Setup& flown, const Observed& seen);
/// The same for the last leg of `flight`, as it ended there: its last lap's, or the entry's.
[[nodiscard]] InferredWind infer_wind(const Setup& flown, const Flight& flight,
                                      const Observed& seen);

/// What one observation says where the wind lies on the line of the one allowed for (calm
/// allowed for: across the course for a miss, else along it).
struct OnTheLine {
  double from_deg;  ///< of the line; the wind allowed for comes from here
  double speed_kt;  ///< negative: from the opposite direction
};
[[nodiscard]] std::optional<OnTheLine> on_the_line(const Setup& flown, const FlownLeg& leg,
                                                   const Observed& seen);

/// The reading of a miss as commonly taught (common practice, no source): with the wind
/// allowed for from the holding side, rolled out past the course means stronger, still
/// inside means weaker. From the other side we turn it round.
struct CommonReading {
  enum class Says { nothing, stronger, weaker };
  enum class Verdict { holds, misleads, too_close };
  Says says = Says::nothing;
  Verdict verdict = Verdict::too_close;  ///< against the inferred wind's part across
  double more_kt = 0.0;                  ///< that part, from the side allowed for, less the allowed
  /// Miss of this plan in the very wind allowed for; nothing where it does not come around.
  std::optional<double> planned_cross_nm;
  /// The miss less the planned one says the right thing where the miss does not.
  bool plan_is_to_blame = false;
};
[[nodiscard]] CommonReading common_reading(const Setup& flown, const InferredWind& inferred,
                                           const Observed& seen);

/// The next lap. By exact_lap in the inferred wind, and by the rules of thumb: three times
/// the correction held (inferred where none was seen), and as much longer outbound as the
/// inbound leg was short.
struct NextLap {
  ExactPlan exact;  ///< `why` is no_rule where no wind was inferred
  std::optional<double> thumb_heading_deg;
  std::optional<double> thumb_time_s;  ///< absent for distance legs
  Rollout thumb;                       ///< what that does in the inferred wind
};
[[nodiscard]] NextLap next_lap(const Setup& flown, const InferredWind& inferred,
                               const Observed& seen);

/// What was seen, in words.
[[nodiscard]] std::string observed_text(const Observed& seen);
/// "Not determined, because …"; empty where it is.
[[nodiscard]] std::string reason(const InferredWind& inferred);
/// What the numbers tell about the wind, one sentence an entry.
[[nodiscard]] std::vector<std::string> tells(const Setup& flown, const InferredWind& inferred,
                                             const Observed& seen);
/// What to do on the next lap.
[[nodiscard]] std::vector<std::string> advice(const Setup& flown, const InferredWind& inferred,
                                              const Observed& seen);

/// Writes the object that docs/module.md describes under `inferred`.
void write_inferred(Json& json, const Setup& flown, const FlownLeg& leg, const Observed& seen);
void write_inferred(Json& json, const Setup& flown, const Observed& seen);
void write_inferred(Json& json, const Setup& flown, const Flight& flight, const Observed& seen);

}  // namespace core
