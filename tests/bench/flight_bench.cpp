// tests/bench/flight_bench.cpp - one flight (offset entry and two laps) against the bare cost of
// its trigonometric calls, and against a general integrator.
#include <catch2/benchmark/catch_benchmark.hpp>
#include <catch2/catch_test_macros.hpp>

#include "tests/bench/fact.h"
#include "tests/bench/flights.h"
#include "tests/bench/trig.h"

#if !defined(__EMSCRIPTEN__)
#include "tests/bench/odeint_flight.h"
#endif

namespace {

using bench::Case;

core::Flight g_flight;

#if !defined(__EMSCRIPTEN__)
double integrate(const core::Track& track) {
  core::Vec2 at = track[0].start;
  for (const core::Segment& s : track) at = bench::OdeintFlight::fly(s, at);
  return at.x + at.y;
}

/// Largest distance, NM, between the closed form and the integrator at the ends of pieces.
double largest_difference(const std::vector<core::Track>& tracks) {
  double most = 0.0;
  for (const core::Track& track : tracks) {
    core::Vec2 at = track[0].start;
    for (const core::Segment& s : track) {
      at = bench::OdeintFlight::fly(s, at);
      most = std::fmax(most, core::length(at - s.position_at(s.duration_s)));
    }
  }
  return most;
}
#endif

}  // namespace

TEST_CASE("flights") {
  const std::vector<Case> cases = bench::flights();
  bench::TrigCalls trig;
  double pieces = 0.0;
  std::vector<core::Track> tracks;
  for (const Case& c : cases) {
    core::fly(c.setup, c.plan, g_flight);
    trig.add(c, g_flight);
    pieces += g_flight.track.size();
    tracks.push_back(g_flight.track);
  }
  const auto count = static_cast<double>(cases.size());
  bench::fact("flights", count);
  bench::fact("pieces", pieces / count);
  bench::fact("sincos", static_cast<double>(trig.both.size()) / count);
  bench::fact("sin", static_cast<double>(trig.sine.size()) / count);

  // From a ready set-up: what a solver repeats.
  BENCHMARK("flight") {
    double sum = 0.0;
    for (const Case& c : cases) {
      core::fly(c.setup, c.plan, g_flight);
      sum += bench::summary(g_flight);
    }
    return sum;
  };
  // From the scenario: airspeed, turn, three wind triangles, sector and plan as well.
  BENCHMARK("whole") {
    double sum = 0.0;
    for (const Case& c : cases) {
      const core::Setup setup = core::make_setup(c.scenario);
      core::fly_scenario(setup, g_flight);
      sum += bench::summary(g_flight);
    }
    return sum;
  };
  BENCHMARK("trig") { return trig.run(); };
#if !defined(__EMSCRIPTEN__)
  const double difference_nm = largest_difference(tracks);
  REQUIRE(difference_nm < 1e-6);
  bench::fact("difference_nm", difference_nm);
  BENCHMARK("odeint") {
    double sum = 0.0;
    for (const core::Track& track : tracks) sum += integrate(track);
    return sum;
  };
#endif
}

TEST_CASE("laps") {
  // Growth: the same flights with more and more laps.
  std::vector<Case> cases = bench::flights();
  for (const int laps : {0, 2, 4, 8}) {
    for (Case& c : cases) c.setup.scenario.laps = laps;
    BENCHMARK("laps-" + std::to_string(laps)) {
      double sum = 0.0;
      for (const Case& c : cases) {
        core::fly(c.setup, c.plan, g_flight);
        sum += bench::summary(g_flight);
      }
      return sum;
    };
  }
}
