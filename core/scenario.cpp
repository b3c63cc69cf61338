#include "core/scenario.h"

#include <array>

#include "core/atmosphere.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

using Text = std::string_view;

constexpr std::size_t kMostLinkBytes = 8192;
constexpr std::size_t kMostValueBytes = 64;

constexpr Text kEntryNames[] = {"offset", "parallel", "direct"};
constexpr Text kRuleNames[] = {"still-air", "drift-once", "track-30", "drift-triple"};
constexpr Text kTimingNames[] = {"fixed", "groundspeed"};
constexpr Text kTimerNames[] = {"fix", "level"};
constexpr Text kSideNames[] = {"left", "right"};

template <std::size_t N>
int index_of(const Text (&names)[N], Text name) {
  for (std::size_t i = 0; i < N; ++i) {
    if (names[i] == name) return static_cast<int>(i);
  }
  return -1;
}

bool read_in_range(Text text, double low, double high, double& out) {
  const std::optional<double> v = read_number(text);
  if (!v || *v < low || *v > high) return false;
  out = *v;
  return true;
}

bool read_direction(Text text, double& out) {
  double v = 0.0;
  if (!read_in_range(text, 0.0, 360.0, v)) return false;
  out = v == 0.0 ? 360.0 : v;
  return true;
}

/// Optional keys are cleared by an empty text.
template <class T, class Read>
bool read_optional(Text text, std::optional<T>& out, const Read& read) {
  if (text.empty()) {
    out.reset();
    return true;
  }
  T value{};
  if (!read(text, value)) return false;
  out = value;
  return true;
}

bool read_seconds(Text text, double low, double high, double& out) {
  const std::optional<double> v = read_time(text);
  if (!v || *v < low || *v > high) return false;
  out = *v;
  return true;
}

bool read_leg(Text text, Leg& out) {
  if (text.size() > 2 && (text[text.size() - 2] | 32) == 'n' && (text.back() | 32) == 'm') {
    double nm = 0.0;
    if (!read_in_range(text.substr(0, text.size() - 2), 0.5, 50.0, nm)) return false;
    out = {Leg::Kind::distance, nm};
    return true;
  }
  double s = 0.0;
  if (!read_seconds(text, 15.0, 600.0, s)) return false;
  out = {Leg::Kind::time, s};
  return true;
}

bool read_wind(Text text, Scenario& s) {
  const std::size_t slash = text.find('/');
  if (slash == Text::npos) return false;
  double from = 0.0;
  double speed = 0.0;
  if (!read_direction(text.substr(0, slash), from)) return false;
  if (!read_in_range(text.substr(slash + 1), 0.0, 150.0, speed)) return false;
  s.wind_from_deg = from;
  s.wind_kt = speed;
  return true;
}

bool read_variation(Text text, Scenario& s) {
  double sign = 1.0;
  if (!text.empty()) {
    const int last = text.back() | 32;
    if (last == 'e' || last == 'w') {
      sign = last == 'e' ? 1.0 : -1.0;
      text.remove_suffix(1);
    } else if (text.find_first_not_of("0.,") != Text::npos) {
      return false;  // which way is not said
    }
  }
  double v = 0.0;
  if (!read_in_range(text, 0.0, 180.0, v)) return false;
  s.variation_east_deg = v == 0.0 ? 0.0 : sign * v;
  return true;
}

template <std::size_t N, class E>
bool read_name(const Text (&names)[N], Text text, E& out) {
  const int i = index_of(names, text);
  if (i < 0) return false;
  out = static_cast<E>(i);
  return true;
}

/// One key of the link: how it is read and written. The allowed range in words is
/// catalogue text "core.allowed.<key>".
struct Key {
  Text name;
  bool (*read)(Text, Scenario&);
  std::string (*write)(const Scenario&);  ///< empty: absent
};

bool read_speed(Text text, Scenario& s, bool is_tas) {
  if (!read_in_range(text, 40.0, 350.0, s.speed_kt)) return false;
  s.speed_is_tas = is_tas;
  return true;
}

