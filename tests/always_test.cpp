// What must hold for every entry, kind of leg and policy, over a million scenarios each.
#include <catch2/catch_test_macros.hpp>

#include "core/exact.h"
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

const Event* find(const Flight& f, EventKind kind, int lap) {
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == kind && e.lap == lap) return &e;
  }
  return nullptr;
}

/// Empty where the flight is whole: its pieces meet in place, time, heading and wind, its events
/// lie on them in order, its roll-outs are numbers of their places.
std::string broken(const Setup& u, const Flight& f) {
  if (f.stop == Stop::no_arrival || f.stop == Stop::no_plan) {
    return f.track.size() == 0 && f.event_count == 0 && !f.rollout.exists ? "" : "not flown";
  }
  if (f.track.size() >= Track::kCapacity || f.event_count >= Flight::kMostEvents) return "room";
  for (int k = 0; k < f.track.size(); ++k) {
    const Segment& g = f.track[k];
    const Vec2 end = g.position_at(g.duration_s);
    if (!finite(end) || !(g.duration_s >= 0.0)) return "piece";
    if (g.speed_nm_s != u.tas_kt * kNmPerSecondPerKnot) return "airspeed";
    if (std::abs(g.rate_deg_s) > u.turn.rate_deg_s * (1.0 + 1e-12)) return "turn rate";
    if (k + 1 == f.track.size()) break;
    const Segment& n = f.track[k + 1];
    const double size = 1.0 + length(end);
    if (length(n.start - end) > 1e-9 * size) return "gap";
    if (std::abs(n.start_s - g.end_s()) > 1e-9 * size) return "time";
    if (apart(n.heading_deg, g.heading_at(g.duration_s)) > 1e-7) return "heading";
    if (n.start_s <= 0.0) continue;
    const Vec2 wind = g.wind_nm_s + g.wind_change_nm_s2 * g.duration_s;
    if (length(n.wind_nm_s - wind) > 1e-12) return "wind";
  }
  for (int k = 0; k < f.event_count; ++k) {
    const Event& e = f.events[static_cast<unsigned>(k)];
    if (!finite(e.at) || !(e.heading_deg > 0.0 && e.heading_deg <= 360.0)) return "event";
    if (length(f.track.position_at(e.at_s) - e.at) > 1e-9 * (1.0 + length(e.at))) return "place";
    if (k == 0) continue;
    const Event& before = f.events[static_cast<unsigned>(k - 1)];
    if (e.at_s < before.at_s || e.lap < before.lap) return "order";
  }
  if (f.rollout.exists) {
    const Rollout& r = f.rollout;
    if (!finite(r)) return "roll-out";
    const double size = 1.0 + length(r.at);
    if (std::abs(r.cross_nm - u.hold.cross_nm(r.at)) > 1e-9 * size) return "cross";
    if (std::abs(r.to_go_nm - u.hold.to_go_nm(r.at)) > 1e-9 * size) return "to go";
  } else if (f.stop == Stop::none) {
    return "neither roll-out nor reason";
  }
  if (f.stop == Stop::none && f.lap_count != u.scenario.laps) return "laps";
  for (int k = 0; k < f.lap_count; ++k) {
    const Lap& lap = f.laps[static_cast<unsigned>(k)];
    if (!finite(lap.rollout) || !(lap.outbound_s >= 0.0)) return "lap";
    if (lap.outbound_s > kMostOutboundS + 1e-9 && lap.ended_by == LegEnd::time) return "long lap";
  }
  return {};
}

/// The same flight with places and headings moved; empty where it is. A pilot who is never
/// established flies from abeam to abeam, where rounding decides ties: laps are compared up to
/// the first fix that was missed.
template <class Moved, class Turned>
std::string difference(const Flight& a, const Flight& b, const Moved& moved, const Turned& turned) {
  if (a.stop != b.stop) return "stop";
  if (a.rollout.exists != b.rollout.exists) return "roll-out";
  if (a.event_count == 0) return b.event_count == 0 ? "" : "events";
  const auto same = [&](double x, double y) { return test::near(x, y, 1e-7); };
  if (a.rollout.exists) {
    if (!same(a.rollout.cross_nm, b.rollout.cross_nm)) return "cross";
    if (!same(a.rollout.to_go_nm, b.rollout.to_go_nm)) return "to go";
    if (!same(a.rollout.inbound_s, b.rollout.inbound_s)) return "inbound";
  }
  const int shared = a.event_count < b.event_count ? a.event_count : b.event_count;
  for (int i = 0; i < shared; ++i) {
    const Event& x = a.events[static_cast<unsigned>(i)];
    const Event& y = b.events[static_cast<unsigned>(i)];
    if (x.kind != y.kind || x.lap != y.lap) return "kind of event " + std::to_string(i);
    if (!same(x.at_s, y.at_s)) return "time of event " + std::to_string(i);
    const Vec2 p = moved(x.at);
    if (!same(p.x, y.at.x) || !same(p.y, y.at.y)) return "place of event " + std::to_string(i);
    if (apart(turned(x.heading_deg), y.heading_deg) > 1e-5) return "heading " + std::to_string(i);
    if (x.kind == EventKind::fix_missed) return {};
  }
  return a.event_count == b.event_count ? "" : "count of events";
}

