// Hold clearances: what is read, what follows, what contradicts what.
#include "core/clearance.h"

#include <catch2/catch_test_macros.hpp>
#include <map>
#include <set>
#include <string>

#include "core/words.h"
#include "tests/json_check.h"

using namespace core;

namespace {

std::string join(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) out += line + "\n";
  return out;
}
std::string steps(std::string_view text) { return join(decode_steps(read_clearance(text))); }
std::string link(std::string_view text) { return link_of(read_clearance(text)); }
bool contains(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}
bool contradicts(std::string_view text, Contradiction kind) {
  return read_clearance(text).has(kind);
}
bool doubts(std::string_view text, Doubt kind) { return read_clearance(text).has(kind); }

}  // namespace

TEST_CASE("clearance: the compass in eighths", "[clearance][seam]") {
  CHECK(nearest_eighth(360.0) == 0);
  CHECK(nearest_eighth(22.0) == 0);
  CHECK(nearest_eighth(23.0) == 1);
  CHECK(nearest_eighth(338.0) == 0);
  CHECK(nearest_eighth(337.0) == 7);
  CHECK(nearest_eighth(-90.0) == 6);
  CHECK(nearest_eighth(std::nan("")) == 0);
  CHECK(name_of_eighth(5) == "southwest");
}

TEST_CASE("clearance: what a clearance sets", "[clearance]") {
  struct Row {
    const char* text;
    const char* link;
  };
  constexpr Row kRows[] = {
      {"HOLD WEST OF ABC ON THE 265 RADIAL, 5 MILE LEGS, LEFT TURNS, EXPECT FURTHER CLEARANCE 1845",
       "inbound=85&turns=left&leg=5nm&fix=ABC&station=fix&efc=18:45&aid=vor"},
      {"hold northeast of the one six D M E fix on the zero three zero radial, five mile legs, "
       "right turns, expect further clearance one eight four five",
       "inbound=210&turns=right&leg=5nm&station=16to&measure=dme&efc=18:45&aid=vor"},
      {"hold west of a b c on the two sixty-five radial one and a half minute legs left turns "
       "efc eighteen forty-five zulu",
       "inbound=85&turns=left&leg=1:30&fix=ABC&station=fix&efc=18:45&aid=vor"},
      {"HOLD EAST OF THE 20 DME FIX ON THE ABC 265 RADIAL, 5 MILE LEGS",
       "inbound=265&turns=right&leg=5nm&station=20from&measure=dme&aid=vor"},
      {"HOLD EAST OF THE PLUTO 20.5 DME FIX ON THE ABC 265 RADIAL",
       "inbound=265&turns=right&fix=PLUTO&station=20.5from&aid=vor"},
      {"HOLD EAST OF THE ABC 265 RADIAL 20 MILE FIX",
       "inbound=265&turns=right&station=20from&aid=vor"},
      {"HOLD W OF ABC R-265 5NM LEGS L TURNS",
       "inbound=85&turns=left&leg=5nm&fix=ABC&station=fix&aid=vor"},
      {"CLEARANCE LIMIT PLUTO, HOLD WEST ON THE 265 RADIAL",
       "inbound=85&turns=right&fix=PLUTO&station=fix&aid=vor"},
      // An intersection: the side decides, but how far the station is was not said.
      {"HOLD EAST OF PLUTO ON THE ABC 265 RADIAL", "inbound=265&turns=right&fix=PLUTO&aid=vor"},
      {"HOLD EAST OF PLUTO INTERSECTION ON THE 265 RADIAL",
       "inbound=265&turns=right&fix=PLUTO&aid=vor"},
      {"HOLD WEST OF XYZ NDB ON THE 265 BEARING FROM THE NDB",
       "inbound=85&turns=right&fix=XYZ&station=fix&aid=ndb"},
      {"HOLD WEST OF XYZ NDB ON THE 085 BEARING TO THE BEACON",
       "inbound=85&turns=right&fix=XYZ&station=fix&aid=ndb"},
      {"HOLD EAST OF THE PLUTO 20 DME FIX ON THE 265 BEARING FROM THE XYZ NDB",
       "inbound=265&turns=right&fix=PLUTO&station=20from&aid=ndb"},
      {"HOLD WEST OF THE PLUTO WAYPOINT ON THE 085 COURSE",
       "inbound=85&turns=right&fix=PLUTO&station=fix&aid=satellite"},
      {"HOLD WEST OF PLUTO ON THE OUTBOUND COURSE 265", "inbound=85&turns=right&fix=PLUTO"},
      {"HOLD AT ABC INBOUND TRACK 085 DEGREES LEFT TURNS OUTBOUND TIME 1 MINUTE",
       "inbound=85&turns=left&leg=1:00&fix=ABC"},
      {"CLEARED TO THE 265 RADIAL OF THE ABC VOR AT 10 DME FIX, HOLD WEST, RIGHT TURNS",
       "inbound=85&turns=right&station=10to&aid=vor"},
      {"CLEARED TO ABC, HOLD EAST, AS PUBLISHED.", "fix=ABC"},
      {"CLEARED TO ABC VOR, HOLD EAST AS PUBLISHED, EFC 0015Z", "fix=ABC&efc=00:15&aid=vor"},
      {"CLEARED TO PLUTO, HOLD WEST ON THE ABC 265 RADIAL",
       "inbound=85&turns=right&fix=PLUTO&aid=vor"},
      {"HOLD SOUTH OF NORTH PLATTE VORTAC ON THE R-180, LEGS 4 MILES, TURNS LEFT",
       "inbound=360&turns=left&leg=4nm&fix=NORTH%20PLATTE&station=fix&aid=vor"},
      {"HOLD SOUTH OF THREE RIVERS ON THE 180 RADIAL, NONSTANDARD TURNS, 1:30 LEGS",
       "inbound=360&turns=left&leg=1:30&fix=THREE%20RIVERS&station=fix&aid=vor"},
      {"HOLD WEST OF ABC ON VICTOR TWELVE, LEFT TURNS", "turns=left&fix=ABC"},
      {"HOLD NORTH ON RADIAL THREE SIX ZERO FIVE MILE LEGS",
       "inbound=180&turns=right&leg=5nm&station=fix&aid=vor"},
      {"HOLD WEST OF ABC ON THE 265 RADIAL, 1 MINUTE 45 SECOND LEGS, STANDARD TURNS",
       "inbound=85&turns=right&leg=1:45&fix=ABC&station=fix&aid=vor"},
      // The length of the legs is no place of the fix, and neither is where a leg ends.
      {"HOLD EAST OF THE ABC VOR ON THE 090 RADIAL, 6 DME LEGS, LEFT TURNS",
       "inbound=270&turns=left&leg=6nm&fix=ABC&station=fix&aid=vor"},
      {"HOLD EAST OF THE ABC VOR ON THE 090 RADIAL, LEGS 6 DME, LEFT TURNS",
       "inbound=270&turns=left&leg=6nm&fix=ABC&station=fix&aid=vor"},
      {"HOLD EAST OF THE ABC VOR ON THE 090 RADIAL, OUTBOUND LEG 6 DME",
       "inbound=270&turns=right&leg=6nm&fix=ABC&station=fix&aid=vor"},
      {"HOLD EAST OF THE ABC VOR ON THE 090 RADIAL, OUTBOUND TO 6 DME",
       "inbound=270&turns=right&fix=ABC&station=fix&aid=vor"},
      {"HOLD EAST OF THE ABC VOR ON THE 090 RADIAL, TURN INBOUND AT 10 DME",
       "inbound=270&turns=right&fix=ABC&station=fix&aid=vor"},
      {"HOLD WEST OF ABC ON THE 265 RADIAL, 2 MINUTE INBOUND LEGS",
       "inbound=85&turns=right&leg=2:00&fix=ABC&station=fix&aid=vor"},
      // A side of its own is that of the turns.
      {"HOLD WEST OF ABC VOR ON THE 265 RADIAL, LEFT, EFC 1845",
       "inbound=85&turns=left&fix=ABC&station=fix&efc=18:45&aid=vor"},
      {"HOLD WEST OF ABC VOR ON THE 265 RADIAL, LEFT HAND",
       "inbound=85&turns=left&fix=ABC&station=fix&aid=vor"},
      {"HOLD WEST OF ABC VOR ON THE 265 RADIAL, LEFTHAND TURNS",
       "inbound=85&turns=left&fix=ABC&station=fix&aid=vor"},
      {"HOLD WEST OF ABC VOR ON THE 265 RADIAL, TURN LEFT",
       "inbound=85&turns=left&fix=ABC&station=fix&aid=vor"},
      {"HOLD WEST OF ABC VOR ON THE 265 RADIAL, TURN LEFT HEADING 240",
       "inbound=85&turns=right&fix=ABC&station=fix&aid=vor"},
      {"TURN LEFT HEADING 270, MAINTAIN 4000", ""},
      {"HOLD SHORT OF RUNWAY 27", ""},
  };
  for (const Row& row : kRows) {
    INFO(row.text);
    CHECK(link(row.text) == row.link);
    CHECK(read_clearance(row.text).contradictions.empty());
  }
}

