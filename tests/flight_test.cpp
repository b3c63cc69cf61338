// The plan flown: a hundred thousand flights without a gap, a jump or a NaN.
#include "core/flight.h"

#include <catch2/catch_test_macros.hpp>

#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

bool finite(Vec2 v) { return std::isfinite(v.x) && std::isfinite(v.y); }

bool finite(const Rollout& r) {
  return std::isfinite(r.cross_nm) && std::isfinite(r.to_go_nm) && std::isfinite(r.inbound_s) &&
         std::isfinite(r.at_s) && finite(r.at);
}

double apart(double a, double b) { return std::abs(wrap_180(a - b)); }

bool same(const Rollout& a, const Rollout& b) {
  return a.exists == b.exists && (!a.exists || (a.cross_nm == b.cross_nm && a.at == b.at &&
                                                a.inbound_s == b.inbound_s && a.at_s == b.at_s));
}

bool same(const Lap& a, const Lap& b) {
  return a.start_s == b.start_s && a.outbound_heading_deg == b.outbound_heading_deg &&
         a.outbound_s == b.outbound_s && a.ended_by == b.ended_by && a.wca_deg == b.wca_deg &&
         same(a.rollout, b.rollout);
}

bool same(const Event& a, const Event& b) {
  return a.kind == b.kind && a.lap == b.lap && a.at_s == b.at_s && a.at == b.at &&
         a.heading_deg == b.heading_deg;
}

bool same(const Segment& a, const Segment& b) {
  return a.start_s == b.start_s && a.duration_s == b.duration_s && a.start == b.start &&
         a.heading_deg == b.heading_deg && a.rate_deg_s == b.rate_deg_s;
}

template <typename List>
bool same_first(const List& a, const List& b, int count) {
  for (int i = 0; i < count; ++i) {
    if (!same(a[static_cast<unsigned>(i)], b[static_cast<unsigned>(i)])) return false;
  }
  return true;
}

bool same(const Flight& a, const Flight& b) {
  if (a.track.size() != b.track.size()) return false;
  for (int i = 0; i < a.track.size(); ++i) {
    if (!same(a.track[i], b.track[i])) return false;
  }
  return a.plan.kind == b.plan.kind && a.plan.heading_deg == b.plan.heading_deg &&
         a.plan.time_s == b.plan.time_s && a.stop == b.stop && a.entry_time_s == b.entry_time_s &&
         a.ended_by == b.ended_by && same(a.rollout, b.rollout) && a.level_s == b.level_s &&
         a.intercept_flown_deg == b.intercept_flown_deg && a.fix_missed == b.fix_missed &&
         a.lap_count == b.lap_count && a.event_count == b.event_count &&
         same_first(a.laps, b.laps, a.lap_count) && same_first(a.events, b.events, a.event_count);
}

/// One rounding step of a position so far from the fix, with room for a few sums.
double blur(Vec2 at) { return 1e-14 * (10.0 + length(at)); }

}  // namespace

