// The link's language: every key good, bad and at its bounds.
#include <catch2/catch_test_macros.hpp>

#include "core/scenario.h"
#include "core/scenario_keys.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// A link that is taken without a word, and gives `same` in canonical form.
void taken(const std::string& link, const std::string& same) {
  const ParsedLink p = parse_link(link);
  INFO(link);
  CHECK(p.problems.empty());
  CHECK(write_link(p.scenario) == same);
}

/// A link with one bad value: named by key, everything else kept.
void refused(const std::string& key, const std::string& value) {
  const std::string others = key == "laps" ? "bank=20" : "laps=2";
  const ParsedLink p = parse_link(others + "&" + key + "=" + value + "&intercept=45");
  INFO(key << "=" << value);
  REQUIRE(p.problems.size() == 1);
  CHECK(p.problems[0].key == key);
  CHECK(p.problems[0].message.find(key) != std::string::npos);
  CHECK(write_link(p.scenario) == (key == "laps"        ? "bank=20&intercept=45"
                                   : key == "intercept" ? "intercept=45&laps=2"
                                                        : "intercept=45&laps=2"));
}

}  // namespace

TEST_CASE("link: nothing is the opening scene", "[link]") {
  for (const char* empty : {"", "?", "#", "?#", "&", "&&&", "?&#"}) taken(empty, "");
  CHECK(write_link(Scenario{}).empty());
}

TEST_CASE("link: every key takes what the design allows", "[link]") {
  taken("inbound=90", "inbound=90");
  taken("inbound=090", "inbound=90");
  taken("inbound=0", "inbound=360");
  taken("inbound=000", "inbound=360");
  taken("inbound=360", "inbound=360");
  taken("inbound=0.000001", "inbound=0.000001");
  taken("inbound=238", "");
  taken("turns=right", "turns=right");
  taken("turns=left", "");
  taken("leg=1:00", "leg=1:00");
  taken("leg=60", "leg=1:00");
  taken("leg=0:15", "leg=0:15");
  taken("leg=10:00", "leg=10:00");
  taken("leg=4nm", "leg=4nm");
  taken("leg=4NM", "leg=4nm");
  taken("leg=0.5nm", "leg=0.5nm");
  taken("leg=50nm", "leg=50nm");
  taken("leg=", "");
  taken("altitude=-1000", "altitude=-1000");
  taken("altitude=45000", "altitude=45000");
  taken("ias=40", "ias=40");
  taken("ias=350", "ias=350");
  taken("ias=105", "");
  taken("tas=40", "tas=40");
  taken("tas=350", "tas=350");
  taken("isa=+10", "isa=+10");
  taken("isa=%2B10", "isa=+10");
  taken("isa=-60", "isa=-60");
  taken("isa=60", "isa=+60");
  taken("bank=5", "bank=5");
  taken("bank=60", "bank=60");
  taken("wind=310/22", "wind=310/22");
  taken("wind=015/40", "wind=15/40");
  taken("wind=15/40", "wind=15/40");
  taken("wind=0/5", "wind=360/5");
  taken("wind=360/0", "wind=360/0");
  taken("wind=360/150", "wind=360/150");
  taken("wind=310%2F22", "wind=310/22");
  taken("wind=10.5/22,25", "wind=10.5/22.25");
  taken("windref=true", "windref=true");
  taken("windref=magnetic", "");
  taken("variation=7E", "variation=7E");
  taken("variation=7e", "variation=7E");
  taken("variation=12.5W", "variation=12.5W");
  taken("variation=180W", "variation=180W");
  taken("variation=0", "");
  taken("variation=0W", "");
  taken("arrive=60", "arrive=60");
  taken("arrive=0", "arrive=360");
  taken("entry=auto", "");
  taken("entry=offset", "entry=offset");
  taken("entry=parallel", "entry=parallel");
  taken("entry=direct", "entry=direct");
  taken("entry=", "");
  taken("heading=94", "heading=94");
  taken("heading=0", "heading=360");
  taken("heading=", "");
  taken("rule=still-air", "rule=still-air");
  taken("rule=drift-once", "");
  taken("rule=track-30", "rule=track-30");
  taken("rule=drift-triple", "rule=drift-triple");
  taken("time=1:00", "time=1:00");
  taken("time=0", "time=0:00");
  taken("time=10:00", "time=10:00");
  taken("time=65.5", "time=1:05.5");
  taken("time=", "");
  taken("timing=fixed", "");
  taken("timing=groundspeed", "timing=groundspeed");
  taken("timer=level", "timer=level");
  taken("timer=fix", "");
  taken("multiple=0", "multiple=0");
  taken("multiple=2.5", "multiple=2.5");
  taken("multiple=10", "multiple=10");
  taken("intercept=5", "intercept=5");
  taken("intercept=90", "intercept=90");
  taken("laps=0", "");
  taken("laps=10", "laps=10");
  taken("v=1", "");
  taken("v=1&inbound=10", "inbound=10");
}