TEST_CASE("clearance: contradictions are named and nothing follows from them", "[clearance]") {
  struct Row {
    const char* text;
    Contradiction kind;
  };
  constexpr Row kRows[] = {
      {"HOLD EAST OF ABC ON THE 265 RADIAL", Contradiction::direction_line},
      {"HOLD NORTH OF ABC ON THE 265 RADIAL", Contradiction::direction_line},
      {"HOLD EAST OF XYZ NDB ON THE 265 BEARING FROM THE NDB", Contradiction::direction_line},
      {"HOLD EAST OF XYZ NDB ON THE 085 BEARING TO THE NDB", Contradiction::direction_line},
      {"HOLD NORTH OF XYZ NDB ON THE 085 BEARING", Contradiction::direction_line},
      {"HOLD NORTH OF THE 20 DME FIX ON THE 265 RADIAL", Contradiction::direction_dme},
      {"HOLD NORTH OF PLUTO ON THE ABC 265 RADIAL", Contradiction::direction_dme},
      {"HOLD NORTH OF PLUTO ON THE 085 COURSE", Contradiction::direction_course},
      {"HOLD EAST OF PLUTO ON THE INBOUND COURSE 085", Contradiction::direction_course},
      {"HOLD EAST OF PLUTO ON THE OUTBOUND COURSE 265", Contradiction::direction_course},
      {"HOLD WEST OF ABC ON THE 265 RADIAL, INBOUND COURSE 095", Contradiction::inbound_line},
      {"INBOUND COURSE 265, HOLD WEST OF THE 20 DME FIX ON THE 265 RADIAL",
       Contradiction::inbound_line},
      {"HOLD WEST OF ABC ON THE 265 RADIAL, HOLD EAST", Contradiction::two_directions},
      {"HOLD WEST OF ABC ON THE 265 RADIAL ON THE 270 RADIAL", Contradiction::two_lines},
  };
  for (const Row& row : kRows) {
    INFO(row.text);
    const ReadClearance r = read_clearance(row.text);
    CHECK(r.has(row.kind));
    CHECK_FALSE(r.inbound_deg);
    CHECK_FALSE(r.station);
    CHECK_FALSE(contains(link_of(r), "inbound"));
    const std::string said = join(decode_steps(r));
    CHECK(contains(said, r.contradictions[0].text));
    CHECK(contains(said, word("core.clearance.step.inbound.contradiction")));
  }
  // Only what contradicts itself is open; the rest stands.
  ReadClearance r =
      read_clearance("HOLD WEST OF ABC ON THE 265 RADIAL, 5 MILE LEGS, LEFT TURNS, RIGHT TURNS");
  CHECK(r.has(Contradiction::two_turns));
  CHECK_FALSE(r.turns);
  CHECK(r.inbound_deg == 85.0);
  r = read_clearance("HOLD WEST OF ABC ON THE 265 RADIAL, 5 MILE LEGS, 1 MINUTE LEGS");
  CHECK(r.has(Contradiction::two_legs));
  CHECK_FALSE(r.leg);
  CHECK_FALSE(r.outbound_end_dme_nm);
  CHECK(r.inbound_deg == 85.0);
  CHECK(contradicts("HOLD WEST OF ABC ON THE 265 RADIAL, STANDARD LEFT TURNS",
                    Contradiction::two_turns));
  CHECK(contradicts("HOLD WEST OF ABC, 5 MILE LEGS, 8 MILE LEGS", Contradiction::two_legs));
  CHECK_FALSE(contradicts("HOLD WEST OF ABC, 5 MILE LEGS, 5 MILE LEGS", Contradiction::two_legs));
}

