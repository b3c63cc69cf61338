// tests/tables/sector_checks.h - which entry a heading over the fix calls for.
#pragma once

#include "core/hold.h"
#include "core/plan.h"
#include "tests/tables/check.h"

namespace test {

using core::EntryKind;
using core::Side;

/// The sector's own entry.
inline double entry_for(double inbound_deg, Side turns, double heading_deg) {
  return number_of(core::choose_sector({inbound_deg, turns}, heading_deg).kind);
}
/// All acceptable entries.
inline double entries_for(double inbound_deg, Side turns, double heading_deg) {
  const core::SectorChoice c = core::choose_sector({inbound_deg, turns}, heading_deg);
  return c.also == c.kind ? set_of(c.kind) : set_of(c.kind, c.also);
}
/// Still-air heading of an entry, as the rule of thumb gives it.
inline double still_air_heading(double inbound_deg, Side turns, EntryKind entry) {
  core::Scenario s;
  s.inbound_course_deg = inbound_deg;
  s.turns = turns;
  s.wind_kt = 0.0;
  s.entry = entry;
  return core::rule_heading(core::make_setup(s), core::HeadingRule::still_air).value_or(-1.0);
}

inline constexpr EntryKind kOff = EntryKind::offset;
inline constexpr EntryKind kPar = EntryKind::parallel;
inline constexpr EntryKind kDir = EntryKind::direct;
inline constexpr const char* kBank = "FAA instrument rating question bank, hold figure";
inline constexpr const char* kAim = "AIM 5-3-8 j3 sector sizes; docs/theory.md, Sectors";
inline constexpr const char* kLicenceAir = "European licence question bank, air law";
inline constexpr const char* kZone =
    "AIM 5-3-8 j8, five degrees either way; docs/theory.md, Sectors";

inline const Check kSectorChecks[] = {
    {"E05", "hold south on the 180 radial, right turns, heading 150", number_of(kOff), 0,
     Unit::entry, kBank, Mark::seen, [] { return entry_for(360, Side::right, 150); }},
    {"E05", "and no other entry", set_of(kOff), 0, Unit::entries, kBank, Mark::seen,
     [] { return entries_for(360, Side::right, 150); }},
    {"E05", "its still-air heading", 150, 0, Unit::direction, kBank, Mark::seen,
     [] { return still_air_heading(360, Side::right, kOff); }},
    {"E06", "hold west on the 270 radial, right turns, heading 150", set_of(kDir), 0, Unit::entries,
     kBank, Mark::memory, [] { return entries_for(90, Side::right, 150); }},
    {"E07", "hold north on the 360 radial, left turns, heading 150", set_of(kDir), 0, Unit::entries,
     kBank, Mark::memory, [] { return entries_for(180, Side::left, 150); }},
    {"E10", "inbound 070, right turns, heading 250: the exact boundary", set_of(kOff, kPar), 0,
     Unit::entries, "study cards on the Canadian manual", Mark::seen,
     [] { return entries_for(70, Side::right, 250); }},
    {"E11", "right turns, outbound course 75 to the right: direct or offset", set_of(kDir, kOff), 0,
     Unit::entries, "US Navy P-821", Mark::seen, [] { return entries_for(360, Side::right, 105); }},
    {"E11", "the same, preferred", number_of(kDir), 0, Unit::entry, "US Navy P-821", Mark::seen,
     [] { return entry_for(360, Side::right, 105); }},
    {"E12", "inbound 360, right turns, heading 115", set_of(kOff, kDir), 0, Unit::entries, kZone,
     Mark::derived, [] { return entries_for(360, Side::right, 115); }},
    {"E12", "the same, preferred", number_of(kOff), 0, Unit::entry, kZone, Mark::derived,
     [] { return entry_for(360, Side::right, 115); }},
    {"E13", "inbound 360, right turns, heading 240", set_of(kPar), 0, Unit::entries, kAim,
     Mark::derived, [] { return entries_for(360, Side::right, 240); }},
    {"E13", "its still-air heading", 180, 0, Unit::direction, kAim, Mark::derived,
     [] { return still_air_heading(360, Side::right, kPar); }},
    {"E14", "inbound 360, right turns, heading 295", set_of(kDir, kPar), 0, Unit::entries, kZone,
     Mark::derived, [] { return entries_for(360, Side::right, 295); }},
    {"E14", "the same, preferred", number_of(kDir), 0, Unit::entry, kZone, Mark::derived,
     [] { return entry_for(360, Side::right, 295); }},
    {"E17", "inbound 360, left turns, heading 255", set_of(kDir, kOff), 0, Unit::entries, kZone,
     Mark::derived, [] { return entries_for(360, Side::left, 255); }},
    {"E17", "the same, preferred", number_of(kDir), 0, Unit::entry, kZone, Mark::derived,
     [] { return entry_for(360, Side::left, 255); }},
    // Sectors of inbound 010, right turns, by arrival heading: offset 120-190, parallel
    // 190-300, direct 300-120. One degree either side of each edge, and the middles.
    {"8.1/E10", "inbound 010, right turns, heading 121", number_of(kOff), 0, Unit::entry,
     kLicenceAir, Mark::seen, [] { return entry_for(10, Side::right, 121); }},
    {"8.1/E10", "heading 155", set_of(kOff), 0, Unit::entries, kLicenceAir, Mark::seen,
     [] { return entries_for(10, Side::right, 155); }},
    {"8.1/E10", "heading 189", number_of(kOff), 0, Unit::entry, kLicenceAir, Mark::seen,
     [] { return entry_for(10, Side::right, 189); }},
    {"8.1/E10", "heading 191", number_of(kPar), 0, Unit::entry, kLicenceAir, Mark::seen,
     [] { return entry_for(10, Side::right, 191); }},
    {"8.1/E10", "heading 245", set_of(kPar), 0, Unit::entries, kLicenceAir, Mark::seen,
     [] { return entries_for(10, Side::right, 245); }},
    {"8.1/E10", "heading 299", number_of(kPar), 0, Unit::entry, kLicenceAir, Mark::seen,
     [] { return entry_for(10, Side::right, 299); }},
    {"8.1/E10", "heading 301", number_of(kDir), 0, Unit::entry, kLicenceAir, Mark::seen,
     [] { return entry_for(10, Side::right, 301); }},
    {"8.1/E10", "heading 030", set_of(kDir), 0, Unit::entries, kLicenceAir, Mark::seen,
     [] { return entries_for(10, Side::right, 30); }},
    {"8.1/E10", "heading 119", number_of(kDir), 0, Unit::entry, kLicenceAir, Mark::seen,
     [] { return entry_for(10, Side::right, 119); }},
    {"8.1/E6", "eastbound to a fix with the hold west of it, right turns", set_of(kDir), 0,
     Unit::entries, "FAA instrument rating question bank, DME fix item", Mark::seen,
     [] { return entries_for(90, Side::right, 90); }},
    // The boundary set, inbound 360: each zone from both sides.
    {"8.3", "right turns, heading 090", set_of(kDir), 0, Unit::entries, kAim, Mark::derived,
     [] { return entries_for(360, Side::right, 90); }},
    {"8.3", "right turns, heading 145", set_of(kOff), 0, Unit::entries, kAim, Mark::derived,
     [] { return entries_for(360, Side::right, 145); }},
    {"8.3", "right turns, heading 175", set_of(kOff, kPar), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::right, 175); }},
    {"8.3", "the same, preferred", number_of(kOff), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::right, 175); }},
    {"8.3", "right turns, heading 185", set_of(kPar, kOff), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::right, 185); }},
    {"8.3", "the same, preferred", number_of(kPar), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::right, 185); }},
    {"8.3", "right turns, heading 285", set_of(kPar, kDir), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::right, 285); }},
    {"8.3", "the same, preferred", number_of(kPar), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::right, 285); }},
    {"8.3", "left turns, heading 065", set_of(kDir, kPar), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::left, 65); }},
    {"8.3", "the same, preferred", number_of(kDir), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::left, 65); }},
    {"8.3", "left turns, heading 075", set_of(kPar, kDir), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::left, 75); }},
    {"8.3", "the same, preferred", number_of(kPar), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::left, 75); }},
    {"8.3", "left turns, heading 120", set_of(kPar), 0, Unit::entries, kAim, Mark::derived,
     [] { return entries_for(360, Side::left, 120); }},
    {"8.3", "left turns, heading 185", set_of(kOff, kPar), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::left, 185); }},
    {"8.3", "the same, preferred", number_of(kOff), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::left, 185); }},
    {"8.3", "left turns, heading 215", set_of(kOff), 0, Unit::entries, kAim, Mark::derived,
     [] { return entries_for(360, Side::left, 215); }},
    {"8.3", "its still-air heading", 210, 0, Unit::direction,
     "US Navy P-1215 and P-1253: inbound + 180 + 30 for left turns", Mark::seen,
     [] { return still_air_heading(360, Side::left, kOff); }},
    {"8.3", "left turns, heading 245", set_of(kOff, kDir), 0, Unit::entries, kZone, Mark::derived,
     [] { return entries_for(360, Side::left, 245); }},
    {"8.3", "the same, preferred", number_of(kOff), 0, Unit::entry, kAim, Mark::derived,
     [] { return entry_for(360, Side::left, 245); }},
};

}  // namespace test
