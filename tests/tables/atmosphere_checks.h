// tests/tables/atmosphere_checks.h - standard atmosphere and airspeed conversion.
#pragma once

#include "core/atmosphere.h"
#include "tests/tables/check.h"

namespace test {

inline double celsius(double altitude_ft) { return core::temperature_k(altitude_ft) - 273.15; }
/// 1013.25 hPa is 29.9213 inches of mercury.
inline double inches(double altitude_ft) { return core::pressure_ratio(altitude_ft) * 29.9213; }
inline double density(double altitude_ft) { return core::density_ratio(altitude_ft) * 1.225; }
/// Deviation from standard at a level where the thermometer shows `oat_c`.
inline double deviation(double altitude_ft, double oat_c) { return oat_c - celsius(altitude_ft); }

inline constexpr const char* kPhak112 = "FAA-H-8083-25C (PHAK) Fig. 11-2, standard atmosphere";
inline constexpr const char* kIsaTable = "textbook chapter on the ISA, density ratio table";
inline constexpr const char* kIsaDerived = "docs/theory.md, Atmosphere";
inline constexpr const char* kTwin = "light twin flight manual, TAS table";

inline const Check kAtmosphereChecks[] = {
    {"A01", "temperature at sea level", 15.0, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(0); }},
    {"A01", "pressure at sea level", 29.92, 0.01, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(0); }},
    {"A02", "temperature at 5,000 ft", 5.1, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(5000); }},
    {"A02", "pressure at 5,000 ft", 24.89, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(5000); }},
    {"A03", "temperature at 10,000 ft", -4.8, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(10000); }},
    {"A03", "pressure at 10,000 ft", 20.57, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(10000); }},
    {"A04", "temperature at 14,000 ft", -12.7, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(14000); }},
    {"A04", "pressure at 14,000 ft", 17.57, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(14000); }},
    {"A05", "temperature at 18,000 ft", -20.7, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(18000); }},
    {"A05", "pressure at 18,000 ft", 14.94, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(18000); }},
    {"A06", "density ratio at 5,000 ft", 0.8617, 0.0002, Unit::ratio, kIsaTable, Mark::seen,
     [] { return core::density_ratio(5000); }},
    {"A06", "density ratio at 6,000 ft", 0.8359, 0.0002, Unit::ratio, kIsaTable, Mark::seen,
     [] { return core::density_ratio(6000); }},
    {"A06", "density ratio at 10,000 ft", 0.7385, 0.0002, Unit::ratio, kIsaTable, Mark::seen,
     [] { return core::density_ratio(10000); }},
    {"A07", "density at 14,000 ft", 0.7963, 0.0002, Unit::kg_m3, kIsaDerived, Mark::derived,
     [] { return density(14000); }},
    {"A07", "density at 18,000 ft", 0.6981, 0.0002, Unit::kg_m3, kIsaDerived, Mark::derived,
     [] { return density(18000); }},
    {"A08", "TAS: CAS 110, 7,000 ft, +16 C", 126.0, 1.0, Unit::kt,
     "flight school lesson page on airspeeds", Mark::seen,
     [] { return core::tas_from_cas(110, 7000, deviation(7000, 16)); }},
    {"A09", "TAS: CAS 150, 10,000 ft, -10 C", 173.0, 1.0, Unit::kt, "stored practice item",
     Mark::seen, [] { return core::tas_from_cas(150, 10000, deviation(10000, -10)); }},
    {"A11", "TAS: 142 kt, 8,000 ft, ISA+20", 165.0, 1.0, Unit::kt, kTwin, Mark::seen,
     [] { return core::tas_from_cas(142, 8000, 20); }},
    {"A13", "TAS: 120 kt, 16,000 ft, ISA", 153.0, 1.0, Unit::kt, kTwin, Mark::seen,
     [] { return core::tas_from_cas(120, 16000); }},
    {"A18", "TAS: 100 kt, 5,000 ft, ISA, where the rule of 2 % a thousand feet says 110", 107.7,
     0.05, Unit::kt, kIsaDerived, Mark::derived, [] { return core::tas_from_cas(100, 5000); }},
    {"4.3", "TAS: 100 kt, 10,000 ft, ISA, where the same rule says 120", 116.2, 0.05, Unit::kt,
     kIsaDerived, Mark::derived, [] { return core::tas_from_cas(100, 10000); }},
    {"4.3", "TAS: 156 kt, 6,000 ft, ISA", 170.0, 1.0, Unit::kt, "FAA-H-8083-16B (IPH) p. 2-52",
     Mark::seen, [] { return core::tas_from_cas(156, 6000); }},
    {"4.3", "TAS: 124 kt, 16,000 ft, ISA-20", 152.0, 1.0, Unit::kt, kTwin, Mark::seen,
     [] { return core::tas_from_cas(124, 16000, -20); }},
    {"4.3", "TAS: 230 kt, 14,000 ft, ISA, compressible", 282.4, 0.05, Unit::kt, kIsaDerived,
     Mark::derived, [] { return core::tas_from_cas(230, 14000); }},
    {"4.3", "TAS: 265 kt, 18,000 ft, ISA, compressible", 344.6, 0.05, Unit::kt, kIsaDerived,
     Mark::derived, [] { return core::tas_from_cas(265, 18000); }},
    {"4.2", "temperature at 6,000 ft", 3.1, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(6000); }},
    {"4.2", "pressure at 6,000 ft", 23.98, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(6000); }},
    {"4.2", "temperature at 8,000 ft (the standard's lapse gives just under 0.85 below)", -0.9, 0.1,
     Unit::celsius, kPhak112, Mark::seen, [] { return celsius(8000); }},
    {"4.2", "pressure at 8,000 ft", 22.22, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(8000); }},
    {"4.2", "temperature at 20,000 ft", -24.6, 0.05, Unit::celsius, kPhak112, Mark::seen,
     [] { return celsius(20000); }},
    {"4.2", "pressure at 20,000 ft", 13.74, 0.02, Unit::inhg, kPhak112, Mark::seen,
     [] { return inches(20000); }},
    {"Doc 7488", "temperature in the lower stratosphere", -56.5, 1e-9, Unit::celsius,
     "ICAO Doc 7488, isothermal layer", Mark::memory, [] { return celsius(40000); }},
    {"Doc 7488", "pressure ratio at 11 km, 226.32 hPa", 0.223361, 2e-6, Unit::ratio,
     "ICAO Doc 7488, tropopause", Mark::memory,
     [] { return core::pressure_ratio(11000.0 / 0.3048); }},
};

}  // namespace test