TEST_CASE("clearance: the boundaries of a direction word", "[clearance][seam]") {
  // WEST is 270 +- 22.5, and 5 more are taken with a remark.
  struct Row {
    int radial;
    bool taken, remark;
  };
  for (const Row& row : {Row{248, true, false}, Row{292, true, false}, Row{247, true, true},
                         Row{293, true, true}, Row{243, true, true}, Row{297, true, true},
                         Row{242, false, false}, Row{298, false, false}}) {
    INFO(row.radial);
    const std::string text = "HOLD WEST OF ABC ON THE " + std::to_string(row.radial) + " RADIAL";
    CHECK(read_clearance(text).inbound_deg.has_value() == row.taken);
    CHECK(contradicts(text, Contradiction::direction_line) != row.taken);
    CHECK(doubts(text, Doubt::direction_edge) == row.remark);
  }
  CHECK(read_clearance("HOLD NORTH OF ABC ON THE 360 RADIAL").inbound_deg == 180.0);
  CHECK(read_clearance("HOLD NORTH OF ABC ON THE 000 RADIAL").inbound_deg == 180.0);
  CHECK(read_clearance("HOLD SOUTH OF ABC ON THE 180 RADIAL").inbound_deg == 360.0);
}

TEST_CASE("clearance: doubts, and what is taken all the same", "[clearance]") {
  ReadClearance r = read_clearance("HOLD WEST OF PLUTO ON THE 265 COURSE");
  CHECK(r.has(Doubt::course_outbound));
  CHECK(r.inbound_deg == 85.0);
  r = read_clearance("HOLD WEST OF XYZ NDB ON THE 085 BEARING");
  CHECK(r.has(Doubt::bearing_unclear));
  CHECK(r.inbound_deg == 85.0);
  CHECK(r.line_from_deg == 265.0);
  CHECK(read_clearance("HOLD WEST OF XYZ NDB ON THE 265 BEARING").inbound_deg == 85.0);
  CHECK_FALSE(read_clearance("HOLD AT XYZ NDB ON THE 265 BEARING").inbound_deg);
  // To or from is the same line here: the course is settled, the station is not.
  r = read_clearance("HOLD EAST OF THE 16 DME FIX ON THE 265 BEARING");
  CHECK(r.inbound_deg == 265.0);
  CHECK_FALSE(r.station);
  r = read_clearance("HOLD ON THE 265 RADIAL AT THE 16 DME FIX");
  CHECK(r.has(Doubt::direction_open));
  CHECK_FALSE(r.inbound_deg);
  r = read_clearance("INBOUND COURSE 265, HOLD AT THE 16 DME FIX ON THE 265 RADIAL, 5 MILE LEGS");
  CHECK(r.station == Station::Place::behind);
  CHECK(r.inbound_deg == 265.0);
  CHECK(r.outbound_end_dme_nm == 11.0);
  r = read_clearance("HOLD EAST OF THE 4 DME FIX ON THE 265 RADIAL, 5 MILE LEGS");
  CHECK(r.has(Doubt::leg_past_station));
  CHECK_FALSE(r.outbound_end_dme_nm);
  CHECK_FALSE(read_clearance("HOLD EAST OF THE 5 DME FIX ON THE 265 RADIAL, 5 MILE LEGS")
                  .outbound_end_dme_nm);
  r = read_clearance("HOLD WEST OF XYZ NDB ON THE 265 RADIAL");
  CHECK(r.has(Doubt::ndb_radial));
  CHECK(r.inbound_deg == 85.0);
  CHECK(doubts("HOLD WEST OF ABC ON THE 65 RADIAL", Doubt::short_direction));
  CHECK(doubts("HOLD WEST OF ABC ON THE 400 RADIAL", Doubt::bad_direction));
  CHECK(doubts("HOLD WEST OF ABC ON THE 265.5 RADIAL", Doubt::bad_direction));
  CHECK(doubts("HOLD WEST OF ABC ON THE 265 RADIAL EFC 2575", Doubt::bad_time));
  CHECK(doubts("HOLD WEST OF ABC ON THE 265 RADIAL EFC", Doubt::bad_time));
  CHECK(doubts("HOLD WEST OF ABC ON THE 265 RADIAL EFC 45", Doubt::bad_time));
  CHECK(doubts("HOLD WEST OF ABC, 500 MILE LEGS", Doubt::bad_leg));
  CHECK(doubts("HOLD WEST OF ABC, 5 LEGS", Doubt::bad_leg));
  CHECK(doubts("HOLD WEST OF ABC, MAXIMUM HOLDING AIRSPEED IS 2 KNOTS", Doubt::bad_speed));
  CHECK(doubts("HOLD WEST OF ABC ON THE 265 RADIAL, ABC 180 RADIAL", Doubt::spare_line));
  CHECK(doubts("WEST OF ABC ON THE 265 RADIAL", Doubt::no_hold));
  CHECK(doubts("HOLD WEST OF ABC", Doubt::no_line));
  CHECK(doubts("HOLD WEST OF THE 10 DME FIX ON THE 085 COURSE", Doubt::station_open));
  CHECK(doubts("good morning", Doubt::nothing));
  CHECK(doubts("", Doubt::nothing));
  // Half a number is not taken for another one.
  r = read_clearance("HOLD WEST OF ABC ON THE 2 65 RADIAL");
  CHECK_FALSE(r.heard.number_deg);
  CHECK(join(r.unread) == "2\n65\nRADIAL\n");
  CHECK_FALSE(read_clearance("HOLD WEST OF ABC ON THE TWO 65 RADIAL").heard.number_deg);
  CHECK_FALSE(read_clearance("HOLD WEST OF ABC TWO 65 RADIAL").heard.number_deg);
  CHECK_FALSE(read_clearance("HOLD ON THE 265 RADIAL OF ABC BETWEEN 20 AND 25 DME").heard.dme_nm);
  r = read_clearance("HOLD EAST OF ABC ON THE 090 RADIAL, TURN INBOUND AT 10 DME");
  CHECK(join(r.unread) == "TURN\nINBOUND\n10\n");
  CHECK(read_clearance("HOLD WEST OF ABC, 2 MINUTE OUTBOUND LEGS").heard.leg_is_outbound);
  CHECK_FALSE(read_clearance("HOLD WEST OF ABC, 2 MINUTE INBOUND LEGS").heard.leg_is_outbound);
  // A distance from a place is not the side to hold on.
  CHECK_FALSE(read_clearance("HOLD 5 MILES WEST OF ABC").heard.direction);
  r = read_clearance("NOVEMBER ONE TWO THREE, HOLD WEST OF ABC ON THE 265 RADIAL, MAINTAIN 4000");
  CHECK(join(r.unread) == "NOVEMBER\nONE\nTWO\nTHREE\nMAINTAIN\n4000\n");
  CHECK(r.inbound_deg == 85.0);
}

