#include "core/needles.h"

#include <algorithm>
#include <array>
#include <limits>

#include "core/roots.h"
#include "core/words.h"

namespace core {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
/// Nearer to the station than this no pointer has a direction.
constexpr double kOverNm = 1e-9;
/// So near to abeam is abeam: a course flown along that line must not flicker between TO
/// and FROM.
constexpr double kAbeamNm = 1e-9;
/// Heading and course square to each other: rounding must not call it reversed.
constexpr double kSquareDeg = 1e-9;

/// A satellite course leads to the fix, a VOR's to its station.
Vec2 course_end(const NavScene& scene) {
  return scene.scale == CourseScale::vor ? scene.station : Vec2{0.0, 0.0};
}

double along_to_end(const NavScene& scene, Vec2 at) {
  return dot(course_end(scene) - at, along(scene.course_deg));
}

/// Motion that the needle asks for: + where the course line is to the right of the
/// aircraft, seen along the course.
double right_of_aircraft_nm(const NavScene& scene, Vec2 at) {
  return dot(course_end(scene) - at, along(scene.course_deg + 90.0));
}

/// Positive inside the cone, NM^2.
double cone_depth(const NavScene& scene, Vec2 at) {
  const double r = cone_radius_nm(scene.aid, scene.height_ft);
  const Vec2 d = scene.station - at;
  return r * r - dot(d, d);
}

bool in_cone(const NavScene& scene, Vec2 at) {
  return cone_radius_nm(scene.aid, scene.height_ft) > 0.0 && cone_depth(scene, at) >= 0.0;
}

/// Quantity whose change of sign is an event.
struct Crossing {
  NeedleEvent rising;
  NeedleEvent falling;
  double (*value)(const NavScene&, Vec2 at, double heading_deg);
};

constexpr Crossing kCrossings[] = {
    {NeedleEvent::shows_to, NeedleEvent::shows_from,
     [](const NavScene& s, Vec2 at, double) { return along_to_end(s, at); }},
    {NeedleEvent::wingtip, NeedleEvent::wingtip,
     [](const NavScene& s, Vec2 at, double heading_deg) {
       return dot(s.station - at, along(heading_deg));
     }},
    {NeedleEvent::cone_enters, NeedleEvent::cone_leaves,
     [](const NavScene& s, Vec2 at, double) { return cone_depth(s, at); }},
};

/// Where a straight piece passes through the cone's edge: the two ends of a chord, which
/// may be far shorter than the piece.
void cone_edges(const NavScene& scene, const Segment& s, std::vector<double>& times) {
  const Vec2 from = s.start - scene.station;
  const Vec2 v = s.velocity_at(0.0);
  const double r = cone_radius_nm(scene.aid, scene.height_ft);
  const double speed2 = dot(v, v);
  if (!(speed2 > 0.0)) return;
  const double nearest = -dot(from, v) / speed2;
  const Vec2 miss = from + v * nearest;
  const double half2 = (r * r - dot(miss, miss)) / speed2;
  if (!(half2 > 0.0)) return;
  for (const double t : {nearest - std::sqrt(half2), nearest + std::sqrt(half2)}) {
    if (t > 0.0 && t < s.duration_s) times.push_back(s.start_s + t);
  }
}

/// Times at which `crossing` may change sign: the roots within each piece, and the joints
/// between pieces, where rounding may hide one.
std::vector<double> candidates(const NavScene& scene, const Track& track,
                               const Crossing& crossing) {
  std::vector<double> times;
  for (const Segment& s : track) {
    times.push_back(s.start_s);
    const bool straight = s.straight() && s.even();
    if (straight && crossing.rising == NeedleEvent::cone_enters) {
      cone_edges(scene, s, times);
      continue;
    }
    // A joint that is itself a root must not hide one close behind it.
    constexpr double kOffJointS = 1e-6;
    if (!(s.duration_s > 4.0 * kOffJointS)) continue;
    const auto f = [&](double t) {
      return crossing.value(scene, s.position_at(t), s.heading_at(t));
    };
    const int steps = 6 + static_cast<int>(std::abs(s.rate_deg_s) * s.duration_s / 4.0);
    every_root(f, kOffJointS, s.duration_s - kOffJointS, steps,
               [&](double t) { times.push_back(s.start_s + t); });
  }
  std::sort(times.begin(), times.end());
  return times;
}

void add_crossings(const NavScene& scene, const Track& track, const Crossing& crossing,
                   std::vector<NeedleMoment>& out) {
  const std::vector<double> times = candidates(scene, track, crossing);
  const auto value = [&](double t) {
    return crossing.value(scene, track.position_at(t), track.heading_at(t));
  };
  // Between two neighbouring candidates the sign does not change: compare it in the
  // middle of the gaps before and after each.
  double before = 0.0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const double t = times[i];
    const double next = i + 1 < times.size() ? times[i + 1] : track.end_s();
    if (next - t <= 1e-9) continue;  // candidates that coincide count as one
    const double after = value(0.5 * (t + next));
    if (std::abs(after) <= kAbeamNm) continue;
    const bool changes = (before < 0.0 && after > 0.0) || (before > 0.0 && after < 0.0);
    if (changes) {
      const Vec2 at = track.position_at(t);
      const bool over = length(scene.station - at) < 1e-6;
      if (crossing.rising != NeedleEvent::wingtip || !over) {
        out.push_back(
            {after > 0.0 ? crossing.rising : crossing.falling, t, at, track.heading_at(t)});
      }
    }
    before = after;
  }
}

