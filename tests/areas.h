// tests/areas.h - random protected areas and what tests ask of their outlines.
#pragma once

#include <string>

#include "core/protected_area.h"
#include "tests/scenarios.h"

namespace test {

/// How far an outline's sides may cut the true curve (core/outline.h).
inline constexpr double kCutNm = 0.02;

inline core::AreaInputs random_inputs(Random& r) {
  core::AreaInputs in;
  in.hold.inbound_course_deg = random_direction(r, 0.3);
  in.hold.turns = r.chance(0.5) ? core::Side::right : core::Side::left;
  in.ias_kt = r.between(60.0, 300.0);
  in.altitude_ft = r.between(0.0, 20000.0);
  in.outbound_s = r.chance(0.5) ? 60.0 : r.between(30.0, 240.0);
  if (r.chance(0.3)) in.fix_tolerance_nm = r.between(0.0, 3.0);
  return in;
}

inline std::string named(const core::AreaInputs& in) {
  return "[inbound " + std::to_string(in.hold.inbound_course_deg) +
         (in.hold.turns == core::Side::right ? " right, " : " left, ") + std::to_string(in.ias_kt) +
         " kt, " + std::to_string(in.altitude_ft) + " ft, " + std::to_string(in.outbound_s) +
         " s, fix " + std::to_string(in.fix_tolerance_nm) + " NM]";
}

/// Corner `i`, counted round and round.
inline core::Vec2 corner(const core::Outline& o, int i) {
  constexpr int n = core::Outline::kPoints;
  return o[((i % n) + n) % n];
}

/// Farthest that an outline reaches in a direction.
inline double reach(const core::Outline& o, core::Vec2 direction) {
  double most = -1e300;
  for (const core::Vec2 p : o.points) most = std::fmax(most, core::dot(p, direction));
  return most;
}

}  // namespace test
