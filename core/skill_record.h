// core/skill_record.h - what is remembered of one skill, and what it is called: scoring of
// practice. Integers only, so that what is saved and read again is the same to the bit.
// Rules and why: docs/practice.md "How practice is counted".
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "core/item.h"

namespace core {

/// How much of an item is given. Practice goes up after two right, down after two wrong.
enum class Level {
  worked,     ///< every step shown, nothing to answer
  one_blank,  ///< one step asked, the others shown
  all_blank,  ///< every step asked, one at a time
  bare,       ///< the question alone
};
inline constexpr int kLevels = 4;

/// In words, never as a percentage of ability.
enum class Status { not_enough, learning, secure, kept };
inline constexpr int kStatuses = 4;

/// The status looks at so many last first tries, ...
inline constexpr int kWindow = 8;
/// ... of which so many must be right. Own simulation, docs/practice.md.
inline constexpr int kSecureRight = 7;
/// Kept: of the first five first tries of a later day at least four are right.
inline constexpr int kLaterTries = 5;
inline constexpr int kLaterRight = 4;

/// Cases that a skill has met, as bits.
enum Met : unsigned {
  kMetOffset = 1,
  kMetParallel = 2,
  kMetDirect = 4,
  kMetLeftTurns = 8,
  kMetRightTurns = 16,
  kMetWindLeft = 32,  ///< wind from the left of the inbound course
  kMetWindRight = 64,
};
inline constexpr int kMetBits = 7;
/// Name of bit number `bit` in files: "offset", ..., "wind-right".
[[nodiscard]] std::string_view met_name(int bit);
/// What a skill must have met before it can be Secure.
[[nodiscard]] unsigned needed(Skill skill);
/// What an item with this scenario meets.
[[nodiscard]] unsigned met_in(const Scenario& scenario);

/// Days are counted from 1 January 1970; the page says which day it is.
inline constexpr int kNoDay = -1;
inline constexpr int kLastDay = 1000000;
/// Counts stop here.
inline constexpr int kMostCounted = 1000000;

struct SkillRecord {
  int asked = 0;  ///< items of this skill so far, counted or not
  Level level = Level::worked;
  int run = 0;              ///< +1 after one right, -1 after one wrong since the last move, else 0
  unsigned window = 0;      ///< last counted first tries, newest in bit 0, 1 = right
  int counted = 0;          ///< first tries that counted
  int right = 0;            ///< of these, right; never falls
  unsigned met = 0;         ///< Met bits of counted items
  int secure_day = kNoDay;  ///< first day on which the skill was Secure
  int later_day = kNoDay;   ///< last day after it on which a first try counted
  int later_tries = 0;      ///< first tries of that day, at most five
  int later_right = 0;
  int kept_day = kNoDay;  ///< first later day with four of the first five right

  friend bool operator==(const SkillRecord&, const SkillRecord&) = default;
};
using SkillRecords = std::array<SkillRecord, kSkills>;

/// How an item went.
struct Outcome {
  bool right = false;   ///< every step asked was right at the first try
  bool hinted = false;  ///< a hint was taken before a first try
  bool shown = false;   ///< the answer was shown before a first try
  unsigned met = 0;
  int day = kNoDay;

  /// Neither right nor wrong for the window.
  [[nodiscard]] bool helped() const { return hinted || shown; }
};

/// Whether an item at this level can count: below, too much is given.
[[nodiscard]] constexpr bool counts_at(Level level) { return level >= Level::all_blank; }

/// Takes an item of `skill` that was asked at `level`.
void record(SkillRecord& r, Skill skill, Level level, const Outcome& outcome);

/// Results in the window, at most eight, and how many of them are right.
[[nodiscard]] int window_size(const SkillRecord& r);
[[nodiscard]] int window_right(const SkillRecord& r);
/// Result `i` of the window, 0 the oldest.
[[nodiscard]] bool window_at(const SkillRecord& r, int i);

[[nodiscard]] Status status_of(const SkillRecord& r, Skill skill);

[[nodiscard]] std::string_view name_of(Level level);
[[nodiscard]] std::string_view name_of(Status status);

/// A status in words.
struct StatusWords {
  std::string status;                ///< "Learning"
  std::string recent;                ///< "6 of last 8"
  std::vector<std::string> missing;  ///< cases that have not come up yet
  std::string how;                   ///< how this is worked out, with the student's numbers
};
[[nodiscard]] StatusWords status_words(const SkillRecord& r, Skill skill);

}  // namespace core
