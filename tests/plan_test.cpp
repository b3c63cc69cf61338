// What follows from a scenario, and the rules of thumb.
#include "core/plan.h"

#include <catch2/catch_test_macros.hpp>

#include "core/atmosphere.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

double apart(double a, double b) { return std::abs(wrap_180(a - b)); }

Scenario windless() {
  Scenario s;
  s.wind_kt = 0.0;
  return s;
}

}  // namespace

TEST_CASE("plan: the opening scene, worked by hand", "[plan]") {
  const Setup u = make_setup(Scenario{});
  CHECK(u.hold.outbound_course_deg() == 58.0);
  CHECK(*rule_heading(u, HeadingRule::still_air) == 88.0);  // left turns: add 30
  CHECK(u.tas_kt == tas_from_cas(105.0, 4000.0));
  // Arriving 085 with the wind from 160: 75 degrees on the right.
  const double wca = std::asin(24.0 * std::sin(75.0 * kDegToRad) / u.tas_kt) * kRadToDeg;
  CHECK(std::abs(u.arrival.wca_deg - wca) < 1e-12);
  CHECK(apart(*rule_heading(u, HeadingRule::drift_once), 88.0 + wca) < 1e-12);
  CHECK(u.leg == Leg{Leg::Kind::time, 60.0});
  CHECK(u.published_s == 60.0);
  CHECK(u.turn_sign == -1.0);
  REQUIRE(u.sector.has_value());
  CHECK(u.sector->kind == EntryKind::offset);
  CHECK(u.entry == EntryKind::offset);
  CHECK(*rule_time(u, TimingRule::fixed) == 60.0);
}

TEST_CASE("plan: what is absent is filled in, what is given stays", "[plan]") {
  Scenario s;
  s.altitude_ft = 14000.5;
  CHECK(make_setup(s).published_s == 90.0);
  s.leg = Leg{Leg::Kind::time, 75.0};
  CHECK(make_setup(s).published_s == 75.0);
  s.leg = Leg{Leg::Kind::distance, 4.0};
  CHECK(make_setup(s).published_s == 90.0);
  s.speed_is_tas = true;
  s.speed_kt = 123.0;
  CHECK(make_setup(s).tas_kt == 123.0);
  s.entry = EntryKind::direct;
  CHECK(make_setup(s).entry == EntryKind::direct);
  s.heading_deg = 94.0;
  s.time_s = 70.0;
  REQUIRE(scenario_plan(make_setup(s)).has_value());
  CHECK(scenario_plan(make_setup(s))->heading_deg == 94.0);
  CHECK(scenario_plan(make_setup(s))->time_s == 70.0);
}

TEST_CASE("plan: a true wind is turned to magnetic, a magnetic one is not", "[plan]") {
  Scenario s;
  s.variation_east_deg = 7.0;
  CHECK(make_setup(s).wind.from_deg == 160.0);
  s.wind_is_true = true;
  CHECK(make_setup(s).wind.from_deg == 153.0);
  s.variation_east_deg = -10.0;
  s.wind_from_deg = 355.0;
  CHECK(make_setup(s).wind.from_deg == 5.0);
}

TEST_CASE("plan: without wind all rules say the same", "[plan][property]") {
  test::Random r(1301);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::random_scenario(r);
    s.wind_kt = 0.0;
    const Setup u = make_setup(s);
    const double base = u.entry == EntryKind::offset
                            ? u.hold.outbound_course_deg() - 30.0 * u.turn_sign
                            : u.hold.outbound_course_deg();
    for (int k = 0; k < kHeadingRules; ++k) {
      const std::optional<double> h = rule_heading(u, static_cast<HeadingRule>(k));
      tally.check(h && apart(*h, base) < 1e-12, [&] { return test::named(s); });
    }
    tally.check(test::near(*rule_time(u, TimingRule::groundspeed), u.published_s, 1e-15),
                [&] { return test::named(s); });
  }
  tally.settle(100000);
}

