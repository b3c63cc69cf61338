// Plans called exact are flown, and really roll out on course.
#include "core/exact.h"

#include <catch2/catch_test_macros.hpp>

#include "core/worked_case.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

constexpr double kOnCourse = 1e-6;  // NM: two millimetres

/// Flies `exact` as an offset entry, without laps.
void fly_exact(Setup u, const ExactPlan& exact, Flight& out) {
  u.scenario.laps = 0;
  u.scenario.time_s = exact.time_s;  // so that a leg in miles does not take its place
  fly(u, {EntryKind::offset, exact.heading_deg, exact.time_s}, out);
}

bool sane(const ExactPlan& p) {
  return p.heading_deg > 0.0 && p.heading_deg <= 360.0 && std::isfinite(p.time_s) &&
         p.straight_s >= 0.0 && p.straight_s <= kMostOutboundS;
}

}  // namespace

TEST_CASE("exact: 100,000 scenarios, every plan flown", "[exact][property]") {
  test::Random r(1701);
  test::Tally tally;
  static Flight f;
  int exist[4] = {};
  for (int i = 0; i < 100000; ++i) {
    Scenario s = r.chance(0.5) ? test::calm_scenario(r) : test::random_scenario(r);
    s.entry = EntryKind::offset;
    const Setup u = make_setup(s);
    const auto say = [&] { return test::named(s); };
    const auto flown = [&](const ExactPlan& p) {
      fly_exact(u, p, f);
      tally.check(sane(p) && f.rollout.exists, say);
      tally.check(std::abs(f.rollout.cross_nm) < kOnCourse, [&] {
        return say() + " cross " + std::to_string(f.rollout.cross_nm * 1e9) + "e-9";
      });
      tally.check(f.rollout.to_go_nm > 0.0, say);
      // Nothing to correct: straight to the fix, on course.
      tally.check(f.intercept_flown_deg == 0.0 && !f.fix_missed, say);
      tally.check(std::abs(f.entry_time_s - p.time_s) < 1e-9, say);
    };
    const ExactPlan time = exact_time_for_heading(u);
    if (time.exists()) {
      ++exist[0];
      flown(time);
      tally.check(time.heading_deg == *rule_heading(u, s.rule), say);
    }
    // The scans cost a thousand times more: every second scenario has one of the three.
    switch (i % 2 ? -1 : i / 2 % 3) {
      case 0: {
        const ExactPlan p = exact_heading_for_time(u);
        if (!p.exists()) break;
        ++exist[1];
        tally.check(p.time_s == u.published_s, say);
        Setup timed = u;
        timed.scenario.laps = 0;
        timed.scenario.time_s = p.time_s;
        fly(timed, {EntryKind::offset, p.heading_deg, p.time_s}, f);
        tally.check(std::abs(f.rollout.cross_nm) < kOnCourse && f.rollout.to_go_nm > 0.0, say);
        tally.check(f.intercept_flown_deg == 0.0 && !f.fix_missed, say);
        break;
      }
      case 1: {
        const ExactPlan p = exact_heading_and_time(u);
        if (!p.exists()) break;
        ++exist[2];
        flown(p);
        const bool timed = u.leg.kind == Leg::Kind::time;
        const double got = timed ? f.rollout.inbound_s : f.rollout.to_go_nm;
        const double wanted = timed ? u.published_s : u.leg.value;
        const double size = timed ? 3600.0 / u.inbound.groundspeed_kt : 1.0;
        tally.check(std::abs(got - wanted) < kOnCourse * size, [&] {
          return say() + " got " + std::to_string(got) + " wanted " + std::to_string(wanted);
        });
        break;
      }
      case 2: {
        const ExactPlan p = exact_lap(u);
        if (!p.exists()) break;
        ++exist[3];
        tally.check(sane(p), say);
        const double h = u.inbound.heading_deg;
        const TurnMotion out = turn_motion(u, h, p.heading_deg, s.turns);
        const TurnMotion in = turn_motion(u, p.heading_deg, h, s.turns);
        const Vec2 go = ground_velocity(u, p.heading_deg);
        const Vec2 end = out.motion_nm + go * p.straight_s + in.motion_nm;
        tally.check(std::abs(u.hold.cross_nm(end)) < kOnCourse, say);
        const double to_go = u.leg.kind == Leg::Kind::distance
                                 ? u.leg.value
                                 : u.inbound.groundspeed_kt / 3600.0 * u.published_s;
        tally.check(std::abs(u.hold.to_go_nm(end) - to_go) < kOnCourse, say);
        // The lap's clock: from abeam the fix where that comes after wings level.
        const double at_level = u.hold.to_go_nm(out.motion_nm);
        const double before =
            at_level < 0.0 && u.hold.to_go_nm(go) > 0.0 ? -at_level / u.hold.to_go_nm(go) : 0.0;
        tally.check(std::abs(p.time_s - (p.straight_s - before)) < 1e-9, say);
        // And by the pilot: a direct entry along the inbound course is such a lap.
        if (p.time_s < 0.0) break;
        Setup direct = u;
        direct.scenario.laps = 0;
        direct.scenario.time_s = p.time_s;
        direct.scenario.arrival_course_deg = s.inbound_course_deg;
        direct.arrival = u.inbound;
        fly(direct, {EntryKind::direct, p.heading_deg, p.time_s}, f);
        tally.check(std::abs(f.rollout.cross_nm) < kOnCourse, say);
        tally.check(std::abs(f.rollout.to_go_nm - to_go) < kOnCourse, say);
        break;
      }
      default:
        break;
    }
  }
  for (const int count : exist) CHECK(count > 5000);
  tally.settle(500000);
}

