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
    out |= static_cast<std::uint32_t>(std::lround(x + (y - x) * t)) << shift;
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
/// From steps either way of the middle to the nearest place in a scale, once cut off.
constexpr double kToPlace = kSteps + 0.5;
using Scale = std::array<std::uint32_t, 2 * kSteps + 1>;
Scale scale_of(Mapped mapped, Theme theme) {
  Scale out{};
  for (int i = 0; i <= 2 * kSteps; ++i) {
    out[static_cast<std::size_t>(i)] =
        map_colour(mapped, static_cast<double>(i - kSteps) / kSteps, theme);
  }
  return out;
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

void MapImage::lay_out(int size_px, const WindGrid& grid) {
  if (size_px == size_px_ && grid == grid_) return;
  size_px_ = size_px;
  grid_ = grid;
  places_.clear();
  places_.reserve(static_cast<std::size_t>(size_px) * static_cast<std::size_t>(size_px));
  const double half = 0.5 * size_px;
  for (int row = 0; row < size_px; ++row) {
    for (int column = 0; column < size_px; ++column) {
      const Vec2 at{(column + 0.5 - half) / half, (half - row - 0.5) / half};
      const double from_middle = length(at);
      if (from_middle > 1.0) {
        places_.push_back({kOutside, kOutside, 0.0F, 0.0F});
        continue;
      }
      const double speed = from_middle * (grid.speeds - 1);
      const double direction = direction_of(at) / 360.0 * grid.directions;
      const int slow = speed < grid.speeds - 2 ? static_cast<int>(speed) : grid.speeds - 2;
      const int before = static_cast<int>(direction) % grid.directions;
      const double whole = std::floor(direction);
      places_.push_back(
          {static_cast<std::uint32_t>(grid.index(before, slow)),
           static_cast<std::uint32_t>(grid.index((before + 1) % grid.directions, slow)),
           static_cast<float>(direction - whole), static_cast<float>(speed - slow)});
    }
  }
}

const std::vector<std::uint8_t>& MapImage::draw(const MapStudy& study, int size_px, Theme theme) {
  const MapField& field = study.field();
  pixels_.clear();
  if (field.empty() || size_px < 1 || size_px > kMostPx) return pixels_;
  lay_out(size_px, field.grid);
  pixels_.resize(4 * places_.size());
  const auto next_speed = static_cast<std::size_t>(field.grid.directions);
  const Scale scale = scale_of(study.choice().mapped, theme);
  const std::uint32_t hatch = is_dark(theme) ? 0x9aa0ad : 0x656c7c;
  const double middle = study.middle();
  const double steps = kSteps / study.reach();
  const bool by_rule = !field.rule.empty() && !study.choice().less;
  for (std::size_t i = 0; i < places_.size(); ++i) {
    std::uint8_t* const to = &pixels_[4 * i];
    const Place& at = places_[i];
    if (at.slow == kOutside) {
      put(to, 0, 0);
      continue;
    }
    const auto direction_share = static_cast<double>(at.direction_share);
    const auto between = [&](std::size_t before, std::size_t after) {
      return field.value[before] + (field.value[after] - field.value[before]) * direction_share;
    };
    const double slow = between(at.slow, at.slow_on);
    const double fast = between(at.slow + next_speed, at.slow_on + next_speed);
    const double v = slow + (fast - slow) * static_cast<double>(at.speed_share);
    if (v != v) {
      const auto px = static_cast<std::size_t>(size_px);
      const bool line = (i / px + i % px) % 8 < 2;
      put(to, hatch, line ? 110 : 20);
    } else if (by_rule) {
      const std::size_t nearest = (at.direction_share < 0.5F ? at.slow : at.slow_on) +
                                  (at.speed_share < 0.5F ? 0 : next_speed);
      put(to, rule_colour(static_cast<HeadingRule>(field.rule[nearest]), theme), 255);
    } else {
      const double step = (v - middle) * steps;
      const double kept = step < -kSteps ? -kSteps : step > kSteps ? kSteps : step;
      put(to, scale[static_cast<std::size_t>(kept + kToPlace)], 255);
    }
  }
  return pixels_;
}

}  // namespace core
