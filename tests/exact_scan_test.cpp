// No root is missed: the exact plans against dense scans of the whole circle.
#include <catch2/catch_test_macros.hpp>
#include <vector>

#include "core/exact.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

constexpr double kStep = 0.01;  // degrees
constexpr int kSteps = 36000;

/// Strong wind for the airspeed: where roots come in pairs, or not at all.
Scenario stormy(test::Random& r) {
  for (;;) {
    Scenario s = test::random_scenario(r, 0.0);
    s.entry = EntryKind::offset;
    s.speed_is_tas = true;
    s.speed_kt = r.decimal(60.0, 200.0);
    s.wind_kt = std::floor(s.speed_kt * r.between(0.3, 0.95) * 1e3) / 1e3;
    if (s.wind_kt > 150.0) continue;
    s.leg.reset();
    s.heading_deg.reset();
    s.time_s.reset();
    const Setup u = make_setup(s);
    if (u.arrival.exists && u.inbound.exists && rule_heading(u, s.rule)) return s;
  }
}

double apart(double a, double b) { return std::abs(wrap_180(a - b)); }

/// Whether one of the two turns jumps by a whole circle between two headings.
bool jumps(const Setup& u, double from_deg, double to_deg) {
  for (const double at : {u.inbound.heading_deg, u.arrival.heading_deg + 180.0}) {
    if (turn_angle(at - from_deg) <= to_deg - from_deg + 1e-6) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("exact scan: every heading for the published time", "[exact][scan]") {
  test::Random r(1801);
  test::Tally tally;
  int pairs = 0;
  int none = 0;
  for (int i = 0; i < 300; ++i) {
    const Scenario s = stormy(r);
    const Setup u = make_setup(s);
    const auto say = [&] { return test::named(s); };
    const auto cross = [&](double h) { return offset_rollout(u, h, u.published_s).cross_nm; };
    const auto to_go = [&](double h) { return offset_rollout(u, h, u.published_s).to_go_nm; };
    double found[64];
    const int count = all_headings_for_time(u, found, 64);
    tally.check(count <= 64, say);
    pairs += count > 1 ? 1 : 0;
    none += count == 0 ? 1 : 0;
    for (int k = 0; k < count; ++k) {
      tally.check(std::abs(cross(found[k])) < 1e-10 && to_go(found[k]) > 0.0, say);
      for (int m = 0; m < k; ++m) tally.check(apart(found[k], found[m]) > 1e-12, say);
    }
    // Every change of sign of the scan is one of them.
    double before = cross(0.0);
    for (int k = 1; k <= kSteps; ++k) {
      const double now = cross(kStep * k);
      const double from = kStep * (k - 1);
      if ((now > 0.0) != (before > 0.0) && !jumps(u, from, from + kStep) && to_go(from) > 1e-6 &&
          to_go(from + kStep) > 1e-6) {
        bool known = false;
        for (int m = 0; m < count; ++m) known = known || apart(found[m], from) <= 1.01 * kStep;
        tally.check(known, [&] { return say() + " at " + std::to_string(from); });
      }
      before = now;
    }
    // The plan is the nearest of them to the rule's heading.
    const ExactPlan plan = exact_heading_for_time(u);
    tally.check(plan.exists() == (count > 0), say);
    for (int k = 0; k < count; ++k) {
      const double rule = *rule_heading(u, s.rule);
      tally.check(apart(plan.heading_deg, rule) <= apart(found[k], rule) + 1e-9, say);
    }
  }
  CHECK(pairs > 10);
  CHECK(none > 3);
  tally.settle(1000);
}

TEST_CASE("exact scan: heading and time", "[exact][scan]") {
  // For each heading of the scan the roll-out moves along a line as the outbound time
  // grows; two points of it give the time that rolls out on course, and from that the
  // distance to go, which must pass through the wanted one between two headings.
  test::Random r(1802);
  test::Tally tally;
  int exist = 0;
  for (int i = 0; i < 200; ++i) {
    Scenario s = stormy(r);
    s.timer = Timer::level;
    const Setup u = make_setup(s);
    const auto say = [&] { return test::named(s); };
    const double wanted = u.inbound.groundspeed_kt / 3600.0 * u.published_s;
    const double rule = *rule_heading(u, s.rule);
    struct At {
      double time_s;
      double over;  ///< distance to go less the wanted one
    };
    const auto at = [&](double h) {
      const Rollout a = offset_rollout(u, h, 0.0);
      const Rollout b = offset_rollout(u, h, 100.0);
      const double t = -a.cross_nm / (b.cross_nm - a.cross_nm) * 100.0;
      return At{t, a.to_go_nm + (b.to_go_nm - a.to_go_nm) * t / 100.0 - wanted};
    };
    double nearest = 400.0;
    At before = at(0.0);
    for (int k = 1; k <= kSteps; ++k) {
      const At now = at(kStep * k);
      const double from = kStep * (k - 1);
      // A jump, or a heading along which the roll-out never changes its distance off
      // course, is no root; near the limits of the time either answer is right.
      const bool smooth =
          std::abs(now.time_s - before.time_s) < 20.0 && !jumps(u, from, from + kStep);
      if (smooth && (now.over > 0.0) != (before.over > 0.0) && now.time_s > 0.5 &&
          now.time_s < kMostOutboundS - 0.5 && before.time_s > 0.5 &&
          before.time_s < kMostOutboundS - 0.5) {
        nearest = std::fmin(nearest, std::fmin(apart(from, rule), apart(from + kStep, rule)));
      }
      before = now;
    }
    const ExactPlan plan = exact_heading_and_time(u);
    exist += plan.exists() ? 1 : 0;
    tally.check(nearest > 360.0 || plan.exists(), say);
    if (plan.exists()) tally.check(apart(plan.heading_deg, rule) <= nearest + 1.01 * kStep, say);
    if (plan.exists() && nearest < 360.0) {
      // Nothing is offered that the scan did not see, but for grazing pairs.
      const bool grazing = std::abs(at(plan.heading_deg).over) < 1e-7;
      tally.check(apart(plan.heading_deg, rule) >= nearest - 1.01 * kStep || grazing, say);
    }
  }
  CHECK(exist > 100);
  tally.settle(300);
}
