// core/progress.h - what practice and checks leave behind, as JSON text: read field by field
// with every fault named, written in one way. Format: docs/practice.md "The progress file".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/check.h"

namespace core {

/// The format that is written. A newer file is read as far as it is known.
inline constexpr int kProgressVersion = 1;
/// Checks kept; beyond, the one longest ago goes.
inline constexpr std::size_t kMostChecks = 50;
/// Faults named; beyond, only that there are more.
inline constexpr std::size_t kMostProgressProblems = 20;

/// Finished checks of one set, version and code: the best of them.
struct CheckRecord {
  std::string set_id;
  int set_version = 1;
  std::string code;
  int tries = 1;
  CheckTally best;
  int day = kNoDay;  ///< of the best
};

/// A check that was begun: first tries so far, 1 = right, the first item in bit 0.
struct OpenCheck {
  std::string set_id;
  int set_version = 1;
  std::string code;
  int answered = 0;
  unsigned right = 0;
};

struct Progress {
  SkillRecords skills{};
  std::vector<CheckRecord> checks;
  std::optional<OpenCheck> open_check;
};

/// The finished checks of this set, version and code; null where there is none.
[[nodiscard]] const CheckRecord* find_check(const Progress& progress, std::string_view set_id,
                                            int set_version, std::string_view code);

/// Takes a finished check: one try more, and the better result of the two.
const CheckRecord& add_check(Progress& progress, const CheckRecord& finished);

/// One line of JSON. read_progress gives the same back, and this then the same text.
[[nodiscard]] std::string write_progress(const Progress& progress);

struct ReadProgress {
  Progress progress;
  /// Each names the field, its value, what is allowed and what was used instead.
  std::vector<Problem> problems;
  bool usable = false;  ///< false: no progress file at all; nothing was read
};
/// Never fails on parts: what cannot be used is named and replaced, the rest is kept.
[[nodiscard]] ReadProgress read_progress(std::string_view text);

}  // namespace core
