// web/view_pixels.h - device-pixel vectors and limits that lines and areas share.
#pragma once

#include <algorithm>
#include <cmath>

#include "core/units.h"
#include "imgui.h"

namespace view {

inline constexpr float kFade = 0.5F;          ///< half of the soft edge, px
inline constexpr double kTiny = 1e-4;         ///< shorter steps than this have no direction, px
inline constexpr int kMaxVertices = 1000000;  ///< what a hostile diagram may cost at most
inline constexpr double kFarthest = 1e9;      ///< beyond, clipping loses whole pixels to rounding

/// Whether a point may be drawn with; not so where it is not finite.
inline bool usable(core::Vec2 p) { return std::abs(p.x) < kFarthest && std::abs(p.y) < kFarthest; }

inline ImVec2 operator+(ImVec2 a, ImVec2 b) { return {a.x + b.x, a.y + b.y}; }
inline ImVec2 operator-(ImVec2 a, ImVec2 b) { return {a.x - b.x, a.y - b.y}; }
inline ImVec2 operator*(ImVec2 a, float k) { return {a.x * k, a.y * k}; }
inline float dot(ImVec2 a, ImVec2 b) { return a.x * b.x + a.y * b.y; }
/// Positive where `b` lies clockwise of `a` on the screen.
inline float cross(ImVec2 a, ImVec2 b) { return a.x * b.y - a.y * b.x; }
inline float length(ImVec2 a) { return std::sqrt(dot(a, a)); }
inline ImVec2 left_of(ImVec2 d) { return {d.y, -d.x}; }
inline ImVec2 to_float(core::Vec2 p) { return {static_cast<float>(p.x), static_cast<float>(p.y)}; }

/// Unit vector; to the right where the two points are one.
inline ImVec2 direction(ImVec2 from, ImVec2 to) {
  const ImVec2 d = to - from;
  const float n = length(d);
  return n > 0.0F ? d * (1.0F / n) : ImVec2(1.0F, 0.0F);
}

inline ImU32 with_alpha(ImU32 colour, double factor) {
  const double a = static_cast<double>((colour >> IM_COL32_A_SHIFT) & 0xFFU) * factor;
  const auto alpha = static_cast<ImU32>(std::lround(std::clamp(a, 0.0, 255.0)));
  return (colour & ~IM_COL32_A_MASK) | (alpha << IM_COL32_A_SHIFT);
}

}  // namespace view
