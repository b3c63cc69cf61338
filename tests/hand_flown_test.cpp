// A flight by hand: commands against the planned pilot's track, and against all nonsense.
#include "core/hand_flown.h"

#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <cmath>
#include <limits>

#include "tests/replay.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

HandFlown flown_with(const char* link) { return HandFlown(make_setup(parse_link(link).scenario)); }

bool finite(Vec2 v) { return std::isfinite(v.x) && std::isfinite(v.y); }

/// Pieces follow each other in time, place, heading and bank, to the end of the flight.
void check_whole(const HandFlown& hand, test::Tally& tally, const std::string& name) {
  const Pieces track = hand.track();
  tally.check(track.start_s() == -kHandArrivalS && track.end_s() >= kMostHandFlownS - 1e-6,
              [&] { return name + " does not go from first to last"; });
  for (int i = 0; i < track.size(); ++i) {
    const Segment& s = track[i];
    tally.check(finite(s.start) && std::isfinite(s.heading_deg) && s.duration_s > 0.0,
                [&] { return name + " piece " + std::to_string(i); });
    if (i + 1 == track.size()) break;
    const Segment& next = track[i + 1];
    const double apart = length(s.position_at(s.duration_s) - next.start);
    const double turned = wrap_180(s.heading_at(s.duration_s) - next.heading_deg);
    const double rolled = s.bank_rad_at(s.duration_s) - next.bank_rad_at(0.0);
    tally.check(std::abs(s.end_s() - next.start_s) < 1e-9 &&
                    apart < 1e-9 * (1.0 + length(next.start)) && std::abs(turned) < 1e-8 &&
                    std::abs(rolled) < 1e-9,
                [&] {
                  return name + " breaks at piece " + std::to_string(i + 1) + " by " +
                         std::to_string(apart) + " NM, " + std::to_string(turned) + " deg, " +
                         std::to_string(rolled) + " rad";
                });
  }
}

/// Anything a person, or a broken page, may send.
void any_command(test::Random& r, HandFlown& hand, double& t) {
  t += r.chance(0.3) ? 0.0 : r.between(0.0, 40.0);
  const double at = r.chance(0.05) ? t - 100.0 : r.chance(0.02) ? kNan : r.chance(0.02) ? 1e300 : t;
  switch (r.below(8)) {
    case 0:
    case 1:
    case 2: {
      const double heading = r.chance(0.05) ? kNan : r.chance(0.05) ? -1e6 : r.stepped(0, 360, 1);
      hand.bug(at, heading, static_cast<Way>(r.below(3)));
      break;
    }
    case 3:
      hand.bug(at, hand.pose(t).heading_deg + r.stepped(-12.0, 12.0, 1.0));
      break;
    case 4:
    case 5:
      hand.turn(at, r.chance(0.5) ? Side::left : Side::right);
      break;
    case 6:
      hand.level(at);
      break;
    default:
      hand.clock(at);
  }
}

}  // namespace

TEST_CASE("hand flown: untouched, the arrival leads over the fix and on", "[hand]") {
  const HandFlown hand = flown_with("");
  REQUIRE(hand.exists());
  const Setup& u = hand.setup();
  CHECK(hand.pose(-60.0).heading_deg == u.arrival.heading_deg);
  CHECK_THAT(length(hand.pose(0.0).at), WithinAbs(0.0, 1e-12));
  // 60 s at the arrival's groundspeed (derived: the triangle's).
  CHECK_THAT(length(hand.pose(-60.0).at), WithinAbs(u.arrival.groundspeed_kt / 60.0, 1e-12));
  const std::vector<Passage> near = passages(hand, 600.0);
  REQUIRE(near.size() == 1);
  CHECK_THAT(near[0].at_s, WithinAbs(0.0, 1e-9));
  CHECK_THAT(near[0].distance_nm, WithinAbs(0.0, 1e-9));
}

TEST_CASE("hand flown: where the arrival cannot be made good there is no flight", "[hand]") {
  HandFlown hand = flown_with("wind=320/120&arrive=230");
  REQUIRE_FALSE(hand.exists());
  CHECK_FALSE(hand.bug(0.0, 90.0));
  CHECK_FALSE(hand.turn(0.0, Side::left));
  CHECK_FALSE(hand.level(0.0));
  CHECK_FALSE(hand.clock(0.0));
  CHECK(std::isfinite(hand.pose(10.0).at.x));
  CHECK(passages(hand, 100.0).empty());
}

