// core/map_image.h - a map over all winds as pixels.
//
// A disc: north up, each wind at the direction that it blows from and as far from the middle as
// it is strong, the strongest at the rim. How far a value is from the middle of its scale is told
// by lightness alone, so that a print in grey still says it; to which side, by hue: blue above,
// orange below, which colour-blind people tell apart. tests/map_image_test.cpp has the lightness.
#pragma once

#include "core/map_study.h"
#include "core/theme.h"

namespace core {

/// Colour, 0xRRGGBB, of a value so far from the middle of the scale, in reaches of it: beyond 1
/// as at 1. Miss and difference have finer steps near the middle.
[[nodiscard]] std::uint32_t map_colour(Mapped mapped, double from_middle, Theme theme);
/// Colour of the winds in which a rule is the best one.
[[nodiscard]] std::uint32_t rule_colour(HeadingRule rule, Theme theme);

class MapImage {
 public:
  static constexpr int kMostPx = 1600;
  /// `size_px` square, 4 bytes a pixel: red, green, blue, opacity; outside the disc clear. A wind
  /// without a value is hatched. Values in between are interpolated. Empty for an empty field.
  const std::vector<std::uint8_t>& draw(const MapStudy& study, int size_px, Theme theme);

 private:
  /// Where a pixel lies on the grid: between four winds.
  struct Place {
    std::uint32_t slow;     ///< the wind before in direction and speed; kOutside
    std::uint32_t slow_on;  ///< the next direction at that speed
    float direction_share;  ///< of the way to the next direction
    float speed_share;      ///< of the way to the next speed
  };
  static constexpr std::uint32_t kOutside = 0xffffffffU;
  void lay_out(int size_px, const WindGrid& grid);

  std::vector<Place> places_;
  std::vector<std::uint8_t> pixels_;
  int size_px_ = 0;
  WindGrid grid_;
};

}  // namespace core
