#include "core/outline.h"

#include <limits>

namespace core {
namespace {

constexpr int kN = Outline::kPoints;

std::size_t index(int i) { return static_cast<std::size_t>(i); }

double distance_to(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 ab = b - a;
  const double l2 = dot(ab, ab);
  double s = l2 > 0.0 ? dot(p - a, ab) / l2 : 0.0;
  s = s < 0.0 ? 0.0 : s > 1.0 ? 1.0 : s;
  return length(p - (a + ab * s));
}

}  // namespace

double inside_nm(const Outline& outline, Vec2 at) {
  double inside = std::numeric_limits<double>::infinity();
  double outside = inside;
  bool out = false;
  for (int i = 0; i < kN; ++i) {
    const Vec2 a = outline[i];
    const Vec2 b = outline[i + 1 < kN ? i + 1 : 0];
    const Vec2 ab = b - a;
    const double l = length(ab);
    if (l < 1e-12) continue;  // corners of a point-like circle coincide
    // Clockwise: the inside is to the right of each side.
    const double depth = (ab.y * (at.x - a.x) - ab.x * (at.y - a.y)) / l;
    if (depth < 0.0) {
      out = true;
      outside = std::fmin(outside, distance_to(at, a, b));
    } else {
      inside = std::fmin(inside, depth);
    }
  }
  return out ? -outside : inside;
}

double enclosed_nm2(const Outline& outline) {
  double twice = 0.0;
  for (int i = 0; i < kN; ++i) {
    const Vec2 a = outline[i];
    const Vec2 b = outline[i + 1 < kN ? i + 1 : 0];
    twice += b.x * a.y - a.x * b.y;
  }
  return 0.5 * twice;
}

Outline widened(const Outline& outline, const Hold& hold, double nm) {
  Outline out;  // NOLINT: filled next
  for (int i = 0; i < kN; ++i) {
    out.points[index(i)] = outline[i] + along(hold.outbound_course_deg() + 360.0 / kN * i) * nm;
  }
  return out;
}

CircleWrap::CircleWrap() : point_{} {
  for (int i = 0; i < kN; ++i) direction_[index(i)] = hold_frame_unit(360.0 / kN * i);
  reach_.fill(-std::numeric_limits<double>::infinity());
}

void CircleWrap::add(Vec2 centre, double radius) {
  for (int i = 0; i < kN; ++i) {
    const Vec2 u = direction_[index(i)];
    const double reach = dot(centre, u) + radius;
    if (reach <= reach_[index(i)]) continue;
    reach_[index(i)] = reach;
    point_[index(i)] = centre + u * radius;
  }
}

Outline CircleWrap::outline(const Hold& hold) const {
  const Vec2 x = hold.outbound_axis();
  const Vec2 y = hold.holding_axis();
  Outline out;  // NOLINT: filled next
  for (int i = 0; i < kN; ++i) {
    // The corners run the way the pattern turns: clockwise for right turns only.
    const int from = hold.turns == Side::right || i == 0 ? i : kN - i;
    const Vec2 p = point_[index(from)];
    out.points[index(i)] = x * p.x + y * p.y;
  }
  return out;
}

}  // namespace core