constexpr Key kKeys[] = {
    {"inbound", [](Text t, Scenario& s) { return read_direction(t, s.inbound_course_deg); },
     [](const Scenario& s) { return write_number(s.inbound_course_deg); }},
    {"turns", [](Text t, Scenario& s) { return read_name(kSideNames, t, s.turns); },
     [](const Scenario& s) { return std::string(name_of(s.turns)); }},
    {"leg", [](Text t, Scenario& s) { return read_optional(t, s.leg, read_leg); },
     [](const Scenario& s) {
       if (!s.leg) return std::string();
       return s.leg->kind == Leg::Kind::time ? write_time(s.leg->value)
                                             : write_number(s.leg->value) + "nm";
     }},
    {"altitude",
     [](Text t, Scenario& s) { return read_in_range(t, -1000.0, 45000.0, s.altitude_ft); },
     [](const Scenario& s) { return write_number(s.altitude_ft); }},
    {"ias", [](Text t, Scenario& s) { return read_speed(t, s, false); },
     [](const Scenario& s) { return s.speed_is_tas ? std::string() : write_number(s.speed_kt); }},
    {"tas", [](Text t, Scenario& s) { return read_speed(t, s, true); },
     [](const Scenario& s) { return s.speed_is_tas ? write_number(s.speed_kt) : std::string(); }},
    {"isa", [](Text t, Scenario& s) { return read_in_range(t, -60.0, 60.0, s.isa_deviation_c); },
     [](const Scenario& s) {
       return (s.isa_deviation_c > 0.0 ? "+" : "") + write_number(s.isa_deviation_c);
     }},
    {"bank", [](Text t, Scenario& s) { return read_in_range(t, 5.0, 60.0, s.bank_limit_deg); },
     [](const Scenario& s) { return write_number(s.bank_limit_deg); }},
    {"wind", read_wind,
     [](const Scenario& s) {
       return write_number(s.wind_from_deg) + "/" + write_number(s.wind_kt);
     }},
    {"windref",
     [](Text t, Scenario& s) {
       if (t != "true" && t != "magnetic") return false;
       s.wind_is_true = t == "true";
       return true;
     },
     [](const Scenario& s) { return std::string(s.wind_is_true ? "true" : "magnetic"); }},
    {"variation", read_variation,
     [](const Scenario& s) {
       const double v = s.variation_east_deg;
       return write_number(std::abs(v)) + (v < 0.0 ? "W" : "E");
     }},
    {"arrive", [](Text t, Scenario& s) { return read_direction(t, s.arrival_course_deg); },
     [](const Scenario& s) { return write_number(s.arrival_course_deg); }},
    {"entry",
     [](Text t, Scenario& s) {
       if (t == "auto") t = {};
       return read_optional(t, s.entry,
                            [](Text n, EntryKind& e) { return read_name(kEntryNames, n, e); });
     },
     [](const Scenario& s) { return std::string(s.entry ? name_of(*s.entry) : Text("auto")); }},
    {"heading", [](Text t, Scenario& s) { return read_optional(t, s.heading_deg, read_direction); },
     [](const Scenario& s) {
       return s.heading_deg ? write_number(*s.heading_deg) : std::string();
     }},
    {"rule", [](Text t, Scenario& s) { return read_name(kRuleNames, t, s.rule); },
     [](const Scenario& s) { return std::string(name_of(s.rule)); }},
    {"time",
     [](Text t, Scenario& s) {
       return read_optional(t, s.time_s,
                            [](Text n, double& v) { return read_seconds(n, 0.0, 600.0, v); });
     },
     [](const Scenario& s) { return s.time_s ? write_time(*s.time_s) : std::string(); }},
    {"timing", [](Text t, Scenario& s) { return read_name(kTimingNames, t, s.timing); },
     [](const Scenario& s) { return std::string(name_of(s.timing)); }},
    {"timer", [](Text t, Scenario& s) { return read_name(kTimerNames, t, s.timer); },
     [](const Scenario& s) { return std::string(name_of(s.timer)); }},
    {"multiple", [](Text t, Scenario& s) { return read_in_range(t, 0.0, 10.0, s.multiple); },
     [](const Scenario& s) { return write_number(s.multiple); }},
    {"intercept", [](Text t, Scenario& s) { return read_in_range(t, 5.0, 90.0, s.intercept_deg); },
     [](const Scenario& s) { return write_number(s.intercept_deg); }},
    {"laps",
     [](Text t, Scenario& s) {
       double v = 0.0;
       if (!read_in_range(t, 0.0, 10.0, v) || v != std::floor(v)) return false;
       s.laps = static_cast<int>(v);
       return true;
     },
     [](const Scenario& s) { return write_number(s.laps); }},
};

