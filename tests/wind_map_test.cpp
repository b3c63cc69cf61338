// A map's every value is what a single flight in that wind gives.
#include "core/wind_map.h"

#include <catch2/catch_test_macros.hpp>

#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// Single flight in another wind, by way of the scenario: nothing in common with set_wind().
Rollout alone(Scenario s, const MappedPlan& plan, Wind wind) {
  s.wind_from_deg = wind.from_deg;
  s.wind_kt = wind.speed_kt;
  s.wind_is_true = false;
  s.entry = EntryKind::offset;
  s.later_wind.reset();
  s.laps = 0;
  return mapped_rollout(make_setup(s), plan);
}

MappedPlan random_plan(test::Random& r) {
  MappedPlan plan;
  plan.rule = static_cast<HeadingRule>(r.below(kHeadingRules));
  if (r.chance(0.2)) plan.rule.reset();
  plan.heading_deg = test::random_direction(r, 0.3);
  plan.timing = r.chance(0.5) ? TimingRule::fixed : TimingRule::groundspeed;
  if (r.chance(0.2)) plan.time_s = r.stepped(0.0, 300.0, 1.0);
  return plan;
}

RolloutMap map_of(const Setup& u, const MappedPlan& plan, const WindGrid& grid) {
  RolloutMap map;
  map_rollouts(u, plan, grid, 0, grid.speeds, map);
  return map;
}

/// The same values, a NaN like another.
bool same(const std::vector<double>& a, const std::vector<double>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (!(a[i] == b[i] || (std::isnan(a[i]) && std::isnan(b[i])))) return false;
  }
  return true;
}

}  // namespace

TEST_CASE("wind map: every cell is the single flight's", "[wind-map][property]") {
  test::Random r(6001);
  test::Tally tally;
  int flown = 0;
  int not_flown = 0;
  int slow = 0;
  for (int i = 0; i < 500; ++i) {
    Scenario s = test::random_scenario(r);
    if (r.chance(0.05)) s.roll_deg_s = 5.0;
    if (r.chance(0.1)) s.later_wind = {270.0, 40.0};
    const MappedPlan plan = random_plan(r);
    const WindGrid grid{5 + r.below(40), 2 + r.below(8), r.decimal(5.0, 150.0)};
    const RolloutMap map = map_of(make_setup(s), plan, grid);
    REQUIRE(map.cross_nm.size() == static_cast<std::size_t>(grid.size()));
    for (int k = 0; k < grid.size(); ++k) {
      const Wind wind{grid.from_deg(k % grid.directions), grid.speed_kt(k / grid.directions)};
      const Rollout want = alone(s, plan, wind);
      const auto at = grid.index(k % grid.directions, k / grid.directions);
      const auto say = [&] {
        return test::named(s) + " wind " + std::to_string(wind.from_deg) + "/" +
               std::to_string(wind.speed_kt) + ": " + std::to_string(map.cross_nm[at]) + " for " +
               std::to_string(want.cross_nm);
      };
      if (!want.exists) {
        ++not_flown;
        tally.check(std::isnan(map.cross_nm[at]) && std::isnan(map.inbound_s[at]), say);
        continue;
      }
      ++flown;
      slow += s.roll_deg_s > 0.0;
      // Where the turn back is a whole circle or none, rounding may choose either.
      tally.check(test::near(map.cross_nm[at], want.cross_nm, 1e-9 * (1.0 + length(want.at))), say);
      tally.check(test::near(map.inbound_s[at], want.inbound_s, 1e-8), say);
    }
  }
  CHECK(flown > 30000);
  CHECK(not_flown > 1000);
  CHECK(slow > 1000);
  tally.settle(60000);
}

TEST_CASE("wind map: speed by speed is the same as at once", "[wind-map]") {
  const Setup u = make_setup(Scenario{});
  const WindGrid grid{36, 7, 30.0};
  const RolloutMap whole = map_of(u, {}, grid);
  RolloutMap parts;
  for (const int first : {4, 0, 2, 6}) map_rollouts(u, {}, grid, first, first + 2, parts);
  CHECK(same(parts.cross_nm, whole.cross_nm));
  CHECK(same(parts.inbound_s, whole.inbound_s));
}

TEST_CASE("wind map: a wind alone and among others gives the same bits", "[wind-map]") {
  // 35 directions leave one over for plain doubles where lanes are two; of 70 every other is
  // one of those, in another lane.
  test::Random r(6002);
  for (int i = 0; i < 40; ++i) {
    const Setup u = make_setup(test::calm_scenario(r));
    const MappedPlan plan = random_plan(r);
    const RolloutMap odd = map_of(u, plan, {35, 5, 60.0});
    const RolloutMap even = map_of(u, plan, {70, 5, 60.0});
    for (int speed = 0; speed < 5; ++speed) {
      for (int k = 0; k < 35; ++k) {
        const double a = odd.cross_nm[odd.grid.index(k, speed)];
        const double b = even.cross_nm[even.grid.index(2 * k, speed)];
        REQUIRE((a == b || (std::isnan(a) && std::isnan(b))));
      }
    }
  }
}

TEST_CASE("wind map: a grid that cannot be is left alone", "[wind-map]") {
  const Setup u = make_setup(Scenario{});
  CHECK(map_of(u, {}, {3, 7, 30.0}).cross_nm.empty());
  CHECK(map_of(u, {}, {360, 1, 30.0}).cross_nm.empty());
  CHECK(map_of(u, {}, {360, 61, 0.0}).cross_nm.empty());
  CHECK(map_of(u, {}, {360, 61, 1000.0}).cross_nm.empty());
  CHECK(map_of(u, {}, {100000, 61, 30.0}).cross_nm.empty());
  CHECK(map_of(u, {}, {4, 2, 30.0}).cross_nm.size() == 8);
}
