// core/item.h - one question of practice: a case, its steps with their right values, and
// what an answer is worth. What is asked, the tolerances and their sources: docs/practice.md.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/question_set.h"

namespace core {

/// Half-widths within which an answer is right, both ends included. Heading: FAA-S-ACS-8C,
/// III.B (seen). The others: common practice, no source.
inline constexpr double kAskedHeadingDeg = 10.0;
inline constexpr double kAskedCorrectionDeg = 3.0;
inline constexpr double kAskedTimingS = 5.0;
/// From here on a correction must be to the right side too.
inline constexpr double kSidedFromDeg = 4.0;

enum class StepKind {
  choice,      ///< one of `choices`
  direction,   ///< degrees, 360 for north
  degrees,     ///< an angle without a side
  knots,       ///< a speed
  seconds,     ///< "1:05" or "65"
  correction,  ///< degrees and a side: "5 left"
  hold,        ///< inbound course and direction of the turns: "085 left"
};
[[nodiscard]] std::string_view name_of(StepKind kind);

struct Choice {
  std::string value;
  std::string label;
};

/// What is asked, and what is right. Values are whole, as they are shown.
struct Step {
  std::string id;
  std::string ask;
  StepKind kind = StepKind::direction;
  std::vector<Choice> choices;
  double value = 0.0;        ///< + = right where it has a side
  double tolerance = 0.0;    ///< 0: exactly
  unsigned acceptable = 0;   ///< choices that are right, as bits
  Side turns = Side::right;  ///< of a hold
  std::string tolerance_text;
  std::string worked;      ///< the sum, with its result
  std::string right_text;  ///< can be given as the answer
};

/// The last step's answer is the item's.
struct DrillItem {
  Skill skill = Skill::entry;
  Scenario scenario;
  std::string question;
  std::string link;        ///< the scene asked about; empty where it would tell the answer
  std::string right_link;  ///< flies the right answer
  std::vector<Step> steps;
};

/// Item `k` of a set and seed: the same wherever it is made. Any `k` of 0 and above. Every
/// case can be flown.
[[nodiscard]] DrillItem make_item(const QuestionSet& set, std::uint32_t seed, int k, Skill skill);

struct Judged {
  bool readable = false;
  bool right = false;
  std::string why_unreadable;      ///< a sentence
  std::string right_text;          ///< the right value
  std::vector<std::string> words;  ///< verdict, why, and what came of it in flight
  std::string student_link;        ///< flies the answer given; empty before the last step
  std::string right_link;
};

/// Judges the answer to a step. `step` out of range: unreadable.
[[nodiscard]] Judged judge(const DrillItem& item, int step, std::string_view answer);

}  // namespace core