std::string nm_1(double v) { return fixed(std::abs(v), 1); }

}  // namespace

std::string_view name_of(ToFrom flag) {
  constexpr std::string_view kNames[] = {"none", "to", "from"};
  return kNames[static_cast<int>(flag)];
}

std::string_view name_of(NeedleEvent event) {
  constexpr std::string_view kNames[] = {"shows-from", "shows-to", "wingtip", "cone-enters",
                                         "cone-leaves"};
  return kNames[static_cast<int>(event)];
}

double full_scale_nm(CourseScale scale) {
  constexpr double kScales[] = {kNaN, 1.0, 2.0, 5.0};
  return kScales[static_cast<int>(scale)];
}

double cone_half_angle_deg(Aid aid) {
  constexpr double kAngles[] = {50.0, 40.0, 0.0};
  return kAngles[static_cast<int>(aid)];
}

double cone_radius_nm(Aid aid, double height_ft) {
  if (!(height_ft > 0.0)) return 0.0;
  return height_ft * kNmPerFoot * std::tan(cone_half_angle_deg(aid) * kDegToRad);
}

double pans_ops_ndb_cone_nm(double height_ft) {
  return 0.164 * (height_ft / 1000.0) * std::tan(40.0 * kDegToRad);
}

double dme_tolerance_nm(double distance_nm) { return 0.25 + 0.0125 * distance_nm; }

NavScene nav_scene(const Setup& u) {
  const Aid aid = u.scenario.aid;
  const CourseScale usual =
      aid == Aid::satellite ? CourseScale::satellite_terminal : CourseScale::vor;
  return {u.scenario.inbound_course_deg, aid == Aid::satellite ? Vec2{0.0, 0.0} : u.station,
          u.height_ft, aid, u.scenario.scale.value_or(usual)};
}

Indications indications(const NavScene& scene, Vec2 at, double heading_deg) {
  const Vec2 d = scene.station - at;
  const double ahead = along_to_end(scene, at);
  const double right = right_of_aircraft_nm(scene, at);
  const double ground = length(d);
  const bool over = ground < kOverNm;
  const bool over_end = length(course_end(scene) - at) < kOverNm;
  const bool cone = in_cone(scene, at) || (over && scene.aid != Aid::satellite);

  Indications out{};
  CourseNeedle& c = out.course;
  c.scale = scene.scale;
  c.distance_nm = right;
  c.flag = over_end || std::abs(ahead) <= kAbeamNm ? ToFrom::none
           : ahead > 0.0                           ? ToFrom::to
                                                   : ToFrom::from;
  c.reversed = std::abs(wrap_180(heading_deg - scene.course_deg)) > 90.0 + kSquareDeg;
  c.reliable = true;
  if (scene.scale == CourseScale::vor) {
    // Angle between the course line and the line through station and aircraft: the same
    // on both sides of the station, 90 abeam.
    c.angle_deg = over ? 0.0 : std::atan2(right, std::abs(ahead)) * kRadToDeg;
    c.raw = c.angle_deg / kVorFullScaleDeg;
    c.reliable = !cone;
  } else {
    c.angle_deg = kNaN;
    c.raw = right / full_scale_nm(scene.scale);
  }
  c.deflection = c.raw < -1.0 ? -1.0 : c.raw > 1.0 ? 1.0 : c.raw;

  const double bearing = over ? 360.0 : direction_of(d);
  out.bearing = {bearing, wrap_360(bearing - heading_deg), wrap_180(bearing - scene.course_deg),
                 !cone};
  out.dme = {slant_range_nm(ground, scene.height_ft), ground};
  return out;
}

