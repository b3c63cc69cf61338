#include <algorithm>

#include "core/json_read.h"
#include "core/progress.h"
#include "core/seed_code.h"
#include "core/words.h"

namespace core {
namespace {

using Text = std::string_view;

std::string number(int n) { return std::to_string(n); }

std::string shown(const JsonValue& v) {
  switch (v.kind) {
    case JsonValue::Kind::object:
      return "{…}";
    case JsonValue::Kind::array:
      return "[…]";
    case JsonValue::Kind::text:
    case JsonValue::Kind::number:
      return quotable(v.text);
    case JsonValue::Kind::boolean:
      return v.boolean ? "true" : "false";
    case JsonValue::Kind::null:
      return "null";
  }
  return {};
}

/// What all of the file's objects share.
struct Reading {
  ReadProgress& out;
  bool newer = false;  ///< fields that are not known are no fault then
};

/// One object of the file: its fields are taken one by one, and what is left is unknown.
class Fields {
 public:
  /// `path` names the object in messages; empty: the file itself.
  Fields(const Reading& reading, const JsonValue& object, std::string path)
      : reading_(reading), object_(object), path_(std::move(path)) {}

  const JsonValue* take(Text name) {
    known_.push_back(name);
    return object_.find(name);
  }

  [[nodiscard]] std::string name_of_field(Text name) const {
    return path_.empty() ? std::string(name) : path_ + "." + std::string(name);
  }

  void problem(Text name, std::string message) {
    std::vector<Problem>& problems = reading_.out.problems;
    if (problems.size() > kMostProgressProblems) return;
    if (problems.size() == kMostProgressProblems) {
      problems.push_back({"progress", std::string(word("core.progress.problem.more"))});
    } else {
      problems.push_back({name_of_field(name), std::move(message)});
    }
  }
  void bad(Text name, const std::string& value, std::string allowed, std::string used) {
    problem(name, phrase("core.progress.problem.value", {{"field", name_of_field(name)},
                                                         {"value", value},
                                                         {"allowed", std::move(allowed)},
                                                         {"used", std::move(used)}}));
  }
  void bad(Text name, const JsonValue& value, std::string allowed, std::string used) {
    bad(name, shown(value), std::move(allowed), std::move(used));
  }

  /// A field that is absent has its first value: older files have fewer fields.
  int whole(Text name, int low, int high, int absent) {
    const JsonValue* v = take(name);
    if (!v) return absent;
    const std::optional<int> n = v->whole();
    if (n && *n >= low && *n <= high) return *n;
    bad(name, *v,
        phrase("core.progress.allowed.whole", {{"low", number(low)}, {"high", number(high)}}),
        number(absent));
    return absent;
  }
  int day(Text name) {
    const JsonValue* v = take(name);
    if (!v || v->kind == JsonValue::Kind::null) return kNoDay;
    const std::optional<int> n = v->whole();
    if (n && *n >= 0 && *n <= kLastDay) return *n;
    bad(name, *v, phrase("core.progress.allowed.day", {{"high", number(kLastDay)}}), "null");
    return kNoDay;
  }
  /// Characters 0 and 1; `most` of them. Returns how many, their bits in `bits` with the
  /// first one lowest.
  int bits(Text name, int most, unsigned& bits) {
    bits = 0;
    const JsonValue* v = take(name);
    if (!v) return 0;
    const bool good = v->kind == JsonValue::Kind::text &&
                      v->text.size() <= static_cast<std::size_t>(most) &&
                      v->text.find_first_not_of("01") == std::string::npos;
    if (!good) {
      bad(name, *v, phrase("core.progress.allowed.bits", {{"most", number(most)}}), "\"\"");
      return 0;
    }
    for (std::size_t i = 0; i < v->text.size(); ++i) bits |= v->text[i] == '1' ? 1U << i : 0U;
    return static_cast<int>(v->text.size());
  }
  /// A field that does not go with another.
  void clash(Text name, const std::string& value, Text other, const std::string& used) {
    problem(name, phrase("core.progress.problem.clash", {{"field", name_of_field(name)},
                                                         {"value", value},
                                                         {"other", std::string(other)},
                                                         {"used", used}}));
  }
  /// Names the fields that nothing took.
  void rest() {
    if (reading_.newer) return;
    for (const auto& [name, value] : object_.members) {
      if (std::find(known_.begin(), known_.end(), name) != known_.end()) continue;
      const std::string quoted = quotable(name);
      problem(quoted, phrase("core.progress.problem.unknown", {{"field", name_of_field(quoted)}}));
    }
  }