TEST_CASE("link: every key refuses the rest by name and keeps the others", "[link]") {
  for (const char* bad : {"-1", "361", "360.000001", "abc", "", "9O", "1e2", "nan", "1/2", "%00"}) {
    refused("inbound", bad);
    refused("arrive", bad);
  }
  for (const char* bad : {"-1", "361", "x", "north"}) refused("heading", bad);
  for (const char* bad : {"", "Left", "LEFT", "l", "both", "right "}) {
    if (std::string(bad) != "right ") refused("turns", bad);
  }
  for (const char* bad :
       {"0:14", "10:01", "14.9", "0", "0.4nm", "51nm", "nm", "-4nm", "4km", "1:60"}) {
    refused("leg", bad);
  }
  for (const char* bad : {"-1001", "45001", "FL100", ""}) refused("altitude", bad);
  for (const char* bad : {"39.9", "350.1", "0", "-100", "fast", ""}) {
    refused("ias", bad);
    refused("tas", bad);
  }
  for (const char* bad : {"-60.1", "61", "+-1", ""}) refused("isa", bad);
  for (const char* bad : {"4.9", "60.1", "90", ""}) refused("bank", bad);
  for (const char* bad : {"310", "310/", "/22", "/", "310/151", "310/-1", "361/10", "-1/10", "a/b",
                          "310/22/1", "VRB/05", ""}) {
    refused("wind", bad);
  }
  for (const char* bad : {"TRUE", "mag", "", "yes"}) refused("windref", bad);
  for (const char* bad : {"7", "-7", "7N", "E", "181E", "-7E", "7EE", ""})
    refused("variation", bad);
  for (const char* bad : {"teardrop", "Offset", "none"}) refused("entry", bad);
  for (const char* bad : {"", "drift", "Drift-once"}) refused("rule", bad);
  for (const char* bad : {"-1", "10:01", "601", "x", "1:75"}) refused("time", bad);
  for (const char* bad : {"", "Fixed"}) refused("timing", bad);
  for (const char* bad : {"", "abeam"}) refused("timer", bad);
  for (const char* bad : {"-0.1", "10.1", ""}) refused("multiple", bad);
  for (const char* bad : {"4.9", "90.1", ""}) refused("intercept", bad);
  for (const char* bad : {"-1", "11", "1.5", "two", ""}) refused("laps", bad);
}

TEST_CASE("link: order does not matter, hash and question mark neither", "[link]") {
  const std::string canonical = "inbound=90&turns=right&wind=310/22&arrive=60&laps=2";
  taken("laps=2&arrive=60&wind=310/22&turns=right&inbound=90", canonical);
  taken("?laps=2&arrive=60#wind=310/22&turns=right&inbound=90", canonical);
  taken("#" + canonical, canonical);
  taken("inbound= 90 ", "inbound=90");
}

