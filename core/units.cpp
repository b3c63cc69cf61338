#include "core/units.h"

namespace core {

double wrap_360(double deg) {
  double r = std::fmod(deg, 360.0);
  if (r <= 0.0) r += 360.0;
  return r;
}

double wrap_180(double deg) {
  double r = std::fmod(deg, 360.0);
  if (r > 180.0) r -= 360.0;
  if (r <= -180.0) r += 360.0;
  return r;
}

double turn_angle(double deg) {
  double r = std::fmod(deg, 360.0);
  if (r < 0.0) r += 360.0;
  // A remainder of minus one rounding error must not become a whole circle.
  return r >= 360.0 ? 0.0 : r;
}

SinCos sincos_deg(double deg) {
  // Reducing to [-45, 45] about the nearest quarter turn keeps the cardinal
  // directions exact, so a wind from 090 has no stray headwind on course 360.
  const double quarters = std::nearbyint(deg / 90.0);
  const double rest_rad = (deg - 90.0 * quarters) * kDegToRad;
  const double s = std::sin(rest_rad);
  const double c = std::cos(rest_rad);
  const double q = quarters - 4.0 * std::floor(quarters / 4.0);
  if (q == 0.0) return {s, c};
  if (q == 1.0) return {c, 0.0 - s};
  if (q == 2.0) return {0.0 - s, 0.0 - c};
  return {0.0 - c, s};
}

double direction_of(Vec2 v) { return wrap_360(std::atan2(v.x, v.y) * kRadToDeg); }

}  // namespace core
