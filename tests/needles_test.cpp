// What the navigation displays show.
#include "core/needles.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "tests/scenarios.h"
#include "tests/tables/check_rows.h"
#include "tests/tables/needles_checks.h"
#include "tests/tally.h"

using namespace core;

namespace {

CourseScale random_scale(test::Random& r) {
  return static_cast<CourseScale>(r.below(kCourseScales));
}

/// A scene for a scenario; the station at the fix, ahead of it, or behind it.
NavScene random_scene(test::Random& r, const Setup& u) {
  const Aid aid = r.chance(0.6) ? Aid::vor : r.chance(0.5) ? Aid::ndb : Aid::satellite;
  const CourseScale scale = r.chance(0.5) ? CourseScale::vor : random_scale(r);
  const double ahead = r.chance(0.4) ? 0.0 : r.between(-25.0, 25.0);
  NavScene n = nav_scene(u);
  n.aid = aid;
  n.scale = scale;
  n.station = aid == Aid::satellite ? Vec2{0.0, 0.0} : u.hold.outbound_axis() * -ahead;
  n.height_ft = r.between(-500.0, 12000.0);
  return n;
}

Vec2 course_target(const NavScene& n) {
  return n.scale == CourseScale::vor ? n.station : Vec2{0.0, 0.0};
}

double change(double a, double b) { return std::abs(wrap_180(a - b)); }

}  // namespace

TEST_CASE("table: scales, cones and slant range", "[table][needles]") {
  test::check_rows(test::kNeedlesChecks);
}

TEST_CASE("needles: the sense, on paper", "[needles]") {
  // Course 360 to a station 10 NM north. West of the line: the course is to the right.
  const NavScene n{360.0, {0.0, 10.0}, 5000.0, Aid::vor, CourseScale::vor};
  Indications i = indications(n, {-0.5, 0.0}, 360.0);
  CHECK(i.course.deflection > 0.0);
  CHECK(i.course.flag == ToFrom::to);
  CHECK_FALSE(i.course.reversed);
  CHECK(i.course.reliable);
  CHECK(std::abs(i.course.angle_deg - std::atan2(0.5, 10.0) * kRadToDeg) < 1e-12);
  CHECK(i.course.distance_nm == 0.5);
  CHECK(std::abs(i.bearing.relative_deg - i.course.angle_deg) < 1e-9);
  // On a heading outbound the same needle points away from the course.
  i = indications(n, {-0.5, 0.0}, 180.0);
  CHECK(i.course.deflection > 0.0);
  CHECK(i.course.reversed);
  CHECK(course_words(n, i.course).find("lies to your left") != std::string::npos);
  i = indications(n, {-0.5, 0.0}, 360.0);
  CHECK(course_words(n, i.course).find("lies to your right") != std::string::npos);
  // Past the station the flag turns, the needle keeps its side.
  i = indications(n, {-0.5, 20.0}, 360.0);
  CHECK(i.course.flag == ToFrom::from);
  CHECK(i.course.deflection > 0.0);
  CHECK(change(i.bearing.magnetic_deg, 177.1376) < 1e-3);
  // Far off to the side it is hard over, and no more.
  i = indications(n, {30.0, 2.0}, 360.0);
  CHECK(i.course.deflection == -1.0);
  CHECK(i.course.full_scale());
  CHECK(i.course.raw < -5.0);
  // Abeam: neither TO nor FROM, pointer 90 degrees off the course.
  i = indications(n, {-3.0, 10.0}, 360.0);
  CHECK(i.course.flag == ToFrom::none);
  CHECK(i.bearing.off_course_deg == 90.0);
  CHECK(i.course.angle_deg == 90.0);
  // Square to the course is not yet the wrong way round.
  CHECK_FALSE(indications(n, {0.0, 0.0}, 90.0).course.reversed);
  CHECK(indications(n, {0.0, 0.0}, 90.1).course.reversed);
  CHECK(indications(n, {0.0, 0.0}, 269.9).course.reversed);
  CHECK_FALSE(indications(n, {0.0, 0.0}, 270.0).course.reversed);
}