TEST_CASE("clearance: a published hold is held against the course set here", "[clearance]") {
  const std::string text = "CLEARED TO ABC, HOLD EAST, AS PUBLISHED";
  ReadClearance r = read_clearance(text, 265.0);
  CHECK(r.contradictions.empty());
  CHECK(r.has(Doubt::chart_has_it));
  CHECK_FALSE(r.inbound_deg);
  CHECK_FALSE(r.turns);
  CHECK(contains(join(decode_steps(r)), "265°, puts the pattern east of the fix and fits “EAST”"));
  r = read_clearance(text, 85.0);
  CHECK(r.has(Contradiction::direction_chart));
  CHECK(contains(join(decode_steps(r)), "does not fit “EAST”"));
  CHECK(read_clearance(text, 293.0).has(Doubt::direction_edge));
  CHECK_FALSE(read_clearance(text, std::nan("")).charted_inbound_deg);
  CHECK(read_clearance(text, 0.0).charted_inbound_deg == 360.0);
  CHECK(read_clearance("HOLD EAST OF ABC ON V12", 85.0).has(Contradiction::direction_chart));
  // A clearance with a course of its own does not care.
  CHECK(read_clearance("HOLD WEST OF ABC ON THE 265 RADIAL", 180.0).contradictions.empty());
}

