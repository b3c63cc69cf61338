// tests/tables/clearance_checks.h - clearances read, and the entries that follow from them.
#pragma once

#include <limits>

#include "core/clearance.h"
#include "tests/tables/check.h"

namespace test {

/// NaN where not determined, or where anything contradicts: then no check holds.
inline double inbound_of(std::string_view text) {
  const core::ReadClearance r = core::read_clearance(text);
  return r.contradictions.empty() && r.inbound_deg ? *r.inbound_deg
                                                   : std::numeric_limits<double>::quiet_NaN();
}
inline double outbound_end_of(std::string_view text) {
  return core::read_clearance(text).outbound_end_dme_nm.value_or(
      std::numeric_limits<double>::quiet_NaN());
}
inline core::SectorChoice entry_of(std::string_view text, double heading_deg) {
  const core::ReadClearance r = core::read_clearance(text);
  return core::choose_sector({inbound_of(text), r.turns.value_or(core::Side::right)}, heading_deg);
}

// The figures of the AIM show a hold on a line of their own; the radial is our choice.
inline constexpr const char* kH07 =
    "HOLD NORTHWEST OF THE 10 DME FIX ON THE 315 RADIAL, 5 MILE LEGS";
inline constexpr const char* kH08 = "HOLD WEST OF THE 28 DME FIX ON THE 090 RADIAL, 8 MILE LEGS";
inline constexpr const char* kH09 = "HOLD EAST OF THE 20 DME FIX ON THE 265 RADIAL, 5 MILE LEGS";
inline constexpr const char* kH10 =
    "hold northeast of the one six D M E fix on the zero three zero radial, five mile legs";
inline constexpr const char* kH11 = "HOLD SOUTHWEST OF ABC ON THE 221 RADIAL, LEFT TURNS";
inline constexpr const char* kE05 = "HOLD SOUTH OF THE VOR ON THE 180 RADIAL";
inline constexpr const char* kE06 = "HOLD WEST OF THE VOR ON THE 270 RADIAL";
inline constexpr const char* kE07 = "HOLD NORTH OF THE VOR ON THE 360 RADIAL, LEFT TURNS";

inline constexpr const char* kFaaBank = "FAA question bank, instrument";

inline const Check kClearanceChecks[] = {
    {"H07", "fix 10 DME, inbound toward the station, leg 5: outbound ends", 15, 0, Unit::nm,
     "AIM FIG 5-3-5", Mark::seen, [] { return outbound_end_of(kH07); }},
    {"H08", "fix 28 DME, inbound away from the station, leg 8: outbound ends", 20, 0, Unit::nm,
     "AIM FIG 5-3-6", Mark::seen, [] { return outbound_end_of(kH08); }},
    {"H09", "E of the 20 DME fix, 265 radial: inbound", 265, 0, Unit::direction,
     "FAA-H-8083-16B (IPH) Fig 3-18", Mark::seen, [] { return inbound_of(kH09); }},
    {"H09", "the same, leg 5: outbound ends", 15, 0, Unit::nm, "FAA-H-8083-16B (IPH) Fig 3-18",
     Mark::seen, [] { return outbound_end_of(kH09); }},
    {"H10", "NE of the 16 DME fix, 030 radial: inbound", 210, 0, Unit::direction,
     "FAA-H-8083-16B (IPH) Fig 3-18", Mark::seen, [] { return inbound_of(kH10); }},
    {"H10", "the same, leg 5: outbound ends", 21, 0, Unit::nm, "FAA-H-8083-16B (IPH) Fig 3-18",
     Mark::seen, [] { return outbound_end_of(kH10); }},
    {"H11", "SW on the 221 radial of the VOR: inbound", 41, 0, Unit::direction,
     "FAA-H-8083-16B (IPH) 2-51", Mark::seen, [] { return inbound_of(kH11); }},
    {"1.2", "W on the 265 radial of the VOR: inbound", 85, 0, Unit::direction,
     "AIM 5-3-8 i and JO 7110.65 4-6-4: order of the clearance; the reciprocal is ours",
     Mark::derived, [] { return inbound_of("HOLD WEST OF ABC ON THE 265 RADIAL"); }},
    {"E05", "S on the 180 radial: inbound", 360, 0, Unit::direction, kFaaBank, Mark::seen,
     [] { return inbound_of(kE05); }},
    {"E05", "heading 150: entry", number_of(core::EntryKind::offset), 0, Unit::entry, kFaaBank,
     Mark::seen, [] { return number_of(entry_of(kE05, 150.0).kind); }},
    {"E06", "W on the 270 radial: inbound", 90, 0, Unit::direction, kFaaBank, Mark::memory,
     [] { return inbound_of(kE06); }},
    {"E06", "heading 150: entry", number_of(core::EntryKind::direct), 0, Unit::entry, kFaaBank,
     Mark::memory, [] { return number_of(entry_of(kE06, 150.0).kind); }},
    {"E07", "N on the 360 radial, left turns: inbound", 180, 0, Unit::direction, kFaaBank,
     Mark::memory, [] { return inbound_of(kE07); }},
    {"E07", "heading 150: entry", number_of(core::EntryKind::direct), 0, Unit::entry, kFaaBank,
     Mark::memory, [] { return number_of(entry_of(kE07, 150.0).kind); }},
};

}  // namespace test
