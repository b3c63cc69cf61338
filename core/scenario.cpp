#include "core/scenario.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/atmosphere.h"
#include "core/scenario_keys.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

using Text = std::string_view;
using Key = ScenarioKey;

constexpr std::size_t kMostLinkBytes = 8192;
constexpr std::size_t kMostValueBytes = 64;

const Key* find_key(Text name) {
  for (const Key& k : scenario_keys()) {
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

Text trimmed(Text t) {
  while (!t.empty() && t.front() == ' ') t.remove_prefix(1);
  while (!t.empty() && t.back() == ' ') t.remove_suffix(1);
  return t;
}

bool is_speed(const Key& key) { return key.name == "ias" || key.name == "tas"; }

std::string used_text(const Scenario& s, const Key& key) {
  // Of the two airspeeds only one is in use: say which.
  if (is_speed(key)) return (s.speed_is_tas ? "tas " : "ias ") + write_number(s.speed_kt);
  std::string value = key.write(s);
  if (!value.empty()) return value;
  // Of most keys "absent" is a choice that the page makes; of these it is none.
  for (const Text none : {"fix", "efc", "radial", "later", "saw", "took", "held"}) {
    if (key.name == none) return std::string(word("core.problem.nothing"));
  }
  return std::string(word("core.problem.automatic"));
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

/// Takes from the book what the scenario has just as the book before would.
void follow_book(Scenario& s, Rulebook was) {
  if (s.rule == rule_of(was)) s.rule = rule_of(s.book);
  if (s.bank_limit_deg == bank_limit_of(was)) s.bank_limit_deg = bank_limit_of(s.book);
}

}  // namespace

std::size_t key_count() { return kKeyCount; }
std::string_view key_name(std::size_t index) { return scenario_keys()[index].name; }

Scenario default_scenario(Rulebook book) {
  Scenario s;
  s.book = book;
  s.rule = rule_of(book);
  s.bank_limit_deg = bank_limit_of(book);
  return s;
}

ParsedLink parse_link(std::string_view text) {
  ParsedLink result;
  if (text.size() > kMostLinkBytes) {
    // Not in the middle of a pair: half a number is another number.
    const std::size_t cut = text.find_last_of("&?#", kMostLinkBytes);
    text = text.substr(0, cut == Text::npos ? 0 : cut);
    result.problems.push_back({"link", std::string(word("core.problem.long"))});
  }
  std::array<bool, kKeyCount> bad{};
  std::array<bool, kKeyCount> seen{};
  int unknown = 0;
  std::string version = "1";
  struct Refused {
    std::size_t problem;  ///< where in `problems`
    const Key* key;
    std::string value;
  };
  std::vector<Refused> refused;  // each key once: a hostile link refuses one a thousand times
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
        version = value;
      } else if (++unknown <= 8) {  // a hostile link may hold thousands
        result.problems.push_back(
            {quotable(name), phrase("core.problem.unknown", {{"key", quotable(name)}})});
      }
      continue;
    }
    const auto i = static_cast<std::size_t>(key - scenario_keys().data());
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
      const auto told = std::find_if(refused.begin(), refused.end(),
                                     [&](const Refused& r) { return r.key == key; });
      if (told != refused.end()) {
        told->value = value;
        continue;
      }
      refused.push_back({result.problems.size(), key, std::string(value)});
      result.problems.push_back({});
    }
  }
  if (version != "1") {
    result.problems.push_back(
        {"v", phrase("core.problem.version", {{"value", quotable(version)}})});
  }
  const auto given = [&](Text name) {
    const auto i = static_cast<std::size_t>(find_key(name) - scenario_keys().data());
    return seen[i] && !bad[i];
  };
  // The book fills what the link leaves open, wherever in the link it stands.
  if (!given("rule")) result.scenario.rule = rule_of(result.scenario.book);
  if (!given("bank")) result.scenario.bank_limit_deg = bank_limit_of(result.scenario.book);
  if (!flyable_speed(result.scenario)) {
    const double used_kt = Scenario{}.speed_kt;
    result.problems.push_back(supersonic(result.scenario, write_number(used_kt) + " kt"));
    result.scenario.speed_kt = used_kt;
  }
  // Only now is it known what is used instead.
  for (const Refused& r : refused) {
    result.problems[r.problem] = bad_value(*r.key, r.value, result.scenario);
  }
  if (given("ias") && given("tas")) {
    const Text used = result.scenario.speed_is_tas ? "tas" : "ias";
    result.problems.push_back({std::string(used == "tas" ? "ias" : "tas"),
                               phrase("core.problem.both_speeds", {{"used", std::string(used)}})});
  }
  return result;
}

std::string write_link(const Scenario& scenario) {
  const Scenario defaults = default_scenario(scenario.book);
  const Scenario opening;
  std::string out;
  for (const Key& key : scenario_keys()) {
    const std::string value = key.write(scenario);
    // What the book fills is left out only beside the book itself.
    const Scenario& usual = key.name == "book" ? opening : defaults;
    if (value.empty() || value == key.write(usual)) continue;
    if (!out.empty()) out += '&';
    out += key.name;
    out += '=';
    for (const char c : value) {
      if (c == ' ') {
        out += "%20";
      } else {
        out += c;
      }
    }
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
    if (tried.book != scenario.book) follow_book(tried, scenario.book);
    scenario = tried;
    return true;
  }
  problem = bad_value(*k, value, scenario);
  return false;
}

}  // namespace core
