// tests/tables/hold_checks.h - timing, drift correction and still-air shape of the hold.
#pragma once

#include "core/exact.h"
#include "core/flight.h"
#include "tests/tables/check.h"

namespace test {

inline double published_at(double altitude_ft) {
  core::Scenario s;
  s.altitude_ft = altitude_ft;
  return core::make_setup(s).published_s;
}

/// Outbound correction of the laps, + right of the outbound course, where the inbound
/// leg needs `inbound_wca_deg`. The wind is square to the course.
inline double outbound_correction(double inbound_deg, double inbound_wca_deg) {
  core::Scenario s;
  s.inbound_course_deg = inbound_deg;
  s.speed_is_tas = true;
  s.speed_kt = 100.0;
  s.wind_from_deg = core::wrap_360(inbound_deg + (inbound_wca_deg < 0.0 ? -90.0 : 90.0));
  s.wind_kt = 100.0 * core::sin_deg(inbound_wca_deg < 0.0 ? -inbound_wca_deg : inbound_wca_deg);
  const core::Setup u = core::make_setup(s);
  return core::wrap_180(core::lap_heading(u, 3.0) - u.hold.outbound_course_deg());
}

/// Outbound seconds, from the later of abeam and wings level, that give an inbound
/// minute with `tail_kt` of tailwind inbound and no crosswind.
inline double outbound_seconds(double tas_kt, double tail_kt) {
  core::Scenario s;
  s.inbound_course_deg = 360.0;
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  s.wind_from_deg = tail_kt > 0.0 ? 180.0 : 360.0;
  s.wind_kt = tail_kt > 0.0 ? tail_kt : -tail_kt;
  const core::ExactPlan lap = core::exact_lap(core::make_setup(s));
  return lap.exists() ? lap.time_s : -1.0;
}

/// A direct entry and one lap in still air, inbound 360, right turns.
inline core::Flight& still_lap(double tas_kt) {
  static core::Flight flight;
  core::Scenario s;
  s.inbound_course_deg = 360.0;
  s.turns = core::Side::right;
  s.arrival_course_deg = 360.0;
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  s.wind_kt = 0.0;
  s.laps = 1;
  core::fly_scenario(core::make_setup(s), flight);
  return flight;
}
inline core::Event still_event(double tas_kt, core::EventKind kind, int lap) {
  const core::Flight& f = still_lap(tas_kt);
  for (int i = f.event_count - 1; i >= 0; --i) {
    const core::Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == kind && e.lap == lap) return e;
  }
  return {kind, lap, -1.0, {-1.0, -1.0}, -1.0};
}
/// Seconds from the fix to the fix, once round.
inline double still_circuit(double tas_kt) {
  return still_event(tas_kt, core::EventKind::fix, 1).at_s -
         still_event(tas_kt, core::EventKind::fix, 0).at_s;
}

/// The offset entry in still air: a minute 30 degrees off, then 210 degrees of turn.
/// Arriving along the first heading, so that there is no turn at the fix.
inline core::Flight& still_offset(double tas_kt) {
  static core::Flight flight;
  core::Scenario s;
  s.inbound_course_deg = 360.0;
  s.turns = core::Side::right;
  s.arrival_course_deg = 150.0;
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  s.wind_kt = 0.0;
  s.timer = core::Timer::level;
  core::fly_scenario(core::make_setup(s), flight);
  return flight;
}
/// Distance off the inbound course when the minute is up, + = holding side (east here).
inline double still_offset_out(double tas_kt) {
  const core::Flight& f = still_offset(tas_kt);
  for (int i = 0; i < f.event_count; ++i) {
    const core::Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == core::EventKind::time_up) return e.at.x;
  }
  return -1.0;
}
inline double still_offset_miss(double tas_kt) { return -still_offset(tas_kt).rollout.cross_nm; }

inline constexpr const char* kAimJ4 = "AIM 5-3-8 j4";
inline constexpr const char* kAimJ8 = "AIM 5-3-8 j8";
inline constexpr const char* kNavy871 = "US Navy P-871";
inline constexpr const char* kTiming = "docs/theory.md, Laps";
inline constexpr const char* kStill = "docs/theory.md, Two facts of still air";

