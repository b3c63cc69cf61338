// Each claim in words agrees with its numbers: the sentences of evaluate()'s answer are read back,
// by the catalogue's own templates, and held against the numbers of the same answer.
#include <catch2/catch_test_macros.hpp>
#include <map>

#include "core/evaluate.h"
#include "core/explain.h"
#include "core/json_read.h"
#include "core/text_number.h"
#include "core/words.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

using Places = std::map<std::string, std::string>;

/// The places of the template `key` where a sentence of it stands in `text`, at its beginning or
/// behind a space; absent where none does.
std::optional<Places> said(const std::string& text, std::string_view key) {
  const std::string_view pattern = word(key);
  const std::size_t first = pattern.find('{');
  const std::string_view head = pattern.substr(0, first);
  for (std::size_t start = text.find(head); start != std::string::npos;
       start = text.find(head, start + 1)) {
    if (start > 0 && text[start - 1] != ' ') continue;
    Places places;
    std::size_t at = start + head.size();
    std::size_t open = first;
    bool whole = true;
    while (open != std::string_view::npos) {
      const std::size_t close = pattern.find('}', open);
      const std::size_t next = pattern.find('{', close);
      const std::string_view literal =
          pattern.substr(close + 1, next == std::string_view::npos ? next : next - close - 1);
      std::size_t end = literal.empty() ? text.size() : text.find(literal, at);
      // A full stop ends a sentence, and is no decimal point.
      while (literal == "." && end + 1 < text.size() && text[end + 1] != ' ') {
        end = text.find(literal, end + 1);
      }
      if (end == std::string::npos) {
        whole = false;
        break;
      }
      const std::string value = text.substr(at, end - at);
      if (value.find(". ") != std::string::npos) {  // runs on into another sentence
        whole = false;
        break;
      }
      places[std::string(pattern.substr(open + 1, close - open - 1))] = value;
      at = end + literal.size();
      open = next;
    }
    if (whole) return places;
    if (head.empty()) break;
  }
  return std::nullopt;
}

/// A number as the words have it; NaN where it is none. Minutes come as seconds.
double number_of(const Places& places, const std::string& name) {
  const auto found = places.find(name);
  if (found == places.end()) return std::nan("");
  std::string text = found->second;
  double sign = 1.0;
  if (text.rfind("−", 0) == 0) {
    sign = -1.0;
    text = text.substr(std::string("−").size());
  }
  const std::size_t degree = text.find("°");
  if (degree != std::string::npos) text = text.substr(0, degree);
  const std::size_t colon = text.find(':');
  if (colon != std::string::npos) {
    const std::optional<double> m = read_number(text.substr(0, colon));
    const std::optional<double> s = read_number(text.substr(colon + 1));
    return m && s ? sign * (60.0 * *m + *s) : std::nan("");
  }
  return sign * read_number(text).value_or(std::nan(""));
}

/// Half a unit of the last digit that is shown, and what rounding adds.
bool shows(const Places& places, const std::string& name, double value, double unit) {
  return std::abs(number_of(places, name) - value) <= 0.5 * unit + 1e-9 * (1.0 + std::abs(value));
}
/// A distance: to a tenth, small ones to a hundredth.
bool shows_nm(const Places& places, const std::string& name, double nm) {
  return shows(places, name, std::abs(nm), std::abs(nm) < 0.095 ? 0.01 : 0.1);
}
bool shows_direction(const Places& places, const std::string& name, double deg) {
  return std::abs(wrap_180(number_of(places, name) - deg)) <= 0.5 + 1e-7;
}

/// A value of the answer by its path, a dot between.
const JsonValue* at(const JsonValue& root, std::string_view path) {
  const JsonValue* v = &root;
  while (v && !path.empty()) {
    const std::size_t dot = path.find('.');
    v = v->find(path.substr(0, dot));
    path = dot == std::string_view::npos ? std::string_view() : path.substr(dot + 1);
  }
  return v;
}
double number_at(const JsonValue& root, std::string_view path) {
  const JsonValue* v = at(root, path);
  return v && v->kind == JsonValue::Kind::number ? std::strtod(v->text.c_str(), nullptr)
                                                 : std::nan("");
}
std::string text_at(const JsonValue& root, std::string_view path) {
  const JsonValue* v = at(root, path);
  return v && v->kind == JsonValue::Kind::text ? v->text : std::string();
}

/// The heading of the entry's roll-out, as its event has it.
std::optional<double> rolled_out_on(const JsonValue& a) {
  const JsonValue* events = at(a, "events");
  if (!events) return std::nullopt;
  for (const JsonValue& e : events->items) {
    if (text_at(e, "name") == "roll-out" && number_at(e, "lap") == 0.0) {
      return number_at(e, "heading_deg");
    }
  }
  return std::nullopt;
}

