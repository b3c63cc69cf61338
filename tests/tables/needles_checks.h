// tests/tables/needles_checks.h - scales, cones and slant range of the navigation displays.
#pragma once

#include "core/needles.h"
#include "tests/tables/check.h"

namespace test {

/// Course needle with the course 360 set, the station at the fix, the aircraft inbound.
inline double needle(core::CourseScale scale, core::Vec2 at) {
  const core::NavScene s{360.0, {0.0, 0.0}, 5000.0, core::Aid::vor, scale};
  return core::indications(s, at, 360.0).course.deflection;
}
/// The same, dots of a VOR needle for an aircraft 10 NM south, `off_deg` left of course.
inline double vor_dots(double off_deg) {
  return core::kDots * needle(core::CourseScale::vor,
                              {-10.0 * core::sin_deg(off_deg), -10.0 * core::cos_deg(off_deg)});
}

inline constexpr const char* kIfh9 = "FAA-H-8083-15B (IFH) ch. 9, about 2 degrees a dot";
inline constexpr const char* kIphB = "FAA-H-8083-16B (IPH) App. B figure, full scale 10 degrees";
inline constexpr const char* kAimGps = "AIM 1-1-17 and 1-1-18, terminal full scale";
inline constexpr const char* kSbasGuide = "avionics guide, SBAS receiver en route";
inline constexpr const char* kOldGps = "AIM 1-1-17, receivers to TSO-C129 en route";
inline constexpr const char* kVolICones =
    "ICAO Doc 8168 Vol I I-2-2, 2.4.4 (stored copy): cone 50 / 40 degrees from the vertical";
inline constexpr const char* kSlant = "docs/theory.md, Needles: plane geometry";

inline const Check kNeedlesChecks[] = {
    {"5.2", "VOR needle 2 degrees off, dots", 1, 1e-9, Unit::ratio, kIfh9, Mark::seen,
     [] { return vor_dots(2); }},
    {"5.2", "VOR needle 10 degrees off, dots", 5, 1e-9, Unit::ratio, kIphB, Mark::seen,
     [] { return vor_dots(10); }},
    {"5.2", "VOR needle 7.5 degrees off: three quarters of full scale", 3.75, 1e-9, Unit::ratio,
     kIphB, Mark::seen, [] { return vor_dots(7.5); }},
    {"5.2", "satellite, terminal, 1 NM left of course", 1, 1e-12, Unit::ratio, kAimGps, Mark::seen,
     [] {
       return needle(core::CourseScale::satellite_terminal, {-1.0, -5.0});
     }},
    {"5.2", "satellite, en route, 1 NM left of course", 0.5, 1e-12, Unit::ratio, kSbasGuide,
     Mark::seen,
     [] {
       return needle(core::CourseScale::satellite_en_route, {-1.0, -5.0});
     }},
    {"5.2", "satellite, older receiver, 1 NM left of course", 0.2, 1e-12, Unit::ratio, kOldGps,
     Mark::seen,
     [] {
       return needle(core::CourseScale::satellite_older, {-1.0, -5.0});
     }},
    {"5.2", "VOR cone, 6,000 ft above", 1.18, 0.005, Unit::nm, kVolICones, Mark::derived,
     [] { return core::cone_radius_nm(core::Aid::vor, 6000); }},
    {"P10", "NDB cone, 6,000 ft above", 0.83, 0.005, Unit::nm,
     "ICAO Doc 8168 Vol II Table I-4-3-App C-1", Mark::seen,
     [] { return core::cone_radius_nm(core::Aid::ndb, 6000); }},
    {"5.2", "VOR cone, half angle", 50, 0, Unit::deg, kVolICones, Mark::seen,
     [] { return core::cone_half_angle_deg(core::Aid::vor); }},
    {"3.4", "NDB cone, half angle", 40, 0, Unit::deg, kVolICones, Mark::seen,
     [] { return core::cone_half_angle_deg(core::Aid::ndb); }},
    {"5.2", "slant range, 3,000 ft above, 0.5 NM out", 0.70, 0.005, Unit::nm, kSlant, Mark::derived,
     [] { return core::slant_range_nm(0.5, 3000); }},
    {"5.2", "slant range, 6,000 ft above, 10 NM out", 10.0486, 0.0001, Unit::nm, kSlant,
     Mark::derived, [] { return core::slant_range_nm(10, 6000); }},
    {"3.4", "DME tolerance at 20 NM", 0.5, 1e-12, Unit::nm,
     "ICAO Doc 8168 Vol I I-2-2, 2.4.2 (stored copy): 0.25 NM + 1.25 %", Mark::seen,
     [] { return core::dme_tolerance_nm(20); }},
    {"4.5", "bearing pointer abeam, outbound heading, right turns", 90, 1e-12, Unit::direction,
     "FAA-H-8083-15B (IFH) ch. 9 and 10: abeam an NDB", Mark::seen,
     [] {
       return core::abeam_relative_deg({270.0, core::Side::right}, 90.0);
     }},
    {"4.5", "the same, left turns", 270, 1e-12, Unit::direction,
     "FAA-H-8083-15B (IFH) ch. 9 and 10: abeam an NDB", Mark::seen,
     [] {
       return core::abeam_relative_deg({270.0, core::Side::left}, 90.0);
     }},
};

}  // namespace test
