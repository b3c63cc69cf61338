// core/wind.h - the wind and the triangle it makes with airspeed and course.
#pragma once

#include "core/units.h"

namespace core {

/// Steady horizontal wind, named as reports do: where it blows FROM.
struct Wind {
  double from_deg = 360.0;  ///< magnetic
  double speed_kt = 0.0;

  /// Motion of the air over the ground, kt: points where the wind blows TO.
  [[nodiscard]] Vec2 velocity_kt() const { return along(from_deg) * -speed_kt; }
};

/// Magnetic direction of a true one. East variation is positive and subtracted.
[[nodiscard]] inline double magnetic_from_true(double true_deg, double variation_east_deg) {
  return wrap_360(true_deg - variation_east_deg);
}

/// Compass heading of a magnetic one. The deviation is as compass cards and the handbook's
/// sum have it: added, + = steer more. FAA-H-8083-25C ch. 16.
[[nodiscard]] inline double compass_from_magnetic(double magnetic_deg, double deviation_deg) {
  return wrap_360(magnetic_deg + deviation_deg);
}

/// What it takes to make good a course. Where `exists` is false no heading does,
/// and every other field is NaN.
struct WindTriangle {
  bool exists = false;
  double wca_deg;         ///< wind correction angle, + = right of course
  double heading_deg;     ///< course + wca, in (0, 360]
  double groundspeed_kt;  ///< along the course, > 0
  double headwind_kt;     ///< + = against
  double crosswind_kt;    ///< + = from the right
};

/// wca = asin(crosswind / tas), groundspeed = tas cos(wca) - headwind.
/// None where the crosswind exceeds the airspeed or the groundspeed would not be
/// positive. Source: FAA-H-8083-25C ch. 16; exact form in docs/theory.md.
[[nodiscard]] WindTriangle solve_triangle(double course_deg, double tas_kt, Wind wind);

/// Ground track and groundspeed that result from a heading.
struct GroundVector {
  double track_deg;       ///< (0, 360]; the heading itself where nothing moves
  double groundspeed_kt;  ///< >= 0
  double drift_deg;       ///< track - heading, + = drifts right
};
[[nodiscard]] GroundVector ground_vector(double heading_deg, double tas_kt, Wind wind);

}  // namespace core