TEST_CASE("needles: over the station nothing is a number that is not one", "[needles]") {
  for (const Aid aid : {Aid::vor, Aid::ndb, Aid::satellite}) {
    for (const double height : {-100.0, 0.0, 5000.0}) {
      const NavScene n{123.0, {1.0, 2.0}, height, aid, CourseScale::vor};
      const Indications i = indications(n, {1.0, 2.0}, 45.0);
      CHECK(i.course.deflection == 0.0);
      CHECK(i.course.flag == ToFrom::none);
      CHECK(i.bearing.magnetic_deg == 360.0);
      CHECK(i.bearing.reliable == (aid == Aid::satellite));
      CHECK(i.dme.ground_nm == 0.0);
      CHECK(std::abs(i.dme.slant_nm - std::abs(height) * 0.3048 / 1852.0) < 1e-12);
    }
  }
}

TEST_CASE("needles: slant range and back", "[needles][property]") {
  test::Random r(2301);
  test::Tally tally;
  for (int i = 0; i < 10000; ++i) {
    const double d = r.between(0.0, 60.0);
    const double h = r.between(-1000.0, 45000.0);
    const double slant = slant_range_nm(d, h);
    tally.check(slant >= d && slant >= std::abs(h) * kMetresPerFoot / kMetresPerNm - 1e-12,
                [&] { return std::to_string(d); });
    tally.check(std::abs(ground_range_nm(slant, h) - d) < 1e-6, [&] { return std::to_string(d); });
  }
  tally.settle(20000);
  CHECK(std::isnan(ground_range_nm(0.9, 6000.0)));
  CHECK(std::isnan(ground_range_nm(std::nan(""), 6000.0)));
}

TEST_CASE("needles: cones", "[needles]") {
  CHECK(cone_radius_nm(Aid::satellite, 9000.0) == 0.0);
  CHECK(cone_radius_nm(Aid::vor, 0.0) == 0.0);
  CHECK(cone_radius_nm(Aid::vor, -400.0) == 0.0);
  CHECK(cone_radius_nm(Aid::vor, std::nan("")) == 0.0);
  const double r = cone_radius_nm(Aid::vor, 6000.0);
  const NavScene n{360.0, {0.0, 0.0}, 6000.0, Aid::vor, CourseScale::vor};
  CHECK_FALSE(indications(n, {0.0, -r * 0.999}, 360.0).course.reliable);
  CHECK(indications(n, {0.0, -r * 1.001}, 360.0).course.reliable);
  // A satellite course does not mind the station below.
  NavScene s = n;
  s.scale = CourseScale::satellite_terminal;
  CHECK(indications(s, {0.0, -0.1}, 360.0).course.reliable);
  CHECK_FALSE(indications(s, {0.0, -0.1}, 360.0).bearing.reliable);
}

TEST_CASE("needles: a scene puts the station on the course", "[needles]") {
  Scenario s;
  s.inbound_course_deg = 90.0;
  s.altitude_ft = 7000.0;
  s.station = {Station::Place::ahead, 10.0};
  s.elevation_ft = 7000.0;
  const NavScene ahead = nav_scene(make_setup(s));
  CHECK(ahead.station == Vec2{10.0, 0.0});
  CHECK(ahead.height_ft == 0.0);
  CHECK(ahead.course_deg == 90.0);
  s.station.place = Station::Place::behind;
  CHECK(nav_scene(make_setup(s)).station == Vec2{-10.0, 0.0});
  s.aid = Aid::satellite;
  CHECK(nav_scene(make_setup(s)).station == Vec2{0.0, 0.0});
}

