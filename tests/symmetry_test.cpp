// Physics has no left, no right and no north: mirrored and turned cases.
#include <catch2/catch_test_macros.hpp>

#include "core/exact.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

double apart(double a, double b) { return std::abs(wrap_180(a - b)); }

/// Compares two flights of which the second is the first one with `moved` applied to
/// places and `turned` to headings. Empty where they agree.
template <class Moved, class Turned>
std::string difference(const Flight& a, const Flight& b, double tolerance, const Moved& moved,
                       const Turned& turned) {
  if (a.stop != b.stop) return "stop";
  if (a.lap_count != b.lap_count) return "laps";
  // A pilot who never gets established flies lap after lap from abeam to abeam: whether
  // a turn then ends just before or just after is a tie that rounding decides. So the
  // comparison ends with the first fix that was missed.
  int compared = a.event_count < b.event_count ? a.event_count : b.event_count;
  int laps = a.lap_count;
  for (int i = compared - 1; i >= 0; --i) {
    const Event& e = a.events[static_cast<unsigned>(i)];
    if (e.kind != EventKind::fix_missed) continue;
    compared = i + 1;
    laps = e.lap;
  }
  if (laps == a.lap_count) {
    if (a.event_count != b.event_count) return "events";
    if (a.track.size() != b.track.size()) return "pieces";
  }
  const auto same = [&](double x, double y) { return test::near(x, y, tolerance); };
  if (a.rollout.exists != b.rollout.exists) return "roll-out";
  if (a.rollout.exists && !same(a.rollout.cross_nm, b.rollout.cross_nm)) return "cross";
  if (a.rollout.exists && !same(a.rollout.to_go_nm, b.rollout.to_go_nm)) return "to go";
  if (a.rollout.exists && !same(a.rollout.inbound_s, b.rollout.inbound_s)) return "inbound";
  for (int i = 0; i < compared; ++i) {
    const Event& x = a.events[static_cast<unsigned>(i)];
    const Event& y = b.events[static_cast<unsigned>(i)];
    const std::string at = " of event " + std::to_string(i);
    if (x.kind != y.kind || x.lap != y.lap) return "kind" + at;
    if (!same(x.at_s, y.at_s)) return "time" + at;
    const Vec2 p = moved(x.at);
    if (!same(p.x, y.at.x) || !same(p.y, y.at.y)) return "place" + at;
    if (apart(turned(x.heading_deg), y.heading_deg) > tolerance * 100.0) return "heading" + at;
  }
  for (int i = 0; i < laps; ++i) {
    const Lap& x = a.laps[static_cast<unsigned>(i)];
    const Lap& y = b.laps[static_cast<unsigned>(i)];
    if (!same(x.outbound_s, y.outbound_s)) return "outbound of lap " + std::to_string(i);
    if (!same(x.rollout.cross_nm, y.rollout.cross_nm)) return "cross of lap " + std::to_string(i);
  }
  return {};
}

std::string difference(const ExactPlan& a, const ExactPlan& b, double b_heading_deg) {
  if (a.why != b.why) return std::string(name_of(a.why)) + "/" + std::string(name_of(b.why));
  if (!a.exists()) return {};
  if (apart(a.heading_deg, b_heading_deg) > 1e-7) return "heading";
  if (!test::near(a.time_s, b.time_s, 1e-7)) return "time";
  return {};
}

}  // namespace

TEST_CASE("symmetry: seen in a mirror", "[symmetry][property]") {
  test::Random r(1601);
  test::Tally tally;
  static Flight a;
  static Flight b;
  for (int i = 0; i < 100000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    const Setup m = make_setup(test::mirrored(s));
    fly_scenario(u, a);
    fly_scenario(m, b);
    const std::string d = difference(
        a, b, 1e-9,
        [](Vec2 p) {
          return Vec2{-p.x, p.y};
        },
        [](double h) { return 360.0 - h; });
    tally.check(d.empty(), [&] { return test::named(s) + " " + d; });
    tally.check(u.entry == m.entry && u.sector.has_value() == m.sector.has_value() &&
                    (!u.sector || (u.sector->also == m.sector->also)),
                [&] { return test::named(s); });
  }
  tally.settle(200000);
}

TEST_CASE("symmetry: turned by any angle", "[symmetry][property]") {
  test::Random r(1602);
  test::Tally tally;
  static Flight a;
  static Flight b;
  for (int i = 0; i < 100000; ++i) {
    const Scenario s = test::random_scenario(r, 0.0);  // no ties, which rounding would decide
    const double by = r.between(-360.0, 360.0);
    fly_scenario(make_setup(s), a);
    fly_scenario(make_setup(test::rotated(s, by)), b);
    const SinCos k = sincos_deg(by);
    const std::string d = difference(
        a, b, 1e-9,
        [&](Vec2 p) {
          return Vec2{p.x * k.cos + p.y * k.sin, p.y * k.cos - p.x * k.sin};
        },
        [&](double h) { return h + by; });
    tally.check(d.empty(), [&] { return test::named(s) + " by " + std::to_string(by) + " " + d; });
  }
  tally.settle(100000);
}

TEST_CASE("symmetry: exact plans, mirrored and turned", "[symmetry][exact][property]") {
  test::Random r(1603);
  test::Tally tally;
  int exist = 0;
  for (int i = 0; i < 2000; ++i) {
    const Scenario s = test::calm_scenario(r);
    const double by = r.between(-360.0, 360.0);
    const Setup u = make_setup(s);
    const Setup m = make_setup(test::mirrored(s));
    const Setup t = make_setup(test::rotated(s, by));
    const auto compare = [&](ExactPlan (*solve)(const Setup&)) {
      const ExactPlan x = solve(u);
      const ExactPlan y = solve(m);
      const ExactPlan z = solve(t);
      exist += x.exists() ? 1 : 0;
      const std::string mirror = difference(x, y, 360.0 - y.heading_deg);
      const std::string turn = difference(x, z, z.heading_deg - by);
      tally.check(mirror.empty(), [&] { return test::named(s) + " mirror " + mirror; });
      tally.check(turn.empty(), [&] { return test::named(s) + " turned " + turn; });
    };
    compare(exact_heading_for_time);
    compare(exact_heading_and_time);
    compare(exact_time_for_heading);
    compare(exact_lap);
  }
  CHECK(exist > 5000);
  tally.settle(16000);
}