 private:
  const Reading& reading_;
  const JsonValue& object_;
  std::string path_;
  std::vector<Text> known_;
};

SkillRecord read_skill(Fields& f) {
  SkillRecord r;
  r.asked = f.whole("asked", 0, kMostCounted, 0);
  if (const JsonValue* v = f.take("level")) {
    bool known = false;
    for (int i = 0; i < kLevels; ++i) {
      if (v->kind != JsonValue::Kind::text || v->text != name_of(static_cast<Level>(i))) continue;
      r.level = static_cast<Level>(i);
      known = true;
    }
    if (!known) {
      f.bad("level", *v, std::string(word("core.progress.allowed.level")),
            std::string(name_of(r.level)));
    }
  }
  r.run = f.whole("run", -1, 1, 0);

  unsigned oldest_first = 0;
  const int size = f.bits("last", kWindow, oldest_first);
  int ones = 0;
  for (int i = 0; i < size; ++i) {
    const unsigned bit = (oldest_first >> i) & 1U;
    r.window = (r.window << 1) | bit;
    ones += static_cast<int>(bit);
  }
  r.counted = f.whole("counted", 0, kMostCounted, size);
  // Fewer than eight counted are all in the window.
  if (r.counted < size || (size < kWindow && r.counted != size)) {
    f.clash("counted", number(r.counted), "last", number(size));
    r.counted = size;
  }
  r.right = f.whole("right", 0, kMostCounted, ones);
  const int most = ones + r.counted - size;
  if (r.right < ones || r.right > most) {
    const int used = std::clamp(r.right, ones, most);
    f.clash("right", number(r.right), "last", number(used));
    r.right = used;
  }
  if (r.asked < r.counted) {
    if (r.asked != 0) f.clash("asked", number(r.asked), "counted", number(r.counted));
    r.asked = r.counted;
  }

  if (const JsonValue* v = f.take("met")) {
    if (v->kind != JsonValue::Kind::array) {
      f.bad("met", *v, std::string(word("core.progress.allowed.met")), "[]");
    }
    for (const JsonValue& item : v->items) {
      bool known = false;
      for (int bit = 0; bit < kMetBits; ++bit) {
        if (item.kind != JsonValue::Kind::text || item.text != met_name(bit)) continue;
        r.met |= 1U << bit;
        known = true;
      }
      if (known) continue;
      f.bad("met", item, std::string(word("core.progress.allowed.met")),
            std::string(word("core.progress.nothing")));
    }
  }

  r.secure_day = f.day("secure_day");
  r.later_day = f.day("later_day");
  r.later_tries = f.whole("later_tries", 0, kLaterTries, 0);
  r.later_right = f.whole("later_right", 0, kLaterTries, 0);
  r.kept_day = f.day("kept_day");
  const auto is_later = [&](int day) { return r.secure_day != kNoDay && day > r.secure_day; };
  if (r.later_day != kNoDay && !is_later(r.later_day)) {
    f.clash("later_day", number(r.later_day), "secure_day", "null");
    r.later_day = kNoDay;
  }
  if (r.later_day == kNoDay) r.later_tries = r.later_right = 0;
  if (r.later_right > r.later_tries) {
    f.clash("later_right", number(r.later_right), "later_tries", number(r.later_tries));
    r.later_right = r.later_tries;
  }
  if (r.kept_day != kNoDay && (!is_later(r.kept_day) || r.kept_day > r.later_day)) {
    f.clash("kept_day", number(r.kept_day), "later_day", "null");
    r.kept_day = kNoDay;
  }
  return r;
}

/// Which check: set, version and code. Without them its result means nothing.
bool read_which(Fields& f, std::string& set_id, int& set_version, std::string& code) {
  bool good = true;
  const std::string left_out(word("core.progress.left_out"));
  const auto text = [&](Text name) -> const JsonValue* {
    const JsonValue* v = f.take(name);
    return v && v->kind == JsonValue::Kind::text ? v : nullptr;
  };
  if (const JsonValue* v = text("set"); v && is_set_id(v->text)) {
    set_id = v->text;
  } else {
    f.problem("set", phrase("core.progress.problem.set", {{"field", f.name_of_field("set")}}));
    good = false;
  }
  set_version = f.whole("set_version", 1, kMostCounted, 1);
  std::string why;
  const JsonValue* v = text("code");
  const std::optional<ClassCode> read = v ? read_class_code(v->text, why) : std::nullopt;
  if (read) {
    code = write_class_code(*read);
  } else {
    f.problem("code", phrase("core.progress.problem.code", {{"field", f.name_of_field("code")}}));
    good = false;
  }
  return good;
}

bool read_tally(Fields& f, CheckTally& tally) {
  const JsonValue* best = f.take("best");
  bool good = best && best->kind == JsonValue::Kind::object;
  for (int s = 0; good && s < kSkills; ++s) {
    const JsonValue* pair = best->find(name_of(static_cast<Skill>(s)));
    if (!pair) continue;
    const bool two = pair->kind == JsonValue::Kind::array && pair->items.size() == 2;
    const std::optional<int> right = two ? pair->items[0].whole() : std::nullopt;
    const std::optional<int> of = two ? pair->items[1].whole() : std::nullopt;
    good = right && of && *right >= 0 && *right <= *of && *of <= kCheckItems;
    if (!good) break;
    tally.right[static_cast<std::size_t>(s)] = *right;
    tally.of[static_cast<std::size_t>(s)] = *of;
  }
  if (good && tally.all() == kCheckItems) return true;
  f.problem("best", phrase("core.progress.problem.best",
                           {{"field", f.name_of_field("best")}, {"items", number(kCheckItems)}}));
  return false;
}

void read_checks(Fields& file, const Reading& reading) {
  const JsonValue* list = file.take("checks");
  if (!list) return;
  if (list->kind != JsonValue::Kind::array) {
    file.bad("checks", *list, std::string(word("core.progress.allowed.list")), "[]");
    return;
  }
  Progress& progress = reading.out.progress;
  std::vector<CheckRecord>& checks = progress.checks;
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const std::string name = "checks[" + std::to_string(i) + "]";
    if (checks.size() == kMostChecks) {
      file.problem(name,
                   phrase("core.progress.problem.checks",
                          {{"field", name}, {"most", number(static_cast<int>(kMostChecks))}}));
      return;
    }
    const JsonValue& v = list->items[i];
    if (v.kind != JsonValue::Kind::object) {
      file.bad(name, v, std::string(word("core.progress.allowed.object")),
               std::string(word("core.progress.nothing")));
      continue;
    }
    Fields f(reading, v, name);
    CheckRecord c;
    bool good = read_which(f, c.set_id, c.set_version, c.code);
    good = read_tally(f, c.best) && good;
    c.tries = f.whole("tries", 1, kMostCounted, 1);
    c.day = f.day("day");
    f.rest();
    if (!good) continue;
    if (find_check(progress, c.set_id, c.set_version, c.code)) {
      file.problem(name, phrase("core.progress.problem.twice", {{"field", name}}));
      continue;
    }
    checks.push_back(std::move(c));
  }
}

void read_open_check(Fields& file, const Reading& reading) {
  const JsonValue* v = file.take("open_check");
  if (!v || v->kind == JsonValue::Kind::null) return;
  if (v->kind != JsonValue::Kind::object) {
    file.bad("open_check", *v, std::string(word("core.progress.allowed.object")), "null");
    return;
  }
  Fields f(reading, *v, "open_check");
  OpenCheck o;
  const bool good = read_which(f, o.set_id, o.set_version, o.code);
  o.answered = f.bits("right", kCheckItems - 1, o.right);
  f.rest();
  if (good) reading.out.progress.open_check = std::move(o);
}

}  // namespace