TEST_CASE("needles: continuous along any flight, except at the station", "[needles][property]") {
  test::Random r(2302);
  test::Tally tally;
  static Flight f;
  for (int i = 0; i < 400; ++i) {
    Scenario s = test::random_scenario(r);
    s.laps = r.below(3);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    if (f.track.size() == 0) continue;
    const NavScene n = random_scene(r, u);
    const double dt = 0.05;
    const double from = r.between(f.track.start_s(), f.track.end_s() - 20.0);
    for (int k = 0; k < 400; ++k) {
      const double t = from + k * dt;
      const Vec2 p = f.track.position_at(t);
      const Vec2 q = f.track.position_at(t + dt);
      const Indications a = indications_at(n, f, t);
      const Indications b = indications_at(n, f, t + dt);
      const auto say = [&] { return test::named(s) + " at " + std::to_string(t); };
      // A line of sight turns by no more than motion over distance.
      const double step = length(q - p);
      const double near = std::fmin(length(p - n.station), length(q - n.station));
      const double heading = change(f.track.heading_at(t), f.track.heading_at(t + dt));
      if (near > 3.0 * step) {
        const double turn = step / (near - step) * kRadToDeg + 1e-9;
        tally.check(change(a.bearing.magnetic_deg, b.bearing.magnetic_deg) <= turn, say);
        tally.check(change(a.bearing.relative_deg, b.bearing.relative_deg) <= turn + heading, say);
      }
      tally.check(std::abs(a.dme.slant_nm - b.dme.slant_nm) <= step + 1e-9, say);
      const Vec2 end = course_target(n);
      const double to_end = std::fmin(length(p - end), length(q - end));
      const double most = n.scale == CourseScale::vor
                              ? step / (to_end - step) * kRadToDeg / kVorFullScaleDeg
                              : step / full_scale_nm(n.scale);
      if (n.scale != CourseScale::vor || to_end > 3.0 * step) {
        tally.check(std::abs(a.course.raw - b.course.raw) <= most + 1e-9, say);
        tally.check(std::abs(a.course.deflection - b.course.deflection) <= most + 1e-9, say);
      }
      tally.check(std::abs(a.course.deflection) <= 1.0, say);
    }
  }
  tally.settle(400000);
}

TEST_CASE("needles: following the needle brings the course nearer; reversed, it does not",
          "[needles][property]") {
  test::Random r(2303);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.3);
    const NavScene n = random_scene(r, make_setup(s));
    const double x = r.between(-8.0, 8.0);
    const double y = r.between(-8.0, 8.0);
    const bool outbound = r.chance(0.5);
    const double heading = wrap_360(n.course_deg + (outbound ? 180.0 : 0.0));
    const Indications a = indications(n, {x, y}, heading);
    if (std::abs(a.course.distance_nm) < 0.01) continue;
    // Turn 40 degrees toward the needle and fly a little.
    const double turned = heading + (a.course.deflection > 0.0 ? 40.0 : -40.0);
    const Indications b = indications(n, Vec2{x, y} + along(turned) * 0.001, heading);
    const bool nearer = std::abs(b.course.distance_nm) < std::abs(a.course.distance_nm);
    const auto say = [&] { return std::to_string(x) + "," + std::to_string(y); };
    tally.check(a.course.reversed == outbound, say);
    tally.check(nearer == !outbound, say);
    // The words name the hand on which the course really lies.
    if (!a.course.reliable || std::abs(a.course.deflection) < 0.005) continue;
    const double hand =
        dot(course_target(n) - Vec2{x, y}, along(n.course_deg + 90.0)) * (outbound ? -1.0 : 1.0);
    const std::string want = hand > 0.0 ? "lies to your right" : "lies to your left";
    tally.check(course_words(n, a.course).find(want) != std::string::npos, say);
  }
  tally.settle(50000);
}

TEST_CASE("needles: seen in a mirror, left is right", "[needles][symmetry][property]") {
  test::Random r(2304);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.3);
    const NavScene n = random_scene(r, make_setup(s));
    NavScene m = n;
    m.course_deg = wrap_360(-n.course_deg);
    m.station.x = -n.station.x;
    const double x = r.between(-20.0, 20.0);
    const double y = r.between(-20.0, 20.0);
    const double heading = r.between(0.0, 360.0);
    const Indications a = indications(n, {x, y}, heading);
    const Indications b = indications(m, {-x, y}, wrap_360(-heading));
    const auto say = [&] { return std::to_string(x) + "," + std::to_string(y); };
    tally.check(test::near(a.course.deflection, -b.course.deflection, 1e-9), say);
    tally.check(a.course.flag == b.course.flag && a.course.reversed == b.course.reversed, say);
    tally.check(change(a.bearing.relative_deg, -b.bearing.relative_deg) < 1e-9, say);
    tally.check(test::near(a.dme.slant_nm, b.dme.slant_nm, 1e-12), say);
    // Nose, pointer and north close the circle.
    tally.check(change(a.bearing.relative_deg + heading, a.bearing.magnetic_deg) < 1e-9, say);
  }
  tally.settle(100000);
}

