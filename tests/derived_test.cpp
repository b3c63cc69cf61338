// The facts of still air that the design derives (docs/theory.md "Two facts of still air").
#include <catch2/catch_test_macros.hpp>

#include "core/exact.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// Still air, standard rate, clock from wings level, arriving along the heading that is
/// `off_deg` off the outbound course: no turn at the fix.
Scenario aligned(double tas_kt, double off_deg, double leg_s, Side turns, double inbound_deg) {
  Scenario s;
  s.inbound_course_deg = inbound_deg;
  s.turns = turns;
  s.leg = Leg{Leg::Kind::time, leg_s};
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  s.bank_limit_deg = 45.0;  // standard rate at every airspeed tried here
  s.wind_kt = 0.0;
  s.arrival_course_deg = wrap_360(inbound_deg + 180.0 - sign_of(turns) * off_deg);
  s.entry = EntryKind::offset;
  s.timer = Timer::level;
  return s;
}

double exact_angle_deg(double minutes) {
  return 2.0 * std::atan(1.0 / (kPi * minutes)) * kRadToDeg;
}

}  // namespace

TEST_CASE("derived: 2 atan(1 / (pi T)) rolls out on course, at any airspeed", "[derived]") {
  CHECK(std::abs(exact_angle_deg(1.0) - 35.31) < 0.005);
  CHECK(std::abs(exact_angle_deg(1.5) - 23.96) < 0.005);
  for (const double minutes : {1.0, 1.5, 2.0, 0.75}) {
    const double angle = exact_angle_deg(minutes);
    for (const double tas : {60.0, 90.0, 105.0, 120.0, 165.0, 210.0, 300.0}) {
      for (const Side turns : {Side::left, Side::right}) {
        for (const double inbound : {360.0, 7.0, 90.0, 238.0, 311.5}) {
          INFO(minutes << " min, " << tas << " kt, inbound " << inbound);
          const Setup u = make_setup(aligned(tas, angle, 60.0 * minutes, turns, inbound));
          REQUIRE(u.turn.rate_deg_s == kStandardRateDegS);
          const Rollout o = offset_rollout(u, u.arrival.heading_deg, 60.0 * minutes);
          CHECK(std::abs(o.cross_nm) < 1e-13 * tas);
          CHECK(o.to_go_nm > 0.0);
          const ExactPlan p = exact_heading_for_time(u);
          REQUIRE(p.exists());
          CHECK(std::abs(wrap_180(p.heading_deg - u.arrival.heading_deg)) < 1e-9);
          CHECK(p.straight_s == 60.0 * minutes);
        }
      }
    }
  }
}

TEST_CASE("derived: 30 degrees for a minute overshoots by 0.00157 NM a knot", "[derived]") {
  const double per_knot = 0.5 / 60.0 - (1.0 + std::cos(30.0 * kDegToRad)) / (60.0 * kPi);
  CHECK(std::abs(per_knot + 0.00157) < 0.000005);
  for (const double tas : {60.0, 90.0, 120.0, 150.0, 240.0}) {
    for (const Side turns : {Side::left, Side::right}) {
      const Setup u = make_setup(aligned(tas, 30.0, 60.0, turns, 238.0));
      const Rollout o = offset_rollout(u, *rule_heading(u, HeadingRule::still_air), 60.0);
      INFO(tas);
      CHECK(std::abs(o.cross_nm - per_knot * tas) < 1e-13 * tas);
    }
  }
}

TEST_CASE("derived: roll-out of any still-air offset entry in one formula", "[derived][property]") {
  // cross = V T sin(a) - r (1 + cos a), to go = V T cos(a) + r sin(a), with r = V / w.
  test::Random r(1901);
  test::Tally tally;
  for (int i = 0; i < 50000; ++i) {
    const double tas = r.decimal(40.0, 350.0);
    const double off = r.decimal(0.0, 90.0);
    const double leg = r.stepped(15.0, 600.0, 0.5);
    const double inbound = test::random_direction(r, 0.2);
    Scenario s = aligned(tas, off, leg, r.chance(0.5) ? Side::left : Side::right, inbound);
    s.bank_limit_deg = r.decimal(5.0, 60.0);
    const Setup u = make_setup(s);
    const double straight = tas / 3600.0 * leg;
    const double radius = tas / 3600.0 / (u.turn.rate_deg_s * kDegToRad);
    const double a = off * kDegToRad;
    const Rollout o = offset_rollout(u, u.arrival.heading_deg, leg);
    const double size = 1e-13 * (10.0 + straight + radius);
    tally.check(
        std::abs(o.cross_nm - (straight * std::sin(a) - radius * (1.0 + std::cos(a)))) < size,
        [&] { return test::named(s); });
    tally.check(std::abs(o.to_go_nm - (straight * std::cos(a) + radius * std::sin(a))) < size,
                [&] { return test::named(s); });
    tally.check(std::abs(o.at_s - (leg + (180.0 + off) / u.turn.rate_deg_s)) < 1e-9,
                [&] { return test::named(s); });
  }
  tally.settle(150000);
}

TEST_CASE("derived: timing of a lap in head or tail wind", "[derived][property]") {
  // docs/theory.md "Laps": along the course only, u = tailwind inbound, T180 the time of
  // half a circle. From wings level ((V + u) Ti + 2 u T180) / (V - u); from abeam, where
  // that is later (u > 0), ((V + u) Ti + u T180) / (V - u).
  test::Random r(1902);
  test::Tally tally;
  int answered = 0;
  for (int i = 0; i < 2000; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.2);
    s.turns = r.chance(0.5) ? Side::left : Side::right;
    s.speed_is_tas = true;
    s.speed_kt = r.decimal(60.0, 300.0);
    const double u = r.between(-0.6, 0.6) * s.speed_kt;
    if (std::abs(u) > 150.0) continue;
    s.wind_from_deg = u > 0.0 ? wrap_360(s.inbound_course_deg + 180.0) : s.inbound_course_deg;
    s.wind_kt = std::abs(u);
    const Setup setup = make_setup(s);
    const double v = s.speed_kt;
    const double half = 180.0 / setup.turn.rate_deg_s;
    const double straight = ((v + u) * 60.0 + 2.0 * u * half) / (v - u);
    const ExactPlan lap = exact_lap(setup);
    if (straight < 0.001 || straight > 599.0) continue;
    ++answered;
    tally.check(lap.exists(), [&] { return test::named(s); });
    // The outbound course itself is always an answer, so the nearest is no farther off.
    const double off = std::abs(wrap_180(lap.heading_deg - setup.hold.outbound_course_deg()));
    tally.check(off < 1e-6, [&] { return test::named(s) + " off " + std::to_string(off); });
    const double timed = u > 0.0 ? ((v + u) * 60.0 + u * half) / (v - u) : straight;
    tally.check(test::near(lap.straight_s, straight, 1e-9), [&] { return test::named(s); });
    tally.check(test::near(lap.time_s, timed, 1e-9), [&] { return test::named(s); });
  }
  CHECK(answered > 800);
  tally.settle(3000);
}
