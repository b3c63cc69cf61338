// core/exact_plan.h - a plan that really rolls out on course, or why there is none; the
// exact lap.
#pragma once

#include "core/motion.h"

namespace core {

/// Why there is no exact plan.
enum class NoPlan {
  none,         ///< there is one
  no_arrival,   ///< arrival course not flyable
  no_inbound,   ///< inbound course not flyable
  misses,       ///< nothing in range rolls out on course before the fix
  too_long,     ///< only with an outbound leg beyond the longest flown
  too_short,    ///< the turns alone take the aircraft past the wanted point
  no_rule,      ///< the rule that it starts from has no answer
  no_outbound,  ///< the outbound course cannot be made good
  to_the_fix,   ///< the entry goes back to the fix: there is nothing to roll out on
};
[[nodiscard]] std::string_view name_of(NoPlan why);

/// An exact plan. Where `why` is not none, the numbers mean nothing.
struct ExactPlan {
  NoPlan why = NoPlan::misses;
  double heading_deg = 0.0;
  double time_s = 0.0;      ///< from the timer; laps: from the later of abeam and wings level
  double straight_s = 0.0;  ///< from wings level
  [[nodiscard]] bool exists() const { return why == NoPlan::none; }
};

/// Outbound heading and time of a lap begun over the fix on the inbound heading
/// that rolls out on course with the published inbound time; nearest to the
/// outbound heading by triple correction. `time_s` is negative where the turn
/// inbound has to start before the clock would.
[[nodiscard]] ExactPlan exact_lap(const Setup& setup);

}  // namespace core
