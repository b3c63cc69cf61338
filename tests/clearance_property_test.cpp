// Clearances by the thousand: composed and read back, mutated, and any bytes at all.
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/clearance.h"
#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

constexpr std::string_view kNames[] = {"ABC",          "PLUTO",  "XYZ",          "KELPO", "QRS",
                                       "NORTH PLATTE", "ALBANY", "THREE RIVERS", "D12"};

ClearanceSpec random_spec(test::Random& r) {
  ClearanceSpec s;
  s.inbound_deg = r.chance(0.2) ? r.between(-400.0, 800.0) : 1.0 + r.below(360);
  s.turns = r.chance(0.5) ? Side::left : Side::right;
  s.say_right_turns = r.chance(0.3);
  if (r.chance(0.6)) {
    s.leg = r.chance(0.5) ? Leg{Leg::Kind::distance, 0.5 + 0.1 * r.below(496)}
                          : Leg{Leg::Kind::time, 15.0 + r.below(586)};
    s.leg->value = std::floor(s.leg->value * 10.0 + 0.5) / 10.0;
  }
  if (r.chance(0.8)) s.fix = kNames[r.below(9)];
  if (r.chance(0.4)) s.station_name = kNames[r.below(9)];
  s.aid = static_cast<Aid>(r.below(3));
  s.station = static_cast<Station::Place>(r.below(3));
  s.dme_nm = static_cast<double>(1 + r.below(r.chance(0.5) ? 400 : 1990)) / 10.0;
  if (s.aid == Aid::satellite) s.station = Station::Place::at_fix;
  if (r.chance(0.7)) s.efc_min = r.below(1440);
  if (r.chance(0.3)) s.max_ias_kt = 90.0 + r.below(200);
  return s;
}

double whole_inbound(const ClearanceSpec& s) {
  return wrap_360(std::floor(wrap_360(s.inbound_deg) + 0.5));
}

std::string lower(std::string s) {
  for (char& c : s) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return s;
}

/// A text that is nearly a clearance.
std::string garbled(test::Random& r) {
  constexpr std::string_view kBits[] = {"HOLD",
                                        "WEST OF",
                                        "ABC",
                                        "ON THE",
                                        "265 RADIAL",
                                        "DME FIX",
                                        "16",
                                        "5 MILE",
                                        "LEGS",
                                        "LEFT",
                                        "RIGHT TURNS",
                                        "EFC",
                                        "EXPECT FURTHER CLEARANCE",
                                        "1845",
                                        ",",
                                        "BEARING TO",
                                        "COURSE",
                                        "V12",
                                        "AS PUBLISHED",
                                        "CLEARED TO",
                                        "OF",
                                        "STANDARD",
                                        "MAXIMUM HOLDING AIRSPEED",
                                        "TIME NOW",
                                        "INBOUND",
                                        "OUTBOUND TIME",
                                        "1 MINUTE",
                                        "SECONDS",
                                        "R",
                                        "two",
                                        "hundred",
                                        "and a half",
                                        "point",
                                        "NDB",
                                        "VOR/DME",
                                        "INTERSECTION",
                                        "NORTH",
                                        "EAST",
                                        "FROM",
                                        "A",
                                        "B"};
  std::string s;
  const int count = r.below(60);
  for (int i = 0; i < count; ++i) {
    s += kBits[r.below(41)];
    if (r.chance(0.05)) s += static_cast<char>(r.below(256));
    s += ' ';
  }
  return s;
}

