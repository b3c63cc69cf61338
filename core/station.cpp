#include "core/station.h"

#include <cmath>
#include <limits>

#include "core/units.h"

namespace core {
double slant_range_nm(double ground_nm, double height_ft) {
  const double h = std::abs(height_ft) * kNmPerFoot;
  return std::sqrt(ground_nm * ground_nm + h * h);
}

double ground_range_nm(double slant_nm, double height_ft) {
  const double h = std::abs(height_ft) * kNmPerFoot;
  if (!(slant_nm >= h)) return std::numeric_limits<double>::quiet_NaN();
  return std::sqrt((slant_nm - h) * (slant_nm + h));
}

double fix_to_station_nm(const Station& station, double height_ft) {
  if (station.place == Station::Place::at_fix) return 0.0;
  const double ground = ground_range_nm(station.dme_nm, height_ft);
  return ground >= 0.0 ? ground : station.dme_nm;
}

std::string_view name_of(Aid aid) {
  constexpr std::string_view kNames[] = {"vor", "ndb", "satellite"};
  return kNames[static_cast<int>(aid)];
}

std::string_view name_of(CourseScale scale) {
  constexpr std::string_view kNames[] = {"vor", "satellite-terminal", "satellite-en-route",
                                         "satellite-older"};
  return kNames[static_cast<int>(scale)];
}

}  // namespace core
