// Closed-form pieces: their motion, their continuity, and where they cross a line.
#include "core/track.h"

#include <catch2/catch_test_macros.hpp>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

Segment random_segment(test::Random& r) {
  Segment s{};
  s.start_s = r.between(-100.0, 1000.0);
  s.duration_s = r.between(0.0, 300.0);
  s.start.x = r.between(-20.0, 20.0);
  s.start.y = r.between(-20.0, 20.0);
  s.heading_deg = r.between(0.0, 360.0);
  const double turn = r.between(0.2, 3.0);
  s.rate_deg_s = r.chance(0.25) ? 0.0 : r.chance(0.5) ? turn : -turn;
  s.speed_nm_s = r.between(40.0, 600.0) / 3600.0;
  s.wind_nm_s.x = r.between(-150.0, 150.0) / 3600.0;
  s.wind_nm_s.y = r.between(-150.0, 150.0) / 3600.0;
  return s;
}

std::string said(const Segment& s) {
  return "h " + std::to_string(s.heading_deg) + " rate " + std::to_string(s.rate_deg_s) + " for " +
         std::to_string(s.duration_s);
}

}  // namespace

TEST_CASE("track: the velocity is the motion's own", "[track][property]") {
  test::Random r(601);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const Segment s = random_segment(r);
    const double t = r.unit() * s.duration_s;
    const double h = 0.02;
    // Fourth-order difference: its own error is V w^4 h^4 / 30, below 1e-14 NM/s.
    const Vec2 slope = ((s.position_at(t + h) - s.position_at(t - h)) * 8.0 -
                        (s.position_at(t + 2 * h) - s.position_at(t - 2 * h))) *
                       (1.0 / (12.0 * h));
    tally.check(length(slope - s.velocity_at(t)) < 1e-11, [&] { return said(s); });
    // Through the air it always moves at the true airspeed, along the heading.
    const Vec2 air = s.velocity_at(t) - s.wind_nm_s;
    tally.check(length(air - along(s.heading_at(t)) * s.speed_nm_s) < 1e-15,
                [&] { return said(s); });
  }
  tally.settle(200000);
}

TEST_CASE("track: the design's formula, by sines and cosines", "[track][property]") {
  test::Random r(602);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const Segment s = random_segment(r);
    if (s.rate_deg_s == 0.0) continue;
    const double t = r.unit() * s.duration_s;
    const double w = s.rate_deg_s * kDegToRad;
    const double a = s.heading_deg * kDegToRad;
    const double radius = s.speed_nm_s / w;
    const Vec2 expected{
        s.start.x + radius * (std::cos(a) - std::cos(a + w * t)) + s.wind_nm_s.x * t,
        s.start.y + radius * (std::sin(a + w * t) - std::sin(a)) + s.wind_nm_s.y * t};
    // The textbook form loses digits in proportion to the radius.
    tally.check(length(s.position_at(t) - expected) < 1e-14 * (30.0 + std::abs(radius)),
                [&] { return said(s); });
  }
  tally.settle(60000);
}

TEST_CASE("track: no digits are lost as the turn rate goes to zero", "[track][seam]") {
  Segment s{0.0, 100.0, {0.0, 0.0}, 30.0, 0.0, 0.03, {0.002, -0.001}, {0.0, 0.0}, core::kNoRoll};
  const Vec2 straight = s.position_at(100.0);
  for (double rate = 1e-3; rate > 1e-320; rate *= 1e-2) {
    for (const double sign : {1.0, -1.0}) {
      s.rate_deg_s = sign * rate;
      INFO(s.rate_deg_s);
      // With the angle turned a: sideways V t a / 2, short by V t a^2 / 6, then a^3.
      const double a = s.rate_deg_s * kDegToRad * 100.0;
      const Vec2 expected = straight + along(120.0) * (3.0 * a / 2.0) - along(30.0) * (a * a / 2.0);
      CHECK(length(s.position_at(100.0) - expected) < 2e-15 + 0.2 * std::abs(a * a * a));
    }
  }
}

TEST_CASE("track: a piece may be cut anywhere", "[track][property]") {
  test::Random r(603);
  test::Tally tally;
  for (int i = 0; i < 50000; ++i) {
    const Segment whole = random_segment(r);
    Segment rest = whole;
    const double cut = r.unit() * whole.duration_s;
    rest.start = whole.position_at(cut);
    rest.heading_deg = whole.heading_at(cut);
    const double t = r.unit() * whole.duration_s;
    tally.check(length(rest.position_at(t) - whole.position_at(cut + t)) < 1e-12,
                [&] { return said(whole); });
  }
  tally.settle(50000);
}