inline const Check kHoldChecks[] = {
    {"H03", "leg at 14,000 ft", 60, 0, Unit::s, kAimJ4, Mark::seen,
     [] { return published_at(14000); }},
    {"H03", "leg at 14,001 ft", 90, 0, Unit::s, kAimJ4, Mark::seen,
     [] { return published_at(14001); }},
    {"H04", "outbound correction, inbound 8 left", 24, 1e-9, Unit::deg, kAimJ8, Mark::seen,
     [] { return outbound_correction(360, -8); }},
    {"H05", "outbound heading, inbound 270 with 5 right", 75, 1e-9, Unit::direction, kNavy871,
     Mark::seen, [] { return core::wrap_360(90 + outbound_correction(270, 5)); }},
    {"H06", "next outbound after 60 s that gave 50 s inbound, second for second", 70, 0, Unit::s,
     kNavy871, Mark::seen,
     [] { return core::next_outbound_s(core::make_setup(core::Scenario{}), 60, 50); }},
    {"7.2", "the same by the ratio rule, 60 x 60 / 50", 72, 1e-12, Unit::s,
     "common practice, no source", Mark::practice,
     [] {
       core::Scenario s;
       s.adjust = core::Adjust::ratio;
       return core::next_outbound_s(core::make_setup(s), 60, 50);
     }},
    {"H12", "outbound seconds, TAS 120, 20 kt tail inbound, from abeam", 96.0, 0.1, Unit::s,
     kTiming, Mark::derived, [] { return outbound_seconds(120, 20); }},
    {"H13", "outbound seconds, TAS 120, 20 kt head inbound, from wings level", 25.7, 0.1, Unit::s,
     kTiming, Mark::derived, [] { return outbound_seconds(120, -20); }},
    {"H14", "outbound seconds, TAS 90, 10 kt tail inbound, from abeam", 82.5, 0.1, Unit::s, kTiming,
     Mark::derived, [] { return outbound_seconds(90, 10); }},
    {"7.3", "TAS 90, 20 kt head", 16.4, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(90, -20); }},
    {"7.3", "TAS 90, 10 kt head", 36.0, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(90, -10); }},
    {"7.3", "TAS 90, 20 kt tail", 111.4, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(90, 20); }},
    {"7.3", "TAS 100, 10 kt tail", 80.0, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(100, 10); }},
    {"7.3", "TAS 100, 20 kt head", 20.0, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(100, -20); }},
    {"7.3", "TAS 150, 10 kt head", 45.0, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(150, -10); }},
    {"7.3", "TAS 150, 20 kt tail", 87.7, 0.05, Unit::s, kTiming, Mark::derived,
     [] { return outbound_seconds(150, 20); }},
    {"H15", "inbound leg, TAS 120, still air", 2.0, 0.001, Unit::nm, kStill, Mark::derived,
     [] { return -still_event(120, core::EventKind::roll_out, 1).at.y; }},
    {"H15", "width of the pattern", 1.273, 0.001, Unit::nm, kStill, Mark::derived,
     [] { return still_event(120, core::EventKind::level, 1).at.x; }},
    {"H15", "once round", 240, 1e-9, Unit::s, kStill, Mark::derived,
     [] { return still_circuit(120); }},
    {"H16", "offset entry, TAS 120: off the course after the minute", 1.0, 0.001, Unit::nm, kStill,
     Mark::derived, [] { return still_offset_out(120); }},
    {"H16", "past the course after 210 degrees of turn", 0.188, 0.001, Unit::nm, kStill,
     Mark::derived, [] { return still_offset_miss(120); }},
    {"7.4", "leg at TAS 90", 1.5, 0.0005, Unit::nm, kStill, Mark::derived,
     [] { return -still_event(90, core::EventKind::roll_out, 1).at.y; }},
    {"7.4", "width at TAS 90", 0.955, 0.0005, Unit::nm, kStill, Mark::derived,
     [] { return still_event(90, core::EventKind::level, 1).at.x; }},
    {"7.4", "past the course at TAS 90", 0.141, 0.0005, Unit::nm, kStill, Mark::derived,
     [] { return still_offset_miss(90); }},
    {"7.4", "width at TAS 150", 1.592, 0.0005, Unit::nm, kStill, Mark::derived,
     [] { return still_event(150, core::EventKind::level, 1).at.x; }},
    {"7.4", "past the course at TAS 150", 0.235, 0.0005, Unit::nm, kStill, Mark::derived,
     [] { return still_offset_miss(150); }},
};

}  // namespace test
