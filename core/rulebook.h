// core/rulebook.h - by whose book the hold is flown, and which line limits its speed.
#pragma once

namespace core {

/// FAA: the Aeronautical Information Manual, 5-3-8; ICAO: Doc 8168 Vol I Part I Section 6.
/// They differ in the offset entry (a heading against a track), the bank limit and the
/// greatest holding speeds; docs/theory.md "Two books".
enum class Rulebook { faa, icao };

/// Which line of a rulebook gives the greatest holding speed. The exceptions of the FAA
/// are what a chart or a place says; nothing in a scenario tells them apart.
enum class SpeedRule {
  faa,              ///< AIM TBL 5-3-1
  faa_icon,         ///< 6,001 to 14,000 ft, where the chart shows the 210 kt icon
  faa_charted,      ///< printed in parentheses at the pattern
  faa_air_force,    ///< USAF airfields, unless otherwise depicted
  faa_navy,         ///< US Navy fields, unless otherwise depicted
  faa_climb,        ///< climb in the hold, where the chart allows it
  icao,             ///< Doc 8168 Vol I table, normal conditions
  icao_turbulence,  ///< the same, turbulence
  icao_cat_ab,      ///< holds for category A and B aircraft only
};
inline constexpr int kSpeedRules = 9;

}  // namespace core