TEST_CASE("needles: abeam the fix the pointer stands as foretold", "[needles][property]") {
  test::Random r(2305);
  test::Tally tally;
  for (int i = 0; i < 5000; ++i) {
    const Hold hold{test::random_direction(r, 0.3), r.chance(0.5) ? Side::right : Side::left};
    const double heading = wrap_360(hold.outbound_course_deg() + r.between(-50.0, 50.0));
    const NavScene n{hold.inbound_course_deg, {0.0, 0.0}, 4000.0, Aid::ndb, CourseScale::vor};
    const double off = r.between(0.3, 6.0);
    const Indications a = indications(n, hold.holding_axis() * off, heading);
    const auto say = [&] { return std::to_string(heading); };
    tally.check(change(a.bearing.relative_deg, abeam_relative_deg(hold, heading)) < 1e-6, say);
    tally.check(std::abs(std::abs(a.bearing.off_course_deg) - 90.0) < 1e-6, say);
    const std::string words = abeam_words(hold, heading);
    tally.check(words.find('{') == std::string::npos && words.substr(0, 5) != "core.", say);
  }
  tally.settle(15000);
  // Inbound 360, right turns, 12 degrees into a wind from the west: 090 less 12.
  CHECK(abeam_words({360.0, Side::right}, 192.0).find("078°") != std::string::npos);
  CHECK(abeam_words({360.0, Side::right}, 180.0).find("090°") != std::string::npos);
}

TEST_CASE("needles: moments are where the displays change, and all of them",
          "[needles][property]") {
  test::Random r(2306);
  test::Tally tally;
  static Flight f;
  int seen[5] = {};
  for (int i = 0; i < 400; ++i) {
    Scenario s = test::random_scenario(r);
    s.laps = r.below(3);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const NavScene n = random_scene(r, u);
    const std::vector<NeedleMoment> moments = needle_moments(n, f);
    const auto say = [&] { return test::named(s); };
    if (f.track.size() == 0) {
      tally.check(moments.empty(), say);
      continue;
    }
    double last = -1e300;
    int count[5] = {};
    for (const NeedleMoment& m : moments) {
      const auto at = [&] {
        return test::named(s) + " " + std::string(name_of(m.event)) + " at " +
               std::to_string(m.at_s);
      };
      tally.check(m.at_s >= last, at);
      last = m.at_s;
      ++count[static_cast<int>(m.event)];
      ++seen[static_cast<int>(m.event)];
      const Vec2 end = course_target(n);
      switch (m.event) {
        case NeedleEvent::shows_from:
        case NeedleEvent::shows_to: {
          // Exactly abeam: nothing of the way to the station lies along the course.
          tally.check(std::abs(dot(end - m.at, along(n.course_deg))) < 1e-9, at);
          const ToFrom before = indications_at(n, f, m.at_s - 1e-4).course.flag;
          const ToFrom after = indications_at(n, f, m.at_s + 1e-4).course.flag;
          const bool from = m.event == NeedleEvent::shows_from;
          tally.check(before == (from ? ToFrom::to : ToFrom::from), at);
          tally.check(after == (from ? ToFrom::from : ToFrom::to), at);
          break;
        }
        case NeedleEvent::wingtip:
          tally.check(std::abs(dot(n.station - m.at, along(m.heading_deg))) < 1e-9, at);
          break;
        default:
          tally.check(
              std::abs(length(n.station - m.at) - cone_radius_nm(n.aid, n.height_ft)) < 1e-9, at);
      }
    }
    // Counted by walking the flight in small steps.
    int flips = 0;
    int cones = 0;
    double before = 0.0;
    bool inside = false;
    const int steps = 1 + static_cast<int>((f.track.end_s() - f.track.start_s()) / 0.25);
    for (int k = 0; k <= steps; ++k) {
      const double share = static_cast<double>(k) / steps;
      const double t = f.track.start_s() + (f.track.end_s() - f.track.start_s()) * share;
      const Vec2 p = f.track.position_at(t);
      const double ahead = dot(course_target(n) - p, along(n.course_deg));
      // A touch of the line between two steps, and its rounding, does not count.
      if (std::abs(ahead) > 1e-6) {
        if (before * ahead < 0.0) ++flips;
        before = ahead;
      }
      const bool in = n.aid != Aid::satellite && n.height_ft > 0.0 &&
                      length(p - n.station) < cone_radius_nm(n.aid, n.height_ft);
      if (k > 0 && in != inside) ++cones;
      inside = in;
    }
    const int found = count[0] + count[1];
    const int crossed = count[3] + count[4];
    // Steps may pass over a pair that lies between two of them, never find more.
    tally.check(found >= flips && (found - flips) % 2 == 0 && found - flips <= 2, say);
    tally.check(crossed >= cones && crossed - cones <= 2, say);
    if (n.aid == Aid::satellite) tally.check(crossed == 0, say);
    tally.check(std::abs(count[0] - count[1]) <= 1 && std::abs(count[3] - count[4]) <= 1, say);
  }
  for (const int k : seen) CHECK(k > 50);
  tally.settle(5000);
}

