// A cloud's density, its outlines and its pixels.
#include <algorithm>
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/cloud_paint.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

Cloud cloud_of(const Scenario& s, const Amounts& spread, int count) {
  Cloud cloud;
  cloud.set(make_setup(s), spread, 3);
  cloud.fly_more(count);
  return cloud;
}

/// Inside an odd number of rings.
bool inside(const std::vector<Ring>& rings, Vec2 p) {
  bool in = false;
  for (const Ring& ring : rings) {
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      const Vec2 a = ring[i];
      const Vec2 b = ring[j];
      if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) {
        in = !in;
      }
    }
  }
  return in;
}

double area_of(const std::vector<Ring>& rings) {
  double sum = 0.0;
  for (const Ring& ring : rings) {
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      sum += 0.5 * (ring[j].x * ring[i].y - ring[i].x * ring[j].y);
    }
  }
  return sum;
}

double share_inside(const Cloud& cloud, const std::vector<Ring>& rings) {
  int in = 0;
  int flown = 0;
  for (int i = 0; i < cloud.drawn(); ++i) {
    const Vec2 at = cloud.rollout(i);
    if (std::isnan(at.x)) continue;
    ++flown;
    in += inside(rings, at);
  }
  return static_cast<double>(in) / flown;
}

using Pixels = std::vector<std::uint8_t>;
constexpr CloudInk kWarm{200, 40, 10};
constexpr CloudInk kCold{10, 40, 200};

Pixels painted(const Cloud& cloud, const Viewport& view, int tracks) {
  Pixels out{1, 2, 3};
  paint_cloud(cloud, density_of(cloud), view, kWarm, kCold, tracks, out);
  return out;
}

int opacity_at(const Pixels& px, const Viewport& view, Vec2 nm) {
  const Vec2 at = view.to_px(nm);
  const auto x = static_cast<std::size_t>(at.x);
  const auto y = static_cast<std::size_t>(at.y);
  return px[4 * (y * static_cast<std::size_t>(view.width_px) + x) + 3];
}

Vec2 middle_of(const Cloud& cloud) {
  const CloudSummary s = cloud.summary(0.25);
  std::vector<double> to_go = cloud.to_go_nm();
  std::sort(to_go.begin(), to_go.end());
  return cloud.setup().holding_axis * s.cross_nm.middle +
         cloud.setup().outbound_axis * to_go[to_go.size() / 2];
}

}  // namespace

TEST_CASE("cloud density: adds up to what it covers", "[cloud][density][property]") {
  test::Random r(6221);
  test::Tally tally;
  for (int i = 0; i < 200; ++i) {
    Scenario s = test::random_scenario(r);
    s.entry = EntryKind::offset;
    const Cloud cloud = cloud_of(s, Cloud::kUsual, 1 + r.below(800));
    const CloudDensity d = density_of(cloud);
    const auto say = [&] { return test::named(s); };
    if (cloud.summary(1.0).flown == 0) {
      tally.check(d.share.empty() && outlines_holding(cloud, d, 0.5).empty(), say);
      continue;
    }
    double sum = 0.0;
    double peak = 0.0;
    bool good = true;
    for (const double v : d.share) {
      sum += v;
      peak = std::max(peak, v);
      good = good && v >= 0.0;  // false for NaN
    }
    tally.check(good && test::near(sum, d.covered, 1e-12) && d.peak == peak, say);
    tally.check(d.covered > 0.9 && d.covered < 1.0 + 1e-12, say);
    tally.check(d.columns >= 2 && d.rows >= 2 && d.columns <= CloudDensity::kMostNodes &&
                    d.rows <= CloudDensity::kMostNodes,
                say);
    tally.check(d.at(d.corner_nm - Vec2{0.1, 0.1}) == 0.0, say);
    for (const Ring& ring : outlines_holding(cloud, d, 0.95)) {
      for (const Vec2& p : ring) tally.check(std::isfinite(p.x) && std::isfinite(p.y), say);
    }
  }
  tally.settle(2000);
}

TEST_CASE("cloud outlines: hold the share of the roll-outs that they say", "[cloud][density]") {
  test::Random r(6222);
  for (int i = 0; i < 15; ++i) {
    const Scenario s = test::calm_scenario(r);
    const Cloud cloud = cloud_of(s, Cloud::kUsual, 3000);
    if (cloud.why() != NoCloud::none) continue;
    INFO(test::named(s));
    const CloudDensity d = density_of(cloud);
    double area = 0.0;
    for (const double share : {0.5, 0.8, 0.95}) {
      const std::vector<Ring> rings = outlines_holding(cloud, d, share);
      // Between nodes the line is straight and the density is not quite.
      CHECK(std::abs(share_inside(cloud, rings) - share) < 0.012);
      CHECK(area_of(rings) > area);
      area = area_of(rings);
    }
    CHECK(outlines_holding(cloud, d, 0.0).empty());
    CHECK(outlines_holding(cloud, d, 1.5).empty());
  }
}

TEST_CASE("cloud outlines: of a normal cloud as large as the theory's ellipse",
          "[cloud][density]") {
  // Derived: of a normal distribution in the plane the ellipse that holds a share p has the area
  // -2 pi ln(1 - p) sqrt(det of the covariance).
  Amounts narrow = Cloud::kUsual;
  for (double& amount : narrow.of) amount *= 0.2;
  const Cloud cloud = cloud_of(Scenario{}, narrow, 10000);
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
  const Vec2 middle = middle_of(cloud);
  for (int i = 0; i < cloud.drawn(); ++i) {
    const Vec2 p = cloud.rollout(i) - middle;
    xx += p.x * p.x / cloud.drawn();
    xy += p.x * p.y / cloud.drawn();
    yy += p.y * p.y / cloud.drawn();
  }
  const CloudDensity d = density_of(cloud);
  for (const double share : {0.5, 0.95}) {
    const double want = -2.0 * kPi * std::log(1.0 - share) * std::sqrt(xx * yy - xy * xy);
    const double got = area_of(outlines_holding(cloud, d, share));
    INFO(share << ": " << got << " for " << want);
    CHECK(std::abs(got / want - 1.0) < 0.07);
  }
}

