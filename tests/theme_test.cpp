// Contrast of every paint, computed by the WCAG 2.2 formula (relative luminance,
// success criteria 1.4.3 and 1.4.11), in every theme.
#include "core/theme.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstring>
#include <string>

using namespace core;

namespace {

double linear(double channel) {
  return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

struct Rgb {
  double r, g, b;
};

Rgb rgb_of(std::uint32_t c) {
  return {((c >> 16) & 255U) / 255.0, ((c >> 8) & 255U) / 255.0, (c & 255U) / 255.0};
}

double luminance(Rgb c) {
  return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

double contrast(Rgb a, Rgb b) {
  const double x = luminance(a);
  const double y = luminance(b);
  return (std::fmax(x, y) + 0.05) / (std::fmin(x, y) + 0.05);
}

Rgb laid_over(Rgb top, double opacity, Rgb paper) {
  const auto mix = [opacity](double a, double b) { return opacity * a + (1.0 - opacity) * b; };
  return {mix(top.r, paper.r), mix(top.g, paper.g), mix(top.b, paper.b)};
}

bool decorates(Role r) {
  return r == Role::paper || r == Role::ring || r == Role::streak || r == Role::pattern_fill ||
         r == Role::sector_fill || r == Role::area_fill;
}

constexpr Theme kThemes[] = {Theme::light, Theme::dark, Theme::contrast_light,
                             Theme::contrast_dark};

}  // namespace

TEST_CASE("theme: lines that mean something stand out 3:1, letters 4.5:1", "[theme]") {
  for (const Theme theme : kThemes) {
    const Rgb paper = rgb_of(paint(Role::paper, theme).rgb);
    for (int i = 0; i < kRoleCount; ++i) {
      const auto role = static_cast<Role>(i);
      const Paint p = paint(role, theme);
      CAPTURE(static_cast<int>(theme), role_name(role));
      if (role == Role::paper) continue;
      if (p.width_px > 0.0) CHECK(contrast(rgb_of(p.rgb), paper) >= 4.5);
      if (!decorates(role)) {
        CHECK(contrast(laid_over(rgb_of(p.rgb), p.opacity, paper), paper) >= 3.0);
      }
    }
  }
}

TEST_CASE("theme: lines stand out 3:1 over the areas too, as the layers lay them", "[theme]") {
  constexpr Role kOver[][2] = {{Role::sector_fill, Role::pattern_fill},
                               {Role::area_fill, Role::pattern_fill}};
  for (const Theme theme : kThemes) {
    for (const auto& areas : kOver) {
      Rgb ground = rgb_of(paint(Role::paper, theme).rgb);
      for (const Role area : areas) {
        const Paint p = paint(area, theme);
        ground = laid_over(rgb_of(p.rgb), p.opacity, ground);
      }
      // The pattern's own name has no halo.
      CHECK(contrast(rgb_of(paint(Role::quiet, theme).rgb), ground) >= 4.5);
      for (int i = 0; i < kRoleCount; ++i) {
        const auto role = static_cast<Role>(i);
        const Paint p = paint(role, theme);
        CAPTURE(static_cast<int>(theme), role_name(areas[0]), role_name(role));
        if (!decorates(role)) {
          CHECK(contrast(laid_over(rgb_of(p.rgb), p.opacity, ground), ground) >= 3.0);
        }
      }
    }
  }
}

TEST_CASE("theme: forced colours have two, and nothing between", "[theme]") {
  for (const Theme theme : {Theme::contrast_light, Theme::contrast_dark}) {
    const std::uint32_t paper = paint(Role::paper, theme).rgb;
    for (int i = 0; i < kRoleCount; ++i) {
      const Paint p = paint(static_cast<Role>(i), theme);
      CAPTURE(role_name(static_cast<Role>(i)));
      CHECK((p.opacity == 0.0 || p.opacity == 1.0));
      CHECK((static_cast<Role>(i) == Role::paper) == (p.rgb == paper));
    }
  }
}

TEST_CASE("theme: every plan has a line style of its own", "[theme]") {
  constexpr Role kPlans[] = {Role::flown, Role::no_correction, Role::rule,
                             Role::exact, Role::own,           Role::other_entry};
  for (const Role a : kPlans) {
    for (const Role b : kPlans) {
      if (a == b) continue;
      const Paint p = paint(a, Theme::light);
      const Paint q = paint(b, Theme::light);
      CAPTURE(role_name(a), role_name(b));
      CHECK(std::memcmp(p.dash_px, q.dash_px, sizeof p.dash_px) != 0);
      CHECK(p.rgb != q.rgb);
    }
  }
  for (const Role r : kPlans) {
    CHECK(paint(Role::flown, Theme::light).width_px >= paint(r, Theme::light).width_px);
  }
}

TEST_CASE("theme: roles have distinct names", "[theme]") {
  for (int i = 0; i < kRoleCount; ++i) {
    for (int k = i + 1; k < kRoleCount; ++k) {
      CHECK(std::string(role_name(static_cast<Role>(i))) != role_name(static_cast<Role>(k)));
    }
  }
}
