// tests/bench/map_bench.cpp - a map over all winds as a batch, by single flights, and by a general
// integrator; its picture; and how its cost grows.
#include <catch2/benchmark/catch_benchmark.hpp>
#include <catch2/catch_test_macros.hpp>

#include "core/contour.h"
#include "core/map_image.h"
#include "tests/bench/fact.h"

#if !defined(__EMSCRIPTEN__)
#include "tests/bench/odeint_flight.h"
#endif

using namespace core;

namespace {

/// Of every tenth direction.
constexpr int kEvery = 10;

MapStudy finished(const Setup& u, const MapChoice& choice) {
  MapStudy study;
  study.begin(u, choice);
  while (!study.work(1000000)) {
  }
  return study;
}

}  // namespace

TEST_CASE("map") {
  const Setup u = make_setup(Scenario{});
  const WindGrid grid;
  bench::fact("cells", grid.size());
  bench::fact("singles", grid.size() / kEvery);
  RolloutMap map;
  BENCHMARK("map") {
    map_rollouts(u, {}, grid, 0, grid.speeds, map);
    return map.cross_nm[1];
  };
  // What stands behind one: the values of the page's map, its memory given back and taken again.
  BENCHMARK("map-best") { return finished(u, {Mapped::miss, MapPlan::best, {}}).field().value[1]; };
  BENCHMARK("map-singles") {
    double sum = 0.0;
    Setup in_wind = u;
    for (int speed = 0; speed < grid.speeds; ++speed) {
      for (int i = 0; i < grid.directions; i += kEvery) {
        set_wind(in_wind, {grid.from_deg(i), grid.speed_kt(speed)});
        const Rollout at = mapped_rollout(in_wind, {});
        sum += at.cross_nm + at.inbound_s;
      }
    }
    return sum;
  };
#if !defined(__EMSCRIPTEN__)
  // The same single flights' pieces from the fix on, given to the integrator.
  std::vector<Track> tracks;
  Flight flight;
  Setup in_wind = u;
  for (int speed = 0; speed < grid.speeds; ++speed) {
    for (int i = 0; i < grid.directions; i += 60) {
      set_wind(in_wind, {grid.from_deg(i), grid.speed_kt(speed)});
      const std::optional<EntryPlan> plan =
          rule_plan(in_wind, HeadingRule::drift_once, TimingRule::fixed);
      REQUIRE(plan);
      fly(in_wind, *plan, flight);
      Track entry;
      for (const Segment& s : flight.track) {
        if (s.start_s >= 0.0 && s.start_s < flight.rollout.at_s - 1e-9) entry.add(s);
      }
      tracks.push_back(entry);
    }
  }
  bench::fact("integrated", static_cast<double>(tracks.size()));
  BENCHMARK("map-odeint") {
    double sum = 0.0;
    for (const Track& track : tracks) {
      Vec2 at = track[0].start;
      for (const Segment& s : track) at = bench::OdeintFlight::fly(s, at);
      sum += at.x + at.y;
    }
    return sum;
  };
#endif
  const MapStudy study = finished(u, {});
  MapImage image;
  BENCHMARK("map-image") { return image.draw(study, 480, Theme::light)[3]; };
  BENCHMARK("map-lines") {
    std::size_t points = 0;
    for (const double level : study.contour_levels()) {
      for (const LevelLine& line : contour(study.field(), level)) points += line.points.size();
    }
    return points;
  };
}

TEST_CASE("map growth") {
  const Setup u = make_setup(Scenario{});
  for (const int times : {1, 2, 4}) {
    const WindGrid grid{360, 60 * times + 1, 60.0};
    bench::fact(("cells-" + std::to_string(times)).c_str(), grid.size());
    RolloutMap map;
    BENCHMARK("map-" + std::to_string(times)) {
      map_rollouts(u, {}, grid, 0, grid.speeds, map);
      return map.cross_nm[1];
    };
  }
}
