// tests/tables/infer_checks.h - winds read back from published or derived legs.
#pragma once

#include "core/infer.h"
#include "tests/tables/check.h"

namespace test {

/// A lap on inbound course 360, right turns, standard rate, no wind across: the headwind
/// on the inbound leg that goes with these times; NaN where none is told.
inline double inferred_headwind_kt(double tas_kt, double outbound_s, double inbound_s) {
  core::Scenario s;
  s.inbound_course_deg = 360.0;
  s.turns = core::Side::right;
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  s.wind_kt = 0.0;
  const core::Setup u = core::make_setup(s);
  core::Observed seen;
  seen.held_wca_deg = 0.0;
  seen.inbound_s = inbound_s;
  const core::InferredWind found = core::infer_wind(u, core::lap_leg(u, 180.0, outbound_s), seen);
  if (found.candidates.size() != 1) return std::nan("");
  const core::Wind w = found.candidates.front().wind;
  return w.speed_kt * core::cos_deg(w.from_deg);
}

/// Crosswind, + from the right, that goes with the correction held and a leg of one minute.
inline double inferred_crosswind_kt(double tas_kt, double held_deg) {
  core::Scenario s;
  s.inbound_course_deg = 360.0;
  s.turns = core::Side::right;
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  s.wind_kt = 0.0;
  const core::Setup u = core::make_setup(s);
  core::Observed seen;
  seen.held_wca_deg = held_deg;
  seen.inbound_s = 60.0;
  const core::InferredWind found = core::infer_wind(u, core::lap_leg(u, 180.0, 60.0), seen);
  if (found.candidates.size() != 1) return std::nan("");
  const core::Wind w = found.candidates.front().wind;
  return w.speed_kt * core::sin_deg(w.from_deg);
}

inline constexpr const char* kLapTimes =
    "docs/theory.md, Laps: outbound time for an inbound minute, wind along the course";
inline constexpr const char* kHeldSine = "docs/theory.md, Wind triangle: V sin(wca)";

// The outbound times are rounded to a tenth of a second, worth up to 0.05 kt.
inline const Check kInferChecks[] = {
    {"INF1", "90 kt, 16.4 s out, 60 s in", 20, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(90, 16.4, 60); }},
    {"INF1", "90 kt, 36.0 s out, 60 s in", 10, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(90, 36.0, 60); }},
    {"INF1", "90 kt, 82.5 s out, 60 s in", -10, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(90, 82.5, 60); }},
    {"INF1", "90 kt, 111.4 s out, 60 s in", -20, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(90, 111.4, 60); }},
    {"INF1", "120 kt, 25.7 s out, 60 s in", 20, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(120, 25.7, 60); }},
    {"INF1", "120 kt, 76.4 s out, 60 s in", -10, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(120, 76.4, 60); }},
    {"INF1", "150 kt, 45.0 s out, 60 s in", 10, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(150, 45.0, 60); }},
    {"INF1", "150 kt, 87.7 s out, 60 s in", -20, 0.05, Unit::kt, kLapTimes, Mark::derived,
     [] { return inferred_headwind_kt(150, 87.7, 60); }},
    {"INF2", "100 kt, 30 degrees held right", 50, 1e-9, Unit::kt, kHeldSine, Mark::derived,
     [] { return inferred_crosswind_kt(100, 30); }},
    {"INF2", "120 kt, 8 degrees held left", -16.7008, 0.0001, Unit::kt, kHeldSine, Mark::derived,
     [] { return inferred_crosswind_kt(120, -8); }},
};

}  // namespace test
