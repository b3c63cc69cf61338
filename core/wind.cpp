#include "core/wind.h"

#include <limits>

namespace core {

WindTriangle solve_triangle(double course_deg, double tas_kt, Wind wind) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const SinCos angle = sincos_deg(wind.from_deg - course_deg);
  const double crosswind = wind.speed_kt * angle.sin;
  const double headwind = wind.speed_kt * angle.cos;
  const double ratio = crosswind / tas_kt;
  if (!(std::abs(ratio) < 1.0)) return {false, nan, nan, nan, nan, nan};
  const double groundspeed = tas_kt * std::sqrt((1.0 - ratio) * (1.0 + ratio)) - headwind;
  if (!(groundspeed > 0.0)) return {false, nan, nan, nan, nan, nan};
  const double wca = std::asin(ratio) * kRadToDeg;
  return {true, wca, wrap_360(course_deg + wca), groundspeed, headwind, crosswind};
}

GroundVector ground_vector(double heading_deg, double tas_kt, Wind wind) {
  const Vec2 ground = along(heading_deg) * tas_kt + wind.velocity_kt();
  const double speed = length(ground);
  if (speed == 0.0) return {wrap_360(heading_deg), 0.0, 0.0};
  const double track = direction_of(ground);
  return {track, speed, wrap_180(track - heading_deg)};
}

}  // namespace core