/// Everything that must hold whatever was read.
std::string fault_of(const ReadClearance& r) {
  if (r.inbound_deg && !(*r.inbound_deg > 0.0 && *r.inbound_deg <= 360.0)) return "inbound";
  if (r.outbound_end_dme_nm && !(*r.outbound_end_dme_nm > 0.0)) return "outbound end";
  if (r.heard.efc_min && (*r.heard.efc_min < 0 || *r.heard.efc_min > 1439)) return "efc";
  if (r.unread.size() > static_cast<std::size_t>(kMostUnread)) return "unread";
  if (r.station && !r.inbound_deg) return "station without a course";
  for (const Remark<Contradiction>& c : r.contradictions) {
    if (c.kind != Contradiction::two_turns && c.kind != Contradiction::two_legs && r.inbound_deg) {
      return "a course in spite of " + c.text;
    }
  }
  const ParsedLink link = parse_link(link_of(r));
  if (!link.problems.empty()) return "link: " + link.problems[0].message;
  if (r.inbound_deg && link.scenario.inbound_course_deg != *r.inbound_deg) return "link: inbound";
  if (r.turns && link.scenario.turns != *r.turns) return "link: turns";
  if (r.leg && link.scenario.leg != r.leg) return "link: leg";
  if (link.scenario.further_clearance_min != r.heard.efc_min) return "link: efc";
  // A side that was said and a course that was concluded agree.
  if (r.inbound_deg && r.heard.direction &&
      std::abs(wrap_180(*r.inbound_deg + 180.0 - 45.0 * *r.heard.direction)) >
          kHalfEighthDeg + kEighthToleranceDeg) {
    return "side and course";
  }
  for (const std::string& step : decode_steps(r)) {
    if (step.empty() || step.find('{') != std::string::npos ||
        step.find("core.") != std::string::npos) {
      return "step: " + step;
    }
  }
  for (const Remark<Contradiction>& c : r.contradictions) {
    if (c.text.find('{') != std::string::npos || c.text.substr(0, 5) == "core.") return c.text;
  }
  for (const Remark<Doubt>& c : r.problems) {
    if (c.text.find('{') != std::string::npos || c.text.substr(0, 5) == "core.") return c.text;
  }
  Json j;
  write_clearance(j, r);
  return test::json_fault(j.str());
}

}  // namespace

TEST_CASE("clearance: what is composed is read back", "[clearance][property]") {
  test::Random r(4201);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const ClearanceSpec s = random_spec(r);
    std::string text = compose_clearance(s, r.chance(0.5) ? Figures::spoken : Figures::numerals);
    if (r.chance(0.3)) text = lower(text);
    const ReadClearance c = read_clearance(text);
    const auto say = [&text] { return text; };
    tally.check(c.contradictions.empty(), say);
    tally.check(c.unread_count == 0, say);
    for (const Remark<Doubt>& d : c.problems) {
      tally.check((d.kind == Doubt::no_efc && !s.efc_min) ||
                      (d.kind == Doubt::no_fix && s.fix.empty()) ||
                      (d.kind == Doubt::leg_past_station && s.station == Station::Place::behind &&
                       s.leg->value >= s.dme_nm),
                  [&] { return d.text + " " + text; });
    }
    tally.check(c.inbound_deg == whole_inbound(s), say);
    tally.check(c.turns == s.turns, say);
    tally.check(c.leg == s.leg, say);
    tally.check(c.heard.fix == s.fix, say);
    tally.check(c.station == s.station, say);
    tally.check(s.station == Station::Place::at_fix || c.heard.dme_nm == s.dme_nm, say);
    tally.check(s.station == Station::Place::at_fix || c.heard.station == s.station_name, say);
    tally.check(c.heard.aid == s.aid, say);
    tally.check(c.heard.efc_min == s.efc_min, say);
    tally.check(c.heard.max_ias_kt == s.max_ias_kt, say);
    tally.check(fault_of(c).empty(), [&] { return fault_of(c) + " " + text; });
    if (s.station == Station::Place::at_fix || !s.leg || s.leg->kind == Leg::Kind::time) continue;
    const double end =
        s.dme_nm + (s.station == Station::Place::ahead ? s.leg->value : -s.leg->value);
    tally.check(end > 1e-9 ? c.outbound_end_dme_nm && std::abs(*c.outbound_end_dme_nm - end) < 1e-6
                           : !c.outbound_end_dme_nm,
                say);
  }
  tally.settle(220000);
}

TEST_CASE("clearance: the published form is read back", "[clearance][property]") {
  test::Random r(4202);
  test::Tally tally;
  for (int i = 0; i < 5000; ++i) {
    ClearanceSpec s = random_spec(r);
    s.published = true;
    s.inbound_deg = 1.0 + r.below(360);
    const std::string text = compose_clearance(s);
    const auto say = [&text] { return text; };
    const ReadClearance c = read_clearance(text, s.inbound_deg);
    tally.check(c.heard.published && !c.inbound_deg && !c.leg && !c.turns, say);
    tally.check(c.contradictions.empty() && c.unread_count == 0, say);
    tally.check(c.heard.direction == nearest_eighth(s.inbound_deg + 180.0), say);
    tally.check(c.heard.fix == s.fix && c.heard.efc_min == s.efc_min, say);
    const double off = r.between(0.0, 360.0);
    const double miss = std::abs(wrap_180(off + 180.0 - 45.0 * *c.heard.direction));
    tally.check(read_clearance(text, off).has(Contradiction::direction_chart) ==
                    (miss > kHalfEighthDeg + kEighthToleranceDeg),
                say);
  }
  tally.settle(25000);
}