void flights_are_whole(int rounds, std::uint64_t seed) {
  test::Random r(seed);
  test::Tally tally;
  static Flight f;
  int flown[test::kOfEach] = {};
  for (int i = 0; i < rounds; ++i) {
    const Scenario s = test::scenario_of_each(r, i);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const std::string what = broken(u, f);
    tally.check(what.empty(), [&] { return test::named(s) + " " + what; });
    if (f.rollout.exists) ++flown[i % test::kOfEach];
  }
  for (const int count : flown) CHECK(count > rounds / test::kOfEach / 4);
  tally.settle(rounds);
}

void sides_are_alike(int rounds, std::uint64_t seed) {
  test::Random r(seed);
  test::Tally tally;
  static Flight a;
  static Flight b;
  int flown = 0;
  for (int i = 0; i < rounds; ++i) {
    Scenario s = test::scenario_of_each(r, i);
    // Without wind the way back to the fix can be a circle that just closes: a tie again.
    if (s.wind_kt < 1.0) s.parallel_end = ParallelEnd::course;
    const Setup u = make_setup(s);
    fly_scenario(u, a);
    flown += a.rollout.exists ? 1 : 0;
    if (i % 2 == 0) {
      fly_scenario(make_setup(test::mirrored(s)), b);
      const std::string d = difference(
          a, b,
          [](Vec2 p) {
            return Vec2{-p.x, p.y};
          },
          [](double h) { return 360.0 - h; });
      tally.check(d.empty(), [&] { return test::named(s) + " in a mirror: " + d; });
    } else {
      // By angles that leave round directions round: a tie stays the same tie.
      const double by = r.stepped(-360.0, 360.0, 90.0);
      fly_scenario(make_setup(test::rotated(s, by)), b);
      const SinCos k = sincos_deg(by);
      const std::string d = difference(
          a, b,
          [&](Vec2 p) {
            return Vec2{p.x * k.cos + p.y * k.sin, p.y * k.cos - p.x * k.sin};
          },
          [&](double h) { return h + by; });
      tally.check(d.empty(),
                  [&] { return test::named(s) + " turned by " + std::to_string(by) + ": " + d; });
    }
  }
  CHECK(flown > rounds / 2);
  tally.settle(rounds);
}

void still_air_is_closed(int rounds, std::uint64_t seed) {
  // Chords: turning through an angle a on a radius r moves an aircraft 2 r sin(a/2), halfway
  // between its headings. Derived; docs/theory.md "Segment".
  test::Random r(seed);
  test::Tally tally;
  static Flight f;
  int of_kind[kEntryKinds] = {};
  for (int i = 0; i < rounds; ++i) {
    Scenario s = test::scenario_of_each(r, i);
    s.wind_kt = 0.0;
    s.later_wind.reset();
    s.roll_deg_s = 0.0;
    s.radial_deg.reset();
    s.laps = 0;
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const auto say = [&] { return test::named(s); };
    // A course is flown on its own heading, at the airspeed.
    for (const WindTriangle* t : {&u.arrival, &u.inbound, &u.outbound}) {
      tally.check(t->exists && t->wca_deg == 0.0 && test::near(t->groundspeed_kt, u.tas_kt, 1e-14),
                  say);
    }
    if (!f.rollout.exists) continue;
    const Event* fix = find(f, EventKind::fix, 0);
    const Event* up = find(f, EventKind::time_up, 0);
    const Event* out = find(f, EventKind::roll_out, 0);
    if (!fix || !up || !out) continue;
    ++of_kind[static_cast<int>(f.plan.kind)];
    // From the time that is up to wings level, one turn toward the side that the entry has.
    const double way = f.plan.kind == EntryKind::parallel ? -u.turn_sign : u.turn_sign;
    const double angle = turn_angle((out->heading_deg - up->heading_deg) * way);
    const Vec2 chord = along(up->heading_deg + 0.5 * angle * way) *
                       (2.0 * u.turn.radius_nm * sin_deg(0.5 * angle));
    tally.check(length(out->at - up->at - chord) < 1e-9 * (1.0 + length(out->at)), say);
    tally.check(test::near(out->at_s - up->at_s, angle / u.turn.rate_deg_s, 1e-9), say);
    // And before that, one turn the way the track has it, then straight.
    const Segment* first = nullptr;
    for (const Segment& g : f.track) {
      if (g.start_s >= -1e-12 && !g.straight() && g.duration_s > 0.0 && g.start_s < up->at_s) {
        first = &g;
        break;
      }
    }
    const double sign = first && first->rate_deg_s < 0.0 ? -1.0 : 1.0;
    const double begun = first ? turn_angle((up->heading_deg - fix->heading_deg) * sign) : 0.0;
    const Vec2 bend = along(fix->heading_deg + 0.5 * begun * sign) *
                      (2.0 * u.turn.radius_nm * sin_deg(0.5 * begun));
    const double straight_s = up->at_s - begun / u.turn.rate_deg_s;
    const Vec2 leg = along(up->heading_deg) * (straight_s * u.tas_kt * kNmPerSecondPerKnot);
    tally.check(straight_s > -1e-9, say);
    tally.check(length(up->at - fix->at - bend - leg) < 1e-9 * (1.0 + length(up->at)), say);
  }
  for (const int count : of_kind) CHECK(count > rounds / 5);
  tally.settle(rounds * 5LL);
}