TEST_CASE("flight: 100,000 flights are finite and without gaps", "[flight][property]") {
  test::Random r(1401);
  test::Tally tally;
  static Flight f;
  int flown = 0;
  int most_pieces = 0;
  int most_events = 0;
  int stops[5] = {};
  for (int i = 0; i < 100000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    ++stops[static_cast<int>(f.stop)];
    tally.check(std::isfinite(u.tas_kt) && u.tas_kt > 0.0 && u.turn.rate_deg_s > 0.0, say);
    if (f.stop == Stop::no_arrival || f.stop == Stop::no_plan) {
      tally.check(f.track.size() == 0 && f.event_count == 0 && !f.rollout.exists, say);
      continue;
    }
    ++flown;
    most_pieces = f.track.size() > most_pieces ? f.track.size() : most_pieces;
    most_events = f.event_count > most_events ? f.event_count : most_events;
    // Pieces meet in place, time and heading, and are flown as the air allows.
    const Vec2 wind = u.wind.velocity_kt() * kNmPerSecondPerKnot;
    bool good = f.track.start_s() == -kArrivalShownS;
    for (int k = 0; k < f.track.size(); ++k) {
      const Segment& g = f.track[k];
      good = good && g.duration_s >= 0.0 && std::isfinite(g.duration_s) && finite(g.start) &&
             std::isfinite(g.heading_deg) && g.wind_nm_s == wind &&
             g.speed_nm_s == u.tas_kt * kNmPerSecondPerKnot &&
             (g.rate_deg_s == 0.0 || std::abs(g.rate_deg_s) == u.turn.rate_deg_s);
      if (k + 1 == f.track.size()) break;
      const Segment& n = f.track[k + 1];
      good = good && std::abs(n.start_s - g.end_s()) < 1e-12;
      good = good && length(n.start - g.position_at(g.duration_s)) <= blur(n.start);
      good = good && apart(n.heading_deg, g.heading_at(g.duration_s)) < 1e-9;
    }
    tally.check(good, say);
    // Events are in order of time and lie on the track.
    good = f.event_count >= 2;
    for (int k = 0; k < f.event_count; ++k) {
      const Event& e = f.events[static_cast<unsigned>(k)];
      good = good && finite(e.at) && e.heading_deg > 0.0 && e.heading_deg <= 360.0;
      good = good && length(f.track.position_at(e.at_s) - e.at) <= 1e-12 * (10.0 + length(e.at));
      if (k == 0) continue;
      const Event& before = f.events[static_cast<unsigned>(k - 1)];
      good = good && e.at_s >= before.at_s && e.lap >= before.lap;
    }
    tally.check(good, say);
    tally.check(f.events[0].kind == EventKind::arrival && f.events[1].kind == EventKind::fix &&
                    f.events[1].at_s == 0.0 && f.events[1].at == Vec2{0.0, 0.0},
                say);
    tally.check(!f.rollout.exists || finite(f.rollout), say);
    tally.check(f.rollout.exists || f.stop != Stop::none, say);
    tally.check(f.stop != Stop::none || f.lap_count == s.laps, say);
    for (int k = 0; k < f.lap_count; ++k) {
      tally.check(finite(f.laps[static_cast<unsigned>(k)].rollout), say);
    }
  }
  // The room is enough, with some to spare, and every way to end was met.
  CHECK(most_pieces < Track::kCapacity);
  CHECK(most_events < Flight::kMostEvents);
  CHECK(flown > 50000);
  for (const int count : stops) CHECK(count > 100);
  tally.settle(400000);
}

TEST_CASE("flight: what was flown before leaves nothing behind", "[flight][property]") {
  test::Random r(1405);
  test::Tally tally;
  static Flight used;
  int stopped = 0;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    fly_scenario(u, used);
    Flight fresh;
    fly_scenario(u, fresh);
    if (fresh.stop != Stop::none) ++stopped;
    tally.check(same(used, fresh), [&] { return test::named(s); });
  }
  tally.settle(20000);
  CHECK(stopped > 100);
}

TEST_CASE("flight: roll-out numbers are those of the place and the time", "[flight][property]") {
  test::Random r(1402);
  test::Tally tally;
  static Flight f;
  for (int i = 0; i < 50000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    const auto check = [&](const Rollout& o) {
      const double a = s.inbound_course_deg * kDegToRad;
      // East and north of the fix, turned so that the inbound course points up.
      const double right = o.at.x * std::cos(a) - o.at.y * std::sin(a);
      const double up = o.at.x * std::sin(a) + o.at.y * std::cos(a);
      const double scale = 1e-13 * (10.0 + length(o.at));
      tally.check(std::abs(o.cross_nm - right * u.turn_sign) < scale, say);
      tally.check(std::abs(o.to_go_nm + up) < scale, say);
      tally.check(test::near(o.inbound_s * u.inbound.groundspeed_kt, o.to_go_nm * 3600.0, 1e-12),
                  say);
      tally.check(length(f.track.position_at(o.at_s) - o.at) < scale * 10.0, say);
      // The heading at roll-out, mod the two pieces that may meet there.
      const bool parallel = f.plan.kind == EntryKind::parallel && o.at_s == f.rollout.at_s;
      const double heading =
          parallel ? u.inbound.heading_deg - u.turn_sign * s.intercept_deg : u.inbound.heading_deg;
      tally.check(apart(f.track.heading_at(o.at_s - 1e-9), heading) < 1e-8, say);
    };
    if (f.rollout.exists) check(f.rollout);
    for (int k = 0; k < f.lap_count; ++k) check(f.laps[static_cast<unsigned>(k)].rollout);
  }
  tally.settle(250000);
}

TEST_CASE("flight: the short form of the offset entry agrees, 1e-12", "[flight][property]") {
  test::Random r(1403);
  test::Tally tally;
  static Flight f;
  for (int i = 0; i < 100000; ++i) {
    Scenario s = test::random_scenario(r);
    s.entry = EntryKind::offset;
    s.laps = 0;
    // Own numbers, so that a leg in miles does not take the time's place.
    if (!s.heading_deg) s.heading_deg = test::random_direction(r, 0.0);
    if (!s.time_s) s.time_s = r.decimal(0.0, 600.0);
    const Setup u = make_setup(s);
    if (!u.arrival.exists || !u.inbound.exists) continue;
    fly_scenario(u, f);
    const Rollout o = offset_rollout(u, *s.heading_deg, *s.time_s);
    const auto say = [&] { return test::named(s); };
    const double size = 1e-12 * std::fmax(1.0, length(o.at));
    tally.check(std::abs(o.cross_nm - f.rollout.cross_nm) < size, say);
    tally.check(std::abs(o.to_go_nm - f.rollout.to_go_nm) < size, say);
    tally.check(length(o.at - f.rollout.at) < size, say);
    tally.check(test::near(o.at_s, f.rollout.at_s, 1e-12), say);
    tally.check(test::near(o.inbound_s, f.rollout.inbound_s, 1e-10), say);
  }
  tally.settle(300000);
}

