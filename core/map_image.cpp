#include "core/map_image.h"

#include <array>
#include <cmath>

namespace core {
namespace {

struct Ramp {
  std::array<std::uint32_t, 3> above;  ///< at the middle, halfway, at the end
  std::array<std::uint32_t, 3> below;
};
constexpr Ramp kLight{{0xfbfaf7, 0x86b7da, 0x0b4a7a}, {0xfbfaf7, 0xeaa568, 0x7c3a06}};
constexpr Ramp kDark{{0x12161f, 0x2f6c98, 0xb4dcf5}, {0x12161f, 0x9a581f, 0xffcfa0}};
/// In the order of HeadingRule; each darker, or lighter, than the one before.
constexpr std::array<std::uint32_t, kHeadingRules> kRulesLight{0xe9eaee, 0x9fc8e8, 0xd9a05b,
                                                               0x3f9478};
constexpr std::array<std::uint32_t, kHeadingRules> kRulesDark{0x2a303c, 0x2c5f86, 0xa8763a,
                                                              0x7fd0b2};

bool is_dark(Theme theme) { return theme == Theme::dark || theme == Theme::contrast_dark; }

std::uint32_t mix(std::uint32_t a, std::uint32_t b, double t) {
  std::uint32_t out = 0;
  for (const unsigned shift : {16U, 8U, 0U}) {
    const double x = (a >> shift) & 0xffU;
    const double y = (b >> shift) & 0xffU;
    out |= static_cast<std::uint32_t>(x + (y - x) * t + 0.5) << shift;
  }
  return out;
}

void put(std::uint8_t* to, std::uint32_t rgb, std::uint8_t opacity) {
  to[0] = static_cast<std::uint8_t>(rgb >> 16U);
  to[1] = static_cast<std::uint8_t>(rgb >> 8U);
  to[2] = static_cast<std::uint8_t>(rgb);
  to[3] = opacity;
}

/// Colours from one end of a scale to the other.
constexpr int kSteps = 256;
using Scale = std::array<std::uint32_t, 2 * kSteps + 1>;
Scale scale_of(Mapped mapped, Theme theme) {
  Scale out{};
  for (int i = -kSteps; i <= kSteps; ++i) {
    out[static_cast<std::size_t>(i + kSteps)] =
        map_colour(mapped, static_cast<double>(i) / kSteps, theme);
  }
  return out;
}

/// Where on the grid a share of it lies: the point before, the one after, and how far between.
struct Between {
  int before;
  int after;
  double share;
};
Between on_circle(float share, int count) {
  const double at = static_cast<double>(share) * count;
  const int before = static_cast<int>(at) < count ? static_cast<int>(at) : count - 1;
  return {before, before + 1 < count ? before + 1 : 0, at - before};
}
Between on_line(float share, int count) {
  const double at = static_cast<double>(share) * (count - 1);
  const int before = static_cast<int>(at) < count - 1 ? static_cast<int>(at) : count - 2;
  return {before, before + 1, at - before};
}

}  // namespace

std::uint32_t map_colour(Mapped mapped, double from_middle, Theme theme) {
  const Ramp& ramp = is_dark(theme) ? kDark : kLight;
  const auto& side = from_middle >= 0.0 ? ramp.above : ramp.below;
  const double size = std::abs(from_middle) < 1.0 ? std::abs(from_middle) : 1.0;
  const double t = 2.0 * (mapped == Mapped::miss ? std::sqrt(size) : size);
  return t < 1.0 ? mix(side[0], side[1], t) : mix(side[1], side[2], t - 1.0);
}

std::uint32_t rule_colour(HeadingRule rule, Theme theme) {
  return (is_dark(theme) ? kRulesDark : kRulesLight)[static_cast<std::size_t>(rule)];
}

void MapImage::lay_out(int size_px) {
  if (size_px == size_px_) return;
  size_px_ = size_px;
  places_.clear();
  places_.reserve(static_cast<std::size_t>(size_px) * static_cast<std::size_t>(size_px));
  const double half = 0.5 * size_px;
  for (int row = 0; row < size_px; ++row) {
    for (int column = 0; column < size_px; ++column) {
      const Vec2 at{(column + 0.5 - half) / half, (half - row - 0.5) / half};
      const double circle = direction_of(at) / 360.0;
      places_.push_back({static_cast<float>(circle < 1.0 ? circle : circle - 1.0),
                         static_cast<float>(length(at))});
    }
  }
}

const std::vector<std::uint8_t>& MapImage::draw(const MapStudy& study, int size_px, Theme theme) {
  const MapField& field = study.field();
  pixels_.clear();
  if (field.empty() || size_px < 1 || size_px > kMostPx) return pixels_;
  lay_out(size_px);
  pixels_.resize(4 * places_.size());
  const WindGrid& grid = field.grid;
  const Scale scale = scale_of(study.choice().mapped, theme);
  const std::uint32_t hatch = is_dark(theme) ? 0x9aa0ad : 0x656c7c;
  const double middle = study.middle();
  const double steps = kSteps / study.reach();
  const bool by_rule = !field.rule.empty() && !study.choice().less;
  for (std::size_t i = 0; i < places_.size(); ++i) {
    std::uint8_t* const to = &pixels_[4 * i];
    const Place place = places_[i];
    if (place.speed > 1.0F) {
      put(to, 0, 0);
      continue;
    }
    const Between circle = on_circle(place.circle, grid.directions);
    const Between speed = on_line(place.speed, grid.speeds);
    const auto value = [&](int direction, int row) {
      return field.value[grid.index(direction, row)];
    };
    const double slow = value(circle.before, speed.before) * (1.0 - circle.share) +
                        value(circle.after, speed.before) * circle.share;
    const double fast = value(circle.before, speed.after) * (1.0 - circle.share) +
                        value(circle.after, speed.after) * circle.share;
    const double v = slow + (fast - slow) * speed.share;
    if (v != v) {
      const auto px = static_cast<std::size_t>(size_px);
      const bool line = (i / px + i % px) % 8 < 2;
      put(to, hatch, line ? 110 : 20);
    } else if (by_rule) {
      const int direction = circle.share < 0.5 ? circle.before : circle.after;
      const int row = speed.share < 0.5 ? speed.before : speed.after;
      put(to, rule_colour(static_cast<HeadingRule>(field.rule[grid.index(direction, row)]), theme),
          255);
    } else {
      const double step = (v - middle) * steps;
      const double kept = step < -kSteps ? -kSteps : step > kSteps ? kSteps : step;
      put(to, scale[static_cast<std::size_t>(kept + kSteps + 0.5)], 255);
    }
  }
  return pixels_;
}

}  // namespace core