TEST_CASE("link: of a key given twice the last counts", "[link]") {
  taken("inbound=90&inbound=100", "inbound=100");
  taken("?inbound=90#inbound=100", "inbound=100");
  taken("later=300/30&later=", "");
  // A bad repeat falls back to the default, a good one after a bad one is used.
  CHECK(parse_link("inbound=90&inbound=x").scenario.inbound_course_deg == 238.0);
  const ParsedLink p = parse_link("inbound=x&inbound=90&inbound=y&inbound=100");
  CHECK(p.scenario.inbound_course_deg == 100.0);
  CHECK(p.problems.size() == 1);
}

TEST_CASE("link: percent-encoding, and what only looks like it", "[link]") {
  taken("%69nbound=9%30", "inbound=90");
  taken("wind=310%2f22", "wind=310/22");
  for (const char* bad : {"inbound=9%3", "inbound=9%", "inbound=9%zz", "inbound=%2590"}) {
    const ParsedLink p = parse_link(bad);
    REQUIRE(p.problems.size() == 1);
    CHECK(p.problems[0].key == "inbound");
  }
  // An encoded & or = belongs to the value.
  CHECK(parse_link("inbound=90%26laps=2").problems.size() == 1);
  CHECK(parse_link("inbound%3D90").problems.size() == 1);
}

TEST_CASE("link: what is written is read back, 100,000 times", "[link][property]") {
  test::Random r(1001);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const Scenario s = test::any_scenario(r);
    const std::string link = write_link(s);
    const ParsedLink p = parse_link(link);
    tally.check(p.problems.empty(), [&] { return link + " -> " + p.problems[0].message; });
    tally.check(p.scenario == s, [&] { return link + " -> " + write_link(p.scenario); });
    tally.check(write_link(p.scenario) == link, [&] { return link; });
    tally.check(link.size() < 600, [&] { return link; });
  }
  tally.settle(400000);
}

TEST_CASE("link: one key at a time gives the same scenario", "[link][property]") {
  test::Random r(1002);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::random_scenario(r);
    Scenario built;
    Problem problem;
    for (std::size_t k = 0; k < key_count(); ++k) {
      const std::string value = value_text(s, key_name(k));
      if (value.empty() && (key_name(k) == "ias" || key_name(k) == "tas")) continue;
      const bool ok = set_value(built, key_name(k), value, problem);
      // Altitude comes before the airspeed that goes with it.
      if (!ok && key_name(k) == "altitude") continue;
      tally.check(ok, [&] { return test::named(s) + " " + problem.message; });
    }
    built.altitude_ft = s.altitude_ft;
    tally.check(built == s, [&] { return test::named(s) + " " + test::named(built); });
  }
  tally.settle(300000);
}

TEST_CASE("link: the book fills what the link leaves open, wherever it stands", "[link][book]") {
  for (const char* link : {"book=icao", "?book=icao", "laps=0&book=icao"}) {
    const Scenario s = parse_link(link).scenario;
    INFO(link);
    CHECK(s.rule == HeadingRule::track_30);
    CHECK(s.bank_limit_deg == 25.0);
    CHECK(write_link(s) == "book=icao");
  }
  CHECK(parse_link("book=icao&rule=still-air&bank=30").scenario.rule == HeadingRule::still_air);
  CHECK(parse_link("bank=30&book=icao").scenario.bank_limit_deg == 30.0);
  CHECK(parse_link("book=icao&rule=nonsense").scenario.rule == HeadingRule::track_30);
  CHECK(write_link(parse_link("rule=drift-once&book=icao").scenario) ==
        "rule=drift-once&book=icao");
  // Changing the book changes what the other book had said, and nothing else.
  Scenario s;
  Problem problem;
  REQUIRE(set_value(s, "book", "icao", problem));
  CHECK(s == default_scenario(Rulebook::icao));
  s.rule = HeadingRule::still_air;
  REQUIRE(set_value(s, "book", "faa", problem));
  CHECK(s.rule == HeadingRule::still_air);
  CHECK(s.bank_limit_deg == 30.0);
}

