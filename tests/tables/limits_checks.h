// tests/tables/limits_checks.h - holding speeds, slow-down, and where the bank limit binds.
#pragma once

#include "core/limits.h"
#include "tests/tables/check.h"

namespace test {

using core::SpeedRule;

inline double limit_kias(SpeedRule rule, double altitude_ft, double charted = 0.0) {
  return core::greatest_holding_speed(rule, altitude_ft, charted).ias_kt;
}
/// The Mach number where that is what limits, else 0.
inline double limit_mach(SpeedRule rule, double altitude_ft) {
  const core::SpeedLimit l = core::greatest_holding_speed(rule, altitude_ft);
  return l.by_mach ? l.band.mach : 0.0;
}

inline constexpr const char* kAimSpeeds = "AIM 5-3-8 j2, TBL 5-3-1";
inline constexpr const char* kAimExceptions = "AIM 5-3-8 j2, exceptions";
inline constexpr const char* kVolISpeeds =
    "ICAO Doc 8168 Vol I Part I Sec 6 Ch 1 table, restated in a State AIP ENR 1.5";
inline constexpr const char* kMachDerived =
    "docs/theory.md, Holding speeds (compressible relation)";
inline constexpr const char* kCrossover = "docs/theory.md, Turn: g tan(bank) / (3 deg/s)";

inline const Check kLimitsChecks[] = {
    {"H01", "FAA at 6,000 ft", 200, 0, Unit::kt, kAimSpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::faa, 6000); }},
    {"H01", "FAA at 6,001 ft", 230, 0, Unit::kt, kAimSpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::faa, 6001); }},
    {"H01", "FAA at 14,000 ft", 230, 0, Unit::kt, kAimSpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::faa, 14000); }},
    {"H01", "FAA at 14,001 ft", 265, 0, Unit::kt, kAimSpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::faa, 14001); }},
    {"1.3", "FAA, 210 icon, 6,001 ft", 210, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return limit_kias(SpeedRule::faa_icon, 6001); }},
    {"1.3", "FAA, 210 icon, 14,000 ft", 210, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return limit_kias(SpeedRule::faa_icon, 14000); }},
    {"1.3", "FAA, 210 icon does not reach to 6,000 ft", 200, 0, Unit::kt, kAimExceptions,
     Mark::seen, [] { return limit_kias(SpeedRule::faa_icon, 6000); }},
    {"1.3", "FAA, (175) on the chart", 175, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return limit_kias(SpeedRule::faa_charted, 5000, 175); }},
    {"1.3", "USAF airfields", 310, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return limit_kias(SpeedRule::faa_air_force, 5000); }},
    {"1.3", "US Navy fields", 230, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return limit_kias(SpeedRule::faa_navy, 5000); }},
    {"1.3", "climb in the hold", 310, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return limit_kias(SpeedRule::faa_climb, 5000); }},
    {"1.3", "least speed of a hold", 90, 0, Unit::kt, kAimExceptions, Mark::seen,
     [] { return core::kLeastHoldingKias; }},
    {"H02", "ICAO at 14,000 ft", 230, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao, 14000); }},
    {"H02", "ICAO at 14,001 ft", 240, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao, 14001); }},
    {"H02", "ICAO at 20,001 ft", 265, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao, 20001); }},
    {"H02", "ICAO at 34,001 ft, Mach", 0.83, 0, Unit::mach, kVolISpeeds, Mark::seen,
     [] { return limit_mach(SpeedRule::icao, 34001); }},
    {"2.2", "ICAO at 20,000 ft", 240, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao, 20000); }},
    {"2.2", "ICAO at 34,000 ft", 265, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao, 34000); }},
    {"2.2", "ICAO, category A/B, 14,000 ft", 170, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao_cat_ab, 14000); }},
    {"2.2", "ICAO, turbulence, 14,000 ft", 280, 0, Unit::kt, kVolISpeeds, Mark::seen,
     [] { return limit_kias(SpeedRule::icao_turbulence, 14000); }},
    {"2.2", "ICAO, turbulence, 20,001 ft: 280 is less than M 0.8", 280, 0, Unit::kt, kVolISpeeds,
     Mark::seen, [] { return limit_kias(SpeedRule::icao_turbulence, 20001); }},
    {"2.2", "ICAO, turbulence, 34,000 ft: M 0.8 is less than 280", 0.8, 0, Unit::mach, kVolISpeeds,
     Mark::seen, [] { return limit_mach(SpeedRule::icao_turbulence, 34000); }},
    {"2.2", "ICAO, turbulence, 34,001 ft", 0.83, 0, Unit::mach, kVolISpeeds, Mark::seen,
     [] { return limit_mach(SpeedRule::icao_turbulence, 34001); }},
    {"2.2", "M 0.80 at 34,000 ft as calibrated airspeed", 278.18, 0.05, Unit::kt, kMachDerived,
     Mark::derived, [] { return limit_kias(SpeedRule::icao_turbulence, 34000); }},
    {"2.2", "M 0.83 at 35,000 ft as calibrated airspeed", 283.29, 0.05, Unit::kt, kMachDerived,
     Mark::derived, [] { return limit_kias(SpeedRule::icao, 35000); }},
    {"2.2", "M 0.83 at 41,000 ft as calibrated airspeed", 246.63, 0.05, Unit::kt, kMachDerived,
     Mark::derived, [] { return limit_kias(SpeedRule::icao, 41000); }},
    {"1.1", "slowing down begins, before the fix", 180, 0, Unit::s, "AIM 5-3-8 d", Mark::seen,
     [] { return core::kSlowDownS; }},
    {"T18", "25 degrees of bank begin to bind", 170, 1, Unit::kt, "FAA-H-8083-16B (IPH) p. 2-52",
     Mark::seen, [] { return core::crossover_tas_kt(25); }},
    {"T18", "the same, exact constants", 169.8, 0.05, Unit::kt, kCrossover, Mark::derived,
     [] { return core::crossover_tas_kt(25); }},
    {"4.1", "30 degrees of bank begin to bind", 210, 1, Unit::kt, "FAA-H-8083-16B (IPH) p. 2-52",
     Mark::seen, [] { return core::crossover_tas_kt(30); }},
    {"4.1", "the same, exact constants", 210.195, 0.005, Unit::kt, kCrossover, Mark::derived,
     [] { return core::crossover_tas_kt(30); }},
};

}  // namespace test
