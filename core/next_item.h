// core/next_item.h - which skill and which case practice asks next. Integers only, each
// choice from a stream of its own, so that a code gives the same practice everywhere.
// Rules and why: docs/practice.md "What comes next".
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/question_set.h"
#include "core/skill_record.h"

namespace core {

/// What everything drawn hangs on.
struct DrawKey {
  std::string set_id;
  int set_version = 1;
  std::uint32_t seed = 0;
};

/// Skills as bits: 1 << Skill.
using SkillBits = unsigned;
[[nodiscard]] constexpr SkillBits bit_of(Skill skill) { return 1U << static_cast<unsigned>(skill); }
inline constexpr SkillBits kAllSkills = (1U << kSkills) - 1U;
/// The four that a check asks.
inline constexpr SkillBits kCoreSkills = kAllSkills & ~bit_of(Skill::clearance);

/// The weakest skill gets at least so many of a hundred choices.
inline constexpr int kWeakestPercent = 60;
/// A missed skill comes back after so many other items.
inline constexpr int kLeastBetween = 2;
inline constexpr int kMostBetween = 4;

/// How strong a skill is for the choice: its status, then its level, then the right ones of
/// its window. The lowest is the weakest.
[[nodiscard]] int strength(const SkillRecord& r, Skill skill);

/// Draws the skills of one stretch of practice. Where few skills are practised the rules give
/// way in this order: a missed skill waits, a skill comes twice running at most.
class NextItem {
 public:
  /// `first`: number of the first item to choose; choices hang on it. `skills`: none is
  /// read as all.
  NextItem(DrawKey key, int first, SkillBits skills);

  /// The skill of the next item.
  Skill next(const SkillRecords& records);
  /// The item of the last next() was missed: its skill comes back after two to four others.
  void missed();

  [[nodiscard]] int number() const { return number_; }

 private:
  [[nodiscard]] SkillBits candidates() const;
  [[nodiscard]] SkillBits reserved(int number) const;

  DrawKey key_;
  SkillBits skills_;
  int number_;                          ///< of the item that next() chooses next
  std::array<int, 2> last_ = {-1, -1};  ///< skills of the last two items, newest first
  std::array<int, kSkills> missed_at_;  ///< item number, or far in the past
  std::array<int, kSkills> back_at_;    ///< item number reserved for its return, or -1
};

/// Value `n` of a bag that holds 0 to `size` - 1 once each and is filled and shuffled anew
/// when it is empty. The bag's name keeps bags apart.
[[nodiscard]] int bag_draw(const DrawKey& key, std::string_view bag, int size, int n);

/// The case that item `n` of a skill (0 the first) should be, as Met bits: each entry once in
/// three, either turn and a wind from either side once in two.
[[nodiscard]] unsigned wanted_case(const DrawKey& key, Skill skill, int n);

/// Item `k` of the code, in the case wanted where the set's ranges have it: of a bounded row
/// of items with numbers of their own the first that fits, else the one that fits best.
[[nodiscard]] DrillItem make_case(const QuestionSet& set, std::uint32_t seed, int k, Skill skill,
                                  unsigned wanted);

}  // namespace core
