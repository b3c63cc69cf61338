// What ends an outbound leg, and how the laps are adjusted (core/flight).
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/exact.h"
#include "core/flight.h"
#include "core/needles.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

const Event* first_event(const Flight& f, EventKind kind, int lap) {
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == kind && e.lap == lap) return &e;
  }
  return nullptr;
}

double bearing_from(Vec2 station, Vec2 at) { return direction_of(at - station); }

}  // namespace

TEST_CASE("legs: a DME leg ends at its reading, whichever way the station lies", "[legs][dme]") {
  test::Random r(3401);
  test::Tally tally;
  int ends = 0;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::calm_scenario(r);
    s.time_s.reset();
    s.altitude_ft = r.between(0.0, 15000.0);
    s.measure = Measure::dme;
    s.leg = Leg{Leg::Kind::distance, r.between(3.0, 10.0)};
    const int place = r.below(3);
    if (place > 0) {
      s.station = {place == 1 ? Station::Place::ahead : Station::Place::behind,
                   r.between(16.0, 60.0)};
    }
    const Setup u = make_setup(s);
    static Flight f;
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    for (int lap = 0; lap <= f.lap_count; ++lap) {
      const Event* e = first_event(f, EventKind::time_up, lap);
      if (!e) continue;
      const double reading = slant_range_nm(length(e->at - u.station), u.height_ft);
      const double wanted = leg_end_dme_nm(u);
      const bool falls = s.station.place == Station::Place::behind;
      // Passed already at wings level, the turn inbound comes at once.
      const Event* level = first_event(f, EventKind::level, lap);
      const double at_level = slant_range_nm(length(level->at - u.station), u.height_ft);
      const bool passed = falls ? at_level <= wanted : at_level >= wanted;
      ++ends;
      tally.check(passed ? e->at_s <= level->at_s + 300.0 : std::abs(reading - wanted) < 1e-9, say);
      tally.check(
          (lap ? f.laps[static_cast<unsigned>(lap - 1)].ended_by : f.ended_by) == LegEnd::dme, say);
    }
  }
  CHECK(ends > 20000);
  tally.settle(40000);
}

TEST_CASE("legs: a reading that the DME never shows is called that, not the wind's fault",
          "[legs][dme]") {
  static Flight f;
  // 4,000 ft are 0.66 NM: over the station the DME shows no less.
  for (const char* link :
       {"wind=360/0&leg=0.5nm&measure=dme", "wind=360/0&leg=0.5nm&measure=dme&entry=direct"}) {
    fly_scenario(make_setup(parse_link(link).scenario), f);
    CHECK(f.stop == Stop::no_reading);
  }
  fly_scenario(make_setup(parse_link("leg=4nm&wind=58/120&arrive=58&ias=125").scenario), f);
  CHECK(f.stop != Stop::no_reading);
}

TEST_CASE("legs: the fix is where its reading says", "[legs][dme]") {
  Scenario s;
  s.altitude_ft = 6000.0;
  s.station = {Station::Place::ahead, 10.0};
  s.leg = Leg{Leg::Kind::distance, 5.0};
  const Setup u = make_setup(s);
  CHECK(std::abs(slant_range_nm(length(u.station), u.height_ft) - 10.0) < 1e-12);
  // Inbound toward the station, which so lies beyond the fix.
  CHECK(std::abs(direction_of(u.station) - s.inbound_course_deg) < 1e-9);
  CHECK(leg_end_dme_nm(u) == 15.0);  // AIM FIG 5-3-5
  s.station = {Station::Place::behind, 28.0};
  s.leg = Leg{Leg::Kind::distance, 8.0};
  const Setup away = make_setup(s);
  CHECK(std::abs(wrap_180(direction_of(away.station) - s.inbound_course_deg)) > 179.999);
  CHECK(leg_end_dme_nm(away) == 20.0);  // AIM FIG 5-3-6
}

