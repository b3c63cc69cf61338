// core/explain.h - a worked case in words: the sum, the outcome, the picture.
//
// Every sentence is chosen by the numbers that it states; tests fly random cases
// and check that words and numbers agree.
#pragma once

#include <string>
#include <vector>

#include "core/worked_case.h"

namespace core {

/// The arithmetic of the scenario's rule, one step a line, whole degrees.
[[nodiscard]] std::vector<std::string> sum_steps(const WorkedCase& worked);

/// "088° + 12 = 100°". The step is that between the two as shown, so that the line
/// always adds up.
[[nodiscard]] std::string sum_text(double base_deg, double result_deg);
/// "Outbound course: 238 − 180 = 058°"
[[nodiscard]] std::string outbound_text(const Hold& hold);

/// Which way the roll-out missed.
enum class Miss { on_course, past, short_of };
[[nodiscard]] Miss miss_of(const Rollout& rollout);

/// "0.7 NM past the inbound course", and the like.
[[nodiscard]] std::string headline(const WorkedCase& worked);
/// Where it rolls out, why, and what the next minute would need.
[[nodiscard]] std::string outcome(const WorkedCase& worked);
/// Text alternative of the picture; without `flight`, of the scene alone.
[[nodiscard]] std::string picture_summary(const WorkedCase& worked, bool flight = true);
/// Which sector the arrival heading lies in, and why.
[[nodiscard]] std::string sector_reason(const WorkedCase& worked);
/// Why a plan or a flight is not there, as a sentence.
[[nodiscard]] std::string reason(NoPlan why);
[[nodiscard]] std::string reason(Stop why);
/// Name of a plan as shown.
[[nodiscard]] std::string_view label_of(PlanId id);
/// Label of an event as shown.
[[nodiscard]] std::string_view label_of(EventKind kind);
/// Its short form beside a mark on the track.
[[nodiscard]] std::string_view mark_of(EventKind kind);

}  // namespace core
