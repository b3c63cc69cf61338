#include "core/units.h"

namespace core {

namespace {

/// Nearest whole number, for |x| < 2^51: adding this pushes the fraction out of the
/// mantissa. A library call otherwise, on processors without a rounding instruction.
constexpr double kPushOut = 6755399441055744.0;  // 1.5 * 2^52
double nearest_whole(double x) { return (x + kPushOut) - kPushOut; }

}  // namespace

SinCos sincos_deg(double deg) {
  // Reducing to [-45, 45] about the nearest quarter turn keeps the cardinal
  // directions exact, so a wind from 090 has no stray headwind on course 360.
  const double d = std::abs(deg) < 1e9 ? deg : std::fmod(deg, 360.0);
  const double quarters = nearest_whole(d * (1.0 / 90.0));
  const double rest_rad = (d - 90.0 * quarters) * kDegToRad;
  const double s = std::sin(rest_rad);
  const double c = std::cos(rest_rad);
  if (!(quarters == quarters)) return {s, c};  // not a number stays one
  // Two's complement: the low bits of a negative count are right, too.
  switch (static_cast<int>(quarters) & 3) {
    case 0:
      return {s, c};
    case 1:
      return {c, 0.0 - s};
    case 2:
      return {0.0 - s, 0.0 - c};
    default:
      return {0.0 - c, s};
  }
}

double direction_of(Vec2 v) { return wrap_360(std::atan2(v.x, v.y) * kRadToDeg); }

}  // namespace core