TEST_CASE("clearance: the steps say the reader's own numbers", "[clearance]") {
  std::string s = steps(
      "HOLD WEST OF ABC ON THE 265 RADIAL, 5 MILE LEGS, LEFT TURNS, "
      "EXPECT FURTHER CLEARANCE 1845, TIME NOW 1812");
  CHECK(contains(s, "west of it, within 22.5° either way of 270°"));
  CHECK(contains(s, "265° − 180 = 085°"));
  CHECK(contains(s, "commonest first mistake is to take the 265 radial for the inbound course"));
  CHECK(contains(s, "Left turns were said: nonstandard"));
  CHECK(contains(s, "18:45 UTC"));
  CHECK(contains(s, "18:12, so the wait is 33 min"));
  s = steps("HOLD EAST OF THE 20 DME FIX ON THE 265 RADIAL, 5 MILE LEGS");
  CHECK(contains(s, "between the fix and the station"));
  CHECK(contains(s, "the 265 radial itself, 265°"));
  CHECK(contains(s, "reverse it by habit"));
  CHECK_FALSE(contains(s, "commonest first mistake"));
  CHECK(contains(s, "20 − 5 = 15"));
  s = steps("HOLD NORTHEAST OF THE 16 DME FIX ON THE 030 RADIAL, 5 MILE LEGS");
  CHECK(contains(s, "beyond the fix, away from the station"));
  CHECK(contains(s, "030° + 180 = 210°"));
  CHECK(contains(s, "16 + 5 = 21"));
  s = steps("HOLD WEST OF PLUTO ON THE 085 COURSE, MAXIMUM HOLDING AIRSPEED IS 210 KNOTS");
  CHECK(contains(s, "the course 085 is taken as the inbound course"));
  CHECK_FALSE(contains(s, "mistake"));
  CHECK(contains(s, "210 kt"));
  CHECK(steps("good morning").empty());
  CHECK(decode_steps(read_clearance("HOLD")).size() == 6);
}