TEST_CASE("clearance: a wrong direction word is always reported", "[clearance][property]") {
  constexpr std::string_view kWords[] = {"NORTH", "NORTHEAST", "EAST", "SOUTHEAST",
                                         "SOUTH", "SOUTHWEST", "WEST", "NORTHWEST"};
  test::Random r(4203);
  test::Tally tally;
  int reported = 0;
  int other_side = 0;
  int edge = 0;
  for (int i = 0; i < 20000; ++i) {
    const ClearanceSpec s = random_spec(r);
    std::string text = compose_clearance(s);
    const double pattern = wrap_360(whole_inbound(s) + 180.0);
    const int right = nearest_eighth(pattern);
    const int wrong = (right + 1 + r.below(7)) & 7;
    const std::string said = "HOLD " + std::string(kWords[right]) + " ";
    const std::size_t at = text.find(said);
    REQUIRE(at == 0);
    text.replace(0, said.size(), "HOLD " + std::string(kWords[wrong]) + " ");
    const ReadClearance c = read_clearance(text);
    const double limit = kHalfEighthDeg + kEighthToleranceDeg;
    const double off = std::abs(wrap_180(pattern - 45.0 * wrong));
    const bool opposite = 180.0 - off <= limit;
    const auto say = [&text] { return text; };
    if (off <= limit) {
      // Near enough to its neighbour: taken, with a remark.
      ++edge;
      tally.check(c.has(Doubt::direction_edge) && c.inbound_deg == whole_inbound(s), say);
    } else if (opposite && s.aid == Aid::satellite) {
      ++other_side;
      tally.check(c.has(Doubt::course_outbound) && c.inbound_deg == pattern, say);
    } else if (opposite && s.station != Station::Place::at_fix) {
      // The word decides on which side of the fix the station is: this is another hold.
      ++other_side;
      tally.check(c.contradictions.empty() && c.inbound_deg == pattern &&
                      c.station == (s.station == Station::Place::ahead ? Station::Place::behind
                                                                       : Station::Place::ahead),
                  say);
    } else {
      ++reported;
      tally.check(!c.contradictions.empty() && !c.inbound_deg && !c.station, say);
    }
    tally.check(fault_of(c).empty(), [&] { return fault_of(c) + " " + text; });
  }
  tally.settle(40000);
  CHECK(reported > 10000);
  CHECK(other_side > 500);
  CHECK(edge > 500);
}

TEST_CASE("clearance: any bytes are read", "[clearance][hostile]") {
  test::Random r(4204);
  test::Tally tally;
  int determined = 0;
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    if (r.chance(0.8)) {
      text = garbled(r);
    } else {
      const int size = r.below(400);
      for (int k = 0; k < size; ++k) text += static_cast<char>(r.below(256));
    }
    const ReadClearance c = read_clearance(
        text, r.chance(0.5) ? std::optional<double>(r.between(-9e9, 9e9)) : std::nullopt);
    determined += c.inbound_deg.has_value();
    tally.check(fault_of(c).empty(), [&] { return fault_of(c) + " in " + text; });
  }
  tally.settle(20000);
  CHECK(determined > 500);
}

TEST_CASE("clearance: long and odd texts are bounded", "[clearance][hostile]") {
  std::string many;
  while (many.size() < 100000) many += "HOLD WEST OF ABC ON THE 265 RADIAL ";
  ReadClearance c = read_clearance(many);
  CHECK(c.has(Doubt::cut));
  CHECK(c.inbound_deg == 85.0);
  for (const char* piece : {"A", "9", "RADIAL ", "OF ", "265 ", "HOLD ", ", ", "A ", "x y ", "EFC ",
                            "1/2 ", "\xff", "{fix}"}) {
    std::string text = "HOLD WEST OF ";
    while (text.size() < 100000) text += piece;
    c = read_clearance(text);
    INFO(piece);
    CHECK(fault_of(c) == "");
    CHECK(c.has(Doubt::cut));
  }
  // A word of a kilobyte is shown short.
  c = read_clearance("HOLD WEST " + std::string(1000, 'Q'));
  REQUIRE(c.unread.size() == 1);
  CHECK(c.unread[0].size() < 40);
}
