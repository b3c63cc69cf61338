// What the link's language says when something cannot be used.
#include <catch2/catch_test_macros.hpp>

#include "core/scenario.h"
#include "core/words.h"
#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

bool says(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

Problem only_problem(const std::string& link) {
  const ParsedLink p = parse_link(link);
  INFO(link);
  REQUIRE(p.problems.size() == 1);
  return p.problems[0];
}

}  // namespace

TEST_CASE("problems: the message names key, value, what is allowed and what was used",
          "[link][problems]") {
  const Scenario defaults;
  const std::string bad = "zz_z";  // not even a name of a fix
  for (std::size_t i = 0; i < key_count(); ++i) {
    const std::string key(key_name(i));
    const Problem p = only_problem(key + "=" + bad);
    INFO(p.message);
    CHECK(p.key == key);
    CHECK(says(p.message, key));
    CHECK(says(p.message, bad));
    CHECK(says(p.message, word("core.allowed." + key)));
    const std::string used = value_text(defaults, key);
    if (!used.empty()) CHECK(says(p.message, used));
  }
}

TEST_CASE("problems: a bad airspeed names the airspeed that is used", "[link][problems]") {
  // A bad TAS leaves the opening IAS; the message says so.
  CHECK(says(only_problem("tas=999").message, "105"));
  CHECK(says(only_problem("ias=999").message, "105"));
  // One bad airspeed beside a good one: the good one is kept, whatever the order.
  for (const char* link : {"tas=150&ias=999", "ias=999&tas=150"}) {
    const ParsedLink p = parse_link(link);
    INFO(link);
    CHECK(p.scenario.speed_is_tas);
    CHECK(p.scenario.speed_kt == 150.0);
    REQUIRE_FALSE(p.problems.empty());
    CHECK(p.problems[0].key == "ias");
    CHECK(says(p.problems[0].message, "150"));
  }
  const ParsedLink p = parse_link("ias=90&tas=x");
  CHECK_FALSE(p.scenario.speed_is_tas);
  CHECK(p.scenario.speed_kt == 90.0);
}

TEST_CASE("problems: both airspeeds, the last one is used", "[link][problems]") {
  const ParsedLink t = parse_link("ias=90&tas=120");
  CHECK(t.scenario.speed_is_tas);
  CHECK(t.scenario.speed_kt == 120.0);
  REQUIRE(t.problems.size() == 1);
  CHECK(t.problems[0].key == "ias");
  CHECK(says(t.problems[0].message, "tas"));
  const ParsedLink i = parse_link("tas=120&ias=90");
  CHECK_FALSE(i.scenario.speed_is_tas);
  CHECK(i.scenario.speed_kt == 90.0);
  REQUIRE(i.problems.size() == 1);
  CHECK(i.problems[0].key == "tas");
}

TEST_CASE("problems: faster than sound", "[link][problems]") {
  const Problem p = only_problem("ias=350&altitude=45000");
  CHECK(p.key == "ias");
  CHECK(says(p.message, "350"));
  CHECK(says(p.message, "45000"));
  CHECK(says(p.message, "105"));
  CHECK(parse_link("ias=350&altitude=45000").scenario.altitude_ft == 45000.0);
  CHECK(parse_link("altitude=45000&ias=350").scenario.speed_kt == 105.0);
  CHECK(parse_link("tas=350&altitude=45000").problems.empty());
  CHECK(parse_link("ias=350&altitude=30000").problems.empty());
  Scenario s;
  Problem problem;
  REQUIRE(set_value(s, "altitude", "45000", problem));
  CHECK_FALSE(set_value(s, "ias", "350", problem));
  CHECK(problem.key == "ias");
  CHECK(s.speed_kt == 105.0);
  Scenario fast;
  REQUIRE(set_value(fast, "ias", "350", problem));
  CHECK_FALSE(set_value(fast, "altitude", "45000", problem));
  CHECK(problem.key == "altitude");
  CHECK(says(problem.message, "4000"));  // what is still used
  CHECK(fast.altitude_ft == 4000.0);
}

TEST_CASE("problems: unknown keys and versions", "[link][problems]") {
  const Problem u = only_problem("colour=blue&laps=2");
  CHECK(u.key == "colour");
  CHECK(says(u.message, "colour"));
  CHECK(parse_link("colour=blue&laps=2").scenario.laps == 2);
  CHECK(only_problem("Inbound=90").key == "Inbound");
  CHECK(only_problem("inbound.=90").key == "inbound.");
  const Problem v = only_problem("v=2&laps=2");
  CHECK(v.key == "v");
  CHECK(says(v.message, "2"));
  CHECK(parse_link("v=2&laps=2").scenario.laps == 2);
  for (const char* bad : {"v=", "v=x", "v=1.5", "v=-1"}) CHECK(only_problem(bad).key == "v");
}

TEST_CASE("problems: setting one key leaves the rest alone", "[link][problems]") {
  Scenario s;
  s.laps = 3;
  const Scenario before = s;
  Problem problem;
  CHECK_FALSE(set_value(s, "wind", "400/10", problem));
  CHECK(s == before);
  CHECK(problem.key == "wind");
  CHECK(says(problem.message, "400/10"));
  CHECK(says(problem.message, "160/24"));
  CHECK_FALSE(set_value(s, "nothing", "1", problem));
  CHECK(problem.key == "nothing");
  CHECK(set_value(s, "wind", "  20/10 ", problem));
  CHECK(s.wind_from_deg == 20.0);
}

TEST_CASE("problems: a long link is cut and says so", "[link][problems]") {
  std::string link = "laps=2&";
  while (link.size() < 10240) link += "turns=right&";
  link += "inbound=90";
  const ParsedLink p = parse_link(link);
  CHECK(p.scenario.laps == 2);
  CHECK(p.scenario.turns == Side::right);
  CHECK(p.scenario.inbound_course_deg == 238.0);
  REQUIRE_FALSE(p.problems.empty());
  CHECK(p.problems[0].key == "link");
  CHECK(says(p.problems[0].message, "8192"));
  // Whatever was cut in two must not turn up as a value that nobody wrote.
  std::string tail(8191 - 9, '&');
  tail += "inbound=1234";
  CHECK(parse_link(tail).scenario.inbound_course_deg == 238.0);
}

TEST_CASE("problems: hostile text stays short, printable and valid", "[link][problems]") {
  test::Random r(1101);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    std::string link;
    const int parts = r.below(12);
    for (int k = 0; k < parts; ++k) {
      const auto key = static_cast<std::size_t>(r.below(static_cast<int>(key_count())));
      if (r.chance(0.7)) link += key_name(key);
      if (r.chance(0.9)) link += '=';
      const int length = r.below(40);
      for (int c = 0; c < length; ++c) link += static_cast<char>(r.below(256));
      link += r.chance(0.9) ? '&' : '#';
    }
    const ParsedLink p = parse_link(link);
    for (const Problem& problem : p.problems) {
      std::string quoted = "\"";
      for (const char ch : problem.key + problem.message)
        quoted += ch == '"' || ch == '\\' ? ' ' : ch;
      tally.check(test::json_fault(quoted + "\"").empty(), [&] { return problem.message; });
      tally.check(problem.message.size() < 300, [&] { return problem.message; });
    }
    tally.check(p.problems.size() < 64, [&] { return link; });
    // Whatever came in, what goes out is a clean link.
    const ParsedLink again = parse_link(write_link(p.scenario));
    tally.check(again.problems.empty() && again.scenario == p.scenario, [&] { return link; });
  }
  tally.settle(60000);
}