void motion_adds_up(int rounds, std::uint64_t seed) {
  test::Random r(seed);
  test::Tally tally;
  static Flight f;
  long long pieces = 0;
  for (int i = 0; i < rounds / 5; ++i) {
    const Scenario s = test::scenario_of_each(r, i);
    fly_scenario(make_setup(s), f);
    const auto say = [&] { return test::named(s); };
    for (const Segment& g : f.track) {
      if (!g.even()) continue;
      ++pieces;
      const Vec2 end = g.position_at(g.duration_s);
      const double size = 1e-11 * (1.0 + length(end) + length(g.start) +
                                   g.duration_s * (g.speed_nm_s + length(g.wind_nm_s)));
      // Reversed: heading and wind about, the turn the other way round.
      Segment back = g;
      back.start = end;
      back.heading_deg = wrap_360(g.heading_at(g.duration_s) + 180.0);
      back.rate_deg_s = -g.rate_deg_s;
      back.wind_nm_s = g.wind_nm_s * -1.0;
      tally.check(length(back.position_at(g.duration_s) - g.start) < size, say);
      // Cut: the second part begins where the first ends, and ends where the whole does.
      const double cut_s = r.unit() * g.duration_s;
      Segment rest = g;
      rest.start = g.position_at(cut_s);
      rest.heading_deg = g.heading_at(cut_s);
      tally.check(length(rest.position_at(g.duration_s - cut_s) - end) < size, say);
    }
  }
  CHECK(pieces > rounds);
  tally.settle(2 * pieces);
}

void near_is_near(int rounds, std::uint64_t seed) {
  // A turn through an angle of nothing becomes one of a whole circle at its seam; away from
  // seams, a millionth of a degree or of a knot moves the roll-out by little.
  test::Random r(seed);
  test::Tally tally;
  static Flight a;
  static Flight b;
  int moved_little = 0;
  int jumps = 0;
  for (int i = 0; i < rounds; ++i) {
    Scenario s = test::calm_scenario(r);
    s.entry = static_cast<EntryKind>(i % kEntryKinds);
    s.laps = 0;
    Scenario t = s;
    const double d = 1e-6;
    switch (i / kEntryKinds % 4) {
      case 0:
        t.wind_kt += d;
        break;
      case 1:
        t.wind_from_deg = wrap_360(t.wind_from_deg + d);
        break;
      case 2:
        t.speed_kt += d;
        break;
      default:
        t.arrival_course_deg = wrap_360(t.arrival_course_deg + d);
    }
    fly_scenario(make_setup(s), a);
    fly_scenario(make_setup(t), b);
    if (!a.rollout.exists || !b.rollout.exists) continue;
    const double size = 1.0 + length(a.rollout.at);
    if (length(a.rollout.at - b.rollout.at) < 1e-3 * size) {
      ++moved_little;
    } else {
      ++jumps;
    }
    tally.check(finite(b.rollout), [&] { return test::named(s); });
  }
  CHECK(moved_little > rounds * 9 / 10);
  // Seams are lines: a step of a millionth meets one a few times in a million.
  CHECK(jumps <= rounds / 10000);
  tally.settle(rounds * 9LL / 10);
}