TEST_CASE("clearance: a remark is made once, and so many of a kind", "[clearance]") {
  std::string many = "HOLD WEST OF ABC ON THE 265 RADIAL";
  for (int i = 0; i < 60; ++i) many += " R-" + std::to_string(i + 1) + " R-7";
  const ReadClearance r = read_clearance(many);
  std::map<Doubt, int> of_kind;
  std::set<std::string> texts;
  for (const Remark<Doubt>& p : r.problems) {
    CHECK(++of_kind[p.kind] <= kMostRemarks);
    CHECK(texts.insert(p.text).second);
  }
  CHECK(of_kind[Doubt::short_direction] == kMostRemarks);
  CHECK(r.has(Doubt::no_efc));
  CHECK(r.inbound_deg == 85.0);
}

TEST_CASE("clearance: composed as it is said", "[clearance]") {
  ClearanceSpec s;
  s.inbound_deg = 85.0;
  s.turns = Side::left;
  s.leg = Leg{Leg::Kind::distance, 5.0};
  s.fix = "abc";
  s.efc_min = 18 * 60 + 45;
  CHECK(compose_clearance(s) ==
        "HOLD WEST OF ABC ON THE 265 RADIAL, 5 MILE LEGS, LEFT TURNS, "
        "EXPECT FURTHER CLEARANCE 1845.");
  CHECK(compose_clearance(s, Figures::spoken) ==
        "HOLD WEST OF ABC ON THE TWO SIX FIVE RADIAL, FIVE MILE LEGS, LEFT TURNS, "
        "EXPECT FURTHER CLEARANCE ONE EIGHT FOUR FIVE.");
  s.published = true;
  CHECK(compose_clearance(s) ==
        "CLEARED TO ABC, HOLD WEST, AS PUBLISHED, EXPECT FURTHER CLEARANCE 1845.");
  s = {};
  s.inbound_deg = 265.0;
  s.station = Station::Place::behind;
  s.dme_nm = 20.0;
  s.station_name = "ABC";
  s.leg = Leg{Leg::Kind::time, 90.0};
  s.max_ias_kt = 210.0;
  s.say_right_turns = true;
  CHECK(compose_clearance(s) ==
        "HOLD EAST OF THE 20 DME FIX ON THE ABC 265 RADIAL, 1.5 MINUTE LEGS, RIGHT TURNS, "
        "MAXIMUM HOLDING AIRSPEED IS 210 KNOTS.");
  s.aid = Aid::ndb;
  s.leg.reset();
  s.max_ias_kt.reset();
  s.say_right_turns = false;
  CHECK(compose_clearance(s) == "HOLD EAST OF THE 20 DME FIX ON THE 265 BEARING FROM THE ABC NDB.");
  s.aid = Aid::satellite;
  s.fix = "PLUTO";
  CHECK(compose_clearance(s) == "HOLD EAST OF THE PLUTO WAYPOINT ON THE 265 COURSE.");
  s.aid = Aid::vor;
  for (const double bad : {0.0, -5.0, 200.0, std::nan("")}) {
    s.dme_nm = bad;
    CHECK(compose_clearance(s).empty());
  }
  s.station = Station::Place::at_fix;
  CHECK(compose_clearance(s) == "HOLD EAST OF PLUTO ON THE 085 RADIAL.");
  s.leg = Leg{Leg::Kind::time, 1e9};
  s.efc_min = 1440;
  s.max_ias_kt = std::nan("");
  CHECK(compose_clearance(s) == "HOLD EAST OF PLUTO ON THE 085 RADIAL.");
  s.inbound_deg = std::nan("");
  CHECK(compose_clearance(s).empty());
}

