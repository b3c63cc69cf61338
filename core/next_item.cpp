#include "core/next_item.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "core/seeded.h"

namespace core {
namespace {

constexpr int kLongAgo = -1000;

/// Items looked at for one case, and the distance of their numbers: beyond all that are asked.
/// With the entry of one sector in five and turns either way a case is one item in ten; 48
/// miss it six times in a thousand.
constexpr int kLooks = 48;
constexpr int kNextLook = 10000000;

/// Streams for choices carry a name that no set can have, so they meet no item's.
Seeded stream(const DrawKey& key, std::string_view name, int item) {
  return Seeded(stream_of(key.set_id + "#" + std::string(name), key.set_version, key.seed, item));
}

bool has(SkillBits skills, int skill) { return ((skills >> skill) & 1U) != 0U; }

int drawn(SkillBits skills, Seeded& random) {
  int count = 0;
  for (int s = 0; s < kSkills; ++s) count += has(skills, s) ? 1 : 0;
  int at = random.below(count);
  for (int s = 0; s < kSkills; ++s) {
    if (has(skills, s) && at-- == 0) return s;
  }
  return 0;
}

}  // namespace

int strength(const SkillRecord& r, Skill skill) {
  const int status = static_cast<int>(status_of(r, skill));
  return (status * kLevels + static_cast<int>(r.level)) * (kWindow + 1) + window_right(r);
}

NextItem::NextItem(DrawKey key, int first, SkillBits skills)
    : key_(std::move(key)), skills_(skills & kAllSkills), number_(first) {
  if (skills_ == 0U) skills_ = kAllSkills;
  missed_at_.fill(kLongAgo);
  back_at_.fill(-1);
}

SkillBits NextItem::reserved(int number) const {
  SkillBits bits = 0;
  for (int s = 0; s < kSkills; ++s) {
    if (back_at_[static_cast<std::size_t>(s)] == number) bits |= 1U << s;
  }
  return bits;
}

SkillBits NextItem::candidates() const {
  SkillBits free = skills_;
  if (last_[0] >= 0 && last_[0] == last_[1]) free &= ~(1U << last_[0]);
  // One skill alone: nothing else can be asked.
  if (free == 0U) return skills_;
  SkillBits rested = free;
  for (int s = 0; s < kSkills; ++s) {
    const int between = number_ - missed_at_[static_cast<std::size_t>(s)] - 1;
    if (between < kLeastBetween) rested &= ~(1U << s);
  }
  if (rested != 0U) return rested;
  // All were missed just now: the one that has waited longest.
  int oldest = -1;
  for (int s = 0; s < kSkills; ++s) {
    const auto at = static_cast<std::size_t>(s);
    if (!has(free, s)) continue;
    if (oldest < 0 || missed_at_[at] < missed_at_[static_cast<std::size_t>(oldest)]) oldest = s;
  }
  return 1U << oldest;
}

Skill NextItem::next(const SkillRecords& records) {
  Seeded random = stream(key_, "skill", number_);
  const SkillBits free = candidates();
  const SkillBits back = reserved(number_) & free;
  int chosen = 0;
  if (back != 0U) {
    chosen = drawn(back, random);
  } else {
    SkillBits weakest = 0;
    int least = 0;
    for (int s = 0; s < kSkills; ++s) {
      if (!has(free, s)) continue;
      const int strong = strength(records[static_cast<std::size_t>(s)], static_cast<Skill>(s));
      if (weakest == 0U || strong < least) {
        weakest = 0;
        least = strong;
      }
      if (strong == least) weakest |= 1U << s;
    }
    const bool from_weakest = random.below(100) < kWeakestPercent;
    chosen = drawn(from_weakest ? weakest : free, random);
  }
  last_ = {chosen, last_[0]};
  back_at_[static_cast<std::size_t>(chosen)] = -1;
  ++number_;
  return static_cast<Skill>(chosen);
}

void NextItem::missed() {
  if (last_[0] < 0) return;
  const auto skill = static_cast<std::size_t>(last_[0]);
  const int item = number_ - 1;
  missed_at_[skill] = item;
  // An earlier miss can have taken two of the three places at most.
  std::vector<int> places;
  for (int between = kLeastBetween; between <= kMostBetween; ++between) {
    if (reserved(item + between + 1) == 0U) places.push_back(item + between + 1);
  }
  if (places.empty()) places.push_back(item + kMostBetween + 1);
  Seeded random = stream(key_, "back", item);
  back_at_[skill] = places[static_cast<std::size_t>(random.below(static_cast<int>(places.size())))];
}

int bag_draw(const DrawKey& key, std::string_view bag, int size, int n) {
  if (size <= 1 || n < 0) return 0;
  std::vector<int> values;
  values.reserve(static_cast<std::size_t>(size));
  for (int i = 0; i < size; ++i) values.push_back(i);
  Seeded random = stream(key, bag, n / size);
  random.shuffle(values);
  return values[static_cast<std::size_t>(n % size)];
}

unsigned wanted_case(const DrawKey& key, Skill skill, int n) {
  const auto bag = [&](const char* name, int size) {
    const std::string_view of = name_of(skill);
    return bag_draw(key, std::string(of) + "-" + name, size, n);
  };
  unsigned wanted = 0;
  if (skill == Skill::entry) wanted |= kMetOffset << static_cast<unsigned>(bag("entry", 3));
  if (skill == Skill::wind) {
    wanted |= bag("side", 2) == 0 ? kMetWindLeft : kMetWindRight;
  } else {
    wanted |= bag("turns", 2) == 0 ? kMetLeftTurns : kMetRightTurns;
  }
  return wanted;
}

DrillItem make_case(const QuestionSet& set, std::uint32_t seed, int k, Skill skill,
                    unsigned wanted) {
  const auto fits = [wanted](const DrillItem& item) {
    int bits = 0;
    for (unsigned both = met_in(item.scenario) & wanted; both != 0U; both &= both - 1U) ++bits;
    return bits;
  };
  int all = 0;
  for (unsigned bits = wanted; bits != 0U; bits &= bits - 1U) ++all;
  DrillItem best = make_item(set, seed, k, skill);
  int best_fit = fits(best);
  for (int look = 1; look < kLooks && best_fit < all; ++look) {
    DrillItem other = make_item(set, seed, k + look * kNextLook, skill);
    const int fit = fits(other);
    if (fit <= best_fit) continue;
    best = std::move(other);
    best_fit = fit;
  }
  return best;
}

}  // namespace core
