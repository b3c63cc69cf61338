// Maps of what a wind asks for, their contours and their shares.
#include "core/map_study.h"

#include <catch2/catch_approx.hpp>
#include <catch2/catch_test_macros.hpp>
#include <set>

#include "core/contour.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

MapField finished(const Setup& u, const MapChoice& c) {
  MapStudy study;
  study.begin(u, c);
  while (!study.work(500)) {
  }
  return study.field();
}

/// A field of made-up values on a grid.
template <class F>
MapField made(const WindGrid& grid, const F& value) {
  MapField out{grid, {}, {}};
  for (int speed = 0; speed < grid.speeds; ++speed) {
    for (int i = 0; i < grid.directions; ++i) {
      out.value.push_back(value(along(grid.from_deg(i)) * grid.speed_kt(speed)));
    }
  }
  return out;
}

constexpr MapPlan kPlans[] = {MapPlan::still_air,    MapPlan::drift_once, MapPlan::track_30,
                              MapPlan::drift_triple, MapPlan::own,        MapPlan::best};

}  // namespace

TEST_CASE("map study: a batch's values are those of single winds", "[map-study][property]") {
  test::Random r(6200);
  test::Tally tally;
  for (int i = 0; i < 12; ++i) {
    Scenario s = test::calm_scenario(r);
    const Setup u = make_setup(s);
    MapChoice c;
    c.mapped = r.chance(0.7) ? Mapped::miss : Mapped::inbound;
    c.plan = kPlans[r.below(kMapPlans)];
    if (r.chance(0.4)) c.less = kPlans[r.below(kMapPlans)];
    c.most_kt = r.decimal(10.0, 80.0);
    const MapField field = finished(u, c);
    REQUIRE(field.grid.directions == 360);
    REQUIRE(field.grid.speeds == 61);
    if (c.mapped == Mapped::inbound) c.less.reset();
    for (int k = 0; k < 300; ++k) {
      const int direction = r.below(360);
      const int speed = r.below(61);
      const double want =
          map_value(u, c, {field.grid.from_deg(direction), field.grid.speed_kt(speed)});
      const double value = field.value[field.grid.index(direction, speed)];
      tally.check((std::isnan(value) && std::isnan(want)) || test::near(value, want, 1e-8), [&] {
        return test::named(s) + " " + std::to_string(value) + " for " + std::to_string(want);
      });
    }
  }
  tally.settle(3600);
}

TEST_CASE("map study: the best rule is none of the worse", "[map-study]") {
  const Setup u = make_setup(Scenario{});
  const MapField best = finished(u, {Mapped::miss, MapPlan::best, {}, 50.0});
  std::set<int> rules;
  for (int rule = 0; rule < kHeadingRules; ++rule) {
    const MapField one = finished(u, {Mapped::miss, static_cast<MapPlan>(rule), {}, 50.0});
    for (std::size_t i = 0; i < one.value.size(); ++i) {
      REQUIRE(!(std::abs(one.value[i]) < std::abs(best.value[i])));
      if (best.rule[i] == rule && best.value[i] == best.value[i]) {
        REQUIRE(one.value[i] == best.value[i]);
        rules.insert(rule);
      }
    }
  }
  CHECK(rules.size() == 4);
  double all = 0.0;
  for (int rule = 0; rule < kHeadingRules; ++rule) {
    all += share_of(best, static_cast<HeadingRule>(rule));
  }
  CHECK(all == Catch::Approx(share_in(best, {-1e9, 1e9})));
  // How much farther a rule misses than the best one is never negative.
  for (const double v : finished(u, {Mapped::miss, MapPlan::track_30, MapPlan::best, 50.0}).value) {
    REQUIRE(!(v < 0.0));
  }
}

