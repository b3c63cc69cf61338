// tests/tables/turn_checks.h - rate, bank and radius of the coordinated level turn.
#pragma once

#include "core/roll.h"
#include "core/turn.h"
#include "core/units.h"
#include "tests/tables/check.h"

namespace test {

inline constexpr const char* kPhak5 = "FAA-H-8083-25C (PHAK) ch. 5, turns";
inline constexpr const char* kIfh = "FAA-H-8083-15B (IFH) ch. 4 and 7, standard-rate turns";
inline constexpr const char* kTurnDerived = "docs/theory.md, Turn";

inline double radius_ft(double tas_kt, double bank_deg) {
  return core::turn_radius_nm(tas_kt, core::turn_rate_deg_s(tas_kt, bank_deg)) *
         core::kMetresPerNm / core::kMetresPerFoot;
}
/// A radius as the handbook's rounded constant has it: V^2 / (11.26 tan bank). The
/// exact constant is 11.294 (docs/theory.md "Turn"), which accounts for the ratio.
inline double radius_ft_handbook(double tas_kt, double bank_deg) {
  constexpr double knot_m_s = core::kMetresPerNm / 3600.0;
  constexpr double exact = core::kGravity / (knot_m_s * knot_m_s) * core::kMetresPerFoot;
  return radius_ft(tas_kt, bank_deg) * exact / 11.26;
}

inline const Check kTurnChecks[] = {
    {"T01", "rate at 120 kt, bank 30", 5.25, 0.01, Unit::deg_s, kPhak5, Mark::seen,
     [] { return core::turn_rate_deg_s(120, 30); }},
    {"T02", "rate at 240 kt, bank 30", 2.62, 0.01, Unit::deg_s, kPhak5, Mark::seen,
     [] { return core::turn_rate_deg_s(240, 30); }},
    {"T03", "bank for 5.25 deg/s at 240 kt", 49.0, 0.3, Unit::deg, kPhak5, Mark::seen,
     [] { return core::bank_for_rate_deg(240, 5.25); }},
    {"T04", "radius at 120 kt, bank 30, handbook constant", 2215.0, 1.0, Unit::ft, kPhak5,
     Mark::seen, [] { return radius_ft_handbook(120, 30); }},
    {"T04", "the same, exact constants", 2208.0, 1.0, Unit::ft, kTurnDerived, Mark::derived,
     [] { return radius_ft(120, 30); }},
    {"T05", "radius at 240 kt, bank 30, handbook constant", 8861.0, 2.0, Unit::ft, kPhak5,
     Mark::seen, [] { return radius_ft_handbook(240, 30); }},
    {"T05", "the same, exact constants", 8833.0, 2.0, Unit::ft, kTurnDerived, Mark::derived,
     [] { return radius_ft(240, 30); }},
    {"T06", "full circle at 120 kt, bank 30", 68.6, 0.2, Unit::s, kPhak5, Mark::seen,
     [] { return 360.0 / core::turn_rate_deg_s(120, 30); }},
    {"T07", "full circle at 240 kt, bank 30", 137.0, 0.5, Unit::s, kPhak5, Mark::seen,
     [] { return 360.0 / core::turn_rate_deg_s(240, 30); }},
    {"T08", "full circle at standard rate", 120.0, 0.01, Unit::s, kIfh, Mark::seen,
     [] { return 360.0 / core::level_turn(105, 30).rate_deg_s; }},
    {"T08", "120 degrees at standard rate", 40.0, 0.01, Unit::s, kIfh, Mark::seen,
     [] { return 120.0 / core::level_turn(105, 30).rate_deg_s; }},
    {"T08", "90 degrees at standard rate", 30.0, 0.01, Unit::s, kIfh, Mark::seen,
     [] { return 90.0 / core::level_turn(105, 30).rate_deg_s; }},
    {"T10", "bank for standard rate at 100 kt (the handbook's 15 % rule)", 15.0, 0.5, Unit::deg,
     kIfh, Mark::seen, [] { return core::level_turn(100, 30).bank_deg; }},
    {"T10", "the same at 120 kt", 18.0, 0.5, Unit::deg, kIfh, Mark::seen,
     [] { return core::level_turn(120, 30).bank_deg; }},
    {"T11", "bank for standard rate at 120 kt", 18.24, 0.01, Unit::deg, kTurnDerived, Mark::derived,
     [] { return core::level_turn(120, 30).bank_deg; }},
    {"T11", "radius of the same", 0.6366, 0.0005, Unit::nm, kTurnDerived, Mark::derived,
     [] { return core::level_turn(120, 30).radius_nm; }},
    {"T12", "bank for standard rate at 90 kt", 13.89, 0.01, Unit::deg, kTurnDerived, Mark::derived,
     [] { return core::level_turn(90, 30).bank_deg; }},
    {"T12", "radius of the same", 0.4775, 0.0005, Unit::nm, kTurnDerived, Mark::derived,
     [] { return core::level_turn(90, 30).radius_nm; }},
    {"T16", "rate at 200 kt, limit 30", 3.0, 0.0, Unit::deg_s, "AIM 5-3-8 j8, exact constants",
     Mark::derived, [] { return core::level_turn(200, 30).rate_deg_s; }},
    {"T16", "bank of the same", 28.78, 0.02, Unit::deg, "AIM 5-3-8 j8, exact constants",
     Mark::derived, [] { return core::level_turn(200, 30).bank_deg; }},
    {"T18", "TAS at which 25 degrees of bank turn at standard rate", 170.0, 1.0, Unit::kt,
     "FAA-H-8083-16B (IPH) p. 2-52", Mark::seen,
     [] { return 170.0 * core::turn_rate_deg_s(170, 25) / core::kStandardRateDegS; }},
    {"T18", "the same, exact constants", 169.8, 0.05, Unit::kt, kTurnDerived, Mark::derived,
     [] { return 170.0 * core::turn_rate_deg_s(170, 25) / core::kStandardRateDegS; }},
    {"4.1/80", "bank for standard rate at 80 kt", 12.39, 0.005, Unit::deg, kTurnDerived,
     Mark::derived, [] { return core::level_turn(80, 25).bank_deg; }},
    {"4.1/150", "radius at standard rate, 150 kt", 0.796, 0.0005, Unit::nm, kTurnDerived,
     Mark::derived, [] { return core::level_turn(150, 25).radius_nm; }},
    {"4.1/170", "rate at 170 kt, limit 25", 2.996, 0.0005, Unit::deg_s, kTurnDerived, Mark::derived,
     [] { return core::level_turn(170, 25).rate_deg_s; }},
    {"4.1/200", "rate at 200 kt, limit 25", 2.547, 0.0005, Unit::deg_s, kTurnDerived, Mark::derived,
     [] { return core::level_turn(200, 25).rate_deg_s; }},
    {"4.1/200", "radius of the same", 1.250, 0.0005, Unit::nm, kTurnDerived, Mark::derived,
     [] { return core::level_turn(200, 25).radius_nm; }},
    {"4.1/240", "radius at 240 kt, limit 25", 1.800, 0.0005, Unit::nm, kTurnDerived, Mark::derived,
     [] { return core::level_turn(240, 25).radius_nm; }},
    {"T19", "right turn from 030 to 120 at 15 of bank: begin to roll out, by rule", 112.5, 0.1,
     Unit::direction, "FAA-H-8083-15B ch. 5 and 7", Mark::seen,
     [] { return 120 - core::roll_out_lead_by_rule_deg(15); }},
};

}  // namespace test