TEST_CASE("clearance: as JSON", "[clearance]") {
  Json j;
  write_clearance(j, read_clearance("HOLD NORTHEAST OF THE 16 DME FIX ON THE 030 RADIAL, "
                                    "5 MILE LEGS, EFC 1845, EH"));
  CHECK(test::json_fault(j.str()) == "");
  for (const char* part :
       {"\"inbound_deg\":210,", "\"turns\":\"right\"", "\"leg_s\":null,\"leg_nm\":5,",
        "\"station\":\"ahead\"", "\"outbound_end_dme_nm\":21,", "\"efc\":\"18:45\"",
        "\"unread\":[\"EH\"]", "\"direction\":\"northeast\"", "\"link\":\"inbound=210&"}) {
    INFO(part);
    CHECK(contains(j.str(), part));
  }
}

TEST_CASE("clearance: every kind has its name", "[clearance][words]") {
  for (int i = 0; i < kContradictions; ++i) {
    CHECK_FALSE(name_of(static_cast<Contradiction>(i)).empty());
  }
  for (int i = 0; i < kDoubts; ++i) CHECK_FALSE(name_of(static_cast<Doubt>(i)).empty());
  CHECK(name_of(Contradiction::two_legs) == "two_legs");
  CHECK(name_of(Doubt::bad_speed) == "bad_speed");
}
