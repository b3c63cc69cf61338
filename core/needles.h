// core/needles.h - what the navigation displays show at a place and on a heading.
//
// A course-deviation needle (angle from a VOR, or distance from a satellite course), a
// bearing pointer (ADF or RMI) and a DME distance, all without error: no needle lag, no
// station error. Directions are magnetic; a deflection is positive to the RIGHT of the
// instrument. Sense: with the aircraft heading along the course set, the needle points to
// the side where the course is. A VOR needle knows nothing of the heading, so on a heading
// more than 90 degrees from the course set it points to the wrong side: `reversed`.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/flight.h"
#include "core/station.h"

namespace core {

/// Full scale of the VOR needle, degrees: as commonly built and as FAA-H-8083-16B App. B
/// draws it (seen); FAA-H-8083-15B ch. 9 says 12 or more (seen).
inline constexpr double kVorFullScaleDeg = 10.0;
/// Dots either side of the middle (FAA-H-8083-15B ch. 9, seen).
inline constexpr double kDots = 5.0;
/// Full scale, NM; NaN for the VOR's. AIM 1-1-17 and 1-1-18 (seen; 2 NM in an avionics
/// guide).
[[nodiscard]] double full_scale_nm(CourseScale scale);

/// Half angle from the vertical of the cone above a station in which its indications mean
/// nothing: 50 degrees for a VOR, 40 for an NDB, 0 for a satellite fix. Doc 8168 Vol I
/// I-2-2, 2.4.4 (seen in a stored copy).
[[nodiscard]] double cone_half_angle_deg(Aid aid);
/// Radius of that cone at a height above the station, NM: h tan(angle); 0 below it.
[[nodiscard]] double cone_radius_nm(Aid aid, double height_ft);
/// The same for an NDB as Doc 8168 Vol II rounds it: 0.164 h tan 40, h in thousands of ft.
[[nodiscard]] double pans_ops_ndb_cone_nm(double height_ft);

/// Error of a DME, NM either way: 0.25 and 1.25 % of the distance. Doc 8168 Vol I I-2-2,
/// 2.4.2 (seen in a stored copy).
[[nodiscard]] double dme_tolerance_nm(double distance_nm);

/// What is tuned and set. Bearing and distance are to the station; a VOR course leads to
/// the station too, a satellite course to the fix.
struct NavScene {
  double course_deg;  ///< set on the instrument
  Vec2 station;       ///< NM; the fix is the origin
  double height_ft;   ///< above the station
  Aid aid;
  CourseScale scale;
};

/// As a setup has it: its station, aid and height, the scale that the aid usually has. A
/// satellite course and its distances lead to the fix.
[[nodiscard]] NavScene nav_scene(const Setup& setup);

enum class ToFrom { none, to, from };  ///< none: exactly abeam or over the station
[[nodiscard]] std::string_view name_of(ToFrom flag);

struct CourseNeedle {
  CourseScale scale;
  double deflection;   ///< share of full scale, -1 to 1, + = right
  double raw;          ///< the same, not held at full scale
  double angle_deg;    ///< off the course, + = needle right, -90 to 90; NaN for satellite
  double distance_nm;  ///< off the course line, + = needle right
  ToFrom flag;
  bool reversed;  ///< heading more than 90 degrees from the course set
  bool reliable;  ///< false in the cone above a VOR

  [[nodiscard]] bool full_scale() const { return raw <= -1.0 || raw >= 1.0; }
};

struct BearingPointer {
  double magnetic_deg;    ///< to the station, (0, 360]; 360 over it
  double relative_deg;    ///< from the nose, clockwise, (0, 360]
  double off_course_deg;  ///< from the course set, (-180, 180]: +-90 is abeam
  bool reliable;          ///< false in the cone above the station
};

struct DmeReading {
  double slant_nm;   ///< shown
  double ground_nm;  ///< over the ground
};

struct Indications {
  CourseNeedle course;
  BearingPointer bearing;
  DmeReading dme;
};
[[nodiscard]] Indications indications(const NavScene& scene, Vec2 at, double heading_deg);
/// At a time on a flight; times outside are taken to the nearest end. Needs a track.
[[nodiscard]] Indications indications_at(const NavScene& scene, const Flight& flight, double t_s);

/// Relative bearing, (0, 360], of a station at the fix when it is abeam outbound, on a
/// heading: 090 or 270 only where the heading is the outbound course.
[[nodiscard]] double abeam_relative_deg(const Hold& hold, double heading_deg);

/// Something that the displays do at a moment of a flight.
enum class NeedleEvent {
  shows_from,   ///< TO turns to FROM: passing abeam or over the station along the course
  shows_to,     ///< FROM turns to TO
  wingtip,      ///< bearing pointer 90 degrees off the nose
  cone_enters,  ///< into the cone above the station
  cone_leaves,
};
[[nodiscard]] std::string_view name_of(NeedleEvent event);

struct NeedleMoment {
  NeedleEvent event;
  double at_s;
  Vec2 at;
  double heading_deg;
};
/// In order of time; none for a flight without a track.
[[nodiscard]] std::vector<NeedleMoment> needle_moments(const NavScene& scene, const Flight& flight);

/// In words.
[[nodiscard]] std::string_view label_of(CourseScale scale);
[[nodiscard]] std::string_view label_of(NeedleEvent event);
/// Where the needle stands, what that means on this heading, TO or FROM.
[[nodiscard]] std::string course_words(const NavScene& scene, const CourseNeedle& needle);
[[nodiscard]] std::string bearing_words(const BearingPointer& pointer);
[[nodiscard]] std::string dme_words(const NavScene& scene, const DmeReading& dme);
/// The cone above the station at this height; empty for a satellite fix.
[[nodiscard]] std::string cone_words(const NavScene& scene);
/// What the pointer shows abeam on this heading, and why that is not the wingtip.
[[nodiscard]] std::string abeam_words(const Hold& hold, double heading_deg);

}  // namespace core
