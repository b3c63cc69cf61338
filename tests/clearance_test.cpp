// Hold clearances: composed and read back, decoded, contradictions (core/clearance).
#include "core/clearance.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

bool says(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines) all += line + "\n";
  return all;
}

ClearanceSpec random_spec(test::Random& r) {
  constexpr const char* kNames[] = {"", "ELM", "KITE", "OAKTON", "MOSSY", "PEWTER"};
  ClearanceSpec s;
  s.inbound_deg = 1.0 + r.below(360);
  s.turns = r.chance(0.5) ? Side::right : Side::left;
  s.say_right_turns = r.chance(0.3);
  s.fix = kNames[r.below(6)];
  const int place = r.below(3);
  s.aid = r.chance(0.8) ? Aid::vor : Aid::ndb;
  if (place > 0) {
    s.aid = Aid::vor;
    s.station = place == 1 ? Station::Place::ahead : Station::Place::behind;
    s.dme_nm = r.stepped(12.0, 60.0, 1.0);
  }
  if (r.chance(0.5)) {
    s.leg = r.chance(0.5) ? Leg{Leg::Kind::time, 60.0 * (1 + r.below(3))}
                          : Leg{Leg::Kind::distance, 3.0 + r.below(8)};
  }
  if (r.chance(0.7)) s.efc_min = r.below(1440);
  if (r.chance(0.2)) s.max_ias_kt = 100.0 + 5.0 * r.below(30);
  return s;
}

}  // namespace

TEST_CASE("clearance: what is composed is read back, said in numerals or figure by figure",
          "[clearance][property]") {
  test::Random r(4101);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const ClearanceSpec s = random_spec(r);
    const Figures figures = r.chance(0.5) ? Figures::numerals : Figures::spoken;
    const std::string text = compose_clearance(s, figures);
    const ReadClearance c = read_clearance(text);
    const auto say = [&] {
      std::string all = text + "\n";
      for (const auto& x : c.contradictions) all += x.text + "\n";
      for (const auto& x : c.problems) all += x.text + "\n";
      return all;
    };
    tally.check(c.contradictions.empty(), say);
    tally.check(c.unread.empty(), say);
    tally.check(c.inbound_deg == s.inbound_deg, say);
    tally.check(c.turns == s.turns, say);
    tally.check(c.leg == s.leg, say);
    tally.check(c.heard.efc_min == s.efc_min, say);
    tally.check(c.heard.max_ias_kt == s.max_ias_kt, say);
    tally.check(c.heard.fix == s.fix, say);
    tally.check(c.station == s.station, say);
    if (s.station != Station::Place::at_fix) tally.check(c.heard.dme_nm == s.dme_nm, say);
    // And its link sets just that.
    const ParsedLink link = parse_link(link_of(c));
    tally.check(link.problems.empty(), say);
    tally.check(link.scenario.inbound_course_deg == s.inbound_deg, say);
    tally.check(link.scenario.turns == s.turns && link.scenario.leg == s.leg, say);
    tally.check(link.scenario.station.place == s.station, say);
  }
  tally.settle(200000);
}

TEST_CASE("clearance: a direction word that does not fit is named as such",
          "[clearance][property]") {
  test::Random r(4102);
  test::Tally tally;
  for (int i = 0; i < 5000; ++i) {
    ClearanceSpec s = random_spec(r);
    s.station = Station::Place::at_fix;
    s.published = false;
    const std::string text = compose_clearance(s);
    const int right = nearest_eighth(s.inbound_deg + 180.0);
    const int wrong = (right + 2 + r.below(5)) % kEighths;  // at least a quarter off
    std::string word(name_of_eighth(right));
    std::string other(name_of_eighth(wrong));
    for (char& c : word) c = static_cast<char>(c - 'a' + 'A');
    for (char& c : other) c = static_cast<char>(c - 'a' + 'A');
    std::string changed = text;
    changed.replace(changed.find(word), word.size(), other);
    const ReadClearance c = read_clearance(changed);
    const auto say = [&] { return changed; };
    tally.check(!c.contradictions.empty(), say);
    tally.check(!c.inbound_deg.has_value(), say);
    tally.check(!says(link_of(c), "inbound="), say);
  }
  tally.settle(15000);
}

