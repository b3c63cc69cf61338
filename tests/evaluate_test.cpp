// evaluate(): always valid JSON, never NaN, whatever the link.
#include "core/evaluate.h"

#include <catch2/catch_test_macros.hpp>

#include "core/json.h"
#include "tests/json_check.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// A link as nobody would write it: good keys with bad values, raw bytes, halves.
std::string garbage(test::Random& r) {
  std::string link;
  const int parts = r.below(10);
  for (int k = 0; k < parts; ++k) {
    const auto key = static_cast<std::size_t>(r.below(static_cast<int>(key_count())));
    const int kind = r.below(6);
    if (kind < 5) link += key_name(key);
    if (kind < 5) link += '=';
    if (kind == 0 || kind == 1) {
      const double size = std::pow(10.0, r.between(-3.0, 5.0));
      link += std::to_string(r.between(-size, size));
    } else if (kind == 2) {
      link += value_text(test::random_scenario(r), key_name(key));
    } else {
      const int length = r.below(30);
      for (int c = 0; c < length; ++c) link += static_cast<char>(r.below(256));
    }
    link += r.chance(0.9) ? '&' : '?';
  }
  return link;
}

}  // namespace

TEST_CASE("evaluate: 1,500 links, valid JSON every time", "[evaluate][property]") {
  test::Random r(2201);
  test::Tally tally;
  long long numbers = 0;
  for (int i = 0; i < 1500; ++i) {
    const std::string link = r.chance(0.5) ? garbage(r) : write_link(test::random_scenario(r));
    const std::string answer = evaluate(link);
    test::JsonCheck check(answer);
    const std::string fault = check.fault();
    numbers += check.numbers();
    tally.check(fault.empty(), [&] { return fault + " for " + link; });
    // No template left open, no text of a key that the catalogue lacks.
    tally.check(!has(answer, "{key}") && !has(answer, "{value}") && !has(answer, "\"core."),
                [&] { return link; });
  }
  CHECK(numbers > 1500LL * 60);
  tally.settle(3000);
}

TEST_CASE("evaluate: the parts that the design promises", "[evaluate]") {
  const std::string a = evaluate("laps=2");
  for (const char* part : {"\"scenario\":{",
                           "\"problems\":[]",
                           "\"air\":{\"tas_kt\":",
                           "\"bank_deg\":",
                           "\"turn_rate_deg_s\":",
                           "\"turn_radius_nm\":",
                           "\"wind\":{\"arrival\":{\"wca_deg\":",
                           "\"inbound\":{\"wca_deg\":",
                           "\"outbound\":{\"wca_deg\":",
                           "\"groundspeed_kt\":",
                           "\"entry\":{\"kind\":\"offset\"",
                           "\"acceptable\":[\"offset\"]",
                           "\"rule_heading_deg\":",
                           "\"turn\":\"left\"",
                           "\"rollout\":{\"cross_nm\":",
                           "\"to_go_nm\":",
                           "\"inbound_s\":",
                           "\"at_s\":",
                           "\"exact\":{\"heading_for_time\":{\"exists\":true,\"heading_deg\":",
                           "\"heading_and_time\":{",
                           "\"time_for_heading\":{",
                           "\"lap\":{\"exists\":true",
                           "\"straight_s\":",
                           "\"why\":null",
                           "\"laps\":[{\"outbound_heading_deg\":",
                           "\"outbound_s\":",
                           "\"events\":[{\"name\":\"arrival\"",
                           "\"x_nm\":",
                           "\"y_nm\":"}) {
    INFO(part);
    CHECK(has(a, part));
  }
}

TEST_CASE("evaluate: the numbers are those of the core", "[evaluate][property]") {
  test::Random r(2202);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    const Scenario s = test::calm_scenario(r);
    const WorkedCase c = work_out(s);
    const std::string a = evaluate(write_link(s));
    const auto shows = [&](const char* key, double value) {
      Json j;
      j.number(value);
      tally.check(has(a, "\"" + std::string(key) + "\":" + j.str()),
                  [&] { return test::named(s) + " " + key + " " + j.str(); });
    };
    shows("tas_kt", c.setup.tas_kt);
    shows("bank_deg", c.setup.turn.bank_deg);
    shows("wca_deg", c.setup.outbound.wca_deg);
    shows("groundspeed_kt", c.setup.inbound.groundspeed_kt);
    if (c.flown.rollout.exists) {
      shows("cross_nm", c.flown.rollout.cross_nm);
      shows("to_go_nm", c.flown.rollout.to_go_nm);
      shows("inbound_s", c.flown.rollout.inbound_s);
    }
    const auto shows_plan = [&](const char* key, const ExactPlan& p) {
      if (!p.exists()) return;
      Json j;
      j.key(key).open_object().field("exists", true);
      j.field("heading_deg", p.heading_deg).field("time_s", p.time_s);
      tally.check(has(a, j.str()), [&] { return test::named(s) + " " + j.str(); });
    };
    shows_plan("heading_for_time", c.heading_for_time);
    shows_plan("heading_and_time", c.heading_and_time);
    shows_plan("time_for_heading", c.time_for_heading);
    shows_plan("lap", c.lap);
    if (c.lap.exists()) shows("straight_s", c.lap.straight_s);
  }
  tally.settle(2000);
}

TEST_CASE("evaluate: what has no answer is null, with a line that says why", "[evaluate]") {
  const std::string storm = evaluate("tas=60&wind=328/100&arrive=58&entry=offset");
  CHECK(test::json_fault(storm).empty());
  CHECK(has(storm, "\"inbound\":null"));
  CHECK(has(storm, "\"rollout\":null"));
  CHECK(has(storm, "{\"key\":\"wind.inbound\""));
  // A wind across the arrival alone, faster than the aircraft: no heading holds that course.
  const std::string across = evaluate("inbound=90&arrive=360&wind=270/150&tas=100");
  CHECK(has(across, "{\"key\":\"wind.arrival\""));
  CHECK(has(storm, "{\"key\":\"rollout\""));
  CHECK(has(storm, "\"exists\":false,\"heading_deg\":null,\"time_s\":null"));
  const std::string bad = evaluate("inbound=999&laps=1");
  CHECK(has(bad, "{\"key\":\"inbound\""));
  CHECK(has(bad, "\"laps\":1"));
  CHECK(has(bad, "\"inbound\":238"));
}

TEST_CASE("evaluate: the link in the answer gives the same answer", "[evaluate][property]") {
  test::Random r(2203);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    const std::string link = write_link(test::random_scenario(r));
    const std::string answer = evaluate(link);
    tally.check(has(answer, "\"link\":\"" + link + "\""), [&] { return link; });
    tally.check(evaluate("?v=1&" + link) == answer, [&] { return link; });
  }
  tally.settle(600);
}

TEST_CASE("evaluate: the speed limit is a number of its own", "[evaluate]") {
  // AIM 5-3-8 j2: 200 kt up to 6,000 ft, 230 kt above.
  for (const auto& [altitude, limit] : {std::pair{"4000", "200"}, std::pair{"7000", "230"}}) {
    const std::string text = evaluate(std::string("book=faa&altitude=") + altitude);
    const std::size_t at = text.find("\"limits\":{\"rule\":\"faa\"");
    REQUIRE(at != std::string::npos);
    const std::string name = "\"speed_kt\":";
    const std::size_t speed = text.find(name, at);
    REQUIRE(speed != std::string::npos);
    CHECK(speed - at < 200);
    CHECK(text.substr(speed + name.size(), 4) == std::string(limit) + ',');
  }
}
