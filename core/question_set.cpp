#include "core/question_set.h"

#include <algorithm>
#include <array>

#include "core/json_read.h"
#include "core/words.h"

namespace core {
namespace {

constexpr std::array<std::string_view, kSkills> kSkillNames = {"entry", "heading", "wind", "timing",
                                                               "clearance"};
constexpr std::array<std::string_view, 2> kTimingNames = {"lap", "groundspeed"};
constexpr std::array<std::string_view, 3> kBoundaryNames = {"away", "near", "any"};

/// Widest that a range may be, so that every case can be flown: the wind stays below half
/// the slowest airspeed.
struct Bounds {
  std::string_view name;
  IntRange QuestionSet::*range;
  int least;
  int most;
};
constexpr Bounds kBounds[] = {{"inbound", &QuestionSet::inbound_deg, 1, 360},
                              {"altitude", &QuestionSet::altitude_ft, 0, 14000},
                              {"ias", &QuestionSet::ias_kt, 80, 200},
                              {"wind_from", &QuestionSet::wind_from_deg, 1, 360},
                              {"wind_kt", &QuestionSet::wind_kt, 0, 40}};

std::string whole_text(int n) { return fixed(n, 0); }

std::string shown(const JsonValue& v) {
  switch (v.kind) {
    case JsonValue::Kind::null:
      return "null";
    case JsonValue::Kind::boolean:
      return v.boolean ? "true" : "false";
    case JsonValue::Kind::number:
    case JsonValue::Kind::text:
      return quotable(v.text);
    case JsonValue::Kind::array:
      return "[…]";
    case JsonValue::Kind::object:
      break;
  }
  return "{…}";
}

class Reader {
 public:
  Reader(const JsonValue& root, ReadQuestionSet& out) : root_(root), out_(out) {}

  void read() {
    known(root_, {"format", "id", "version", "title", "about", "skills", "ranges", "cases"}, "");
    if (const JsonValue* v = root_.find("format"); v && v->whole() != 1) {
      bad("format", *v, "1", "1");
    }
    if (const JsonValue* v = root_.find("version")) {
      const std::optional<int> n = v->whole();
      if (n && *n >= 1 && *n <= 9999) {
        set().version = *n;
      } else {
        bad("version", *v, "1–9999", "1");
      }
    }
    text("title", set().title);
    text("about", set().about);
    if (set().title.empty()) set().title = set().id;
    names("skills", root_.find("skills"), kSkillNames.data(), kSkills, set().skills);
    if (const JsonValue* v = root_.find("ranges")) ranges(*v);
    if (const JsonValue* v = root_.find("cases")) cases(*v);
  }

 private:
  QuestionSet& set() { return out_.set; }

  void bad(const std::string& field, const JsonValue& v, const std::string& allowed,
           const std::string& used) {
    say(field,
        phrase("core.set.bad",
               {{"field", field}, {"value", shown(v)}, {"allowed", allowed}, {"used", used}}));
  }

  void say(const std::string& field, std::string message) {
    constexpr std::size_t kMostProblems = 50;
    if (out_.problems.size() < kMostProblems) {
      out_.problems.push_back({field, std::move(message)});
    }
  }

  void known(const JsonValue& object, std::initializer_list<std::string_view> names,
             const std::string& within) {
    for (const JsonMember& m : object.members) {
      if (std::find(names.begin(), names.end(), m.name) != names.end()) continue;
      const std::string field = within + quotable(m.name);
      say(field, phrase("core.set.unknown", {{"field", field}}));
    }
  }

  void text(const char* name, std::string& into) {
    const JsonValue* v = root_.find(name);
    if (!v) return;
    if (v->kind != JsonValue::Kind::text || v->text.size() > kMostSetText) {
      bad(name, *v,
          phrase("core.set.allowed.text", {{"bytes", fixed(static_cast<double>(kMostSetText), 0)}}),
          "–");
      return;
    }
    into = v->text;
  }

  void names(const std::string& field, const JsonValue* v, const std::string_view* all, int count,
             unsigned& bits) {
    if (!v) return;
    std::string allowed;
    for (int i = 0; i < count; ++i) {
      if (i) allowed += ", ";
      allowed += all[i];
    }
    unsigned chosen = 0;
    bool good = v->kind == JsonValue::Kind::array;
    for (const JsonValue& item : v->items) {
      const auto* const at = std::find(all, all + count, item.text);
      if (item.kind != JsonValue::Kind::text || at == all + count) {
        bad(field, item, allowed, "–");
        continue;
      }
      chosen |= 1U << static_cast<unsigned>(at - all);
    }
    good = good && chosen != 0;
    if (good) {
      bits = chosen;
      return;
    }
    if (v->kind != JsonValue::Kind::array || v->items.empty()) {
      bad(field, *v, allowed, text_of("core.set.used.default"));
    }
  }

