// core/question_set.h - what a practice draws its items from: ranges, or fixed cases, read
// from a file. Format: docs/practice.md "Question sets".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/plan.h"

namespace core {

enum class Skill { entry, heading, wind, timing, clearance };
inline constexpr int kSkills = 5;
/// As in files and links: "entry", ...
[[nodiscard]] std::string_view name_of(Skill skill);

/// Whole numbers `from`, `from` + `step`, ... up to `to`.
struct IntRange {
  int from = 0;
  int to = 0;
  int step = 1;

  [[nodiscard]] int count() const { return (to - from) / step + 1; }
};

/// How the arrival lies to the sector boundaries.
enum class Boundary {
  away,  ///< no nearer than kAwayDeg: one entry is right
  near,  ///< within kNearDeg: two are
  any,   ///< either of these, and nothing between, which rounding could decide
};
inline constexpr double kAwayDeg = 8.0;
inline constexpr double kNearDeg = 4.0;

/// Forms of the timing question.
enum TimingForm : unsigned { kTimingLap = 1, kTimingGroundspeed = 2 };

struct QuestionSet {
  std::string id = "mixed";
  int version = 1;
  std::string title;
  std::string about;
  unsigned skills = (1U << kSkills) - 1U;  ///< bits, 1 << Skill

  IntRange inbound_deg{1, 360, 1};
  IntRange altitude_ft{2000, 8000, 1000};
  IntRange ias_kt{90, 120, 5};
  IntRange wind_from_deg{10, 360, 10};
  IntRange wind_kt{10, 30, 5};
  unsigned turns = 3;    ///< bits, 1 << Side
  unsigned entries = 7;  ///< bits, 1 << EntryKind
  Boundary boundary = Boundary::away;
  unsigned timing = kTimingLap | kTimingGroundspeed;

  /// Fixed cases instead of the ranges; empty: the ranges.
  std::vector<Scenario> cases;
};

/// A name that a set can have: up to 64 small letters, figures and hyphens.
[[nodiscard]] bool is_set_id(std::string_view id);

struct ReadQuestionSet {
  QuestionSet set;
  std::vector<Problem> problems;  ///< by field; each says what was used instead
  bool usable = true;             ///< false where the text is no question set at all
};

/// Reads any text. A bad field is reported and its default used; only a text that is not
/// JSON, or not an object with an id, is of no use.
[[nodiscard]] ReadQuestionSet read_question_set(std::string_view json_text);

/// At most so many cases are read, and so many bytes of title and about.
inline constexpr int kMostCases = 500;
inline constexpr std::size_t kMostSetText = 200;

struct BuiltInSet {
  std::string_view id;
  std::string_view text;  ///< JSON, from assets/sets/
};
/// In the order in which they are offered.
[[nodiscard]] const std::vector<BuiltInSet>& built_in_sets();

}  // namespace core