/// How far the wind of the scenario, which may change evenly over ten minutes and go on changing,
/// carries an aircraft across the course until the roll-out, + toward the holding side. From the
/// link alone, by its vectors.
double carried_nm(const JsonValue& a) {
  const Scenario s = parse_link(text_at(a, "link")).scenario;
  const double variation = s.wind_is_true ? s.variation_east_deg : 0.0;
  const auto across_kt = [&](double from_deg, double speed_kt) {
    const double side = s.inbound_course_deg + (s.turns == Side::right ? 90.0 : -90.0);
    return -speed_kt * std::cos((from_deg - variation - side) * 3.14159265358979323846 / 180.0);
  };
  const double at_s = number_at(a, "rollout.at_s");
  const double first_kt = across_kt(s.wind_from_deg, s.wind_kt);
  double nm = first_kt * at_s / 3600.0;
  if (s.later_wind) {
    const double later_kt = across_kt(s.later_wind->from_deg, s.later_wind->speed_kt);
    nm += 0.5 * (later_kt - first_kt) / kLaterWindS * at_s * at_s / 3600.0;
  }
  return nm;
}

struct Counts {
  int past = 0, short_of = 0, on = 0, behind = 0, none = 0;
  int laps = 0, sectors = 0, intercepts = 0, late = 0, winds = 0, steps = 0;
};