void exact_is_exact(int rounds, std::uint64_t seed) {
  test::Random r(seed);
  test::Tally tally;
  static Flight f;
  int exist[kEntryKinds] = {};
  for (int i = 0; i < rounds / 50; ++i) {
    Scenario s = test::scenario_of_each(r, i);
    s.wind_kt = r.decimal(0.0, 60.0);
    s.later_wind.reset();
    s.parallel_end = ParallelEnd::course;
    s.radial_deg.reset();
    s.laps = 0;
    const Setup u = make_setup(s);
    const ExactPlan p = exact_heading_and_time(u);
    const auto say = [&] { return test::named(s); };
    if (!p.exists()) {
      tally.check(p.why != NoPlan::none, say);
      continue;
    }
    tally.check(p.heading_deg > 0.0 && p.heading_deg <= 360.0 && p.straight_s >= 0.0 &&
                    p.time_s <= kMostOutboundS + 1e-6,
                say);
    if (p.time_s < 0.0) continue;
    Setup timed = u;
    timed.scenario.time_s = p.time_s;  // the plan's own, in place of a distance
    fly(timed, {*s.entry, p.heading_deg, p.time_s}, f);
    ++exist[static_cast<int>(*s.entry)];
    if (*s.entry == EntryKind::parallel) {
      const Event* on = find(f, EventKind::on_course, 0);
      tally.check(on != nullptr && std::abs(u.hold.cross_nm(on->at)) <= kOnCourseNm + 1e-9, say);
    } else {
      tally.check(f.rollout.exists && std::abs(f.rollout.cross_nm) < 1e-6, say);
      tally.check(f.rollout.to_go_nm > 0.0 && !f.fix_missed, say);
    }
  }
  for (const int count : exist) CHECK(count > rounds / 50 / 10);
  tally.settle(rounds / 50);
}

void links_come_back(int rounds, std::uint64_t seed) {
  test::Random r(seed);
  test::Tally tally;
  for (int i = 0; i < rounds; ++i) {
    const Scenario s = test::scenario_of_each(r, i);
    const std::string link = write_link(s);
    const ParsedLink read = parse_link(link);
    tally.check(read.problems.empty() && read.scenario == s, [&] {
      return link + (read.problems.empty() ? "" : " " + read.problems[0].message);
    });
  }
  tally.settle(rounds);
}

/// Rounds of the ordinary run, and of the long one. Laps by exact plans cost a hundred times
/// what a flight without laps does.
constexpr int kOften = 18000;
constexpr int kQuick = 200000;
constexpr int kMillion = 1000000;

}  // namespace

TEST_CASE("always: a flight is whole, whatever is flown", "[always][property]") {
  flights_are_whole(kOften, 7101);
}
TEST_CASE("always: no left, no right, no north", "[always][property]") {
  sides_are_alike(kOften, 7102);
}
TEST_CASE("always: still air has its closed forms", "[always][property]") {
  still_air_is_closed(kQuick, 7103);
}
TEST_CASE("always: motion back through time, and in two parts", "[always][property]") {
  motion_adds_up(kOften, 7104);
}
TEST_CASE("always: near scenarios roll out near", "[always][property]") {
  near_is_near(kQuick, 7105);
}
TEST_CASE("always: an exact plan of any entry is on course", "[always][exact][property]") {
  exact_is_exact(kOften, 7106);
}
TEST_CASE("always: a link gives its scenario back", "[always][link][property]") {
  links_come_back(kQuick, 7107);
}

TEST_CASE("always: a flight is whole, whatever is flown, a million times", "[.million]") {
  flights_are_whole(kMillion, 7201);
}
TEST_CASE("always: no left, no right, no north, a million times", "[.million]") {
  sides_are_alike(kMillion, 7202);
}
TEST_CASE("always: still air has its closed forms, a million times", "[.million]") {
  still_air_is_closed(kMillion, 7203);
}
TEST_CASE("always: motion back through time, and in two parts, a million times", "[.million]") {
  motion_adds_up(kMillion, 7204);
}
TEST_CASE("always: near scenarios roll out near, a million times", "[.million]") {
  near_is_near(kMillion, 7205);
}
TEST_CASE("always: an exact plan of any entry is on course, a million times", "[.million]") {
  exact_is_exact(kMillion, 7206);
}
TEST_CASE("always: a link gives its scenario back, a million times", "[.million]") {
  links_come_back(kMillion, 7207);
}
