#include "core/check.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "core/seeded.h"
#include "core/words.h"

namespace core {

SkillBits check_skills(SkillBits in_set) {
  const SkillBits in = in_set & kAllSkills;
  if ((in & kCoreSkills) != 0U) return in & kCoreSkills;
  return in != 0U ? in : kCoreSkills;
}

std::array<Skill, kCheckItems> check_order(const DrawKey& key, SkillBits in_set) {
  const SkillBits asked = check_skills(in_set);
  std::vector<int> round;
  for (int s = 0; s < kSkills; ++s) {
    if (((asked >> s) & 1U) != 0U) round.push_back(s);
  }
  std::array<Skill, kCheckItems> order{};
  Seeded random(stream_of(key.set_id + "#check", key.set_version, key.seed, 0));
  int at = 0;
  int last = -1;
  while (at < kCheckItems) {
    random.shuffle(round);
    // The joint between two rounds must not ask the same twice.
    if (round.size() > 1 && round.front() == last) {
      const int other = 1 + random.below(static_cast<int>(round.size()) - 1);
      std::swap(round.front(), round[static_cast<std::size_t>(other)]);
    }
    for (std::size_t i = 0; i < round.size() && at < kCheckItems; ++i) {
      last = round[i];
      order[static_cast<std::size_t>(at++)] = static_cast<Skill>(last);
    }
  }
  return order;
}

int check_score(int right, int of) {
  if (of <= 0) return 0;
  return (200 * std::clamp(right, 0, of) + of) / (2 * of);
}

ShareRange wilson_95(int right, int of) {
  if (of <= 0) return {};
  constexpr double kZ = 1.959964;  // 97.5 % point of the normal distribution
  const double n = of;
  const double p = std::clamp(right, 0, of) / n;
  const double z2 = kZ * kZ;
  const double middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
  const double half = kZ / (1.0 + z2 / n) * std::sqrt(p * (1.0 - p) / n + z2 / (4.0 * n * n));
  // At none and all right one end is the share itself; rounding must not pass it.
  return {std::clamp(middle - half, 0.0, p), std::clamp(middle + half, p, 1.0)};
}

std::string check_words(int right, int of) {
  const ShareRange range = wilson_95(right, of);
  return phrase("core.check.result", {{"right", std::to_string(right)},
                                      {"of", std::to_string(of)},
                                      {"low", fixed(100.0 * range.low, 0)},
                                      {"high", fixed(100.0 * range.high, 0)}});
}

int CheckTally::all_right() const {
  int sum = 0;
  for (const int n : right) sum += n;
  return sum;
}
int CheckTally::all() const {
  int sum = 0;
  for (const int n : of) sum += n;
  return sum;
}

}  // namespace core
