// core/exact.h - the plans that really roll out on course in this wind.
#pragma once

#include "core/exact_plan.h"
#include "core/flight.h"

namespace core {

/// Heading for the published time that rolls out on the inbound course before the
/// fix; of all, the one nearest the rule's heading. The parallel entry ends on course by
/// one intercept at the scenario's angle; there it is the heading that then leaves the
/// published inbound time.
[[nodiscard]] ExactPlan exact_heading_for_time(const Setup& setup);

/// Heading and time that roll out on course with the published inbound time. Parallel
/// entry: the heading makes good the outbound course, and after the intercept the
/// published inbound time is left.
[[nodiscard]] ExactPlan exact_heading_and_time(const Setup& setup);

/// Time on the rule's heading that rolls out on course before the fix; parallel: that
/// leaves the published inbound time after the intercept.
[[nodiscard]] ExactPlan exact_time_for_heading(const Setup& setup);

/// Every heading in (0, 360] that rolls out on course before the fix after the
/// published time, for tests and pictures; returns how many were written.
int all_headings_for_time(const Setup& setup, double* headings_deg, int room);

}  // namespace core
