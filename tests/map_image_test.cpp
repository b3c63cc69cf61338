// A map as pixels: what colours say, and where winds lie.
#include "core/map_image.h"

#include <catch2/catch_test_macros.hpp>

#include "tests/scenarios.h"

using namespace core;

namespace {

/// Relative luminance, WCAG 2.2 "relative luminance".
double luminance(std::uint32_t rgb) {
  const auto part = [&](unsigned shift) {
    const double c = ((rgb >> shift) & 0xffU) / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(16) + 0.7152 * part(8) + 0.0722 * part(0);
}

std::uint32_t pixel(const std::vector<std::uint8_t>& px, int size, int x, int y) {
  const auto i = static_cast<std::size_t>(4 * (y * size + x));
  return (static_cast<std::uint32_t>(px[i]) << 16U) |
         (static_cast<std::uint32_t>(px[i + 1]) << 8U) | px[i + 2];
}

}  // namespace

TEST_CASE("map image: lightness alone says how far", "[map-image]") {
  for (const Theme theme : {Theme::light, Theme::dark}) {
    const double way = theme == Theme::light ? -1.0 : 1.0;
    for (const double side : {1.0, -1.0}) {
      double before = luminance(map_colour(Mapped::inbound, 0.0, theme));
      for (int i = 1; i <= 20; ++i) {
        const double now = luminance(map_colour(Mapped::inbound, side * i / 20.0, theme));
        CHECK((now - before) * way > 0.0);
        before = now;
      }
    }
    // Of rules, too: each lies apart from the next by a step that grey keeps.
    for (int rule = 1; rule < kHeadingRules; ++rule) {
      const double a = luminance(rule_colour(static_cast<HeadingRule>(rule - 1), theme)) + 0.05;
      const double b = luminance(rule_colour(static_cast<HeadingRule>(rule), theme)) + 0.05;
      CHECK((theme == Theme::light ? a / b : b / a) > 1.25);
    }
    CHECK(map_colour(Mapped::miss, 7.0, theme) == map_colour(Mapped::miss, 1.0, theme));
  }
}

TEST_CASE("map image: a wind lies where it blows from, north up", "[map-image]") {
  Scenario s;
  MapStudy study;
  const Setup u = make_setup(s);
  study.begin(u, {Mapped::miss, MapPlan::drift_once, {}, 40.0});
  MapImage image;
  CHECK(image.draw(study, 200, Theme::light).empty());
  while (!study.work(100000)) {
  }
  const int size = 401;
  const std::vector<std::uint8_t> px = image.draw(study, size, Theme::light);
  REQUIRE(px.size() == static_cast<std::size_t>(4 * size * size));
  CHECK(px[3] == 0);  // a corner
  for (const Wind wind :
       {Wind{360.0, 30.0}, Wind{90.0, 30.0}, Wind{180.0, 12.0}, Wind{225.0, 20.0}}) {
    const Vec2 at = along(wind.from_deg) * (wind.speed_kt / 40.0 * 0.5 * size);
    const int x = static_cast<int>(0.5 * size + at.x);
    const int y = static_cast<int>(0.5 * size - at.y);
    const double miss = map_value(u, study.choice(), wind);
    const std::uint32_t want = map_colour(Mapped::miss, miss, Theme::light);
    const std::uint32_t got = pixel(px, size, x, y);
    for (const unsigned shift : {16U, 8U, 0U}) {
      CHECK(std::abs(static_cast<int>((want >> shift) & 0xffU) -
                     static_cast<int>((got >> shift) & 0xffU)) < 8);
    }
  }
  CHECK(image.draw(study, 0, Theme::light).empty());
  CHECK(image.draw(study, 1000000, Theme::light).empty());
}
