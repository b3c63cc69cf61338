// tests/tables/wind_checks.h - wind triangles, solved in every direction.
#pragma once

#include "core/wind.h"
#include "tests/tables/check.h"

namespace test {

/// Motion of the air that turns `heading`/`tas` into `track`/`groundspeed`, as a wind.
inline core::Wind wind_between(double heading_deg, double tas_kt, double track_deg,
                               double groundspeed_kt) {
  const core::Vec2 air = core::along(heading_deg) * tas_kt;
  const core::Vec2 drift = core::along(track_deg) * groundspeed_kt - air;
  return {core::direction_of(drift * -1.0), core::length(drift)};
}

/// Airspeed with which `course` is made good at `groundspeed`.
inline double tas_between(double course_deg, double groundspeed_kt, core::Wind wind) {
  return core::length(core::along(course_deg) * groundspeed_kt - wind.velocity_kt());
}

inline constexpr const char* kPhak16 = "FAA-H-8083-25C (PHAK) ch. 16, wind triangle";
inline constexpr const char* kPhak11 = "FAA-H-8083-25C (PHAK) ch. 11, crosswind chart";
inline constexpr const char* kLicence = "European licence question bank, general navigation";
inline constexpr const char* kWartime = "wartime wind computer manual, worked example";
inline constexpr const char* kLessonWind = "flight school lesson page on wind triangles";
inline constexpr const char* kTm1900 = "TM 1-900 Mathematics for Air Crew Trainees, worked example";

inline const Check kWindChecks[] = {
    {"W01", "correction: course 090, TAS 120, wind 045/40", -14.0, 0.5, Unit::deg, kPhak16,
     Mark::seen,
     [] {
       return core::solve_triangle(90, 120, {45, 40}).wca_deg;
     }},
    {"W01", "heading of the same", 76.0, 0.5, Unit::direction, kPhak16, Mark::seen,
     [] {
       return core::solve_triangle(90, 120, {45, 40}).heading_deg;
     }},
    {"W01", "groundspeed of the same", 88.0, 0.5, Unit::kt, kPhak16, Mark::seen,
     [] {
       return core::solve_triangle(90, 120, {45, 40}).groundspeed_kt;
     }},
    {"W02", "correction: course 031, TAS 115, wind 360/10", -3.0, 0.5, Unit::deg, kPhak16,
     Mark::seen,
     [] {
       return core::solve_triangle(31, 115, {360, 10}).wca_deg;
     }},
    {"W02", "heading of the same", 28.0, 0.5, Unit::direction, kPhak16, Mark::seen,
     [] {
       return core::solve_triangle(31, 115, {360, 10}).heading_deg;
     }},
    {"W02", "groundspeed of the same", 106.0, 0.5, Unit::kt, kPhak16, Mark::seen,
     [] {
       return core::solve_triangle(31, 115, {360, 10}).groundspeed_kt;
     }},
    {"W03", "groundspeed: heading 090, TAS 120, wind 270/20", 140.0, 0.1, Unit::kt, kPhak16,
     Mark::seen,
     [] {
       return core::ground_vector(90, 120, {270, 20}).groundspeed_kt;
     }},
    {"W04", "groundspeed: heading 090, TAS 120, wind 090/20", 100.0, 0.1, Unit::kt, kPhak16,
     Mark::seen,
     [] {
       return core::ground_vector(90, 120, {90, 20}).groundspeed_kt;
     }},
    {"W05", "headwind: runway 170, wind 140/25", 22.0, 0.6, Unit::kt, kPhak11, Mark::seen,
     [] {
       return core::solve_triangle(170, 100, {140, 25}).headwind_kt;
     }},
    {"W05", "crosswind of the same, from the left", -13.0, 0.6, Unit::kt, kPhak11, Mark::seen,
     [] {
       return core::solve_triangle(170, 100, {140, 25}).crosswind_kt;
     }},
    {"W06", "heading: course 180, TAS 180, wind 100/18", 174.0, 0.5, Unit::direction, kLicence,
     Mark::seen,
     [] {
       return core::solve_triangle(180, 180, {100, 18}).heading_deg;
     }},
    {"W06", "groundspeed of the same", 176.0, 0.5, Unit::kt, kLicence, Mark::seen,
     [] {
       return core::solve_triangle(180, 180, {100, 18}).groundspeed_kt;
     }},
    {"W09", "track: heading 254, TAS 163, wind 130/30", 262.0, 0.6, Unit::direction, kLicence,
     Mark::seen,
     [] {
       return core::ground_vector(254, 163, {130, 30}).track_deg;
     }},
    {"W09", "groundspeed of the same", 182.0, 0.6, Unit::kt, kLicence, Mark::seen,
     [] {
       return core::ground_vector(254, 163, {130, 30}).groundspeed_kt;
     }},
    {"W10", "track: heading 100, TAS 170, wind 350/30", 109.0, 0.6, Unit::direction, kLicence,
     Mark::seen,
     [] {
       return core::ground_vector(100, 170, {350, 30}).track_deg;
     }},
    {"W10", "groundspeed of the same", 182.0, 0.6, Unit::kt, kLicence, Mark::seen,
     [] {
       return core::ground_vector(100, 170, {350, 30}).groundspeed_kt;
     }},
    {"W11", "wind from: track 095, heading 087, TAS 160, groundspeed 130", 57.0, 0.6,
     Unit::direction, kLicence, Mark::seen, [] { return wind_between(87, 160, 95, 130).from_deg; }},
    {"W11", "wind speed of the same", 36.0, 0.6, Unit::kt, kLicence, Mark::seen,
     [] { return wind_between(87, 160, 95, 130).speed_kt; }},
    {"W12", "wind from: heading 104, track 094, TAS 165, groundspeed 146", 154.0, 1.0,
     Unit::direction, kWartime, Mark::seen,
     [] { return wind_between(104, 165, 94, 146).from_deg; }},
    {"W12", "wind speed of the same (a graphic solution)", 34.0, 1.5, Unit::kt, kWartime,
     Mark::seen, [] { return wind_between(104, 165, 94, 146).speed_kt; }},
    {"W13", "track: heading 315, TAS 150, wind 045/30", 304.0, 0.6, Unit::direction, kWartime,
     Mark::seen,
     [] {
       return core::ground_vector(315, 150, {45, 30}).track_deg;
     }},
    {"W13", "groundspeed of the same", 153.0, 0.6, Unit::kt, kWartime, Mark::seen,
     [] {
       return core::ground_vector(315, 150, {45, 30}).groundspeed_kt;
     }},
    {"W14", "TAS: groundspeed 232 wanted on 351, wind 033/47", 269.0, 0.6, Unit::kt, kTm1900,
     Mark::seen,
     [] {
       return tas_between(351, 232, {33, 47});
     }},
    {"W14", "heading of the same", 358.0, 0.6, Unit::direction, kTm1900, Mark::seen,
     [] {
       return core::solve_triangle(351, tas_between(351, 232, {33, 47}), {33, 47}).heading_deg;
     }},
    {"W16", "TAS: groundspeed 215 wanted on 271, wind 316/48", 252.0, 1.0, Unit::kt, kTm1900,
     Mark::seen,
     [] {
       return tas_between(271, 215, {316, 48});
     }},
    {"W16", "heading of the same", 279.0, 0.6, Unit::direction, kTm1900, Mark::seen,
     [] {
       return core::solve_triangle(271, tas_between(271, 215, {316, 48}), {316, 48}).heading_deg;
     }},
    {"W17", "correction: course 045, TAS 110, wind 090/25", 9.3, 0.1, Unit::deg, kLessonWind,
     Mark::seen,
     [] {
       return core::solve_triangle(45, 110, {90, 25}).wca_deg;
     }},
    {"W17", "groundspeed of the same", 91.0, 0.5, Unit::kt, kLessonWind, Mark::seen,
     [] {
       return core::solve_triangle(45, 110, {90, 25}).groundspeed_kt;
     }},
    {"W19", "correction: course 075, TAS 80, wind 175/20", 14.25, 0.1, Unit::deg,
     "FAA private pilot question bank", Mark::memory,
     [] {
       return core::solve_triangle(75, 80, {175, 20}).wca_deg;
     }},
    {"W19", "groundspeed of the same", 81.0, 0.5, Unit::kt, "FAA private pilot question bank",
     Mark::memory,
     [] {
       return core::solve_triangle(75, 80, {175, 20}).groundspeed_kt;
     }},
    {"W20", "wind from: heading 135, track 130, TAS 135, groundspeed 140", 246.0, 1.0,
     Unit::direction, "FAA private pilot question bank", Mark::memory,
     [] { return wind_between(135, 135, 130, 140).from_deg; }},
    {"W20", "wind speed of the same", 13.0, 0.5, Unit::kt, "FAA private pilot question bank",
     Mark::memory, [] { return wind_between(135, 135, 130, 140).speed_kt; }},
    {"4.4", "groundspeed: course 360, TAS 80, wind 180/15", 95.0, 0.1, Unit::kt, kLessonWind,
     Mark::seen,
     [] {
       return core::solve_triangle(360, 80, {180, 15}).groundspeed_kt;
     }},
    {"4.4", "groundspeed: course 180, TAS 100, wind 180/20", 80.0, 0.1, Unit::kt, kLessonWind,
     Mark::seen,
     [] {
       return core::solve_triangle(180, 100, {180, 20}).groundspeed_kt;
     }},
    {"M06", "magnetic heading: true heading 028, variation 7 east", 21.0, 0.0, Unit::direction,
     kPhak16, Mark::seen, [] { return core::magnetic_from_true(28, 7); }},
};

}  // namespace test