TEST_CASE("flight: the clock starts where the scenario says", "[flight][property]") {
  test::Random r(1404);
  test::Tally tally;
  static Flight f;
  int cut_short = 0;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::random_scenario(r);
    s.entry = r.chance(0.5) ? EntryKind::offset : EntryKind::parallel;
    if (!s.time_s) s.time_s = r.decimal(0.0, 120.0);
    s.laps = 0;
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    if (f.track.size() == 0) continue;
    const auto say = [&] { return test::named(s); };
    // Arrival, entry turn, outbound straight.
    const Segment& turn = f.track[1];
    const Segment& leg = f.track[2];
    tally.check(f.level_s == turn.duration_s && leg.rate_deg_s == 0.0, say);
    // The turn to the outbound heading goes the short way and is always completed.
    tally.check(turn.duration_s * u.turn.rate_deg_s <= 180.0 + 1e-9, say);
    tally.check(apart(turn.heading_at(turn.duration_s), f.plan.heading_deg) < 1e-9, say);
    const double flown = s.timer == Timer::fix ? turn.duration_s + leg.duration_s : leg.duration_s;
    const bool late = s.timer == Timer::fix && turn.duration_s > *s.time_s;
    cut_short += late ? 1 : 0;
    tally.check(late ? leg.duration_s == 0.0 : std::abs(flown - *s.time_s) < 1e-10, say);
    tally.check(std::abs(f.entry_time_s - flown) < 1e-10, say);
  }
  CHECK(cut_short > 300);
  tally.settle(50000);
}

TEST_CASE("flight: the short way round, and opposite headings", "[flight][seam]") {
  for (const Side turns : {Side::left, Side::right}) {
    Scenario s;
    s.turns = turns;
    const Setup u = make_setup(s);
    for (int from = 1; from <= 360; ++from) {
      CHECK(short_way(u, from, wrap_360(from + 1.0)) == Side::right);
      CHECK(short_way(u, from, wrap_360(from + 179.0)) == Side::right);
      CHECK(short_way(u, from, wrap_360(from - 1.0)) == Side::left);
      CHECK(short_way(u, from, wrap_360(from - 179.0)) == Side::left);
      // Exactly opposite, to rounding: in the direction of the holding turns.
      CHECK(short_way(u, from, wrap_360(from + 180.0)) == turns);
      CHECK(short_way(u, from, wrap_360(from + 180.0 + 1e-13)) == turns);
      CHECK(short_way(u, from, wrap_360(from + 180.0 - 1e-13)) == turns);
    }
    // Arriving on the inbound course with the same correction on both headings.
    s.arrival_course_deg = s.inbound_course_deg;
    s.entry = EntryKind::parallel;
    const Setup p = make_setup(s);
    CHECK(short_way(p, p.arrival.heading_deg, *rule_heading(p, HeadingRule::drift_once)) == turns);
  }
}

TEST_CASE("flight: a wind of zero is no wind, from wherever", "[flight][property]") {
  test::Random r(1405);
  test::Tally tally;
  static Flight a;
  static Flight b;
  for (int i = 0; i < 100000; ++i) {
    Scenario s = test::random_scenario(r);
    s.wind_kt = 0.0;
    fly_scenario(make_setup(s), a);
    s.wind_from_deg = test::random_direction(r, 0.5);
    fly_scenario(make_setup(s), b);
    bool same = a.stop == b.stop && a.event_count == b.event_count &&
                a.rollout.cross_nm == b.rollout.cross_nm && a.lap_count == b.lap_count;
    for (int k = 0; same && k < a.event_count; ++k) {
      const Event& x = a.events[static_cast<unsigned>(k)];
      const Event& y = b.events[static_cast<unsigned>(k)];
      same = x.kind == y.kind && x.at_s == y.at_s && x.at == y.at;
    }
    tally.check(same, [&] { return test::named(s); });
    // Heading is track: on straight pieces the aircraft moves where it points.
    const Segment& out = a.track[a.track.size() - 1];
    tally.check(out.wind_nm_s == Vec2{0.0, 0.0}, [&] { return test::named(s); });
  }
  tally.settle(200000);
}