TEST_CASE("map study: slow maps come coarse first", "[map-study]") {
  Scenario s;
  const Setup u = make_setup(s);
  for (const Mapped mapped : {Mapped::intercept, Mapped::multiple, Mapped::laps}) {
    MapStudy study;
    study.begin(u, {mapped, MapPlan::drift_once, {}, 40.0});
    CHECK(study.field().empty());
    std::vector<int> sizes;
    bool done = false;
    for (int round = 0; !done && round < 2000; ++round) {
      done = study.work(97);
      const int size = study.field().grid.directions;
      if (!study.field().empty() && (sizes.empty() || sizes.back() != size)) sizes.push_back(size);
      // The two coarse maps are enough to see.
      if (sizes.size() == 2) break;
    }
    CHECK(sizes == std::vector<int>{60, 120});
    const MapField& field = study.field();
    test::Random r(6201);
    for (int k = 0; k < 40; ++k) {
      const int direction = r.below(field.grid.directions);
      const int speed = r.below(field.grid.speeds);
      const double want = map_value(u, study.choice(),
                                    {field.grid.from_deg(direction), field.grid.speed_kt(speed)});
      const double value = field.value[field.grid.index(direction, speed)];
      CHECK((value == want || (std::isnan(value) && std::isnan(want))));
    }
  }
}

TEST_CASE("map study: what is mapped is what the flight says", "[map-study]") {
  // Derived: each from the flight that the page flies in that wind.
  test::Random r(6202);
  int laps_counted = 0;
  for (int i = 0; i < 200; ++i) {
    Scenario s = test::calm_scenario(r);
    s.wind_is_true = false;
    s.later_wind.reset();
    s.laps = kMostCountedLaps;
    const Setup u = make_setup(s);
    Flight flight;
    fly_scenario(u, flight);
    if (flight.stop != Stop::none || !flight.rollout.exists) continue;
    const double miss = map_value(u, {Mapped::miss, MapPlan::own, {}}, u.wind);
    const double inbound = map_value(u, {Mapped::inbound, MapPlan::own, {}}, u.wind);
    CHECK(test::near(miss, flight.rollout.cross_nm, 1e-8));
    CHECK(test::near(inbound, flight.rollout.inbound_s, 1e-6));
    double laps = std::abs(miss) <= 0.2 && (u.leg.kind == Leg::Kind::distance ||
                                            std::abs(inbound - u.published_s) <= kGoodInboundS)
                      ? 0.0
                      : -1.0;
    for (int lap = 0; laps < 0.0 && lap < flight.lap_count; ++lap) {
      const Rollout& at = flight.laps[static_cast<unsigned>(lap)].rollout;
      if (std::abs(at.cross_nm) <= 0.2 &&
          (u.leg.kind == Leg::Kind::distance ||
           std::abs(at.inbound_s - u.published_s) <= kGoodInboundS)) {
        laps = lap + 1.0;
      }
    }
    const double counted = map_value(u, {Mapped::laps, MapPlan::own, {}, 60.0, 0.2}, u.wind);
    CHECK((laps < 0.0 ? std::isnan(counted) : counted == laps));
    laps_counted += laps > 0.0;
    const double angle = map_value(u, {Mapped::intercept, MapPlan::own, {}}, u.wind);
    const auto want = intercept_angle_within(u, flight.rollout.cross_nm, 60.0);
    if (std::abs(miss) > kOnCourseNm)
      CHECK((want ? test::near(angle, *want, 1e-5) : std::isnan(angle)));
  }
  CHECK(laps_counted > 30);
}

TEST_CASE("map study: the share of winds is an area", "[map-study]") {
  // Derived: of a value that is the wind's speed, the share below half the most is a half; of one
  // that is its direction, the share within 90 degrees of north is a half.
  const WindGrid grid{360, 61, 60.0};
  CHECK(share_in(made(grid, [](Vec2 w) { return length(w) - 0.5; }), {-1.0, 29.5}) ==
        Catch::Approx(0.5).margin(0.01));
  CHECK(share_in(made(grid, [](Vec2 w) { return w.y >= 0.0 ? 0.0 : 5.0; }), {0.0, 1.0}) ==
        Catch::Approx(0.5).margin(0.01));
  CHECK(share_in(made(grid, [](Vec2) { return std::nan(""); }), {-1e9, 1e9}) == 0.0);
  CHECK(share_in({}, {-1.0, 1.0}) == 0.0);
}

TEST_CASE("map study: how far values lie from the middle", "[map-study]") {
  // Derived: of values even from 0 to 60 the mean and the median are 30, nineteen of twenty 57.
  const MapField field = made({360, 61, 60.0}, [](Vec2 w) { return 5.0 - length(w); });
  const Distances far = distances(field, 5.0);
  CHECK(far.mean == Catch::Approx(30.0));
  CHECK(far.median == Catch::Approx(30.0).margin(0.6));
  CHECK(far.ninety_five == Catch::Approx(57.0).margin(0.6));
  CHECK(far.most == Catch::Approx(60.0));
  CHECK(std::isnan(distances({}, 0.0).mean));
}

