#include "core/skill_record.h"

#include <algorithm>

#include "core/plan.h"
#include "core/words.h"

namespace core {
namespace {

constexpr std::string_view kMetNames[kMetBits] = {
    "offset", "parallel", "direct", "left-turns", "right-turns", "wind-left", "wind-right"};
constexpr std::string_view kLevelNames[kLevels] = {"worked", "one-blank", "all-blank", "bare"};
constexpr std::string_view kStatusNames[kStatuses] = {"not-enough", "learning", "secure", "kept"};

constexpr unsigned kEntries = kMetOffset | kMetParallel | kMetDirect;
constexpr unsigned kTurns = kMetLeftTurns | kMetRightTurns;
constexpr unsigned kWinds = kMetWindLeft | kMetWindRight;

/// Less than this off the inbound course a wind comes from neither side.
constexpr double kAlongDeg = 0.5;

bool secure(const SkillRecord& r, Skill skill) {
  const unsigned need = needed(skill);
  return window_size(r) == kWindow && window_right(r) >= kSecureRight && (r.met & need) == need;
}

void climb(SkillRecord& r, bool right) {
  const int step = right ? 1 : -1;
  if (r.run != step) {
    r.run = step;
    return;
  }
  const int next = static_cast<int>(r.level) + step;
  // At the top two right are as good as one: the next wrong one begins a new run.
  if (next >= kLevels) return;
  r.level = static_cast<Level>(std::max(next, 0));
  r.run = 0;
}

void count(SkillRecord& r, Skill skill, const Outcome& o) {
  r.window = ((r.window << 1) | (o.right ? 1U : 0U)) & ((1U << kWindow) - 1U);
  r.met |= o.met & ((1U << kMetBits) - 1U);
  if (r.counted < kMostCounted) {
    ++r.counted;
    if (o.right) ++r.right;
  }
  if (o.day < 0 || o.day > kLastDay) return;
  if (r.secure_day == kNoDay) {
    if (secure(r, skill)) r.secure_day = o.day;
    return;
  }
  // A clock that was set back asks for nothing again.
  if (o.day <= r.secure_day || o.day < r.later_day) return;
  if (o.day > r.later_day) {
    r.later_day = o.day;
    r.later_tries = 0;
    r.later_right = 0;
  }
  if (r.later_tries == kLaterTries) return;
  ++r.later_tries;
  if (o.right) ++r.later_right;
  const bool passed = r.later_tries == kLaterTries && r.later_right >= kLaterRight;
  if (passed && r.kept_day == kNoDay) r.kept_day = o.day;
}

}  // namespace

std::string_view met_name(int bit) {
  return bit >= 0 && bit < kMetBits ? kMetNames[bit] : std::string_view();
}

unsigned needed(Skill skill) {
  switch (skill) {
    case Skill::entry:
      return kEntries;
    case Skill::heading:
    case Skill::timing:
    case Skill::clearance:
      return kTurns;
    case Skill::wind:
      return kWinds;
  }
  return 0;
}

unsigned met_in(const Scenario& scenario) {
  const Setup setup = make_setup(scenario);
  unsigned met = scenario.turns == Side::left ? kMetLeftTurns : kMetRightTurns;
  if (setup.sector) {
    // Near a boundary either entry is right; the case is the sector's all the same.
    met |= kMetOffset << static_cast<unsigned>(setup.sector->kind);
  }
  const double off_deg = wrap_180(setup.wind.from_deg - scenario.inbound_course_deg);
  const bool across = std::abs(off_deg) >= kAlongDeg && std::abs(off_deg) <= 180.0 - kAlongDeg;
  if (setup.wind.speed_kt > 0.0 && across) met |= off_deg < 0.0 ? kMetWindLeft : kMetWindRight;
  return met;
}

void record(SkillRecord& r, Skill skill, Level level, const Outcome& outcome) {
  if (r.asked < kMostCounted) ++r.asked;
  if (level == Level::worked) {
    // There is nothing to get right: once read, a worked example has done its work.
    if (r.level == Level::worked) r.level = Level::one_blank;
    r.run = 0;
    return;
  }
  if (outcome.shown) {
    climb(r, false);
    return;
  }
  if (outcome.hinted) return;
  climb(r, outcome.right);
  if (counts_at(level)) count(r, skill, outcome);
}

int window_size(const SkillRecord& r) { return std::clamp(r.counted, 0, kWindow); }

int window_right(const SkillRecord& r) {
  int right = 0;
  for (int i = 0; i < window_size(r); ++i) right += static_cast<int>((r.window >> i) & 1U);
  return right;
}

bool window_at(const SkillRecord& r, int i) {
  return ((r.window >> (window_size(r) - 1 - i)) & 1U) != 0U;
}

Status status_of(const SkillRecord& r, Skill skill) {
  if (window_size(r) < kWindow) return Status::not_enough;
  if (!secure(r, skill)) return Status::learning;
  return r.kept_day == kNoDay ? Status::secure : Status::kept;
}

std::string_view name_of(Level level) { return kLevelNames[static_cast<int>(level)]; }
std::string_view name_of(Status status) { return kStatusNames[static_cast<int>(status)]; }

StatusWords status_words(const SkillRecord& r, Skill skill) {
  const Status status = status_of(r, skill);
  const std::string name(name_of(status));
  const int size = window_size(r);
  const auto number = [](int n) { return std::to_string(n); };
  StatusWords words;
  words.status = word("core.status." + name);
  words.recent = size == 0 ? std::string(word("core.status.recent.none"))
                           : phrase("core.status.recent",
                                    {{"right", number(window_right(r))}, {"tries", number(size)}});
  std::string list;
  for (int bit = 0; bit < kMetBits; ++bit) {
    if ((needed(skill) & ~r.met & (1U << bit)) == 0U) continue;
    words.missing.emplace_back(word("core.met." + std::string(kMetNames[bit])));
    list += (list.empty() ? "" : ", ") + words.missing.back();
  }
  words.how = phrase("core.status.how." + name, {{"right", number(window_right(r))},
                                                 {"tries", number(size)},
                                                 {"left", number(kWindow - size)},
                                                 {"window", number(kWindow)},
                                                 {"secure", number(kSecureRight)},
                                                 {"later", number(kLaterTries)},
                                                 {"kept", number(kLaterRight)}});
  if (!list.empty()) words.how += " " + phrase("core.status.missing", {{"list", list}});
  return words;
}

}  // namespace core