TEST_CASE("legs: a limiting radial turns the aircraft inbound, if it comes first",
          "[legs][radial]") {
  test::Random r(3402);
  test::Tally tally;
  int by_radial[2] = {};
  for (int i = 0; i < 30000; ++i) {
    Scenario s = test::calm_scenario(r);
    s.leg = Leg{Leg::Kind::time, r.between(60.0, 180.0)};
    const bool ahead = r.chance(0.5);
    s.station = {ahead ? Station::Place::ahead : Station::Place::behind,
                 ahead ? r.between(10.0, 30.0) : r.between(20.0, 40.0)};
    // So slow that the turns stay well on this side of the station.
    s.altitude_ft = r.between(0.0, 8000.0);
    s.speed_is_tas = true;
    s.speed_kt = r.between(70.0, 200.0);
    s.bank_limit_deg = 30.0;
    s.wind_kt = r.between(0.0, 30.0);
    const Setup without = make_setup(s);
    // A radial a little off the course, on the holding side.
    const double side = ahead ? -without.turn_sign : without.turn_sign;
    s.radial_deg =
        wrap_360(s.inbound_course_deg + (ahead ? 180.0 : 0.0) + side * r.between(1.0, 12.0));
    const Setup u = make_setup(s);
    static Flight f;
    static Flight free;
    fly_scenario(u, f);
    fly_scenario(without, free);
    if (f.track.size() == 0) continue;
    const auto say = [&] { return test::named(s); };
    const Event* e = first_event(f, EventKind::time_up, 0);
    const Event* level = first_event(f, EventKind::level, 0);
    const Event* other = first_event(free, EventKind::time_up, 0);
    if (!e || !level || !other) continue;
    if (f.ended_by == LegEnd::radial) {
      ++by_radial[ahead];
      tally.check(e->at_s <= other->at_s + 1e-9, say);
      if (e->at_s > level->at_s + 1e-9) {
        tally.check(std::abs(wrap_180(bearing_from(u.station, e->at) - *s.radial_deg)) < 1e-7, say);
      }
    } else {
      tally.check(test::near(e->at_s, other->at_s, 1e-9), say);
      // Not beyond it.
      const double past = wrap_180(bearing_from(u.station, e->at) - *s.radial_deg) * side;
      tally.check(past <= 1e-7 || e->at_s <= level->at_s + 1e-9, say);
    }
  }
  CHECK(by_radial[false] > 2500);
  CHECK(by_radial[true] > 2500);
  tally.settle(20000);
}

TEST_CASE("legs: a radial is met on the side of the pattern, wherever the station lies",
          "[legs][radial]") {
  // Derived: at the end of a leg d NM long the aircraft is abeam by a turn's diameter 2r at a
  // distance D - d from a station behind, whose bearing so is atan(2r / (D - d)).
  const auto flown = [](std::string_view link) {
    const Setup u = make_setup(parse_link(link).scenario);
    static Flight f;
    fly_scenario(u, f);
    const Event* e = first_event(f, EventKind::time_up, 0);
    REQUIRE(e);
    return std::pair(f.ended_by, bearing_from(u.station, e->at));
  };
  const std::string_view away =
      "inbound=360&turns=right&arrive=360&wind=360/0&leg=8nm&laps=0&station=28from&radial=";
  const auto [by, bearing_deg] = flown(std::string(away) + "3");
  CHECK(by == LegEnd::radial);
  CHECK(std::abs(bearing_deg - 3.0) < 1e-7);
  CHECK(flown(std::string(away) + "5").first == LegEnd::track);    // never so far aside
  CHECK(flown(std::string(away) + "355").first == LegEnd::track);  // on the other side
}

TEST_CASE("laps: each policy does what it says", "[laps]") {
  const auto next = [](Adjust adjust, double outbound_s, double inbound_s) {
    Scenario s;
    s.adjust = adjust;
    return next_outbound_s(make_setup(s), outbound_s, inbound_s);
  };
  CHECK(next(Adjust::seconds, 60.0, 50.0) == 70.0);  // US Navy P-871, check H06
  CHECK(next(Adjust::seconds, 70.0, 64.0) == 66.0);
  CHECK(next(Adjust::ratio, 60.0, 50.0) == 72.0);  // 60 x 60 / 50
  CHECK(next(Adjust::keep, 75.0, 40.0) == 60.0);
  CHECK(next(Adjust::ratio, 60.0, 0.5) == 7200.0);
  // Behind the fix there is no ratio.
  CHECK(next(Adjust::ratio, 60.0, -10.0) == 130.0);
}

