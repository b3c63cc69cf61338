// Whole answers, field by field, as they were when they were last read: of links, hand-flown
// entries, clearances and wind reports. A field that goes missing, changes its name, or has another
// number without anybody wanting it is noticed. What tells why a number is right are the tests of
// its subject. Written anew as the other golden files: tests/golden_test.cpp.
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <string>

#include "core/clearance.h"
#include "core/cloud.h"
#include "core/debrief.h"
#include "core/evaluate.h"
#include "core/hand_flown.h"
#include "core/sensitivity.h"
#include "core/wind_report.h"
#include "tests/golden.h"

using namespace core;

namespace {

constexpr char kGolden[] =
#include "tests/golden/answers.inc"
    ;

// Invented, so that each part of an answer is in one of them, and each of its reasons not to be.
constexpr const char* kLinks[] = {
    "",
    "inbound=220&turns=left&wind=310/35&book=icao&roll=5",
    "entry=parallel&wind=050/20&tas=120&parallel=fix",
    "entry=direct&arrive=80&wind=180/25&laps=3&multiple=exact&adjust=ratio",
    "leg=5nm&measure=dme&station=10to&altitude=9000&wind=270/40",
    "leg=4nm&station=12from&radial=100&wind=200/15&entry=direct&laps=2",
    "wind=000/0&timing=groundspeed",
    "inbound=10&wind=100/60&ias=90",
    "wind=187/150",
    "later=300/30&wind=240/20&roll=8&laps=4&adjust=exact",
    "heading=080&time=1:25&intercept=45&timer=level&took=1:20",
    "took=0:50&saw=0.4&held=8L&wind=210/28",
    "inbound=270&arrive=360&wind=180/130&heading=300&time=0:40",
};

struct Flown {
  int link;            ///< in kLinks
  double off_deg;      ///< every heading is so far off
  double late_s;       ///< every turn begins so late
  double clock_s;      ///< the stopwatch, from the fix; NaN: never
  double until_share;  ///< of the planned flight
};
constexpr double kNever = std::numeric_limits<double>::quiet_NaN();
constexpr Flown kFlown[] = {
    {0, 0.0, 0.0, 0.7, 1.0},   {0, 14.0, 12.0, 0.2, 1.0}, {1, -12.0, -8.0, -6.0, 1.0},
    {2, 3.0, 9.0, 25.0, 1.0},  {3, -4.0, 4.0, 12.0, 1.0}, {6, 0.0, 30.0, kNever, 1.0},
    {4, 6.0, -3.0, 0.0, 1.0},  {9, 0.0, 5.0, 11.0, 0.45}, {0, 90.0, 0.0, 0.0, 0.2},
    {12, 2.0, 3.0, 2.0, 20.0},
};

struct Heard {
  const char* text;
  double charted_deg;  ///< 0: none
};
constexpr Heard kClearances[] = {
    {"HOLD WEST OF XYZ NDB ON THE 085 BEARING TO THE BEACON", 0.0},
    {"HOLD EAST OF THE PELDA 20.5 DME FIX ON THE ABC 265 RADIAL, 4 MILE LEGS", 0.0},
    {"CLEARED TO ABC VOR, HOLD EAST AS PUBLISHED, EFC 0015Z", 90.0},
    {"HOLD NORTH OF ABC ON THE 265 RADIAL LEFT TURNS RIGHT TURNS 1 MINUTE 4 MILE LEGS", 0.0},
    {"HOLD WEST OF ABC ON VICTOR TWELVE, LEFT TURNS, MAXIMUM 210 KNOTS", 238.0},
    {"hold north on radial three six zero five mile legs expect further clearance at one eight "
     "four five time now one eight two zero",
     0.0},
    {"HOLD AT ABC INBOUND TRACK 085 DEGREES LEFT TURNS OUTBOUND TIME 1 MINUTE", 0.0},
    {"HOLD WEST OF ABC ON THE LOCALIZER COURSE, RIGHT TURNS", 0.0},
    {"HOLD NORTH OF ABC ON TANGO 265, 2 MINUTE LEGS", 180.0},
    {"HOLD SOUTH OF LOKVA, TANGO 265", 360.0},
    {"what a fine day, 999 999 R-", 0.0},
};

struct Reported {
  const char* kind;
  double altitude_ft, variation_east_deg;
  const char* text;
};
constexpr Reported kReports[] = {
    {"winds-aloft", 7500.0, 7.0, "FT 3000 6000 9000 12000\nXYZ 2414 2523+04 2630-01 2735-08"},
    {"winds-aloft", 4000.0, 0.0, "9900+12"},
    {"auto", 31000.0, 12.0, "731960"},
    {"metar", 4000.0, 7.0, "METAR KXYZ 141853Z 24018G25KT 210V280 10SM FEW040 18/09 A3001"},
    {"metar", 3000.0, 0.0, "KXYZ 141853Z VRB04KT 10SM"},
    {"metar", 3000.0, 0.0, "KXYZ 141853Z 37018KT P99KT /////KT 240182KT"},
    {"auto", 4000.0, -3.5, "UXYZ 141830Z 06005MPS 030V090 9999 BKN020 Q1009="},
    {"taf", 4000.0, 7.0,
     "TAF KXYZ 141720Z 1418/1524 24012KT P6SM SKC FM142200 27018G28KT P6SM TEMPO 1500/1504 "
     "VRB15KT BECMG 1506/1508 31008KT WS020/24045KT"},
    {"atis", 4000.0, 7.0, "INFORMATION KILO WIND TWO FOUR ZERO AT ONE EIGHT GUSTS TWO FIVE"},
    {"tower", 4000.0, 7.0, "wind 240 at 18 gust 25"},
    {"station-phone", 4000.0, 7.0, "wind two four zero at one eight"},
    {"tower", 4000.0, 0.0, "wind 240 at 0 gust 1"},
    {"sonde", 4000.0, 0.0, "240/18"},
};

/// The planned flight of a link as a hand might fly it.
std::string debriefed(const Flown& flown) {
  const Setup u = make_setup(parse_link(kLinks[flown.link]).scenario);
  Flight flight;
  fly_scenario(u, flight);
  HandFlown hand(u);
  bool clocked = std::isnan(flown.clock_s);
  for (int i = 0; i < flight.track.size(); ++i) {
    const Segment& s = flight.track[i];
    const double at_s = s.start_s + flown.late_s;
    if (!clocked && at_s > flown.clock_s) {
      hand.clock(flown.clock_s);
      clocked = true;
    }
    if (s.straight() || s.duration_s < 1e-9) continue;
    const double to =
        i + 1 < flight.track.size() ? flight.track[i + 1].heading_deg : s.heading_at(s.duration_s);
    hand.bug(at_s, to + flown.off_deg, s.rate_deg_s > 0.0 ? Way::right : Way::left);
  }
  if (flight.stop != Stop::none) {
    hand.bug(3.0, u.hold.outbound_course_deg(), Way::right);
    hand.bug(75.0, u.scenario.inbound_course_deg, Way::left);
  }
  const double end_s =
      flight.track.start_s() + flown.until_share * (flight.track.end_s() - flight.track.start_s());
  Json json;
  write_debrief(json, u, debrief(u, hand, end_s + 1.0));
  return json.take();
}

/// A field a line. Of the sentences of links, which tests/golden_test.cpp has, only that they are
/// there.
void add_lines(std::string& out, const std::string& json, bool sentences) {
  std::string line;
  const auto end_line = [&] {
    if (!line.empty()) out += line + '\n';
    line.clear();
  };
  for (std::size_t at = 0; at < json.size(); ++at) {
    const char c = json[at];
    if (c == '"') {
      const std::size_t begin = at++;
      while (json[at] != '"') at += json[at] == '\\' ? 2 : 1;
      const std::string text = json.substr(begin, at + 1 - begin);
      line += sentences || text.find(' ') == std::string::npos ? text : "\"…\"";
    } else if ((c >= '0' && c <= '9') || c == '-') {
      char* end = nullptr;
      const double number = std::strtod(json.c_str() + at, &end);
      at = static_cast<std::size_t>(end - json.c_str()) - 1;
      char shown[40];
      std::snprintf(shown, sizeof shown, "%.7g", number);
      line += shown;
    } else if (c == ',') {
      end_line();
    } else {
      line += c;
    }
  }
  end_line();
}

std::string answers() {
  std::string out;
  for (const char* link : kLinks) {
    const ParsedLink read = parse_link(link);
    ReportParts parts;
    parts.study = true;
    out += std::string("== link ") + link + "\n";
    add_lines(out, evaluate(work_out(read.scenario), read.problems, parts), false);
  }
  for (const char* link : {kLinks[0], kLinks[1], kLinks[8]}) {
    const Scenario scenario = parse_link(link).scenario;
    const Setup u = make_setup(scenario);
    out += std::string("== cloud and sensitivity ") + link + "\n";
    Cloud cloud;
    cloud.set(u, Cloud::kUsual, 7U);
    cloud.fly_more(400);
    cloud.share_more(100);
    add_lines(out, cloud_json(cloud, 0.25), true);
    add_lines(out, sensitivity_json(u), true);
  }
  for (const Flown& flown : kFlown) {
    out += std::string("== flown ") + kLinks[flown.link] + "\n";
    add_lines(out, debriefed(flown), true);
  }
  for (const Heard& heard : kClearances) {
    Json json;
    write_clearance(json, heard.charted_deg > 0.0 ? read_clearance(heard.text, heard.charted_deg)
                                                  : read_clearance(heard.text));
    out += std::string("== clearance ") + heard.text + "\n";
    add_lines(out, json.take(), true);
  }
  for (const Reported& r : kReports) {
    Json json;
    write_wind_report(json, read_wind_report(r.kind, r.text, r.altitude_ft, r.variation_east_deg));
    out += std::string("== report ") + r.kind + "\n";
    add_lines(out, json.take(), true);
  }
  return out;
}

/// The same field with the same value. Sines differ in their last bits from one machine to
/// another, and a solver ends where its tolerance lets it.
bool alike(const std::string& a, const std::string& b) {
  if (a == b) return true;
  const std::size_t colon = a.rfind(':');
  if (colon == std::string::npos || a.compare(0, colon, b, 0, b.rfind(':')) != 0) return false;
  char* end_a = nullptr;
  char* end_b = nullptr;
  const double x = std::strtod(a.c_str() + colon + 1, &end_a);
  const double y = std::strtod(b.c_str() + colon + 1, &end_b);
  const bool numbers = end_a != a.c_str() + colon + 1 && end_b != b.c_str() + colon + 1;
  return numbers && std::string(end_a) == end_b &&
         std::abs(x - y) <= 1e-6 + 1e-5 * std::fmax(std::abs(x), std::abs(y));
}

}  // namespace

TEST_CASE("golden answers: every field is as it was when it was last read", "[json][golden]") {
  test::must_be_golden(answers(), kGolden, 3000, "== ", alike);
}

TEST_CASE("golden answers: what is alike and what is not", "[json][golden]") {
  CHECK(alike("\"time_s\":60.00001", "\"time_s\":60.0000"));
  CHECK(alike("\"cross_nm\":-1e-12}", "\"cross_nm\":0}"));
  CHECK_FALSE(alike("\"time_s\":60.01", "\"time_s\":60"));
  CHECK_FALSE(alike("\"time_s\":60", "\"time\":60"));
  CHECK_FALSE(alike("\"time_s\":60}", "\"time_s\":60"));
  CHECK_FALSE(alike("\"time_s\":null", "\"time_s\":0"));
}

TEST_CASE("write the golden answers", "[.golden-write]") {
  test::write_golden("answers.inc", answers());
}