TEST_CASE("link: stations, fixes, clocks and what was seen", "[link]") {
  const Scenario s =
      parse_link("station=28from&fix=elm%20ridge&efc=1845&held=8L&saw=-0.4&took=0:50&limit=175")
          .scenario;
  CHECK(s.station.place == Station::Place::behind);
  CHECK(s.station.dme_nm == 28.0);
  CHECK(value_text(s, "fix") == "ELM RIDGE");
  CHECK(value_text(s, "efc") == "18:45");
  CHECK(s.seen.wca_deg == -8.0);
  CHECK(s.seen.cross_nm == -0.4);
  CHECK(s.seen.inbound_s == 50.0);
  CHECK(s.speed_rule == SpeedRule::faa_charted);
  CHECK(s.charted_kias == 175.0);
  // What stands instead of a value that no key needs is nothing; of others the page has its own.
  const auto ends = [](const char* link, const char* end) {
    const ParsedLink p = parse_link(link);
    return p.problems.size() == 1 && p.problems[0].message.ends_with(end);
  };
  CHECK(ends("efc=24:00", "Used instead: nothing."));
  CHECK(ends("radial=west", "Used instead: nothing."));
  CHECK(ends("time=long", "Used instead: the automatic value."));
  for (const char* bad : {"station=28", "station=0.5to", "efc=24:00", "efc=184", "efc=18:4",
                          "held=8", "held=61L", "roll=0.5", "limit=faa-charted", "limit=59",
                          "later=360", "fix=a_b", "fix=thirteen chars", "saw=21"}) {
    INFO(bad);
    const ParsedLink p = parse_link(bad);
    CHECK(p.problems.size() == 1);
    CHECK(p.scenario == Scenario{});
  }
}

TEST_CASE("link: a version is told once, and the last counts", "[link]") {
  std::string many = "wind=200/20";
  for (int i = 2; i < 60; ++i) many += "&v=" + std::to_string(i);
  const ParsedLink read = parse_link(many);
  REQUIRE(read.problems.size() == 1);
  CHECK(read.problems[0].key == "v");
  CHECK(read.problems[0].message.find("59") != std::string::npos);
  CHECK(read.scenario.wind_from_deg == 200.0);
  CHECK(parse_link(many + "&v=1").problems.empty());
}

TEST_CASE("link: a field is told once, however often it was wrong, with its last wrong value",
          "[link]") {
  std::string many;
  for (int i = 0; i < 60; ++i) many += "leg=4nm&leg=" + std::to_string(i) + "nnm&";
  const ParsedLink read = parse_link(many + "wind=200/20&leg=5nm");
  REQUIRE(read.problems.size() == 1);
  CHECK(read.problems[0].key == "leg");
  CHECK(read.problems[0].message.find("59nnm") != std::string::npos);
  CHECK(read.scenario == parse_link("wind=200/20&leg=5nm").scenario);
}

TEST_CASE("link: what a key said before leaves nothing behind when it says something else",
          "[link]") {
  // A field of the page changes one key after another: the link has the last word of each, so the
  // scene may have no more than that.
  const std::vector<std::string> texts = {
      "0",     "1",    "2.5",   "5",     "30",    "45",      "90",        "238",         "exact",
      "keep",  "left", "right", "1:00",  "1:30",  "2:34",    "4nm",       "7E",          "4W",
      "true",  "auto", "faa",   "icao",  "fix",   "level",   "fixed",     "groundspeed", "offset",
      "ratio", "vor",  "ndb",   "dme",   "radar", "direct",  "still-air", "drift-once",  "track-30",
      "10to",  "8L",   "-0.3",  "TARNE", "18:45", "160/24",  "250/30",    "20from",      "parallel",
      "10/5",  "3R",   "none",  "off",   "time",  "seconds", "magnetic",  "drift-triple"};
  int pairs = 0;
  for (const ScenarioKey& key : scenario_keys()) {
    for (const std::string& before : texts) {
      Scenario twice;
      if (!key.read(before, twice)) continue;
      for (const std::string& after : texts) {
        Scenario once;
        if (!key.read(after, once)) continue;
        Scenario changed = twice;
        REQUIRE(key.read(after, changed));
        INFO(key.name << "=" << before << ", then " << after);
        CHECK(changed == once);
        ++pairs;
      }
    }
  }
  CHECK(pairs > 1000);
}
