// core/check.h - the check: twelve seeded items, and how far its result can be believed.
#pragma once

#include <array>
#include <string>

#include "core/next_item.h"

namespace core {

inline constexpr int kCheckItems = 12;

/// The skills that a check over these asks: the core ones among them, else all of them.
[[nodiscard]] SkillBits check_skills(SkillBits in_set);

/// The skills of the items in order: equally many of each, in rounds, the same never twice
/// running where there is more than one.
[[nodiscard]] std::array<Skill, kCheckItems> check_order(const DrawKey& key, SkillBits in_set);

/// 0 to 100: a hundred times the share of right ones, rounded half up.
[[nodiscard]] int check_score(int right, int of);

/// A range of shares, each 0 to 1.
struct ShareRange {
  double low = 0.0;
  double high = 1.0;
};
/// Wilson's score interval for `right` of `of` at 95 %; all of 0 to 1 where nothing was
/// asked. Derived in docs/practice.md "How far a check can be believed".
[[nodiscard]] ShareRange wilson_95(int right, int of);

/// "10 of 12 right. With 12 questions the true rate is plausibly 55-95 %."
[[nodiscard]] std::string check_words(int right, int of);

/// First tries of a check by skill.
struct CheckTally {
  std::array<int, kSkills> right{};
  std::array<int, kSkills> of{};

  void add(Skill skill, bool was_right) {
    ++of[static_cast<std::size_t>(skill)];
    if (was_right) ++right[static_cast<std::size_t>(skill)];
  }
  [[nodiscard]] int all_right() const;
  [[nodiscard]] int all() const;
};

}  // namespace core
