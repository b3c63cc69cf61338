// From the roll-out back to the inbound course, and the laps that follow.
#include <catch2/catch_test_macros.hpp>

#include "core/explain.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

double apart(double a, double b) { return std::abs(wrap_180(a - b)); }

const Event* find(const Flight& f, EventKind kind, int lap) {
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == kind && e.lap == lap) return &e;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("intercept: on course means on course, 1e-9 NM", "[intercept][property]") {
  test::Random r(1501);
  test::Tally tally;
  static Flight f;
  int aimed_events = 0;
  int missed = 0;
  for (int i = 0; i < 100000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    for (int k = 0; k < f.event_count; ++k) {
      const Event& e = f.events[static_cast<unsigned>(k)];
      const double cross = u.hold.cross_nm(e.at);
      if (e.kind == EventKind::on_course) {
        // The parallel entry may turn through the course before it can aim: what is then
        // within the tolerance counts as on course. Every other intercept is exact.
        const bool aimed = f.plan.kind != EntryKind::parallel || e.lap > 0;
        aimed_events += aimed ? 1 : 0;
        tally.check(std::abs(cross) < (aimed ? 1e-9 : kOnCourseNm + 1e-12),
                    [&] { return say() + std::to_string(cross); });
        tally.check(apart(e.heading_deg, u.inbound.heading_deg) < 1e-9, say);
        tally.check(u.hold.to_go_nm(e.at) >= 0.0, say);
      }
      // Established over the fix, every time that is called so.
      if (e.kind == EventKind::fix) {
        tally.check(std::abs(cross) <= kOnCourseNm && length(e.at) <= kOnCourseNm + 1e-9, say);
      }
      if (e.kind == EventKind::fix_missed) ++missed;
    }
  }
  CHECK(aimed_events > 20000);
  CHECK(missed > 1000);
  tally.settle(200000);
}

TEST_CASE("intercept: only where it is needed, and toward the course", "[intercept][property]") {
  test::Random r(1502);
  test::Tally tally;
  static Flight f;
  int flown = 0;
  int smaller = 0;
  for (int i = 0; i < 50000; ++i) {
    const Scenario s = test::calm_scenario(r);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    if (!f.rollout.exists) continue;
    const auto say = [&] { return test::named(s); };
    const Event* e = find(f, EventKind::intercept, 0);
    const bool needed = std::abs(f.rollout.cross_nm) > kOnCourseNm && f.rollout.to_go_nm > 0.0;
    tally.check(needed || !e, say);
    tally.check(needed == (f.intercept_flown_deg > 0.0), say);
    if (!e) continue;
    ++flown;
    smaller += f.intercept_flown_deg < s.intercept_deg ? 1 : 0;
    tally.check(f.intercept_flown_deg <= s.intercept_deg && f.intercept_flown_deg > 0.0, say);
    // On the holding side of right turns the course lies to the left.
    const double way = (f.rollout.cross_nm > 0.0 ? -1.0 : 1.0) * u.turn_sign;
    tally.check(apart(e->heading_deg, u.inbound.heading_deg + way * f.intercept_flown_deg) < 1e-9,
                say);
  }
  CHECK(flown > 5000);
  CHECK(smaller > 100);
  tally.settle(50000);
}

TEST_CASE("intercept: within a minute, flown piece by piece", "[intercept][property]") {
  test::Random r(1503);
  test::Tally tally;
  int answered = 0;
  int refused = 0;
  for (int i = 0; i < 100000; ++i) {
    Scenario s = test::calm_scenario(r);
    const Setup u = make_setup(s);
    const double cross = r.chance(0.5) ? r.between(0.1, 2.0) : r.between(-2.0, -0.1);
    const double within = r.between(20.0, 120.0);
    const auto say = [&] { return test::named(s) + " cross " + std::to_string(cross); };
    // Where the angle leads: out, straight for what is left of the time, and back.
    const auto end_cross = [&](double angle) {
      const double way = (cross > 0.0 ? -1.0 : 1.0) * u.turn_sign;
      const double h = u.inbound.heading_deg;
      const Side out = way > 0.0 ? Side::right : Side::left;
      const TurnMotion a = turn_motion(u, h, h + way * angle, out);
      const TurnMotion b = turn_motion(u, h + way * angle, h, opposite(out));
      const double rest = within - a.duration_s - b.duration_s;
      return cross + u.hold.cross_nm(a.motion_nm + b.motion_nm +
                                     ground_velocity(u, h + way * angle) * rest);
    };
    const std::optional<double> angle = intercept_angle_within(u, cross, within);
    if (angle) {
      ++answered;
      tally.check(*angle > 0.0 && *angle <= 90.0, say);
      tally.check(2.0 * *angle / u.turn.rate_deg_s <= within + 1e-9, say);
      tally.check(std::abs(end_cross(*angle)) < 1e-10, say);
    } else {
      ++refused;
    }
    // No angle at all does it where none is answered, and none smaller where one is.
    const double most = std::fmin(90.0, 0.5 * within * u.turn.rate_deg_s);
    const double up_to = angle ? *angle * (1.0 - 1e-9) : most;
    bool earlier = false;
    for (int k = 0; k <= 90; ++k) {
      earlier = earlier || end_cross(up_to * k / 90.0) * (cross > 0.0 ? 1.0 : -1.0) < -1e-12;
    }
    tally.check(!earlier, say);
  }
  CHECK(answered > 20000);
  CHECK(refused > 20000);
  tally.settle(200000);
  const Setup u = make_setup(Scenario{});
  CHECK_FALSE(intercept_angle_within(u, 0.0, 60.0).has_value());
  Scenario storm;
  storm.wind_kt = 150.0;
  storm.wind_from_deg = 328.0;
  CHECK_FALSE(intercept_angle_within(make_setup(storm), 1.0, 60.0).has_value());
}

