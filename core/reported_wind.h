// core/reported_wind.h - what one group, or one spoken phrase, says about the wind.
//
// Directions are where the wind blows FROM, degrees, true or magnetic as the report has
// it (core/wind_report.h knows which); speeds are knots whatever the report's unit was.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace core {

/// Why a report gives no single wind.
enum class NoReport {
  none,
  empty,           ///< there is no text
  unknown_kind,    ///< no kind of report has that name
  unrecognised,    ///< the kind was to be told from the text and could not be
  no_group,        ///< no wind in the text
  bad_group,       ///< a group of the wrong form
  bad_direction,   ///< a direction beyond 360, or 000 with a speed
  bad_code,        ///< winds aloft: figures that code no direction
  bad_speed,       ///< winds aloft: a speed that is written 9900
  no_speed,        ///< said: a direction without a speed
  not_reported,    ///< slashes in its place
  variable,        ///< no single direction
  levels_unclear,  ///< winds aloft: which group is for which level cannot be told
  bad_altitude,    ///< winds aloft: no altitude to read the line for
};
[[nodiscard]] std::string_view name_of(NoReport why);

enum class SpeedUnit { kt, mps, kmh };
/// Knots. Metres a second and kilometres an hour are rounded to whole knots.
[[nodiscard]] inline double knots_of(double value, SpeedUnit unit) {
  if (unit == SpeedUnit::kt) return value;
  const double kt = unit == SpeedUnit::mps ? value * 3600.0 / 1852.0 : value / 1.852;
  return std::floor(kt + 0.5);
}

/// A wind as reported. Where `why` is neither `none` nor `variable`, only `text` means
/// something.
struct ReportedWind {
  NoReport why = NoReport::no_group;
  std::optional<double> from_deg;   ///< (0, 360]; absent: calm, or no single direction
  std::optional<double> speed_kt;   ///< absent: light and variable
  double gust_kt = 0.0;             ///< 0: none
  bool light_and_variable = false;  ///< no direction, and no speed worth naming
  bool at_least = false;            ///< that speed or more
  double sector_from_deg = 0.0;     ///< the direction varies, clockwise from here ...
  double sector_to_deg = 0.0;       ///< ... to here; both 0: not said
  SpeedUnit unit = SpeedUnit::kt;   ///< of the report
  double unit_speed = 0.0;          ///< in that unit
  std::optional<bool> said_true;    ///< the phrase itself says "true" or "magnetic"
  std::string text;                 ///< what was read; printable ASCII

  [[nodiscard]] bool calm() const { return !from_deg && speed_kt == 0.0; }
};

inline constexpr std::size_t kMostReportBytes = 2000;
inline constexpr std::size_t kMostReportGroups = 400;

/// A report cut at its spaces. Letters are capitals, a typographic minus is '-', other
/// bytes outside printable ASCII separate; '=', '.', ',' and ';' at a group's end are gone.
struct ReportGroups {
  std::vector<std::string> groups;
  bool cut = false;  ///< longer than the limits: the rest was not read
};
[[nodiscard]] ReportGroups split_report(std::string_view text);

/// Whether `text` has exactly the form of `pattern`: 'd' a digit, 's' a sign, any other
/// character itself.
[[nodiscard]] bool has_form(std::string_view text, std::string_view pattern);
/// The number that at most nine digits from `at` on make.
[[nodiscard]] int digits_at(std::string_view text, std::size_t at, std::size_t count);
[[nodiscard]] bool has_digit(std::string_view text);
/// At most 60 characters of a group, for a sentence that names it.
[[nodiscard]] std::string named_group(std::string_view group);

}  // namespace core