TEST_CASE("hand flown: a turn goes on until it is told to stop", "[hand]") {
  HandFlown hand = flown_with("wind=0/0&inbound=360&arrive=90");
  const double rate = hand.setup().turn.rate_deg_s;
  REQUIRE(hand.turn(0.0, Side::right));
  // A whole circle in still air closes (derived).
  CHECK_THAT(length(hand.pose(360.0 / rate).at), WithinAbs(0.0, 1e-9));
  CHECK_THAT(hand.pose(30.0).heading_deg, WithinAbs(90.0 + 30.0 * rate, 1e-9));
  REQUIRE(hand.level(30.0));
  CHECK_THAT(hand.pose(500.0).heading_deg, WithinAbs(90.0 + 30.0 * rate, 1e-9));
  CHECK(hand.level_times_s() == std::vector<double>{30.0});
  CHECK_FALSE(hand.bug_deg().has_value());
}

TEST_CASE("hand flown: the bug turns the way that it is told, or the shorter one", "[hand]") {
  HandFlown hand = flown_with("wind=0/0&arrive=90");
  REQUIRE(hand.bug(0.0, 100.0));
  CHECK(hand.pose(1.0).rate_deg_s > 0.0);
  REQUIRE(hand.bug(20.0, 90.0, Way::right));
  CHECK_THAT(hand.pose(20.0 + 350.0 / hand.setup().turn.rate_deg_s).heading_deg,
             WithinAbs(90.0, 1e-9));
  REQUIRE(hand.bug(200.0, 80.0));
  CHECK(hand.pose(201.0).rate_deg_s < 0.0);
  CHECK(hand.bug_deg() == 80.0);
  // Told again in the turn, it turns back at once.
  REQUIRE(hand.bug(202.0, 90.0));
  CHECK(hand.pose(203.0).rate_deg_s > 0.0);
  // In a turn, on in its direction: 240 degrees to the left.
  REQUIRE(hand.turn(300.0, Side::left));
  CHECK(hand.pose(300.0).rate_deg_s < 0.0);
  REQUIRE(hand.bug(302.0, 210.0));
  CHECK(hand.pose(303.0).rate_deg_s < 0.0);
  CHECK_THAT(hand.pose(500.0).heading_deg, WithinAbs(210.0, 1e-9));
  // Wings level again, the shorter way.
  REQUIRE(hand.bug(500.0, 215.0));
  CHECK(hand.pose(501.0).rate_deg_s > 0.0);
}

TEST_CASE("hand flown: rolled turns stop on the bug, or come back to it", "[hand][roll]") {
  HandFlown hand = flown_with("wind=0/0&arrive=90&roll=3");
  REQUIRE(hand.bug(0.0, 120.0));
  CHECK_THAT(hand.pose(60.0).heading_deg, WithinAbs(120.0, 1e-9));
  CHECK(hand.pose(60.0).bank_rad == 0.0);
  // In full bank to the right, asked for a heading that is just ahead: past it and back.
  REQUIRE(hand.turn(100.0, Side::right));
  const double now = hand.pose(120.0).heading_deg;
  REQUIRE(hand.bug(120.0, now + 1.0));
  CHECK(hand.pose(123.0).heading_deg > now + 1.0);
  CHECK_THAT(hand.pose(160.0).heading_deg, WithinAbs(wrap_360(now + 1.0), 1e-9));
}

TEST_CASE("hand flown: the stopwatch reads from its last start", "[hand]") {
  HandFlown hand = flown_with("");
  CHECK_FALSE(hand.stopwatch_s(100.0).has_value());
  REQUIRE(hand.clock(5.0));
  REQUIRE(hand.clock(70.0));
  CHECK(hand.stopwatch_s(65.0) == 60.0);
  CHECK(hand.stopwatch_s(70.0) == 0.0);
  CHECK(hand.stopwatch_s(80.0) == 10.0);
  CHECK_FALSE(hand.stopwatch_s(4.0).has_value());
}

TEST_CASE("hand flown: commands keep their order and their number", "[hand]") {
  HandFlown hand = flown_with("");
  REQUIRE(hand.bug(100.0, 200.0));
  // Earlier than the last: at the last one's time.
  REQUIRE(hand.clock(50.0));
  CHECK(hand.clock_times_s() == std::vector<double>{100.0});
  CHECK_FALSE(hand.bug(kNan, 10.0));
  CHECK_FALSE(hand.bug(120.0, kNan));
  // Turning the bug while the clock stands still is one command.
  const int left = hand.commands_left();
  for (int i = 0; i < 50; ++i) hand.bug(200.0, 10.0 + i);
  CHECK(hand.commands_left() == left - 1);
  CHECK(hand.bug_deg() == 59.0);
  int taken = 0;
  for (int i = 0; i < 1000; ++i) taken += hand.bug(300.0 + 0.1 * i, i % 360) ? 1 : 0;
  CHECK(taken == left - 1);
  CHECK(hand.commands_left() == 0);
  test::Tally tally;
  check_whole(hand, tally, "used up");
  tally.settle(100);
}