TEST_CASE("exact: none has a reason, and the right one", "[exact]") {
  Scenario s;
  s.entry = EntryKind::parallel;
  s.parallel_end = ParallelEnd::fix;
  CHECK(exact_heading_for_time(make_setup(s)).why == NoPlan::to_the_fix);
  CHECK(exact_heading_and_time(make_setup(s)).why == NoPlan::to_the_fix);
  CHECK(exact_time_for_heading(make_setup(s)).why == NoPlan::to_the_fix);
  CHECK(exact_lap(make_setup(s)).exists());  // laps follow any entry

  Scenario storm;
  storm.entry = EntryKind::offset;
  storm.speed_is_tas = true;
  storm.speed_kt = 60.0;
  storm.wind_kt = 100.0;
  storm.wind_from_deg = 328.0;  // square to the inbound course
  storm.arrival_course_deg = 148.0;
  CHECK(exact_heading_for_time(make_setup(storm)).why == NoPlan::no_inbound);
  CHECK(exact_lap(make_setup(storm)).why == NoPlan::no_inbound);
  storm.inbound_course_deg = 148.0;
  storm.arrival_course_deg = 238.0;
  CHECK(exact_heading_for_time(make_setup(storm)).why == NoPlan::no_arrival);
  CHECK(exact_heading_and_time(make_setup(storm)).why == NoPlan::no_arrival);
  CHECK(exact_time_for_heading(make_setup(storm)).why == NoPlan::no_arrival);

  // Square to the track 30 degrees off the outbound course, more wind than airspeed;
  // inbound and arrival have it on the tail.
  Scenario rule;
  rule.inbound_course_deg = 360.0;
  rule.turns = Side::right;
  rule.entry = EntryKind::offset;
  rule.speed_is_tas = true;
  rule.speed_kt = 60.0;
  rule.wind_kt = 61.0;
  rule.wind_from_deg = 240.0;
  rule.rule = HeadingRule::track_30;
  rule.arrival_course_deg = 60.0;
  CHECK(exact_heading_for_time(make_setup(rule)).why == NoPlan::no_rule);
  CHECK(exact_heading_and_time(make_setup(rule)).why == NoPlan::no_rule);
  CHECK(exact_time_for_heading(make_setup(rule)).why == NoPlan::no_rule);

  for (int i = 0; i <= static_cast<int>(NoPlan::to_the_fix); ++i) {
    CHECK_FALSE(name_of(static_cast<NoPlan>(i)).empty());
  }
}

namespace {

/// Inbound leg wanted, NM.
double wanted_nm(const Setup& u) {
  return u.leg.kind == Leg::Kind::distance
             ? u.leg.value
             : u.published_s * u.inbound.groundspeed_kt * kNmPerSecondPerKnot;
}

/// An exact parallel entry is on course with the wanted leg to go, after one intercept at
/// the scenario's angle.
template <class Say>
void check_parallel(const Setup& u, const Flight& f, test::Tally& tally, const Say& say) {
  int established = 0;
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind != EventKind::on_course) continue;
    ++established;
    tally.check(std::abs(u.cross_nm(e.at)) < kOnCourse, say);
    tally.check(test::near(u.to_go_nm(e.at), wanted_nm(u), 1e-8), say);
  }
  // Within the tolerance at roll-out already, the intercept is not flown.
  tally.check(established == 1 || std::abs(f.rollout.cross_nm) <= kOnCourseNm, say);
}

}  // namespace