TEST_CASE("clearance: the commonest mistake, and the one the other way", "[clearance]") {
  const ReadClearance out =
      read_clearance("HOLD WEST OF ABC ON THE 265 RADIAL, EXPECT FURTHER CLEARANCE 1845");
  CHECK(out.inbound_deg == 85.0);
  CHECK(says(joined(decode_steps(out)), "The commonest first mistake is to take the 265 radial"));
  const ReadClearance between =
      read_clearance("hold east of the 20 DME fix on the 265 radial, 5 mile legs");
  CHECK(between.inbound_deg == 265.0);
  CHECK(between.outbound_end_dme_nm == 15.0);
  CHECK(says(joined(decode_steps(between)), "reverse it by habit"));
}

TEST_CASE("clearance: published, by bearing, by course; two of a kind", "[clearance]") {
  const ReadClearance published = read_clearance(
      "CLEARED TO MOSSY, HOLD NORTHEAST, AS PUBLISHED, EXPECT FURTHER CLEARANCE "
      "1845",
      238.0);
  CHECK(published.heard.published);
  CHECK(published.contradictions.empty());
  CHECK_FALSE(published.inbound_deg.has_value());
  const ReadClearance against = read_clearance("CLEARED TO MOSSY, HOLD WEST, AS PUBLISHED", 238.0);
  CHECK(against.has(Contradiction::direction_chart));

  CHECK(read_clearance("hold south of KITE NDB on the 180 bearing from the station").inbound_deg ==
        360.0);
  CHECK(read_clearance("hold south of KITE NDB on the 360 bearing to the station").inbound_deg ==
        360.0);
  CHECK(read_clearance("hold north of PEWTER on the 180 course").inbound_deg == 180.0);

  CHECK(read_clearance("hold west of ABC on the 265 radial, left turns, right turns")
            .has(Contradiction::two_turns));
  CHECK(read_clearance("hold west of ABC on the 265 radial, 5 mile legs, 2 minute legs")
            .has(Contradiction::two_legs));
}

TEST_CASE("clearance: any text is answered, in bounded work", "[clearance][hostile]") {
  constexpr const char* kPieces[] = {
      "HOLD",    "WEST",   "OF",      "ABC",       "ON",   "THE",     "265",  "RADIAL", "COURSE",
      "BEARING", "TO",     "FROM",    "5",         "MILE", "LEG",     "LEGS", "LEFT",   "RIGHT",
      "TURNS",   "EXPECT", "FURTHER", "CLEARANCE", "1845", "DME",     "FIX",  "20",     "NINER",
      ",",       ".",      "AS",      "PUBLISHED", "V12",  "NDB",     "VOR",  "MINUTE", "ONE",
      "HALF",    "\xff",   "'",       "0",         "361",  "99999999"};
  test::Random r(4103);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    const int count = r.below(40);
    for (int k = 0; k < count; ++k) {
      text += kPieces[r.below(static_cast<int>(std::size(kPieces)))];
      if (r.chance(0.9)) text += ' ';
    }
    if (r.chance(0.1)) {
      for (int k = 0; k < 60; ++k) text += static_cast<char>(r.below(256));
    }
    const ReadClearance c = read_clearance(text);
    Json j;
    write_clearance(j, c);
    const auto say = [&] { return text; };
    tally.check(test::json_fault(j.str()).empty(), say);
    tally.check(!says(j.str(), "core.") && !says(j.str(), "{name}"), say);
    tally.check(parse_link(link_of(c)).problems.empty(),
                [&] { return text + " -> " + link_of(c); });
    // A value that contradicts itself is not handed on.
    if (!c.contradictions.empty() && !c.has(Contradiction::two_turns) &&
        !c.has(Contradiction::two_legs)) {
      tally.check(!c.inbound_deg.has_value(), say);
    }
  }
  const std::string endless(200000, 'A');
  CHECK(read_clearance(endless).has(Doubt::cut));
  CHECK(read_clearance("").has(Doubt::nothing));
  tally.settle(60000);
}
