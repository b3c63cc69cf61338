// core/exact.h - the plans that really roll out on course in this wind.
#pragma once

#include "core/flight.h"

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
  wrong_entry,  ///< solved for the offset entry only
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

/// Heading for the published time that rolls out on the inbound course before the
/// fix; of all, the one nearest the rule's heading.
[[nodiscard]] ExactPlan exact_heading_for_time(const Setup& setup);

/// Heading and time that roll out on course with the published inbound time.
[[nodiscard]] ExactPlan exact_heading_and_time(const Setup& setup);

/// Time on the rule's heading that rolls out on course before the fix.
[[nodiscard]] ExactPlan exact_time_for_heading(const Setup& setup);

/// Outbound heading and time of a lap begun over the fix on the inbound heading
/// that rolls out on course with the published inbound time; nearest to the
/// outbound heading by triple correction. `time_s` is negative where the turn
/// inbound has to start before the clock would.
[[nodiscard]] ExactPlan exact_lap(const Setup& setup);

/// Every heading in (0, 360] that rolls out on course before the fix after the
/// published time, for tests and pictures; returns how many were written.
int all_headings_for_time(const Setup& setup, double* headings_deg, int room);

}  // namespace core