TEST_CASE("needles: a flip close behind the fix is not lost", "[needles]") {
  // Over the fix on 271, turning left: north of the abeam line for two thirds of a second.
  Scenario s;
  s.inbound_course_deg = 360.0;
  s.turns = Side::right;
  s.arrival_course_deg = 271.0;
  s.entry = EntryKind::parallel;
  s.rule = HeadingRule::still_air;
  s.wind_kt = 0.0;
  s.speed_is_tas = true;
  s.speed_kt = 120.0;
  const Setup u = make_setup(s);
  static Flight f;
  fly_scenario(u, f);
  std::vector<NeedleMoment> flips;
  for (const NeedleMoment& m : needle_moments(nav_scene(u), f)) {
    if (m.at_s < 30.0 && (m.event == NeedleEvent::shows_from || m.event == NeedleEvent::shows_to)) {
      flips.push_back(m);
    }
  }
  REQUIRE(flips.size() == 2);
  CHECK(flips[0].event == NeedleEvent::shows_from);
  CHECK(std::abs(flips[0].at_s) < 1e-6);
  CHECK(flips[1].event == NeedleEvent::shows_to);
  CHECK(std::abs(flips[1].at_s - 2.0 / 3.0) < 1e-6);
}

TEST_CASE("needles: along the abeam line the flag does not flicker", "[needles][seam]") {
  test::Random r(2308);
  test::Tally tally;
  static Flight f;
  for (int i = 0; i < 500; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.5);
    s.arrival_course_deg = wrap_360(s.inbound_course_deg + (r.chance(0.5) ? 90.0 : -90.0));
    s.wind_from_deg = r.between(0.0, 360.0);
    s.wind_kt = r.between(0.0, 40.0);
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    const NavScene n = nav_scene(u);
    const auto say = [&] { return test::named(s); };
    for (const NeedleMoment& m : needle_moments(n, f)) {
      const bool flip = m.event == NeedleEvent::shows_from || m.event == NeedleEvent::shows_to;
      tally.check(!flip || m.at_s > -1e-3, say);
    }
    tally.check(indications_at(n, f, -12.3).course.flag == ToFrom::none, say);
  }
  tally.settle(1500);
}

TEST_CASE("needles: words are whole", "[needles][words]") {
  for (int i = 0; i < kCourseScales; ++i) {
    const auto scale = static_cast<CourseScale>(i);
    CHECK(label_of(scale).substr(0, 5) != "core.");
    CHECK(name_of(scale) != "none");
  }
  for (int i = 0; i < 5; ++i) {
    CHECK(label_of(static_cast<NeedleEvent>(i)).substr(0, 5) != "core.");
  }
  test::Random r(2307);
  test::Tally tally;
  for (int i = 0; i < 5000; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.3);
    const NavScene n = random_scene(r, make_setup(s));
    const double x = r.between(-3.0, 3.0);
    const double y = r.between(-3.0, 3.0);
    const double heading = r.between(0.0, 360.0);
    const Indications a = indications(n, {x, y}, heading);
    for (const std::string& text :
         {course_words(n, a.course), bearing_words(a.bearing), dme_words(n, a.dme)}) {
      tally.check(!text.empty() && text.find('{') == std::string::npos &&
                      text.find("core.") == std::string::npos,
                  [&] { return text; });
    }
    tally.check(cone_words(n).empty() == !(cone_radius_nm(n.aid, n.height_ft) > 0.0),
                [&] { return cone_words(n); });
    tally.check(
        (course_words(n, a.course).find("swings") != std::string::npos) == !a.course.reliable,
        [&] { return course_words(n, a.course); });
  }
  tally.settle(25000);
}
