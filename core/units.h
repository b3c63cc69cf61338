// core/units.h - constants, angle reduction and degree trigonometry.
//
// Frame of the whole core: a flat plane in nautical miles, x east, y north, the
// holding fix at the origin; every direction in degrees clockwise from MAGNETIC
// north; time in seconds; speed in knots. Radians appear only inside functions.
#pragma once

#include <cmath>

namespace core {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kDegToRad = kPi / 180.0;
inline constexpr double kRadToDeg = 180.0 / kPi;
/// Metres in a nautical mile and in a foot: exact by international definition.
inline constexpr double kMetresPerNm = 1852.0;
inline constexpr double kMetresPerFoot = 0.3048;
inline constexpr double kNmPerFoot = kMetresPerFoot / kMetresPerNm;
/// Standard gravity, m/s^2 (exact, ISO 80000-3).
inline constexpr double kGravity = 9.80665;
/// Knots to nautical miles per second.
inline constexpr double kNmPerSecondPerKnot = 1.0 / 3600.0;

/// A point or vector in the plane, NM unless the name says otherwise. Trivial, so
/// that a track's room for segments costs nothing until it is used.
struct Vec2 {
  double x;  ///< east
  double y;  ///< north

  friend constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Vec2 operator*(Vec2 a, double k) { return {a.x * k, a.y * k}; }
  friend constexpr Vec2 operator*(double k, Vec2 a) { return a * k; }
  friend constexpr bool operator==(Vec2 a, Vec2 b) = default;
};

[[nodiscard]] constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
[[nodiscard]] inline double length(Vec2 a) { return std::sqrt(dot(a, a)); }

/// Remainder in (-360, 360). Directions are nearly always within a turn or two of
/// the circle already, and there a subtraction is exact and much quicker than fmod.
[[nodiscard]] inline double within_circle(double deg) {
  if (deg >= 360.0) return deg < 720.0 ? deg - 360.0 : std::fmod(deg, 360.0);
  if (deg <= -360.0) return deg > -720.0 ? deg + 360.0 : std::fmod(deg, 360.0);
  return deg;
}

/// `deg` reduced to (0, 360]: north is 360, as pilots say it. NaN stays NaN.
[[nodiscard]] inline double wrap_360(double deg) {
  const double r = within_circle(deg);
  return r <= 0.0 ? r + 360.0 : r;
}
/// `deg` reduced to (-180, 180]. Use it for every difference of two directions.
[[nodiscard]] inline double wrap_180(double deg) {
  const double r = within_circle(deg);
  return r > 180.0 ? r - 360.0 : r <= -180.0 ? r + 360.0 : r;
}
/// `deg` reduced to [0, 360): the angle of a turn that only goes one way round.
[[nodiscard]] inline double turn_angle(double deg) {
  const double rest = within_circle(deg);
  const double r = rest < 0.0 ? rest + 360.0 : rest;
  // A remainder of minus one rounding error must not become a whole circle.
  return r >= 360.0 ? 0.0 : r;
}

/// So near to half a circle is opposite: rounding must not decide which way to turn.
inline constexpr double kOppositeDeg = 1e-10;

/// sine and cosine of an angle in degrees, exact at every multiple of 90.
struct SinCos {
  double sin;
  double cos;
};
[[nodiscard]] SinCos sincos_deg(double deg);
[[nodiscard]] inline double sin_deg(double deg) { return sincos_deg(deg).sin; }
[[nodiscard]] inline double cos_deg(double deg) { return sincos_deg(deg).cos; }

/// Unit vector that points along `direction_deg`.
[[nodiscard]] inline Vec2 along(double direction_deg) {
  const SinCos s = sincos_deg(direction_deg);
  return {s.sin, s.cos};
}
/// Direction in (0, 360] in which `v` points; 360 for the zero vector.
[[nodiscard]] double direction_of(Vec2 v);

}  // namespace core