const Key* find_key(Text name) {
  for (const Key& k : kKeys) {
    if (k.name == name) return &k;
  }
  return nullptr;
}

int hex(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  const int l = c | 32;
  return l >= 'a' && l <= 'f' ? l - 'a' + 10 : -1;
}

/// Percent-decoding. A plus sign stays a plus: isa=+10 is written so by hand.
std::string decoded(Text text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '%' && i + 2 < text.size() && hex(text[i + 1]) >= 0 && hex(text[i + 2]) >= 0) {
      out += static_cast<char>(hex(text[i + 1]) * 16 + hex(text[i + 2]));
      i += 2;
    } else {
      out += text[i];
    }
  }
  return out;
}

/// What a message may repeat of a stranger's text: short, printable ASCII.
std::string quotable(Text text) {
  std::string out;
  for (const char c : text.substr(0, 24)) out += c >= ' ' && c <= '~' ? c : '?';
  if (text.size() > 24) out += "…";
  return out;
}

Text trimmed(Text t) {
  while (!t.empty() && t.front() == ' ') t.remove_prefix(1);
  while (!t.empty() && t.back() == ' ') t.remove_suffix(1);
  return t;
}

bool is_speed(const Key& key) { return key.name == "ias" || key.name == "tas"; }

std::string used_text(const Scenario& s, const Key& key) {
  // Of the two airspeeds only one is in use: say which.
  if (is_speed(key)) return (s.speed_is_tas ? "tas " : "ias ") + write_number(s.speed_kt);
  const std::string value = key.write(s);
  return value.empty() ? std::string(word("core.problem.automatic")) : value;
}

/// Airspeeds that only make sense together with the altitude.
bool flyable_speed(const Scenario& s) {
  return s.speed_is_tas || mach_from_cas(s.speed_kt, s.altitude_ft) < 1.0;
}

/// `used`: what stands instead, with its unit.
Problem supersonic(const Scenario& asked, const std::string& used) {
  return {"ias", phrase("core.problem.supersonic", {{"value", write_number(asked.speed_kt)},
                                                    {"altitude", write_number(asked.altitude_ft)},
                                                    {"used", used}})};
}

Problem bad_value(const Key& key, Text value, const Scenario& used) {
  return {std::string(key.name),
          phrase("core.problem.value",
                 {{"key", std::string(key.name)},
                  {"value", quotable(value)},
                  {"allowed", std::string(word("core.allowed." + std::string(key.name)))},
                  {"used", used_text(used, key)}})};
}

}  // namespace

std::string_view name_of(EntryKind kind) { return kEntryNames[static_cast<int>(kind)]; }
std::string_view name_of(HeadingRule rule) { return kRuleNames[static_cast<int>(rule)]; }
std::string_view name_of(TimingRule rule) { return kTimingNames[static_cast<int>(rule)]; }
std::string_view name_of(Timer timer) { return kTimerNames[static_cast<int>(timer)]; }
std::string_view name_of(Side side) { return kSideNames[static_cast<int>(side)]; }

std::size_t key_count() { return std::size(kKeys); }
std::string_view key_name(std::size_t index) { return kKeys[index].name; }

