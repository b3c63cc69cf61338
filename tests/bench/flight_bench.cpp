// tests/bench/flight_bench.cpp - times one flight (offset entry and two laps), natively and
// as WebAssembly from this one source. Prints a line a measure: name, nanoseconds a flight.
#include <cstdio>
#include <cstdlib>

#include "tests/bench/flights.h"
#include "tests/bench/timing.h"
#include "tests/bench/trig.h"

#if !defined(__EMSCRIPTEN__)
#include "tests/bench/odeint_flight.h"
#endif

namespace {

using bench::Case;

core::Flight g_flight;

/// From a ready set-up: what a map or a cloud repeats.
double fly_all(const std::vector<Case>& cases) {
  double sum = 0.0;
  for (const Case& c : cases) {
    core::fly(c.setup, c.plan, g_flight);
    sum += bench::summary(g_flight);
  }
  return sum;
}

/// From the scenario: airspeed, turn, three wind triangles, sector and plan as well.
double fly_all_from_scenario(const std::vector<Case>& cases) {
  double sum = 0.0;
  for (const Case& c : cases) {
    const core::Setup setup = core::make_setup(c.scenario);
    core::fly_scenario(setup, g_flight);
    sum += bench::summary(g_flight);
  }
  return sum;
}

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

int main(int argc, char** argv) {
  const double seconds = argc > 1 ? std::atof(argv[1]) : 2.0;
  const std::vector<Case> cases = bench::flights();
  bench::TrigCalls trig;
  int pieces = 0;
  std::vector<core::Track> tracks;
  for (const Case& c : cases) {
    core::fly(c.setup, c.plan, g_flight);
    trig.add(c, g_flight);
    pieces += g_flight.track.size();
    tracks.push_back(g_flight.track);
  }

  std::vector<bench::Work> works = {
      {"flight", [&] { return fly_all(cases); }},
      {"whole", [&] { return fly_all_from_scenario(cases); }},
      {"trig", [&] { return trig.run(); }},
  };
#if !defined(__EMSCRIPTEN__)
  const double difference = largest_difference(tracks);
  if (!(difference < 1e-6)) {
    std::fprintf(stderr, "the integrator ends %g NM elsewhere\n", difference);
    return 1;
  }
  std::printf("difference_nm %.3g\n", difference);
  works.push_back({"odeint", [&] {
                     double sum = 0.0;
                     for (const core::Track& track : tracks) sum += integrate(track);
                     return sum;
                   }});
#endif
  bench::take_turns(works, seconds);

  const double count = static_cast<double>(cases.size());
  for (const bench::Work& w : works) std::printf("%s %.4f\n", w.name.c_str(), w.median_ns / count);
  std::printf("pieces %.4f\n", pieces / count);
  std::printf("sincos %.4f\n", static_cast<double>(trig.both.size()) / count);
  std::printf("sin %.4f\n", static_cast<double>(trig.sine.size()) / count);
  return 0;
}