/// What the words of one answer claim that its numbers deny; empty where they agree.
std::string disagreement(const JsonValue& a, Counts& n) {
  const std::string head = text_at(a, "headline");
  const std::string story = text_at(a, "outcome");
  const std::string summary = text_at(a, "summary");
  const double cross = number_at(a, "rollout.cross_nm");
  const double to_go = number_at(a, "rollout.to_go_nm");
  const double inbound_s = number_at(a, "rollout.inbound_s");
  const double at_s = number_at(a, "rollout.at_s");
  const bool flown = !std::isnan(cross);
  const bool behind = flown && to_go <= 0.0;
  const bool on = flown && std::abs(cross) <= kOnCourseNm;

  // The headline.
  if (!flown) {
    ++n.none;
    if (head != word("core.headline.none")) return "headline: flown, and no roll-out";
  } else if (behind) {
    ++n.behind;
    if (head != word("core.headline.past_fix")) return "headline: not past the fix";
  } else if (on) {
    ++n.on;
    if (head != word("core.headline.on_course")) return "headline: not on course";
  } else {
    const bool past = cross < 0.0;
    ++(past ? n.past : n.short_of);
    const auto claim = said(head, past ? "core.headline.past" : "core.headline.short");
    if (!claim) return "headline: past or short";
    if (!shows_nm(*claim, "nm", cross)) return "headline: distance";
  }

  // The outcome.
  if (flown) {
    const std::string key = std::string("core.outcome.") +
                            (on            ? "on_course"
                             : cross < 0.0 ? "past"
                                           : "short") +
                            (behind ? "_behind" : "");
    const auto claim = said(story, key);
    if (!claim || story.find(claim->at("nm")) == std::string::npos) return "outcome: " + key;
    if (on ? !(number_of(*claim, "nm") >= std::abs(cross) - 1e-9 &&
               number_of(*claim, "nm") <= std::fmax(0.01, std::abs(cross) + 0.0101) + 0.05)
           : !shows_nm(*claim, "nm", cross)) {
      return "outcome: off course";
    }
    if (!shows_nm(*claim, "to_go", to_go)) return "outcome: to go";
    if (!behind && !shows(*claim, "inbound", inbound_s, 1.0)) return "outcome: inbound";
    if (const auto why = said(story, "core.because.wind")) {
      ++n.winds;
      const auto sided = [&](const char* nm, const char* side) {
        const bool holding = why->at(side) == word("core.side.holding");
        return (holding ? 1.0 : -1.0) * number_of(*why, nm);
      };
      if (!shows(*why, "time", at_s, 1.0)) return "because: time";
      if (std::abs(sided("wind", "wind_side") + sided("air", "air_side") - cross) > 0.1 + 1e-9) {
        return "because: wind and air make another distance";
      }
      if (std::abs(sided("wind", "wind_side") - carried_nm(a)) > 0.05 + 1e-6) {
        return "because: carried by another wind";
      }
    } else if (std::abs(carried_nm(a)) > 0.05 + 1e-6) {
      return "because: the wind carried it, and that is not said";
    }
    const bool timed = number_at(a, "scenario.leg") == 0.0 ||
                       text_at(a, "fields.leg").find("nm") == std::string::npos;
    const double late = inbound_s - number_at(a, "published_s");
    const auto longer = said(story, "core.next.long");
    const auto shorter = said(story, "core.next.short");
    if ((longer || shorter) && !(on && timed && !behind)) return "next: advice out of place";
    if (longer && !(late > 0.0 && shows(*longer, "seconds", late, 1.0))) return "next: long";
    if (shorter && !(late < 0.0 && shows(*shorter, "seconds", -late, 1.0))) return "next: short";
    if (on && timed && !behind && std::abs(late) >= 2.0 && !longer && !shorter) {
      return "next: late and not said";
    }
    n.late += longer || shorter ? 1 : 0;
    if (const auto turn = said(story, "core.next.intercept")) {
      ++n.intercepts;
      if (on || behind || !(number_of(*turn, "angle") >= 0.0 && number_of(*turn, "angle") <= 90.0))
        return "next: intercept";
    }
  }

  // Where the aircraft comes from.
  const std::string sector = text_at(a, "sector");
  const double arrival_deg = number_at(a, "wind.arrival.heading_deg");
  const double outbound_deg = wrap_360(number_at(a, "scenario.inbound") + 180.0);
  if (!std::isnan(arrival_deg)) {
    const auto claim = said(sector, "core.sector");
    if (!claim) return "sector: not said";
    ++n.sectors;
    const double off = wrap_180(arrival_deg - outbound_deg);
    if (!shows_direction(*claim, "heading", arrival_deg)) return "sector: heading";
    if (!shows_direction(*claim, "outbound", outbound_deg)) return "sector: outbound";
    if (!shows(*claim, "off", std::abs(off), 1.0)) return "sector: angle";
    if (std::abs(off) > 0.5 && std::abs(off) < 179.5 &&
        (claim->at("side") == word("core.right")) != (off > 0.0)) {
      return "sector: side";
    }
    const JsonValue* kinds = at(a, "entry.acceptable");
    if (!kinds || kinds->items.empty()) return "sector: none acceptable";
    if (claim->at("entry") != word("core.entry." + kinds->items[0].text)) return "sector: entry";
    if ((kinds->items.size() > 1) != said(sector, "core.sector.also").has_value()) {
      return "sector: as good";
    }
  } else if (said(sector, "core.sector")) {
    return "sector: no arrival";
  }

  // The picture's text.
  const auto scene = said(summary, "core.summary");
  const auto calm = said(summary, "core.summary.calm");
  if (!scene && !calm) return "summary: not said";
  const Places& told = scene ? *scene : *calm;
  if (!shows_direction(told, "inbound", number_at(a, "scenario.inbound")))
    return "summary: inbound";
  if (!shows_direction(told, "arrive", number_at(a, "scenario.arrive"))) return "summary: arrive";
  if (!shows(told, "tas", number_at(a, "air.tas_kt"), 1.0)) return "summary: airspeed";
  const bool right = text_at(a, "scenario.turns") == "right";
  if ((told.at("turns") == word("core.right")) != right) return "summary: turns";
  if (flown) {
    const auto way = said(summary, "core.summary.flown");
    if (!way) return "summary: not flown";
    if (!shows_direction(*way, "heading", number_at(a, "entry.heading_deg"))) {
      return "summary: heading";
    }
    if (way->at("headline") != head) return "summary: headline";
  }

  // The sum ends in what is flown.
  if (const JsonValue* sum = at(a, "sum")) {
    for (const JsonValue& step : sum->items) {
      const auto fly = said(step.text, "core.sum.fly");
      if (!fly) continue;
      ++n.steps;
      if ((fly->at("side") == word("core.right")) != (text_at(a, "entry.turn") == "right")) {
        return "sum: side";
      }
      // The parallel entry turns on, to an intercept or straight to the fix.
      const std::optional<double> out_on =
          text_at(a, "entry.kind") == "parallel" ? rolled_out_on(a) : std::nullopt;
      if (!shows_direction(*fly, "inbound",
                           out_on.value_or(number_at(a, "wind.inbound.heading_deg")))) {
        return "sum: inbound";
      }
      const double time_s = number_at(a, "entry.time_s");
      if (!std::isnan(time_s) && !shows(*fly, "time", time_s, 1.0)) return "sum: time";
    }
  }

  // The laps.
  if (const JsonValue* laps = at(a, "laps")) {
    for (std::size_t i = 0; i < laps->items.size(); ++i) {
      const JsonValue& lap = laps->items[i];
      const std::string advice = text_at(lap, "advice");
      const double off = number_at(lap, "cross_nm");
      const bool lap_on = std::abs(off) <= kOnCourseNm;
      ++n.laps;
      const auto past = said(advice, "core.lap.past");
      const auto inside = said(advice, "core.lap.inside");
      if (past.has_value() != (!lap_on && off < 0.0)) return "lap: past";
      if (inside.has_value() != (!lap_on && off > 0.0)) return "lap: short";
      if (past && !shows_nm(*past, "nm", off)) return "lap: distance past";
      if (inside && !shows_nm(*inside, "nm", off)) return "lap: distance short";
      if (said(advice, "core.lap.on_course").has_value() != lap_on) return "lap: on course";
      const double took_s = number_at(lap, "inbound_s");
      const double late = took_s - number_at(a, "published_s");
      const auto longer = said(advice, "core.lap.long");
      const auto shorter = said(advice, "core.lap.short");
      if (longer && !(late > 0.0 && shows(*longer, "seconds", late, 1.0) &&
                      shows(*longer, "inbound", took_s, 1.0))) {
        return "lap: long";
      }
      if (shorter && !(late < 0.0 && shows(*shorter, "seconds", -late, 1.0) &&
                       shows(*shorter, "inbound", took_s, 1.0))) {
        return "lap: short inbound";
      }
      const auto far = said(advice, "core.lap.distance");
      if (far && !shows_nm(*far, "to_go", number_at(lap, "to_go_nm"))) return "lap: to go";
      if (const auto turn = said(advice, "core.lap.turn")) {
        const double heading = number_at(lap, "outbound_heading_deg");
        const double exact = number_at(a, "exact.lap.heading_deg");
        const double change = wrap_180(exact - heading);
        if (!shows_direction(*turn, "heading", exact)) return "lap: exact heading";
        if (!shows(*turn, "angle", std::abs(change), 1.0)) return "lap: exact angle";
        if ((turn->at("side") == word("core.right")) != (change > 0.0)) return "lap: exact side";
      }
    }
  }
  return {};
}

