// core/outline.h - a closed convex line about a hold, and how far inside it a point lies.
#pragma once

#include <array>
#include <cstddef>

#include "core/hold.h"

namespace core {

/// A closed convex line in the core's plane (NM), clockwise seen from above. Point i is the
/// farthest in the direction of corner i, which is i degrees clockwise from the outbound
/// course; a side may cut the true curve between two corners by up to 0.02 NM.
struct Outline {
  static constexpr int kPoints = 360;
  std::array<Vec2, kPoints> points;  // NOLINT: set by whoever makes one

  [[nodiscard]] Vec2 operator[](int i) const { return points[static_cast<std::size_t>(i)]; }
};

/// How far inside an outline a point lies, NM; negative: that far outside.
[[nodiscard]] double inside_nm(const Outline& outline, Vec2 at);
/// Area enclosed, NM^2.
[[nodiscard]] double enclosed_nm2(const Outline& outline);
/// The line `nm` farther out; the corners move apart on arcs. `hold` is the outline's.
[[nodiscard]] Outline widened(const Outline& outline, const Hold& hold, double nm);

/// The frame in which a hold's lines are made: x along the outbound axis, y toward the
/// holding side, angles like the sectors' delta: 0 outbound, positive the way the pattern
/// turns. Left and right turns then come out as exact mirror images.
[[nodiscard]] inline Vec2 hold_frame_unit(double delta_deg) {
  const SinCos s = sincos_deg(delta_deg);
  return {s.cos, -s.sin};
}

/// Wraps circles, given in the hold's frame: the convex line about all of them.
class CircleWrap {
 public:
  CircleWrap();
  void add(Vec2 centre, double radius);
  /// In the core's plane.
  [[nodiscard]] Outline outline(const Hold& hold) const;

 private:
  // By direction: corner i looks i degrees the way the pattern turns from outbound.
  std::array<Vec2, Outline::kPoints> direction_;
  std::array<Vec2, Outline::kPoints> point_;
  std::array<double, Outline::kPoints> reach_;
};

}  // namespace core
