// tests/bench/flights.h - the flights that are timed: an offset entry and two laps each.
#pragma once

#include <cstddef>
#include <vector>

#include "core/flight.h"
#include "tests/random.h"

namespace bench {

/// As many as fit the first cache with what they need, yet varied: no branch or table
/// can be learnt by heart.
inline constexpr std::size_t kFlights = 64;

struct Case {
  core::Scenario scenario;
  core::Setup setup;
  core::EntryPlan plan;
};

/// Winds of 2 to 35 kt from anywhere, 80 to 220 kt, both turns, all four rules, all
/// arrivals of the offset sector. Always the same, and each of them flown to its end.
inline std::vector<Case> flights() {
  test::Random random(2026);
  std::vector<Case> cases;
  core::Flight flight;
  while (cases.size() < kFlights) {
    core::Scenario s;
    s.inbound_course_deg = random.stepped(1.0, 360.0, 1.0);
    s.turns = random.chance(0.5) ? core::Side::left : core::Side::right;
    s.altitude_ft = random.stepped(1000.0, 20000.0, 500.0);
    s.speed_kt = random.stepped(80.0, 220.0, 1.0);
    s.wind_from_deg = random.stepped(1.0, 360.0, 1.0);
    s.wind_kt = random.stepped(2.0, 35.0, 1.0);
    s.arrival_course_deg = random.stepped(1.0, 360.0, 1.0);
    s.rule = static_cast<core::HeadingRule>(random.below(core::kHeadingRules));
    s.laps = 2;
    const core::Setup setup = core::make_setup(s);
    if (setup.entry != core::EntryKind::offset) continue;
    const std::optional<core::EntryPlan> plan = core::scenario_plan(setup);
    if (!plan) continue;
    core::fly(setup, *plan, flight);
    if (flight.stop == core::Stop::none) cases.push_back({s, setup, *plan});
  }
  return cases;
}

/// What the page's table and sentences read off a flight, as one number that depends on
/// all of it.
inline double summary(const core::Flight& f) {
  const auto of = [](const core::Rollout& r) {
    return r.cross_nm + r.to_go_nm + r.inbound_s + r.at_s;
  };
  double sum = of(f.rollout) + f.entry_time_s + f.intercept_flown_deg + f.track.end_s();
  for (int i = 0; i < f.lap_count; ++i) {
    const core::Lap& lap = f.laps[static_cast<unsigned>(i)];
    sum += of(lap.rollout) + lap.outbound_s + lap.outbound_heading_deg;
  }
  return sum;
}

}  // namespace bench