ParsedLink parse_link(std::string_view text) {
  ParsedLink result;
  if (text.size() > kMostLinkBytes) {
    // Not in the middle of a pair: half a number is another number.
    const std::size_t cut = text.find_last_of("&?#", kMostLinkBytes);
    text = text.substr(0, cut == Text::npos ? 0 : cut);
    result.problems.push_back({"link", std::string(word("core.problem.long"))});
  }
  std::array<bool, std::size(kKeys)> bad{};
  std::array<bool, std::size(kKeys)> seen{};
  int unknown = 0;
  struct Refused {
    std::size_t problem;  ///< where in `problems`
    const Key* key;
    std::string value;
  };
  std::vector<Refused> refused;
  while (!text.empty()) {
    const std::size_t end = text.find_first_of("&?#");
    const Text pair = text.substr(0, end);
    text = end == Text::npos ? Text() : text.substr(end + 1);
    if (pair.empty()) continue;
    const std::size_t equals = pair.find('=');
    const std::string name = decoded(pair.substr(0, equals));
    const std::string raw = equals == Text::npos ? std::string() : decoded(pair.substr(equals + 1));
    const Text value = trimmed(raw);
    const Key* key = find_key(name);
    if (!key) {
      if (name == "v") {
        if (value != "1") {
          result.problems.push_back(
              {"v", phrase("core.problem.version", {{"value", quotable(value)}})});
        }
      } else if (++unknown <= 8) {  // a hostile link may hold thousands
        result.problems.push_back(
            {quotable(name), phrase("core.problem.unknown", {{"key", quotable(name)}})});
      }
      continue;
    }
    const auto i = static_cast<std::size_t>(key - kKeys);
    seen[i] = true;
    Scenario tried = result.scenario;
    const bool ok = value.size() <= kMostValueBytes && key->read(value, tried);
    if (ok) {
      result.scenario = tried;
      bad[i] = false;
    } else if (!bad[i]) {
      bad[i] = true;
      // The key's default, all other keys as they are; a good value of the other airspeed
      // key is such another key.
      if (!is_speed(*key)) {
        key->read(key->write(Scenario{}), result.scenario);
      } else if (result.scenario.speed_is_tas == (key->name == "tas")) {
        result.scenario.speed_kt = Scenario{}.speed_kt;
        result.scenario.speed_is_tas = false;
      }
      refused.push_back({result.problems.size(), key, std::string(value)});
      result.problems.push_back({});
    }
  }
  if (!flyable_speed(result.scenario)) {
    const double used_kt = Scenario{}.speed_kt;
    result.problems.push_back(supersonic(result.scenario, write_number(used_kt) + " kt"));
    result.scenario.speed_kt = used_kt;
  }
  // Only now is it known what is used instead.
  for (const Refused& r : refused) {
    result.problems[r.problem] = bad_value(*r.key, r.value, result.scenario);
  }
  const auto given = [&](Text name) {
    const auto i = static_cast<std::size_t>(find_key(name) - kKeys);
    return seen[i] && !bad[i];
  };
  if (given("ias") && given("tas")) {
    const Text used = result.scenario.speed_is_tas ? "tas" : "ias";
    result.problems.push_back({std::string(used == "tas" ? "ias" : "tas"),
                               phrase("core.problem.both_speeds", {{"used", std::string(used)}})});
  }
  return result;
}

std::string write_link(const Scenario& scenario) {
  const Scenario defaults;
  std::string out;
  for (const Key& key : kKeys) {
    const std::string value = key.write(scenario);
    if (value.empty() || value == key.write(defaults)) continue;
    if (!out.empty()) out += '&';
    out += key.name;
    out += '=';
    out += value;
  }
  return out;
}

std::string value_text(const Scenario& scenario, std::string_view key) {
  const Key* k = find_key(key);
  return k ? k->write(scenario) : std::string();
}

bool set_value(Scenario& scenario, std::string_view key, std::string_view text, Problem& problem) {
  const Key* k = find_key(key);
  if (!k) {
    problem = {quotable(key), phrase("core.problem.unknown", {{"key", quotable(key)}})};
    return false;
  }
  Scenario tried = scenario;
  const Text value = trimmed(text);
  if (value.size() <= kMostValueBytes && k->read(value, tried)) {
    if (!flyable_speed(tried)) {
      problem = supersonic(tried, k->name == "altitude" ? write_number(scenario.altitude_ft) + " ft"
                                                        : write_number(scenario.speed_kt) + " kt");
      problem.key = k->name;
      return false;
    }
    scenario = tried;
    return true;
  }
  problem = bad_value(*k, value, scenario);
  return false;
}

}  // namespace core
