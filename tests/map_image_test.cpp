// A map as pixels: what colours say, and where winds lie.
#include "core/map_image.h"
#include "core/map_json.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstdio>
#include <string>

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

TEST_CASE("map image: its rim is its fastest wind, not a step less or more", "[map-image]") {
  // A weak wind's colours are not yet at their ends.
  MapStudy study;
  const Setup u = make_setup({});
  study.begin(u, {Mapped::miss, MapPlan::drift_once, {}, 10.0});
  while (!study.work(100000)) {
  }
  constexpr int kSize = 401;
  constexpr double kHalf = 0.5 * kSize;
  MapImage image;
  const std::vector<std::uint8_t> px = image.draw(study, kSize, Theme::light);
  double far[3] = {};  // from the colours of the wind itself, of one a step weaker, and stronger
  for (double from = 15.0; from < 360.0; from += 30.0) {
    const Vec2 to = along(from) * (0.98 * kHalf);
    const int x = static_cast<int>(kHalf + to.x);
    const int y = static_cast<int>(kHalf - to.y);
    const Vec2 at{x + 0.5 - kHalf, kHalf - y - 0.5};
    const std::uint32_t got = pixel(px, kSize, x, y);
    for (int k = 0; k < 3; ++k) {
      const double steps = k == 0 ? 60.0 : k == 1 ? 59.0 : 61.0;
      const Wind wind{direction_of(at), length(at) / kHalf * 10.0 * steps / 60.0};
      const std::uint32_t c = map_colour(
          Mapped::miss, map_value(u, study.choice(), wind) / study.reach(), Theme::light);
      for (const unsigned shift : {16U, 8U, 0U}) {
        far[k] += std::abs(static_cast<int>((c >> shift) & 0xffU) -
                           static_cast<int>((got >> shift) & 0xffU));
      }
    }
  }
  CHECK(far[0] < 0.5 * far[1]);
  CHECK(far[0] < 0.5 * far[2]);
}

TEST_CASE("map image: the best rule of each wind has its colour, no value a hatch", "[map-image]") {
  const Setup u = make_setup(Scenario{});
  MapStudy study;
  study.begin(u, {Mapped::miss, MapPlan::best, {}, 40.0});
  while (!study.work(100000)) {
  }
  MapImage image;
  const int size = 401;
  const std::vector<std::uint8_t> px = image.draw(study, size, Theme::light);
  const WindGrid& grid = study.field().grid;
  const double centre = 0.5 * size - 0.5;
  int known = 0;
  int hatched = 0;
  for (int direction = 0; direction < grid.directions; direction += 7) {
    for (int speed = 10; speed < grid.speeds - 1; speed += 9) {
      const double r = 0.5 * size * grid.speed_kt(speed) / 40.0;
      const Vec2 way = along(grid.from_deg(direction));
      const int x = static_cast<int>(std::lround(centre + way.x * r));
      const int y = static_cast<int>(std::lround(centre - way.y * r));
      const std::uint8_t opacity = px[static_cast<std::size_t>(4 * (y * size + x) + 3)];
      const std::size_t i = grid.index(direction, speed);
      if (!std::isfinite(study.field().value[i])) {
        CHECK((opacity == 110 || opacity == 20));
        ++hatched;
        continue;
      }
      // Its own rule, or that of a wind a pixel away.
      const std::uint32_t seen = pixel(px, size, x, y);
      bool is_near = false;
      for (const int d : {-2, -1, 0, 1, 2}) {
        for (const int s : {-1, 0, 1}) {
          const int at = (direction + d + grid.directions) % grid.directions;
          is_near =
              is_near || seen == rule_colour(static_cast<HeadingRule>(
                                                 study.field().rule[grid.index(at, speed + s)]),
                                             Theme::light);
        }
      }
      CHECK((opacity == 255 && is_near));
      ++known;
    }
  }
  CHECK(known > 100);
  CHECK(hatched == 0);
}

TEST_CASE("map image: what is told of a map is what the study says", "[map-image]") {
  Scenario s;
  s.wind_kt = 20.0;
  const Setup u = make_setup(s);
  for (const MapPlan plan : {MapPlan::drift_once, MapPlan::best}) {
    for (const bool less : {false, true}) {
      MapChoice choice{Mapped::miss, plan, {}, 40.0};
      if (less) choice.less = MapPlan::still_air;
      MapStudy study;
      study.begin(u, choice);
      while (!study.work(100000)) {
      }
      Json json;
      write_map(json, study);
      const std::string text = json.take();
      const auto number = [&](const std::string& name) {
        const std::size_t at = text.find("\"" + name + "\":");
        REQUIRE(at != std::string::npos);
        return std::stod(text.substr(at + name.size() + 3));
      };
      const auto has = [&](const std::string& part) {
        return text.find(part) != std::string::npos;
      };
      CAPTURE(text.substr(0, 300));
      CHECK(has("\"mapped\":\"" + std::string(name_of(Mapped::miss)) + "\""));
      CHECK(has("\"plan\":\"" + std::string(name_of(plan)) + "\""));
      CHECK(has(less ? "\"less\":\"" + std::string(name_of(MapPlan::still_air)) + "\""
                     : "\"less\":null"));
      CHECK(has(less ? "\"range\":[null," : "\"range\":[-0.25,0.25]"));
      CHECK(number("directions") == study.field().grid.directions);
      CHECK(number("speeds") == study.field().grid.speeds);
      CHECK(std::abs(number("share") - share_in(study.field(), study.good())) < 1e-6);
      CHECK(std::abs(number("median") - distances(study.field(), 0.0).median) < 1e-6);
      CHECK(std::abs(number("value") - map_value(u, choice, u.wind)) < 1e-6);
      CHECK((has("\"levels\":[-1,-0.5,-0.25,") && has(",0.25,0.5,1],")));
      CHECK(has("\"rules\":[]") == study.field().rule.empty());
    }
  }
  Json json;
  write_map_colours(json, Mapped::miss, Theme::light);
  const std::string colours = json.take();
  char ends[2][8];
  for (const int side : {0, 1}) {
    std::snprintf(ends[side], sizeof ends[side], "#%06x",
                  static_cast<unsigned>(map_colour(Mapped::miss, side ? 1.0 : -1.0, Theme::light)));
  }
  CHECK(colours.find(std::string("{\"scale\":[\"") + ends[0]) == 0);
  CHECK(colours.find(std::string(ends[1]) + "\"],\"rules\":[\"") != std::string::npos);
}
