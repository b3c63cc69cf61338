// core/evaluate.h - a link in, everything about it out, as JSON text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/report.h"

namespace core {

/// The module's evaluate(): reads `query`, works the case out and returns the object
/// that docs/module.md describes. Any text is answered; the work is bounded (one
/// case, at most 10 laps, six scans of the circle, twelve winds, one area).
[[nodiscard]] std::string evaluate(std::string_view query, const ReportParts& parts = {});

/// The same for a case that is already worked out, with the costly parts that are wanted.
[[nodiscard]] std::string evaluate(const WorkedCase& worked, std::vector<Problem> problems,
                                   const ReportParts& parts = {});

}  // namespace core
