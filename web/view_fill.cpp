// web/view_fill.cpp - areas and circles.
#include <algorithm>
#include <cmath>

#include "web/view_canvas.h"
#include "web/view_pixels.h"

namespace view {
namespace {

using core::Vec2;

constexpr double kMaxRadius = 1e6;  // a larger circle is not drawn, px

/// Corners of a circle that strays from the true one by a twentieth of a pixel at most.
int circle_steps(double radius) {
  const double step = 2.0 * std::acos(1.0 - std::min(0.5, 0.05 / std::max(radius, 0.2)));
  return std::max(16, static_cast<int>(std::ceil(2.0 * core::kPi / step)));
}

/// Twice the signed area; positive where the corners run clockwise on the screen.
double area_of(const std::vector<Vec2>& p) {
  double sum = 0.0;
  for (std::size_t i = 0, j = p.size() - 1; i < p.size(); j = i++) {
    sum += p[j].x * p[i].y - p[i].x * p[j].y;
  }
  return sum;
}

}  // namespace

/// Leaves in `area_` the part of the polygon within the picture and a margin, without
/// points that are not finite or repeat. Sutherland and Hodgman's method.
void Canvas::clip_area(const std::vector<Vec2>& points) {
  constexpr double kMargin = 8.0;
  area_.clear();
  for (const Vec2 p : points) {
    if (usable(p) && (area_.empty() || core::length(p - area_.back()) > kTiny)) area_.push_back(p);
  }
  const auto inside = [&](Vec2 p, int side) {  // distance within that side
    switch (side) {
      case 0:
        return p.x + kMargin;
      case 1:
        return width_ + kMargin - p.x;
      case 2:
        return p.y + kMargin;
      default:
        return height_ + kMargin - p.y;
    }
  };
  for (int side = 0; side < 4; ++side) {
    clipped_.clear();
    for (std::size_t i = 0, j = area_.size() - 1; i < area_.size(); j = i++) {
      const double a = inside(area_[j], side);
      const double b = inside(area_[i], side);
      if ((a < 0.0) != (b < 0.0)) {
        clipped_.push_back(area_[j] + (area_[i] - area_[j]) * (a / (a - b)));
      }
      if (b >= 0.0) clipped_.push_back(area_[i]);
    }
    area_.swap(clipped_);
  }
  while (area_.size() > 1 && core::length(area_.front() - area_.back()) <= kTiny) area_.pop_back();
}

void Canvas::fill(const std::vector<Vec2>& points, ImU32 colour) {
  constexpr std::size_t kMaxEars = 1000;
  clip_area(points);
  if (area_.size() < 3) return;
  if (area_of(area_) < 0.0) std::reverse(area_.begin(), area_.end());
  tidy_.clear();
  for (const Vec2 p : area_) tidy_.push_back(to_float(p));
  area(colour, area_.size() > kMaxEars);
}

/// The polygon in `tidy_`, which runs clockwise on the screen. Every corner becomes two
/// vertices: half a pixel in, opaque, and half a pixel out, clear.
void Canvas::area(ImU32 colour, bool convex) {
  if (list_.VtxBuffer.Size > kMaxVertices || (colour & IM_COL32_A_MASK) == 0) return;
  const std::size_t n = tidy_.size();
  const auto first = static_cast<ImDrawIdx>(list_._VtxCurrentIdx);
  list_.PrimReserve(static_cast<int>((n - 2) * 3 + n * 6), static_cast<int>(n * 2));
  for (std::size_t i = 0; i < n; ++i) {
    const ImVec2 d0 = direction(tidy_[(i + n - 1) % n], tidy_[i]);
    const ImVec2 d1 = direction(tidy_[i], tidy_[(i + 1) % n]);
    const float spread = std::max(1.0F + dot(d0, d1), 0.25F);  // blunt the sharpest corners
    const ImVec2 out = (left_of(d0) + left_of(d1)) * (kFade / spread);
    list_.PrimWriteVtx(tidy_[i] - out, white_, colour);
    list_.PrimWriteVtx(tidy_[i] + out, white_, colour & ~IM_COL32_A_MASK);
  }
  convex ? fan(first) : cut_ears(first);
  for (std::size_t i = 0; i < n; ++i) {
    const auto a = first + static_cast<ImDrawIdx>(2 * i);
    const auto b = first + static_cast<ImDrawIdx>(2 * ((i + 1) % n));
    for (const ImDrawIdx index : {a, a + 1, b + 1, a, b + 1, b}) list_.PrimWriteIdx(index);
  }
}

void Canvas::fan(ImDrawIdx first) {
  for (ImDrawIdx i = 1; i + 1 < tidy_.size(); ++i) {
    for (const ImDrawIdx corner : {first, first + 2 * i, first + 2 * (i + 1)}) {
      list_.PrimWriteIdx(corner);
    }
  }
}

/// Cuts the ears off the polygon in `tidy_` until none is left; vertex i of the list is
/// 2 i after `first`. Where no corner is an ear (edges that cross, or lie on one another)
/// the next corner is cut all the same.
void Canvas::cut_ears(ImDrawIdx first) {
  ears_.clear();
  for (ImDrawIdx i = 0; i < tidy_.size(); ++i) ears_.push_back(i);
  const auto turn = [&](ImDrawIdx a, ImDrawIdx b, ImDrawIdx c) {
    return cross(tidy_[b] - tidy_[a], tidy_[c] - tidy_[b]);
  };
  const auto is_ear = [&](ImDrawIdx a, ImDrawIdx b, ImDrawIdx c) {
    if (turn(a, b, c) < 0.0F) return false;
    return std::none_of(ears_.begin(), ears_.end(), [&](ImDrawIdx p) {
      return p != a && p != b && p != c && turn(a, b, p) > 0.0F && turn(b, c, p) > 0.0F &&
             turn(c, a, p) > 0.0F;
    });
  };
  std::size_t k = 0;
  std::size_t tried = 0;
  while (ears_.size() >= 3) {
    if (k >= ears_.size()) k = 0;
    const ImDrawIdx a = k == 0 ? ears_.back() : ears_[k - 1];
    const ImDrawIdx b = ears_[k];
    const ImDrawIdx c = k + 1 == ears_.size() ? ears_.front() : ears_[k + 1];
    if (tried < ears_.size() && !is_ear(a, b, c)) {
      ++k;
      ++tried;
      continue;
    }
    for (const ImDrawIdx corner : {a, b, c}) list_.PrimWriteIdx(first + 2 * corner);
    ears_.erase(ears_.begin() + static_cast<std::ptrdiff_t>(k));
    tried = 0;
  }
}

void Canvas::ring(Vec2 centre, double radius, const Pen& pen) {
  if (!usable(centre) || !(radius >= 0.0) || radius > kMaxRadius) return;
  if (!sees(centre, radius + pen.width + 4.0)) return;
  const int n = circle_steps(radius);
  std::vector<Vec2> points(static_cast<std::size_t>(n));
  for (int i = 0; i < n; ++i) {
    points[static_cast<std::size_t>(i)] = centre + core::along(360.0 * i / n) * radius;
  }
  stroke(points, pen, true);
}

void Canvas::disc(Vec2 centre, double radius, ImU32 colour) {
  if (!usable(centre) || !(radius > 0.0) || radius > kMaxRadius || !sees(centre, radius + 2.0)) {
    return;
  }
  // A disc smaller than a pixel is a pixel's disc made fainter.
  const double r = std::max(radius, 0.5);
  const int n = circle_steps(r);
  if (r > 500.0) {
    std::vector<Vec2> points;
    points.reserve(static_cast<std::size_t>(n));
    for (int i = 0; i < n; ++i) points.push_back(centre + core::along(360.0 * i / n) * r);
    clip_area(points);
    if (area_.size() < 3) return;
    std::reverse(area_.begin(), area_.end());
    tidy_.clear();
    for (const Vec2 p : area_) tidy_.push_back(to_float(p));
  } else {
    tidy_.clear();
    for (int i = 0; i < n; ++i) {
      const Vec2 out = core::along(360.0 * i / n);  // clockwise, once y points down
      tidy_.push_back(to_float({centre.x + out.x * r, centre.y - out.y * r}));
    }
  }
  area(with_alpha(colour, std::min(1.0, 4.0 * radius * radius)), true);
}

}  // namespace view