TEST_CASE("track: first rise against a brute scan", "[track][property]") {
  test::Random r(604);
  test::Tally tally;
  int found = 0;
  int later_circles = 0;
  for (int i = 0; i < 6000; ++i) {
    Segment s = random_segment(r);
    if (r.chance(0.3)) s.duration_s *= 3.0;  // several circles
    const Vec2 axis = along(r.between(0.0, 360.0));
    const double reach = 0.2 * s.duration_s * s.speed_nm_s;
    const double level = dot(axis, s.start) + r.between(-0.3 * reach, reach);
    const auto gap = [&](double t) { return dot(axis, s.position_at(t)) - level; };
    const double t = first_rise_through(s, axis, level);
    // The first pair of samples that the line passes between, upward.
    constexpr int kSamples = 3000;
    double scanned = -1.0;
    double before = gap(0.0);
    for (int k = 1; k <= kSamples && scanned < 0.0; ++k) {
      const double g = gap(s.duration_s * k / kSamples);
      if (before < 0.0 && g >= 0.0) scanned = s.duration_s * k / kSamples;
      before = g;
    }
    const double step = s.duration_s / kSamples;
    const auto say = [&] {
      return said(s) + " found " + std::to_string(t) + " scan " + std::to_string(scanned);
    };
    if (t < 0.0) {
      tally.check(scanned < 0.0, say);
      continue;
    }
    ++found;
    later_circles += t * std::abs(s.rate_deg_s) > 360.0 ? 1 : 0;
    tally.check(t > 0.0 && t <= s.duration_s, say);
    tally.check(std::abs(gap(t)) < 1e-12, say);
    tally.check(dot(axis, s.velocity_at(t)) > -1e-9, say);
    tally.check(gap(t - std::fmin(1e-4, 0.5 * t)) < 0.0, say);  // from below
    tally.check(scanned < 0.0 || t <= scanned + 1e-9, say);     // none earlier
    // Where the scan saw nothing, or saw a later one, the line was only grazed.
    const bool grazed = gap(std::fmin(t + step, s.duration_s)) < 0.0 || t + step > s.duration_s;
    tally.check((scanned >= 0.0 && t > scanned - step - 1e-9) || grazed, say);
  }
  CHECK(found > 1500);
  CHECK(later_circles > 20);
  tally.settle(12000);
}

TEST_CASE("track: first rise at the seams", "[track][seam]") {
  // Straight, from 2 NM below at 0.05 NM/s.
  const Segment s{0.0, 40.0, {0.0, -2.0}, 360.0, 0.0, 0.05, {0.0, 0.0}, {0.0, 0.0}, core::kNoRoll};
  const Vec2 north{0.0, 1.0};
  CHECK(first_rise_through(s, north, 0.0) == 40.0);          // at the very end
  CHECK(first_rise_through(s, north, 0.1) < 0.0);            // just not
  CHECK(first_rise_through(s, north, -2.0) < 0.0);           // begins on the line
  CHECK(first_rise_through(s, north, -3.0) < 0.0);           // already above
  CHECK(first_rise_through(s, Vec2{0.0, -1.0}, 1.0) < 0.0);  // moves away
  CHECK(first_rise_through(s, Vec2{1.0, 0.0}, 1.0) < 0.0);   // moves along
  const Segment still{0.0,  40.0,         {0.0, -2.0}, 360.0,        0.0,
                      0.05, {0.0, -0.05}, {0.0, 0.0},  core::kNoRoll};
  CHECK(first_rise_through(still, north, 0.0) < 0.0);  // stands still
}

TEST_CASE("track: positions by time, ends clamped", "[track]") {
  Track track;
  CHECK(track.size() == 0);
  CHECK(track.start_s() == 0.0);
  CHECK(track.end_s() == 0.0);
  CHECK(track.heading_at(3.0) == 360.0);
  CHECK(track.position_at(3.0) == Vec2{0.0, 0.0});
  CHECK(track.velocity_kt_at(3.0) == Vec2{0.0, 0.0});

  const Segment a{-10.0, 10.0,       {0.0, -0.5}, 360.0,        0.0,
                  0.05,  {0.0, 0.0}, {0.0, 0.0},  core::kNoRoll};
  const Segment b{0.0,  30.0,       a.position_at(10.0), 360.0,        3.0,
                  0.05, {0.0, 0.0}, {0.0, 0.0},          core::kNoRoll};
  const Segment none{30.0, 0.0,        b.position_at(30.0), 90.0,         0.0,
                     0.05, {0.0, 0.0}, {0.0, 0.0},          core::kNoRoll};
  const Segment c{30.0, 20.0,       b.position_at(30.0), 90.0,         0.0,
                  0.05, {0.0, 0.0}, {0.0, 0.0},          core::kNoRoll};
  for (const Segment& s : {a, b, none, c}) track.add(s);
  CHECK(track.size() == 4);
  CHECK(track.start_s() == -10.0);
  CHECK(track.end_s() == 50.0);
  CHECK(track.index_at(-99.0) == 0);
  CHECK(track.index_at(-0.1) == 0);
  CHECK(track.index_at(0.0) == 1);
  CHECK(track.index_at(29.9) == 1);
  CHECK(track.index_at(30.0) == 3);
  CHECK(track.index_at(1e9) == 3);
  CHECK(track.position_at(-99.0) == a.start);
  CHECK(track.position_at(1e9) == c.position_at(20.0));
  CHECK(track.heading_at(15.0) == 45.0);
  CHECK(length(track.velocity_kt_at(40.0) - Vec2{180.0, 0.0}) < 1e-12);
  const double nan = std::nan("");
  CHECK(track.index_at(nan) == 0);
  CHECK(std::isfinite(track.position_at(nan).x));
}