TEST_CASE("plan: each rule is what its name says", "[plan][property]") {
  test::Random r(1302);
  test::Tally tally;
  int tracked = 0;
  for (int i = 0; i < 100000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    const auto say = [&] { return test::named(s); };
    if (u.entry == EntryKind::direct) {
      // Multiples of the inbound correction about the outbound course, or its track.
      const double outbound = u.hold.outbound_course_deg();
      tally.check(*rule_heading(u, HeadingRule::still_air) == outbound, say);
      for (const HeadingRule rule : {HeadingRule::drift_once, HeadingRule::drift_triple}) {
        const std::optional<double> h = rule_heading(u, rule);
        const double times = rule == HeadingRule::drift_once ? 1.0 : 3.0;
        tally.check(h.has_value() == u.inbound.exists, say);
        if (h) tally.check(apart(*h, outbound - times * u.inbound.wca_deg) < 1e-10, say);
      }
      const std::optional<double> track = rule_heading(u, HeadingRule::track_30);
      tally.check(track.has_value() == u.outbound.exists, say);
      if (track) tally.check(*track == u.outbound.heading_deg, say);
      // It flies the laps' correction, whatever the rule.
      const std::optional<double> chosen = chosen_heading(u);
      tally.check(chosen.has_value() == u.inbound.exists, say);
      if (chosen) {
        tally.check(apart(*chosen, outbound - s.multiple * u.inbound.wca_deg) < 1e-10, say);
      }
      continue;
    }
    const double base = *rule_heading(u, HeadingRule::still_air);
    const double off = wrap_180(base - u.hold.outbound_course_deg());
    const double wanted_off = u.entry == EntryKind::offset ? -30.0 * u.turn_sign : 0.0;
    tally.check(apart(off, wanted_off) < 1e-10, say);

    const std::optional<double> once = rule_heading(u, HeadingRule::drift_once);
    tally.check(once.has_value() == u.arrival.exists, say);
    if (once) tally.check(apart(*once - base, u.arrival.wca_deg) < 1e-10, say);

    const std::optional<double> triple = rule_heading(u, HeadingRule::drift_triple);
    tally.check(triple.has_value() == u.inbound.exists, say);
    if (triple) tally.check(apart(*triple - base, -3.0 * u.inbound.wca_deg) < 1e-10, say);

    const std::optional<double> track = rule_heading(u, HeadingRule::track_30);
    if (track) {
      ++tracked;
      const GroundVector g = ground_vector(*track, u.tas_kt, u.wind);
      tally.check(apart(g.track_deg, base) * g.groundspeed_kt < 1e-8, say);
    }

    const std::optional<double> time = rule_time(u, TimingRule::groundspeed);
    const bool too_long =
        u.outbound.exists && u.published_s * u.tas_kt > kMostOutboundS * u.outbound.groundspeed_kt;
    tally.check(time.has_value() == (u.outbound.exists && !too_long), say);
    if (time) {
      // As far through the air of the outbound course as in still air.
      const double still_nm = u.tas_kt * u.published_s;
      tally.check(test::near(*time * u.outbound.groundspeed_kt, still_nm, 1e-12), say);
    }
  }
  CHECK(tracked > 30000);
  tally.settle(500000);
}

TEST_CASE("plan: left of the offset entry mirrors right", "[plan]") {
  Scenario s = windless();
  for (int course = 1; course <= 360; ++course) {
    s.inbound_course_deg = course;
    s.entry = EntryKind::offset;
    s.turns = Side::right;
    CHECK(apart(*rule_heading(make_setup(s), HeadingRule::still_air), course + 150.0) < 1e-12);
    s.turns = Side::left;
    CHECK(apart(*rule_heading(make_setup(s), HeadingRule::still_air), course - 150.0) < 1e-12);
  }
}

TEST_CASE("plan: no plan where a rule has no answer", "[plan][seam]") {
  Scenario s;
  s.speed_is_tas = true;
  s.speed_kt = 60.0;
  s.wind_kt = 100.0;
  s.wind_from_deg = 328.0;  // square to the inbound course
  s.entry = EntryKind::offset;
  s.rule = HeadingRule::drift_triple;
  CHECK_FALSE(scenario_plan(make_setup(s)).has_value());
  s.heading_deg = 90.0;  // a heading of one's own needs no rule
  CHECK(scenario_plan(make_setup(s)).has_value());
  s.timing = TimingRule::groundspeed;
  CHECK_FALSE(scenario_plan(make_setup(s)).has_value());
  s.time_s = 60.0;
  CHECK(scenario_plan(make_setup(s)).has_value());
}
