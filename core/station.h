// core/station.h - the station that a hold is built on, and what stands there.
#pragma once

#include <string_view>

namespace core {

/// What stands at the station.
enum class Aid { vor, ndb, satellite };
[[nodiscard]] std::string_view name_of(Aid aid);

/// How the course needle is scaled. The label must say which.
enum class CourseScale {
  vor,                 ///< +-10 degrees, 2 a dot
  satellite_terminal,  ///< +-1 NM
  satellite_en_route,  ///< +-2 NM, receivers with SBAS
  satellite_older,     ///< +-5 NM en route, receivers without
};
inline constexpr int kCourseScales = 4;
[[nodiscard]] std::string_view name_of(CourseScale scale);

/// Where the station stands: on the holding course, so that the fix is the station or
/// lies at a DME reading from it.
struct Station {
  enum class Place {
    at_fix,
    ahead,   ///< the inbound leg is flown toward it: the pattern lies beyond the fix
    behind,  ///< the inbound leg is flown away from it: the pattern lies between
  };
  Place place = Place::at_fix;
  double dme_nm = 0.0;  ///< reading at the fix, a slant distance; 0 at the fix
  friend bool operator==(const Station&, const Station&) = default;
};

/// Straight-line distance that DME shows: sqrt(d^2 + h^2), NM.
[[nodiscard]] double slant_range_nm(double ground_nm, double height_ft);
/// Distance over the ground for a reading; NaN where the reading is less than the height.
[[nodiscard]] double ground_range_nm(double slant_nm, double height_ft);

/// Distance over the ground between fix and station, NM. Where the reading is less than
/// the height, which no DME shows, it is taken as a distance over the ground.
[[nodiscard]] double fix_to_station_nm(const Station& station, double height_ft);

}  // namespace core