TEST_CASE("hand flown: the planned pilot's turns as commands are the planned flight",
          "[hand][property]") {
  test::Random r(5201);
  test::Tally tally;
  int rolled = 0;
  int changing = 0;
  for (int i = 0; i < 600; ++i) {
    Scenario s = test::any_scenario(r);
    if (i % 2) s = test::calm_scenario(r);
    if (i % 6 == 1) s.roll_deg_s = r.stepped(1.0, 30.0, 0.5);
    s.laps = r.below(4);
    const Setup u = make_setup(s);
    Flight flight;
    fly_scenario(u, flight);
    if (flight.track.size() == 0) continue;
    HandFlown hand(u);
    const double until = test::replay(flight, hand);
    rolled += s.roll_deg_s > 0.0 ? 1 : 0;
    changing += s.later_wind ? 1 : 0;
    for (int k = 0; k <= 60; ++k) {
      const double t = -kArrivalShownS + (until + kArrivalShownS) * k / 60.0;
      const Vec2 planned = flight.track.position_at(t);
      const HandFlown::Pose pose = hand.pose(t);
      const double apart = length(planned - pose.at);
      tally.check(apart <= 1e-9 * std::fmax(1.0, length(planned)), [&] {
        return test::named(s) + " at " + std::to_string(t) + " apart " +
               std::to_string(apart * 1e9) + "e-9 NM";
      });
      tally.check(std::abs(wrap_180(flight.track.heading_at(t) - pose.heading_deg)) <= 1e-8,
                  [&] { return test::named(s) + " heading at " + std::to_string(t); });
    }
  }
  tally.settle(50000);
  CHECK(rolled > 100);
  CHECK(changing > 50);
}

TEST_CASE("hand flown: whatever is commanded, the track is whole", "[hand][property]") {
  test::Random r(5202);
  test::Tally tally;
  for (int i = 0; i < 400; ++i) {
    Scenario s = test::any_scenario(r);
    if (i % 3 == 0) s.roll_deg_s = r.stepped(1.0, 30.0, 0.5);
    const std::string name = test::named(s);
    HandFlown hand(make_setup(s));
    if (!hand.exists()) continue;
    double t = -70.0;
    const int commands = r.below(80);
    for (int k = 0; k < commands; ++k) any_command(r, hand, t);
    check_whole(hand, tally, name);
    for (int k = 0; k < 20; ++k) {
      const HandFlown::Pose p = hand.pose(r.between(-100.0, 4000.0));
      tally.check(finite(p.at) && finite(p.velocity_nm_s) && std::isfinite(p.bank_rad) &&
                      p.heading_deg > 0.0 && p.heading_deg <= 360.0,
                  [&] { return name + " has no pose"; });
    }
  }
  tally.settle(10000);
}

TEST_CASE("hand flown: passages are where the aircraft is nearest to the fix", "[hand][property]") {
  test::Random r(5203);
  test::Tally tally;
  int found = 0;
  for (int i = 0; i < 60; ++i) {
    HandFlown hand(make_setup(test::calm_scenario(r)));
    double t = -60.0;
    for (int k = 0; k < 12; ++k) any_command(r, hand, t);
    for (const Passage& p : passages(hand, 900.0)) {
      ++found;
      const auto distance = [&](double at) { return length(hand.pose(at).at); };
      tally.check(p.at_s <= 900.0 && p.distance_nm <= kPassageNm,
                  [&] { return std::string("out of range"); });
      tally.check(std::abs(distance(p.at_s) - p.distance_nm) < 1e-9,
                  [&] { return std::string("elsewhere"); });
      tally.check(distance(p.at_s - 0.5) > p.distance_nm - 1e-9 &&
                      distance(p.at_s + 0.5) > p.distance_nm - 1e-9,
                  [&] { return "nearer beside " + std::to_string(p.at_s); });
    }
  }
  tally.settle(100);
  CHECK(found > 40);
}

TEST_CASE("hand flown: passages are the first, and no more than asked for", "[hand]") {
  Scenario s;
  s.wind_kt = 0.0;
  HandFlown hand(make_setup(s));
  hand.turn(-1.0, Side::left);  // round and round beside the fix
  const std::vector<Passage> all = passages(hand, 3000.0);
  REQUIRE(all.size() > 3);
  for (const int most : {1, 2, 3}) {
    const std::vector<Passage> few = passages(hand, 3000.0, most);
    REQUIRE(static_cast<int>(few.size()) == most);
    for (std::size_t i = 0; i < few.size(); ++i) CHECK(few[i].at_s == all[i].at_s);
  }
}