  void ranges(const JsonValue& v) {
    if (v.kind != JsonValue::Kind::object) {
      bad("ranges", v, "{…}", text_of("core.set.used.default"));
      return;
    }
    known(v,
          {"inbound", "altitude", "ias", "wind_from", "wind_kt", "turns", "entries", "boundary",
           "timing"},
          "ranges.");
    for (const Bounds& b : kBounds) range(b, v.find(b.name));
    const std::array sides = {name_of(Side::left), name_of(Side::right)};
    const std::array entries = {name_of(EntryKind::offset), name_of(EntryKind::parallel),
                                name_of(EntryKind::direct)};
    names("ranges.turns", v.find("turns"), sides.data(), 2, set().turns);
    names("ranges.entries", v.find("entries"), entries.data(), kEntryKinds, set().entries);
    names("ranges.timing", v.find("timing"), kTimingNames.data(), 2, set().timing);
    if (const JsonValue* b = v.find("boundary")) {
      const auto* const at = std::find(kBoundaryNames.begin(), kBoundaryNames.end(), b->text);
      if (b->kind == JsonValue::Kind::text && at != kBoundaryNames.end()) {
        set().boundary = static_cast<Boundary>(at - kBoundaryNames.begin());
      } else {
        bad("ranges.boundary", *b, "away, near, any", "away");
      }
    }
  }

  /// A number, or {"from", "to", "step"}.
  void range(const Bounds& b, const JsonValue* v) {
    if (!v) return;
    const std::string field = "ranges." + std::string(b.name);
    IntRange r;
    bool good = false;
    if (const std::optional<int> only = v->whole()) {
      r = {*only, *only, 1};
      good = true;
    } else if (v->kind == JsonValue::Kind::object) {
      known(*v, {"from", "to", "step"}, field + ".");
      const auto part = [&](const char* name, std::optional<int> absent) {
        const JsonValue* p = v->find(name);
        return p ? p->whole() : absent;
      };
      const std::optional<int> from = part("from", {});
      const std::optional<int> to = part("to", {});
      const std::optional<int> step = part("step", 1);
      good = from && to && step && *step >= 1 && *step <= 14000 && *from <= *to;
      if (good) r = {*from, *to, *step};
    }
    good = good && r.from >= b.least && r.to <= b.most;
    if (good) {
      set().*b.range = r;
      return;
    }
    const IntRange& used = set().*b.range;
    bad(field, *v, whole_text(b.least) + "–" + whole_text(b.most),
        whole_text(used.from) + "–" + whole_text(used.to));
  }

  void cases(const JsonValue& v) {
    if (v.kind != JsonValue::Kind::array) {
      bad("cases", v, "[…]", text_of("core.set.used.ranges"));
      return;
    }
    int n = 0;
    for (const JsonValue& item : v.items) {
      const std::string field = "cases[" + whole_text(n) + "]";
      if (n++ >= kMostCases) {
        say("cases", phrase("core.set.cases", {{"most", whole_text(kMostCases)}}));
        return;
      }
      if (item.kind != JsonValue::Kind::text) {
        bad(field, item, text_of("core.set.allowed.link"), "–");
        continue;
      }
      ParsedLink parsed = parse_link(item.text);
      for (Problem& p : parsed.problems) say(field, std::move(p.message));
      const Setup u = make_setup(parsed.scenario);
      if (u.arrival.exists && u.inbound.exists && u.outbound.exists) {
        set().cases.push_back(parsed.scenario);
      } else {
        say(field, phrase("core.set.unflown", {{"field", field}}));
      }
    }
  }

  const JsonValue& root_;
  ReadQuestionSet& out_;
};

}  // namespace

std::string_view name_of(Skill skill) { return kSkillNames[static_cast<std::size_t>(skill)]; }

bool is_set_id(std::string_view id) {
  constexpr std::string_view kAllowed = "abcdefghijklmnopqrstuvwxyz0123456789-";
  return !id.empty() && id.size() <= 64 && id.find_first_not_of(kAllowed) == std::string_view::npos;
}

ReadQuestionSet read_question_set(std::string_view json_text) {
  ReadQuestionSet out;
  const JsonRead read = read_json(json_text);
  const auto refuse = [&](const char* field, std::string message) {
    out.usable = false;
    out.problems = {{field, std::move(message)}};
    return out;
  };
  if (!read.ok()) return refuse("file", read.error);
  const JsonValue* id = read.value.find("id");
  if (read.value.kind != JsonValue::Kind::object || !id) {
    return refuse("id", std::string(word("core.set.no_id")));
  }
  if (id->kind != JsonValue::Kind::text || !is_set_id(id->text)) {
    return refuse("id", phrase("core.set.bad_id", {{"value", shown(*id)}}));
  }
  out.set.id = id->text;
  Reader(read.value, out).read();
  return out;
}

const std::vector<BuiltInSet>& built_in_sets() {
  static const std::vector<BuiltInSet> sets = {
#include "sets.inc"
  };
  return sets;
}

}  // namespace core