void agree(int rounds, std::uint64_t seed) {
  test::Random r(seed);
  test::Tally tally;
  Counts n;
  ReportParts parts;
  parts.area = false;  // without words, or with a test of its own
  parts.study = false;
  for (int i = 0; i < rounds; ++i) {
    const Scenario s = test::scenario_of_each(r, i);
    const std::string answer = evaluate(write_link(s), parts);
    const JsonRead read = read_json(answer);
    tally.check(read.ok(), [&] { return test::named(s) + " " + read.error; });
    const std::string fault = disagreement(read.value, n);
    tally.check(fault.empty(), [&] {
      return test::named(s) + " " + fault + "\n    " + text_at(read.value, "headline") + " | " +
             text_at(read.value, "outcome") + " | " + text_at(read.value, "sector") + " | " +
             text_at(read.value, "summary");
    });
  }
  // Every kind of claim was met.
  for (const int count : {n.past, n.short_of, n.on, n.behind, n.none, n.late, n.intercepts}) {
    CHECK(count > rounds / 500);
  }
  for (const int count : {n.laps, n.sectors, n.winds, n.steps}) CHECK(count > rounds / 10);
  tally.settle(2LL * rounds);
}

}  // namespace

TEST_CASE("words agree with numbers, of each kind", "[words][property]") { agree(10000, 7201); }

TEST_CASE("words agree with numbers, a million times", "[.million]") { agree(1000000, 7202); }

TEST_CASE("words that do not agree would be noticed", "[words]") {
  Counts n;
  const std::string good = evaluate("laps=2");
  REQUIRE(disagreement(read_json(good).value, n).empty());
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    const std::size_t at_byte = text.find(from);
    REQUIRE(at_byte != std::string::npos);
    text.replace(at_byte, from.size(), to);
    return disagreement(read_json(text).value, n);
  };
  const JsonValue answer = read_json(good).value;
  const std::string head = text_at(answer, "headline");
  CHECK_FALSE(with("\"headline\":\"" + head, "\"headline\":\"9" + head).empty());
  CHECK_FALSE(with("\"turns\":\"left\"", "\"turns\":\"right\"").empty());
  CHECK_FALSE(with("\"cross_nm\":", "\"cross_nm\":-1").empty());
  CHECK_FALSE(with("\"acceptable\":[\"offset\"]", "\"acceptable\":[\"direct\"]").empty());
  CHECK_FALSE(with("\"published_s\":60", "\"published_s\":90").empty());
}
