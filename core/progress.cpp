#include "core/progress.h"

#include <algorithm>

#include "core/json.h"

namespace core {
namespace {

void day_field(Json& j, std::string_view name, int day) {
  j.field(name, day == kNoDay ? std::nullopt : std::optional<double>(day));
}

void write_skill(Json& j, const SkillRecord& r) {
  j.open_object();
  j.field("asked", r.asked);
  j.field("level", name_of(r.level));
  j.field("run", r.run);
  std::string last;
  for (int i = 0; i < window_size(r); ++i) last += window_at(r, i) ? '1' : '0';
  j.field("last", last);
  j.field("counted", r.counted);
  j.field("right", r.right);
  j.key("met").open_array();
  for (int bit = 0; bit < kMetBits; ++bit) {
    if (((r.met >> bit) & 1U) != 0U) j.text(met_name(bit));
  }
  j.close_array();
  day_field(j, "secure_day", r.secure_day);
  day_field(j, "later_day", r.later_day);
  j.field("later_tries", r.later_tries);
  j.field("later_right", r.later_right);
  day_field(j, "kept_day", r.kept_day);
  j.close_object();
}

bool same(const CheckRecord& c, std::string_view set_id, int set_version, std::string_view code) {
  return c.set_id == set_id && c.set_version == set_version && c.code == code;
}

}  // namespace

const CheckRecord* find_check(const Progress& progress, std::string_view set_id, int set_version,
                              std::string_view code) {
  for (const CheckRecord& c : progress.checks) {
    if (same(c, set_id, set_version, code)) return &c;
  }
  return nullptr;
}

const CheckRecord& add_check(Progress& progress, const CheckRecord& finished) {
  for (CheckRecord& c : progress.checks) {
    if (!same(c, finished.set_id, finished.set_version, finished.code)) continue;
    c.tries = std::min(c.tries + finished.tries, kMostCounted);
    if (finished.best.all_right() > c.best.all_right()) {
      c.best = finished.best;
      c.day = finished.day;
    }
    return c;
  }
  if (progress.checks.size() >= kMostChecks) {
    const auto oldest =
        std::min_element(progress.checks.begin(), progress.checks.end(),
                         [](const CheckRecord& a, const CheckRecord& b) { return a.day < b.day; });
    progress.checks.erase(oldest);
  }
  progress.checks.push_back(finished);
  return progress.checks.back();
}

std::string write_progress(const Progress& progress) {
  Json j;
  j.open_object();
  j.field("format", "holding-practice");
  j.field("version", kProgressVersion);
  j.key("skills").open_object();
  for (int s = 0; s < kSkills; ++s) {
    j.key(name_of(static_cast<Skill>(s)));
    write_skill(j, progress.skills[static_cast<std::size_t>(s)]);
  }
  j.close_object();
  j.key("checks").open_array();
  for (const CheckRecord& c : progress.checks) {
    j.open_object();
    j.field("set", c.set_id);
    j.field("set_version", c.set_version);
    j.field("code", c.code);
    j.field("tries", c.tries);
    j.key("best").open_object();
    for (std::size_t s = 0; s < kSkills; ++s) {
      if (c.best.of[s] == 0) continue;
      j.key(name_of(static_cast<Skill>(s))).open_array();
      j.number(c.best.right[s]).number(c.best.of[s]).close_array();
    }
    j.close_object();
    day_field(j, "day", c.day);
    j.close_object();
  }
  j.close_array();
  if (progress.open_check) {
    const OpenCheck& o = *progress.open_check;
    j.key("open_check").open_object();
    j.field("set", o.set_id);
    j.field("set_version", o.set_version);
    j.field("code", o.code);
    std::string right;
    for (int i = 0; i < o.answered; ++i) right += ((o.right >> i) & 1U) != 0U ? '1' : '0';
    j.field("right", right);
    j.close_object();
  }
  j.close_object();
  return j.take();
}

}  // namespace core