TEST_CASE("laps: as much longer outbound as the last inbound was short", "[laps][property]") {
  test::Random r(1504);
  test::Tally tally;
  static Flight f;
  for (int i = 0; i < 30000; ++i) {
    Scenario s = test::random_scenario(r);
    s.laps = 1 + r.below(10);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    double outbound = f.entry_time_s;
    double inbound = f.rollout.inbound_s;
    for (int k = 0; k < f.lap_count; ++k) {
      const Lap& lap = f.laps[static_cast<unsigned>(k)];
      if (u.leg.kind == Leg::Kind::time) {
        const double wanted = outbound + u.leg.value - inbound;
        const double held = wanted > 0.0 ? std::fmin(wanted, kMostOutboundS) : 0.0;
        tally.check(test::near(lap.outbound_s, held, 1e-12), say);
      }
      tally.check(apart(lap.outbound_heading_deg,
                        u.hold.outbound_course_deg() - s.multiple * u.inbound.wca_deg) < 1e-10,
                  say);
      outbound = lap.outbound_s;
      inbound = lap.rollout.inbound_s;
      // The outbound clock starts at the later of abeam and wings level.
      const Event* level = find(f, EventKind::level, k + 1);
      const Event* abeam = find(f, EventKind::abeam, k + 1);
      const Event* up = find(f, EventKind::time_up, k + 1);
      if (!level || !up) {
        tally.check(false, say);
        continue;
      }
      const double start_s = abeam ? abeam->at_s : level->at_s;
      tally.check(test::near(up->at_s - start_s, lap.outbound_s, 1e-10), say);
      const double to_go = u.hold.to_go_nm(abeam ? abeam->at : level->at);
      tally.check(abeam ? std::abs(to_go) < 1e-10 : to_go > -1e-12, say);
      // A leg in miles ends at its distance, unless it is already beyond.
      if (u.leg.kind == Leg::Kind::distance) {
        const double end = u.hold.to_go_nm(up->at);
        tally.check(std::abs(end - u.leg.value) < 1e-9 || u.hold.to_go_nm(level->at) > u.leg.value,
                    say);
      }
    }
  }
  tally.settle(200000);
}

TEST_CASE("laps: 50 seconds inbound, then 70 outbound (H06, US Navy P-871)", "[laps]") {
  // A tailwind inbound such that a minute outbound gives 50 seconds inbound: with
  // timing from abeam To = ((V + u) Ti + 60 u) / (V - u), solved for u at To 60, Ti 50.
  const double v = 120.0;
  const double u = v * (60.0 - 50.0) / (50.0 + 60.0 + 60.0);
  Scenario s;
  s.inbound_course_deg = 360.0;
  s.arrival_course_deg = 360.0;
  s.turns = Side::right;
  s.speed_is_tas = true;
  s.speed_kt = v;
  s.wind_from_deg = 180.0;
  s.wind_kt = u;
  s.time_s = 60.0;
  s.laps = 1;
  static Flight f;
  fly_scenario(make_setup(s), f);
  CHECK(f.plan.kind == EntryKind::direct);
  CHECK(std::abs(f.rollout.inbound_s - 50.0) < 1e-9);
  REQUIRE(f.lap_count == 1);
  CHECK(std::abs(f.laps[0].outbound_s - 70.0) < 1e-9);
}
