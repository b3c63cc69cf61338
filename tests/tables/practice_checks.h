// tests/tables/practice_checks.h - what common practice says, and the exact laps beside it.
#pragma once

#include "core/common_practice.h"
#include "tests/tables/check.h"

namespace test {

/// Inbound 360 flown at `tas_kt`; + `tail_kt` inbound and + `right_kt` from the right.
inline core::Scenario practice_scene(double tas_kt, double tail_kt, double right_kt,
                                     core::Side turns = core::Side::right) {
  core::Scenario s;
  s.inbound_course_deg = 360.0;
  s.turns = turns;
  s.arrival_course_deg = 180.0;
  s.entry = core::EntryKind::offset;
  s.speed_is_tas = true;
  s.speed_kt = tas_kt;
  const core::Vec2 from = {right_kt, -tail_kt};
  s.wind_from_deg = core::direction_of(from);
  s.wind_kt = core::length(from);
  return s;
}

inline core::PracticeItem practice_item(const core::Scenario& s, core::PracticeId id) {
  const core::WorkedCase worked = core::work_out(s);
  for (core::PracticeItem& item :
       core::common_practice(worked, core::study_laps(worked.setup, worked.lap))) {
    if (item.id == id) return item;
  }
  return {};
}
inline double practice_value(const core::Scenario& s, core::PracticeId id) {
  return practice_item(s, id).value.value_or(-1.0);
}

/// Exact multiple of a lap, and the miss of triple (+ on the holding side).
inline core::LapStudy studied_lap(double tas_kt, double tail_kt, double right_kt) {
  const core::Setup u = core::make_setup(practice_scene(tas_kt, tail_kt, right_kt));
  return core::study_laps(u, core::exact_lap(u));
}

inline constexpr const char* kPractice = "common practice";
inline constexpr const char* kPracticeTheory = "docs/theory.md, The exact multiple";

inline const Check kPracticeChecks[] = {
    {"C1", "round 30, outbound 180, right turns", 150, 0, Unit::direction, kPractice,
     Mark::practice,
     [] { return practice_value(practice_scene(120, 0, 0), core::PracticeId::round_thirty); }},
    {"C1", "round 30, outbound 180, left turns", 210, 0, Unit::direction, kPractice, Mark::practice,
     [] {
       return practice_value(practice_scene(120, 0, 0, core::Side::left),
                             core::PracticeId::round_thirty);
     }},
    {"C2", "15 left held on arrival: 150 becomes", 135, 1e-9, Unit::direction, kPractice,
     Mark::practice,
     [] {
       return practice_value(practice_scene(120, 0, 120 * core::sin_deg(15)),
                             core::PracticeId::arrival_once);
     }},
    {"C3", "60 kt outbound at 90: at least", 120, 1e-9, Unit::s, kPractice, Mark::practice,
     [] {
       return practice_item(practice_scene(90, 30, 0), core::PracticeId::slow_outbound)
           .least.value_or(-1.0);
     }},
    {"C3", "60 kt outbound at 90: at most", 150, 1e-9, Unit::s, kPractice, Mark::practice,
     [] { return practice_value(practice_scene(90, 30, 0), core::PracticeId::slow_outbound); }},
    {"C3", "60 kt outbound at 90: exact from abeam", 150, 0.001, Unit::s, "docs/theory.md, Laps",
     Mark::derived,
     [] {
       return practice_item(practice_scene(90, 30, 0), core::PracticeId::slow_outbound)
           .exact.value_or(-1.0);
     }},
    {"7.2", "ratio of the groundspeeds, TAS 90, 10 kt tail inbound", 75.0, 0.05, Unit::s, kPractice,
     Mark::practice,
     [] { return practice_value(practice_scene(90, 10, 0), core::PracticeId::ratio_speeds); }},
    {"7.2", "the same, TAS 120, 20 kt head inbound", 42.9, 0.05, Unit::s, kPractice, Mark::practice,
     [] { return practice_value(practice_scene(120, -20, 0), core::PracticeId::ratio_speeds); }},
    {"7.2", "ratio of the inbound times, TAS 90, 30 kt tail inbound: 15 s flown", 240, 0.001,
     Unit::s, kPractice, Mark::practice,
     [] { return practice_value(practice_scene(90, 30, 0), core::PracticeId::ratio_last); }},
    {"7.2", "half a second a knot, 20 kt of headwind outbound", 70, 1e-9, Unit::s, kPractice,
     Mark::practice,
     [] { return practice_value(practice_scene(120, 20, 0), core::PracticeId::half_second); }},
    {"7.2", "a second a knot, 20 kt of tailwind outbound", 40, 1e-9, Unit::s, kPractice,
     Mark::practice,
     [] { return practice_value(practice_scene(120, -20, 0), core::PracticeId::one_second); }},
    {"7.2", "double a correction of 12 right: outbound heading", 156, 1e-9, Unit::direction,
     kPractice, Mark::practice,
     [] {
       return practice_value(practice_scene(120, 0, 120 * core::sin_deg(12)),
                             core::PracticeId::twice);
     }},
    {"7.2", "10 more than 12 right: outbound heading", 158, 1e-9, Unit::direction, kPractice,
     Mark::practice,
     [] {
       return practice_value(practice_scene(120, 0, 120 * core::sin_deg(12)),
                             core::PracticeId::plus_ten);
     }},
    {"L1", "exact multiple, TAS 120, 2 kt across", 3.0, 0.02, Unit::ratio, kPracticeTheory,
     Mark::derived, [] { return studied_lap(120, 0, 2).exact; }},
    // Wings level S = (140 60 + 2 20 60) / 100 = 108 s, and (108 + 120) / 108.
    {"L2", "exact multiple, TAS 120, 2 kt across, 20 kt tail inbound", 2.11, 0.02, Unit::ratio,
     kPracticeTheory, Mark::derived, [] { return studied_lap(120, 20, 2).exact; }},
    // S = (100 60 - 2 20 60) / 140 = 25.7 s.
    {"L3", "exact multiple, TAS 120, 2 kt across, 20 kt head inbound", 5.67, 0.06, Unit::ratio,
     kPracticeTheory, Mark::derived, [] { return studied_lap(120, -20, 2).exact; }},
};

}  // namespace test
