// Turns that are rolled into and out of (core/roll, core/motion).
#include "core/roll.h"

#include <catch2/catch_test_macros.hpp>

#include "core/flight.h"
#include "core/motion.h"
#include "core/track.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("roll: a turn ends on its heading, banked no more than it may", "[roll][property]") {
  test::Random r(3301);
  test::Tally tally;
  int short_ones = 0;
  for (int i = 0; i < 50000; ++i) {
    const double tas = r.between(40.0, 350.0);
    const double roll = r.between(1.0, 30.0);
    const Turn turn = level_turn(tas, r.between(5.0, 60.0));
    const RollIn in = make_roll_in(turn, tas, roll);
    const double angle = r.chance(0.2) ? r.between(0.0, 5.0) : r.between(0.0, 360.0);
    const TurnTiming t = turn_timing(turn, in, angle);
    const double sign = r.chance(0.5) ? 1.0 : -1.0;
    const Segment s{0.0,
                    t.duration_s,
                    {1.0, 2.0},
                    r.between(0.0, 360.0),
                    sign * t.rate_deg_s,
                    tas / 3600.0,
                    {0.001, 0.0},
                    {0.0, 0.0},
                    t.roll};
    const auto say = [&] {
      return std::to_string(tas) + " kt, " + std::to_string(angle) + " deg, " +
             std::to_string(roll) + " deg/s";
    };
    short_ones += t.roll.bank_rad < in.bank_rad ? 1 : 0;
    tally.check(std::abs(s.turned_deg(t.duration_s) - sign * angle) < 1e-9, say);
    tally.check(t.roll.bank_rad <= in.bank_rad * (1.0 + 1e-12), say);
    tally.check(t.roll.each_s * roll * kDegToRad <= t.roll.bank_rad + 1e-12, say);
    tally.check(t.duration_s >= angle / turn.rate_deg_s - 1e-9, say);  // rolling takes longer
    // Half way through as far as the other half: the way out is the way in, backwards.
    tally.check(std::abs(2.0 * s.turned_deg(0.5 * t.duration_s) - sign * angle) < 1e-9, say);
    tally.check(std::abs(s.rate_at(0.0)) < 1e-12 || angle == 0.0, say);
    // The slope of the heading is the turn rate.
    const double mid = t.duration_s * r.unit();
    const double h = 1e-5;
    const double slope = (s.turned_deg(mid + h) - s.turned_deg(mid - h)) / (2.0 * h);
    tally.check(mid < 2e-5 || mid > t.duration_s - 2e-5 || std::abs(slope - s.rate_at(mid)) < 1e-3,
                say);
  }
  CHECK(short_ones > 2000);
  tally.settle(300000);
}

TEST_CASE("roll: the motion kept for solvers is the segment's", "[roll][property]") {
  test::Random r(3302);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::calm_scenario(r);
    s.roll_deg_s = r.between(1.0, 30.0);
    const Setup u = make_setup(s);
    const double from = r.between(0.0, 360.0);
    const double to = r.between(0.0, 360.0);
    const Side side = r.chance(0.5) ? Side::left : Side::right;
    const TurnMotion m = turn_motion(u, from, to, side);
    const TurnTiming t = turn_timing(u.turn, u.roll_in, m.angle_deg);
    const Segment g{0.0,
                    m.duration_s,
                    {0.0, 0.0},
                    from,
                    sign_of(side) * t.rate_deg_s,
                    u.tas_kt / 3600.0,
                    u.wind_nm_s,
                    {0.0, 0.0},
                    t.roll};
    const Vec2 end = g.position_at(m.duration_s);
    tally.check(length(end - m.motion_nm) < 1e-10, [&] { return test::named(s); });
  }
  tally.settle(20000);
}

TEST_CASE("roll: the faster the roll, the nearer to a turn at once", "[roll]") {
  Scenario s;
  s.entry = EntryKind::offset;
  static Flight at_once;
  fly_scenario(make_setup(s), at_once);
  double before = 10.0;
  for (const double roll : {2.0, 4.0, 8.0, 16.0, 30.0}) {
    s.roll_deg_s = roll;
    static Flight f;
    fly_scenario(make_setup(s), f);
    const double apart = length(f.rollout.at - at_once.rollout.at);
    CHECK(apart < before);
    before = apart;
  }
  CHECK(before < 0.02);
}
