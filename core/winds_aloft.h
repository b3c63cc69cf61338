// core/winds_aloft.h - groups and lines of the winds and temperatures aloft forecast (FB).
//
// Directions are true. A group is ddff, ddff+tt or ddff-tt, or ddfftt above 24,000 ft,
// where the temperature is below zero and its sign is left out. dd: tens of degrees; 51 to
// 86 stand for 01 to 36 with 100 kt more than ff. 9900: light and variable, below 5 kt. ff
// 99 with 100 kt more: 199 kt or more. Source: FAA-H-8083-28B (AWH) 27.2 [seen].
#pragma once

#include "core/reported_wind.h"
#include "core/wind.h"

namespace core {

/// The level up to and including which a temperature has its sign, ft.
inline constexpr double kSignedUpToFt = 24000.0;

struct AloftGroup {
  ReportedWind wind;
  std::optional<double> temperature_c;
  bool unsigned_form = false;  ///< ddfftt: for a level above 24,000 ft
};
/// One group. Never fails: `wind.why` says what is wrong with it.
[[nodiscard]] AloftGroup decode_aloft_group(std::string_view group);

/// Temperature less the standard one at `level_ft`, °C (core/atmosphere.h; pressure
/// altitude). Levels up to 12,000 ft are altitudes above the sea and taken as if the
/// pressure were standard.
[[nodiscard]] double isa_deviation_at(double level_ft, double temperature_c);

/// The line of one station: its groups and the levels they are for.
struct AloftLine {
  NoReport why = NoReport::no_group;  ///< none, no_group or levels_unclear
  std::string station;                ///< may be empty
  std::vector<AloftGroup> groups;
  std::vector<double> levels_ft;  ///< one a group; empty for a single group without a level
  bool more_stations = false;     ///< others follow and were not read
};
/// Reads the first station's line. Levels are those of the line that starts with FT, else
/// 3000 6000 9000 12000 18000 24000 30000 34000 39000. With fewer groups than levels: below
/// an FT line the lowest are missing, as near high ground; without one, the groups' forms
/// must fit the levels in one way only.
[[nodiscard]] AloftLine read_aloft_line(const std::vector<std::string>& groups);

/// Whether the groups look like this forecast: an FT line, ddff+tt, or nothing but groups
/// behind a station's name.
[[nodiscard]] bool looks_like_aloft(const std::vector<std::string>& groups);

/// The wind `fraction` of the way from one to the other, added as vectors.
[[nodiscard]] Wind wind_between_levels(Wind low, Wind high, double fraction);

}  // namespace core