TEST_CASE("laps: exact laps are exact from the first that begins on course", "[laps][property]") {
  test::Random r(3403);
  test::Tally tally;
  int seen = 0;
  for (int i = 0; i < 3000; ++i) {
    Scenario s = test::calm_scenario(r);
    s.leg.reset();
    s.laps = 4;
    s.exact_multiple = true;
    s.adjust = Adjust::exact;
    const Setup u = make_setup(s);
    static Flight f;
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    const ExactPlan exact = exact_lap(u);
    if (!exact.exists()) {
      if (f.rollout.exists) tally.check(f.stop == Stop::no_exact, say);
      continue;
    }
    if (f.fix_missed || f.stop != Stop::none || exact.time_s < 0.0) continue;
    for (int k = 1; k < f.lap_count; ++k) {
      const Lap& lap = f.laps[static_cast<unsigned>(k)];
      const Event* begun = first_event(f, EventKind::fix, k);
      if (!begun || std::abs(u.cross_nm(begun->at)) > 1e-9) continue;
      ++seen;
      tally.check(std::abs(lap.rollout.cross_nm) < 1e-7, say);
      tally.check(std::abs(lap.rollout.inbound_s - u.published_s) < 1e-4, say);
    }
  }
  CHECK(seen > 1000);
  tally.settle(2000);
}

TEST_CASE("laps: without wind every policy keeps a minute", "[laps]") {
  for (const Adjust adjust : {Adjust::seconds, Adjust::ratio, Adjust::exact, Adjust::keep}) {
    Scenario s;
    s.wind_kt = 0.0;
    s.adjust = adjust;
    s.laps = 5;
    static Flight f;
    fly_scenario(make_setup(s), f);
    REQUIRE(f.lap_count == 5);
    CHECK(std::abs(f.laps[4].outbound_s - 60.0) < 1e-6);
    CHECK(std::abs(f.laps[4].rollout.inbound_s - 60.0) < 1e-6);
  }
}

TEST_CASE("entry: the parallel entry can go back to the fix", "[entry][property]") {
  test::Random r(3404);
  test::Tally tally;
  int back = 0;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::calm_scenario(r);
    s.entry = EntryKind::parallel;
    s.parallel_end = ParallelEnd::fix;
    s.laps = 1;
    const Setup u = make_setup(s);
    static Flight f;
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    if (!f.rollout.exists) continue;
    int fixes = 0;
    for (int k = 0; k < f.event_count; ++k) {
      const Event& e = f.events[static_cast<unsigned>(k)];
      if (e.kind != EventKind::fix || e.lap != 0) continue;
      ++fixes;
      tally.check(length(e.at) < 1e-8, say);
    }
    back += fixes == 2 ? 1 : 0;
    tally.check(fixes == 2 || f.stop != Stop::none, say);
  }
  CHECK(back > 18000);
  tally.settle(50000);
}

TEST_CASE("flights: every scenario that a link can say is flown without a gap",
          "[flight][property]") {
  test::Random r(3405);
  test::Tally tally;
  int flown = 0;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::any_scenario(r);
    const Setup u = make_setup(s);
    static Flight f;
    fly_scenario(u, f);
    const auto say = [&] { return write_link(s); };
    tally.check(f.track.size() < Track::kCapacity, say);
    for (int k = 0; k < f.track.size(); ++k) {
      const Segment& g = f.track[k];
      const Vec2 end = g.position_at(g.duration_s);
      const double size = 1.0 + length(end);
      tally.check(std::isfinite(end.x) && std::isfinite(end.y) && g.duration_s >= 0.0, say);
      if (k + 1 == f.track.size()) continue;
      const Segment& next = f.track[k + 1];
      tally.check(length(next.start - end) < 1e-9 * size, say);
      tally.check(std::abs(next.start_s - g.end_s()) < 1e-9 * size, say);
      tally.check(std::abs(wrap_180(next.heading_deg - g.heading_at(g.duration_s))) < 1e-7, say);
    }
    flown += f.rollout.exists ? 1 : 0;
  }
  CHECK(flown > 10000);
  tally.settle(500000);
}