TEST_CASE("cloud density: a cloud without spread is a dot", "[cloud][density]") {
  const Cloud cloud = cloud_of(Scenario{}, {}, 50);
  const CloudDensity d = density_of(cloud);
  CHECK(test::near(d.covered, 1.0, 1e-12));
  CHECK(d.at(cloud.rollout(0)) > 0.9 * d.peak);
  const std::vector<Ring> rings = outlines_holding(cloud, d, 0.5);
  REQUIRE(rings.size() == 1);
  CHECK(inside(rings, cloud.rollout(0)));
  CHECK(area_of(rings) < 1e-4);
}

TEST_CASE("cloud picture: opaque where the flights are, clear elsewhere", "[cloud][picture]") {
  const Cloud cloud = cloud_of(Scenario{}, Cloud::kUsual, 4000);
  const Vec2 middle = middle_of(cloud);
  const Viewport view{middle * 0.5, 60.0, 400.0, 300.0};
  const Pixels only = painted(cloud, view, 0);
  REQUIRE(only.size() == 4U * 400U * 300U);
  CHECK(opacity_at(only, view, middle) > 180);
  CHECK(opacity_at(only, view, {0.0, 0.0}) == 0);
  CHECK(only[3] == 0);
  const CloudDensity d = density_of(cloud);
  long long seen = 0;
  for (std::size_t i = 0; i < only.size(); i += 4) {
    if (only[i + 3] == 0) continue;
    ++seen;
    CHECK((only[i] == kWarm.red && only[i + 1] == kWarm.green && only[i + 2] == kWarm.blue));
  }
  CHECK(seen > 500);
  // The denser, the more opaque.
  for (const double share : {0.5, 0.95}) {
    const Ring ring = outlines_holding(cloud, d, share).front();
    const double want = 255.0 * 0.8 * std::sqrt(d.at(ring[0]) / d.peak);
    CHECK(std::abs(opacity_at(only, view, ring[0]) - want) < 25.0);
  }

  const Pixels tracks = painted(cloud, view, 200);
  const DeviatedTrack planned(cloud.setup(), cloud.plan(), {});
  for (double t = 1.0; t < planned.pieces().end_s(); t += 1.0) {
    CHECK(opacity_at(tracks, view, planned.pieces().position_at(t)) > 10);
  }
  CHECK(opacity_at(tracks, view, {0.0, 0.0}) > 60);
  CHECK(opacity_at(tracks, view, middle) >= opacity_at(only, view, middle));
  CHECK(tracks[3] == 0);
  // A flight's own colour where only tracks are.
  const Vec2 fix = view.to_px({0.0, 0.0});
  const auto at = 4 * (static_cast<std::size_t>(fix.y) * 400 + static_cast<std::size_t>(fix.x));
  CHECK((tracks[at] == kCold.red && tracks[at + 2] == kCold.blue));
}

TEST_CASE("cloud picture: moved by whole pixels it is the same picture", "[cloud][picture]") {
  const Cloud cloud = cloud_of(Scenario{}, Cloud::kUsual, 2000);
  const Viewport view{middle_of(cloud), 64.0, 300.0, 200.0};
  Viewport moved = view;
  moved.centre = view.centre + Vec2{20.0 / 64.0, -12.0 / 64.0};
  const Pixels a = painted(cloud, view, 100);
  const Pixels b = painted(cloud, moved, 100);
  int off = 0;
  long long sum = 0;
  for (std::size_t y = 20; y < 170; ++y) {
    for (std::size_t x = 30; x < 260; ++x) {
      const int here = a[4 * (y * 300 + x) + 3];
      sum += here;
      off = std::max(off, std::abs(here - b[4 * ((y - 12) * 300 + (x - 20)) + 3]));
    }
  }
  CHECK(sum > 100000);
  CHECK(off <= 2);
}

TEST_CASE("cloud picture: any view is painted, or left alone", "[cloud][picture][property]") {
  test::Random r(6223);
  const Cloud cloud = cloud_of(Scenario{}, Cloud::kUsual, 300);
  for (int i = 0; i < 60; ++i) {
    const double px_per_nm = std::pow(10.0, r.between(-3.0, 5.0));
    const Vec2 centre{r.between(-3.0, 3.0), r.between(-3.0, 3.0)};
    const Viewport view{centre, px_per_nm, 1.0 + r.below(80), 1.0 + r.below(80)};
    CHECK(painted(cloud, view, 30).size() ==
          4U * static_cast<std::size_t>(view.width_px * view.height_px));
  }
  const double nan = std::nan("");
  for (const Viewport& view : {Viewport{{0, 0}, 0.0, 10, 10}, Viewport{{0, 0}, 60.0, 0, 10},
                               Viewport{{0, 0}, 60.0, 1e5, 1e5}, Viewport{{nan, 0}, 60.0, 10, 10},
                               Viewport{{0, 1e9}, 60.0, 10, 10}, Viewport{{0, 0}, nan, 10, 10},
                               Viewport{{0, 0}, 1e9, 10, 10}, Viewport{{0, 0}, 60, nan, 1}}) {
    CHECK(painted(cloud, view, 30).empty());
  }
  // Nothing flown: nothing seen.
  const Pixels none = painted(Cloud(), {{0, 0}, 60.0, 10.0, 10.0}, 30);
  CHECK(none == Pixels(400, 0));
}