Indications indications_at(const NavScene& scene, const Flight& flight, double t_s) {
  return indications(scene, flight.track.position_at(t_s), flight.track.heading_at(t_s));
}

double abeam_relative_deg(const Hold& hold, double heading_deg) {
  return wrap_360(direction_of(hold.holding_axis() * -1.0) - heading_deg);
}

std::vector<NeedleMoment> needle_moments(const NavScene& scene, const Flight& flight) {
  std::vector<NeedleMoment> out;
  if (flight.track.size() == 0) return out;
  for (const Crossing& crossing : kCrossings) {
    const bool cone = crossing.rising == NeedleEvent::cone_enters;
    if (cone && !(cone_radius_nm(scene.aid, scene.height_ft) > 0.0)) continue;
    add_crossings(scene, flight.track, crossing, out);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const NeedleMoment& a, const NeedleMoment& b) { return a.at_s < b.at_s; });
  return out;
}

std::string_view label_of(CourseScale scale) {
  constexpr const char* kKeys[] = {
      "core.needles.scale.vor", "core.needles.scale.satellite_terminal",
      "core.needles.scale.satellite_en_route", "core.needles.scale.satellite_older"};
  return word(kKeys[static_cast<int>(scale)]);
}

std::string_view label_of(NeedleEvent event) {
  constexpr const char* kKeys[] = {"core.needles.event.shows_from", "core.needles.event.shows_to",
                                   "core.needles.event.wingtip", "core.needles.event.cone_enters",
                                   "core.needles.event.cone_leaves"};
  return word(kKeys[static_cast<int>(event)]);
}

std::string course_words(const NavScene& scene, const CourseNeedle& n) {
  if (!n.reliable) return std::string(word("core.needles.course.unreliable"));
  constexpr const char* kFlags[] = {"core.needles.flag.none", "core.needles.flag.to",
                                    "core.needles.flag.from"};
  const std::string flag(word(kFlags[static_cast<int>(n.flag)]));
  const std::string course = degrees_3(scene.course_deg);
  const std::string percent = fixed(std::abs(n.deflection) * 100.0, 0);
  if (percent == "0") {
    return phrase("core.needles.course.centred", {{"course", course}, {"flag", flag}});
  }
  const char* key = n.full_scale() ? "core.needles.course.full" : "core.needles.course.part";
  std::string text =
      phrase(key, {{"side", side_text(n.deflection)}, {"percent", percent}, {"flag", flag}});
  // Reversed, the course lies on the other hand.
  const double hand = n.reversed ? -n.deflection : n.deflection;
  text += " " + phrase(n.reversed ? "core.needles.course.reversed" : "core.needles.course.lies",
                       {{"course", course}, {"hand", side_text(hand)}});
  return text;
}

std::string bearing_words(const BearingPointer& p) {
  if (!p.reliable) return std::string(word("core.needles.bearing.unreliable"));
  return phrase("core.needles.bearing",
                {{"bearing", degrees_3(p.magnetic_deg)}, {"relative", degrees_3(p.relative_deg)}});
}

std::string dme_words(const NavScene& scene, const DmeReading& dme) {
  const std::string shown = nm_1(dme.slant_nm);
  const std::string ground = nm_1(dme.ground_nm);
  return phrase(shown == ground ? "core.needles.dme.same" : "core.needles.dme.slant",
                {{"slant", shown}, {"ground", ground}, {"height", fixed(scene.height_ft, 0)}});
}

std::string cone_words(const NavScene& scene) {
  const double r = cone_radius_nm(scene.aid, scene.height_ft);
  if (!(r > 0.0)) return {};
  return phrase("core.needles.cone", {{"radius", nm_1(r)},
                                      {"height", fixed(scene.height_ft, 0)},
                                      {"angle", fixed(cone_half_angle_deg(scene.aid), 0)}});
}

std::string abeam_words(const Hold& hold, double heading_deg) {
  const double relative = abeam_relative_deg(hold, heading_deg);
  const double off = wrap_180(heading_deg - hold.outbound_course_deg());
  const std::string shown = degrees_3(relative);
  const std::string degrees = fixed(std::abs(off), 0);
  const std::string wing = degrees_3(hold.turns == Side::right ? 90.0 : 270.0);
  if (degrees == "0") return phrase("core.needles.abeam.wingtip", {{"relative", wing}});
  return phrase("core.needles.abeam.crab",
                {{"relative", shown}, {"wing", wing}, {"off", degrees}, {"side", side_text(off)}});
}

}  // namespace core