TEST_CASE("exact: rows of the comparison fly what they say", "[exact][property]") {
  test::Random r(1702);
  test::Tally tally;
  int parallel = 0;
  int direct = 0;
  for (int i = 0; i < 3000; ++i) {
    Scenario s = i % 2 ? test::calm_scenario(r) : test::random_scenario(r);
    const WorkedCase c = work_out(s);
    const auto say = [&] { return test::named(s); };
    const bool own = s.heading_deg || s.time_s;
    // A direct entry corrected by some other multiple is a plan of its own.
    const bool own_multiple = c.setup.entry == EntryKind::direct && s.multiple != 0.0 &&
                              s.multiple != 1.0 && s.multiple != 3.0;
    tally.check(c.rows.size() == (own || own_multiple ? 8U : 7U), say);
    int flown = 0;
    for (const PlanRow& row : c.rows) {
      tally.check(row.exists == (row.why == NoPlan::none), say);
      if (row.flown) {
        ++flown;
        // What the aircraft flies is what its row says.
        tally.check(test::near(row.flight.rollout.cross_nm, c.flown.rollout.cross_nm, 1e-12), say);
      }
      const bool exact = row.id == PlanId::exact || row.id == PlanId::exact_heading ||
                         row.id == PlanId::exact_time;
      if (!row.exists || !exact) continue;
      if (c.setup.entry == EntryKind::parallel) {
        ++parallel;
        check_parallel(c.setup, row.flight, tally, say);
      } else {
        tally.check(std::abs(row.flight.rollout.cross_nm) < kOnCourse, say);
      }
      if (row.id == PlanId::exact && c.setup.entry == EntryKind::direct) {
        ++direct;
        tally.check(test::near(row.flight.rollout.to_go_nm, wanted_nm(c.setup), 1e-9), say);
      }
      // Taken over into the scenario, rounded to what a link shows: 0.01 deg and 0.1 s are
      // still within the on-course tolerance of legs that people fly.
      const Scenario taken = choose_plan(c, row.id);
      tally.check(taken.heading_deg && taken.time_s, say);
      tally.check(parse_link(write_link(taken)).scenario == taken, say);
    }
    const bool can = scenario_plan(c.setup).has_value();
    tally.check(flown == (can ? 1 : 0), say);
  }
  CHECK(parallel > 400);
  CHECK(direct > 200);
  tally.settle(20000);
}

TEST_CASE("exact: choosing a row flies that row, for each entry", "[exact]") {
  for (const char* link : {"", "entry=direct&arrive=240", "entry=parallel&arrive=30"}) {
    CAPTURE(link);
    const WorkedCase c = work_out(parse_link(link).scenario);
    for (const PlanRow& row : c.rows) {
      CAPTURE(name_of(row.id));
      if (!row.exists) continue;
      const WorkedCase chosen = work_out(choose_plan(c, row.id));
      const EntryPlan& plan = chosen.flown.plan;
      CHECK(std::abs(wrap_180(plan.heading_deg - row.flight.plan.heading_deg)) <= 0.005 + 1e-9);
      REQUIRE(chosen.row(row.id));
      CHECK(chosen.row(row.id)->flown);
    }
  }
}

TEST_CASE("exact: choosing a row flies its miss", "[exact]") {
  const WorkedCase c = work_out(Scenario{});
  for (int i = 0; i < kPlans - 1; ++i) {
    const auto id = static_cast<PlanId>(i);
    REQUIRE(plan_id(name_of(id)).has_value());
    CHECK(*plan_id(name_of(id)) == id);
    REQUIRE(c.row(id) != nullptr);
    REQUIRE(c.row(id)->exists);
    const Scenario taken = choose_plan(c, id);
    if (taken.heading_deg && taken.time_s) {
      // To what a link shows: a hundredth of a degree, a tenth of a second.
      const EntryPlan& plan = c.row(id)->flight.plan;
      CHECK(std::abs(wrap_180(*taken.heading_deg - plan.heading_deg)) <= 0.005 + 1e-9);
      CHECK(std::abs(*taken.time_s - plan.time_s) <= 0.05 + 1e-9);
    }
    const WorkedCase chosen = work_out(taken);
    INFO(name_of(id));
    CHECK(std::abs(chosen.flown.rollout.cross_nm - c.row(id)->flight.rollout.cross_nm) < 0.01);
  }
  CHECK_FALSE(plan_id("nothing").has_value());
  CHECK(choose_plan(c, PlanId::own) == Scenario{});
}
