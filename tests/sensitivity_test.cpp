// The sensitivity card against scenarios that have what is off in their own numbers.
#include "core/sensitivity.h"

#include <algorithm>
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "tests/json_check.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

const SensitivityRow& row_of(const Sensitivity& s, Unknown unknown) {
  return s.rows[static_cast<std::size_t>(unknown)];
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("sensitivity: in still air as worked by hand", "[sensitivity]") {
  // Derived: 100 kt, 30 degrees off the outbound course: 5 s are 5/36 NM along the heading, half
  // of it toward the holding side, cos 30 of it outbound; 2 s late from straight ahead of the
  // outbound course carry 2/36 NM along it and, by the clock from the fix, as much less out.
  Scenario s;
  s.entry = EntryKind::offset;
  s.inbound_course_deg = 360.0;
  s.turns = Side::right;
  s.arrival_course_deg = 180.0;
  s.speed_is_tas = true;
  s.speed_kt = 100.0;
  s.wind_kt = 0.0;
  s.timer = Timer::fix;
  const Sensitivity got = study_sensitivity(make_setup(s));
  REQUIRE(got.why == NoCloud::none);
  const SensitivityRow& clock = row_of(got, Unknown::clock);
  CHECK(test::near(clock.more.cross_nm, 5.0 / 36.0 * 0.5, 1e-12));
  CHECK(test::near(clock.less.cross_nm, -5.0 / 36.0 * 0.5, 1e-12));
  CHECK(test::near(clock.more.inbound_s, 5.0 * std::sqrt(0.75), 1e-9));
  const SensitivityRow& late = row_of(got, Unknown::turn_start);
  CHECK(test::near(late.more.cross_nm, -2.0 / 36.0 * 0.5, 1e-12));
  CHECK(test::near(late.more.inbound_s, 2.0 * (1.0 - std::sqrt(0.75)), 1e-9));
  // No wind: from where none blows is the same.
  CHECK(row_of(got, Unknown::wind_from).more.cross_nm == 0.0);
  // A wind along 360 or along 160 pushes both ways alike: none is its own opposite.
  const SensitivityRow& wind = row_of(got, Unknown::wind_speed);
  CHECK(test::near(wind.more.cross_nm, -wind.less.cross_nm, 0.05));
}

TEST_CASE("sensitivity: heading and clock are another plan's roll-out", "[sensitivity]") {
  test::Random r(6231);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    Scenario s = test::calm_scenario(r);
    if (r.chance(0.2)) s.roll_deg_s = 6.0;
    const Setup u = make_setup(s);
    const Sensitivity got = study_sensitivity(u);
    if (got.why != NoCloud::none) continue;
    const EntryPlan plan = scenario_plan(u).value();
    const Rollout at = offset_rollout(u, plan.heading_deg, plan.time_s);
    const auto say = [&] { return test::named(s); };
    const auto agrees = [&](const Effect& e, const Rollout& other) {
      tally.check(test::near(e.cross_nm, other.cross_nm - at.cross_nm, 1e-9), say);
      tally.check(test::near(e.inbound_s, other.inbound_s - at.inbound_s, 1e-8), say);
    };
    const auto turned = [&](double by) {
      return offset_rollout(u, wrap_360(plan.heading_deg + by), plan.time_s);
    };
    agrees(row_of(got, Unknown::heading).more, turned(5.0));
    agrees(row_of(got, Unknown::heading).less, turned(-5.0));
    agrees(row_of(got, Unknown::clock).more,
           offset_rollout(u, plan.heading_deg, plan.time_s + 5.0));
    agrees(row_of(got, Unknown::clock).less,
           offset_rollout(u, plan.heading_deg, plan.time_s - 5.0));
    tally.check(test::near(got.planned.cross_nm, at.cross_nm, 1e-12), say);
  }
  tally.settle(2000);
}

TEST_CASE("sensitivity: a mirrored hold moves as much, the other way round", "[sensitivity]") {
  test::Random r(6232);
  test::Tally tally;
  for (int i = 0; i < 200; ++i) {
    const Scenario s = test::calm_scenario(r);
    const Sensitivity a = study_sensitivity(make_setup(s));
    const Sensitivity b = study_sensitivity(make_setup(test::mirrored(s)));
    if (a.why != NoCloud::none) continue;
    const auto say = [&] { return test::named(s); };
    for (std::size_t k = 0; k < kUnknowns; ++k) {
      const auto unknown = static_cast<Unknown>(k);
      const bool swaps = unknown == Unknown::wind_from || unknown == Unknown::heading;
      const Effect& other = swaps ? b.rows[k].less : b.rows[k].more;
      if (std::isnan(a.rows[k].more.cross_nm)) continue;
      tally.check(test::near(a.rows[k].more.cross_nm, other.cross_nm, 1e-7), say);
    }
  }
  tally.settle(800);
}

TEST_CASE("sensitivity: as JSON, whatever the scenario", "[sensitivity][property]") {
  test::Random r(6233);
  test::Tally tally;
  int cards = 0;
  int one_way = 0;
  for (int i = 0; i < 1500; ++i) {
    Scenario s = test::any_scenario(r);
    if (r.chance(0.5)) {
      s.entry = EntryKind::offset;
      s.later_wind.reset();
    }
    const Setup u = make_setup(s);
    const Sensitivity got = study_sensitivity(u);
    const std::string json = sensitivity_json(u);
    const auto say = [&] { return test::named(s) + "\n" + json; };
    tally.check(test::JsonCheck(json).fault().empty(), say);
    tally.check(!contains(json, "–") && !contains(json, "core.") && !contains(json, "{n"), say);
    tally.check((got.why == NoCloud::none) == contains(json, "\"why\":null"), say);
    if (got.why != NoCloud::none) {
      tally.check(contains(json, std::string(name_of(got.why))) && contains(json, "\"rows\":null"),
                  say);
      continue;
    }
    ++cards;
    for (const SensitivityRow& row : got.rows) {
      const bool more = !std::isnan(row.more.cross_nm);
      const bool less = !std::isnan(row.less.cross_nm);
      one_way += more != less;
    }
  }
  CHECK(cards > 300);
  CHECK(one_way > 3);
  tally.settle(4000);
}