ReadProgress read_progress(std::string_view text) {
  ReadProgress out;
  const auto refuse = [&](std::string message) {
    out.problems.push_back({"progress", std::move(message)});
    return out;
  };
  const JsonRead json = read_json(text);
  if (!json.ok()) return refuse(phrase("core.progress.problem.json", {{"why", json.error}}));
  const JsonValue& root = json.value;
  const JsonValue* format = root.kind == JsonValue::Kind::object ? root.find("format") : nullptr;
  if (!format || format->kind != JsonValue::Kind::text || format->text != "holding-practice") {
    return refuse(std::string(word("core.progress.problem.format")));
  }
  out.usable = true;

  Reading reading{out};
  Fields file(reading, root, "");
  file.take("format");
  if (const JsonValue* v = file.take("version")) {
    const std::optional<int> version = v->whole();
    reading.newer = version && *version > kProgressVersion;
    if (reading.newer) {
      file.problem("version",
                   phrase("core.progress.problem.newer",
                          {{"value", number(*version)}, {"known", number(kProgressVersion)}}));
    } else if (!version || *version < 1) {
      file.bad("version", *v, phrase("core.progress.allowed.version", {}),
               number(kProgressVersion));
    }
  }
  if (const JsonValue* skills = file.take("skills")) {
    if (skills->kind != JsonValue::Kind::object) {
      file.bad("skills", *skills, std::string(word("core.progress.allowed.object")), "{}");
    } else {
      Fields all(reading, *skills, "skills");
      for (int s = 0; s < kSkills; ++s) {
        const Text name = name_of(static_cast<Skill>(s));
        const JsonValue* v = all.take(name);
        if (!v) continue;
        if (v->kind != JsonValue::Kind::object) {
          all.bad(name, *v, std::string(word("core.progress.allowed.object")), "{}");
          continue;
        }
        Fields f(reading, *v, all.name_of_field(name));
        out.progress.skills[static_cast<std::size_t>(s)] = read_skill(f);
        f.rest();
      }
      all.rest();
    }
  }
  read_checks(file, reading);
  read_open_check(file, reading);
  file.rest();
  return out;
}

}  // namespace core