TEST_CASE("contour: a round hill has round lines", "[contour]") {
  // Derived: where the value is the distance from a point, its lines are circles about it.
  const WindGrid grid{360, 121, 60.0};
  const Vec2 peak{10.0, -7.0};
  const MapField hill = made(grid, [&](Vec2 w) { return length(w - peak); });
  for (const double level : {5.0, 20.0, 40.0}) {
    const auto lines = contour(hill, level);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].closed);
    double around = 0.0;
    for (std::size_t i = 0; i < lines[0].points.size(); ++i) {
      CHECK(std::abs(length(lines[0].points[i] - peak) - level) < 0.05);
      around +=
          length(lines[0].points[i] - lines[0].points[i + 1 < lines[0].points.size() ? i + 1 : 0]);
    }
    CHECK(around == Catch::Approx(2.0 * kPi * level).epsilon(0.01));
  }
  // Beyond the rim on one side: one open line.
  const auto open = contour(hill, 55.0);
  REQUIRE(open.size() == 1);
  CHECK_FALSE(open[0].closed);
  CHECK(contour(hill, 500.0).empty());
  CHECK(contour(hill, std::nan("")).empty());
}

TEST_CASE("contour: two hills, a saddle between, and holes", "[contour]") {
  const WindGrid grid{360, 61, 60.0};
  const auto value = [](Vec2 w) {
    return std::fmin(length(w - Vec2{25.0, 0.0}), length(w - Vec2{-25.0, 0.0}));
  };
  CHECK(contour(made(grid, value), 10.0).size() == 2);
  // Some winds without a value: the lines end there, and none goes through.
  const MapField holed = made(grid, [&](Vec2 w) { return w.x > 25.0 ? std::nan("") : value(w); });
  const auto lines = contour(holed, 10.0);
  REQUIRE(lines.size() == 2);
  int open = 0;
  for (const LevelLine& line : lines) {
    open += !line.closed;
    for (const Vec2 p : line.points) CHECK(p.x <= 26.0);
  }
  CHECK(open == 1);
}

TEST_CASE("map study: what is good and worth a line lies on the scale of what is mapped",
          "[map-study]") {
  struct Row {
    Mapped mapped;
    double middle, reach, good_from, good_to;
  };
  Scenario s;
  s.leg = {Leg::Kind::time, 75.0};
  const Setup u = make_setup(s);
  // Derived: core/map_study.h says each.
  const Row rows[] = {{Mapped::miss, 0.0, 1.0, -0.2, 0.2},
                      {Mapped::inbound, 75.0, 60.0, 70.0, 80.0},
                      {Mapped::intercept, 0.0, 90.0, 0.0, 30.0},
                      {Mapped::multiple, 3.0, 2.0, 2.5, 3.5},
                      {Mapped::laps, 0.0, 6.0, 0.0, 1.0}};
  for (const Row& row : rows) {
    CAPTURE(static_cast<int>(row.mapped));
    MapChoice choice;
    choice.mapped = row.mapped;
    choice.tolerance_nm = 0.2;
    MapStudy study;
    study.begin(u, choice);
    CHECK(study.middle() == row.middle);
    CHECK(study.reach() == row.reach);
    CHECK(study.good().low == row.good_from);
    CHECK(study.good().high == row.good_to);
    const std::vector<double> levels = study.contour_levels();
    REQUIRE(levels.size() >= 5);
    for (std::size_t i = 0; i < levels.size(); ++i) {
      CHECK(std::abs(levels[i] - row.middle) <= row.reach);
      if (i > 0) CHECK(levels[i] > levels[i - 1]);
    }
    // As many below the middle as above it where the value goes both ways.
    if (row.mapped == Mapped::miss || row.mapped == Mapped::inbound ||
        row.mapped == Mapped::multiple) {
      for (std::size_t i = 0; i < levels.size(); ++i) {
        CHECK(levels[i] - row.middle ==
              Catch::Approx(row.middle - levels[levels.size() - 1 - i]).margin(1e-12));
      }
    }
  }
  MapChoice less;
  less.less = MapPlan::still_air;
  MapStudy study;
  study.begin(u, less);
  CHECK(study.good().high < 0.0);  // nearer than the other, not as near
  CHECK(study.good().low < -1e6);
}
