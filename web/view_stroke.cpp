#include "web/view_stroke.h"

#include <algorithm>
#include <cmath>

namespace view {
namespace {

using core::Vec2;

constexpr float kFade = 0.5F;          // half of the soft edge
constexpr double kTiny = 1e-4;         // shorter steps than this have no direction
constexpr double kMinPeriod = 1.0;     // finer dashes than this are a solid line
constexpr double kMaxRadius = 1e6;     // a larger circle is not drawn
constexpr int kMaxVertices = 1000000;  // what a hostile diagram may cost at most

/// Also false for NaN. Beyond this, clipping would lose whole pixels to rounding.
constexpr double kFarthest = 1e9;
bool usable(Vec2 p) { return std::abs(p.x) < kFarthest && std::abs(p.y) < kFarthest; }

ImVec2 operator+(ImVec2 a, ImVec2 b) { return {a.x + b.x, a.y + b.y}; }
ImVec2 operator-(ImVec2 a, ImVec2 b) { return {a.x - b.x, a.y - b.y}; }
ImVec2 operator*(ImVec2 a, float k) { return {a.x * k, a.y * k}; }
float dot(ImVec2 a, ImVec2 b) { return a.x * b.x + a.y * b.y; }
float cross(ImVec2 a, ImVec2 b) { return a.x * b.y - a.y * b.x; }
float length(ImVec2 a) { return std::sqrt(dot(a, a)); }
ImVec2 left_of(ImVec2 d) { return {d.y, -d.x}; }
ImVec2 to_float(Vec2 p) { return {static_cast<float>(p.x), static_cast<float>(p.y)}; }

ImVec2 direction(ImVec2 from, ImVec2 to) {
  const ImVec2 d = to - from;
  const float n = length(d);
  return n > 0.0F ? d * (1.0F / n) : ImVec2(1.0F, 0.0F);
}

ImU32 with_alpha(ImU32 colour, double factor) {
  const double a = static_cast<double>((colour >> IM_COL32_A_SHIFT) & 0xFFU) * factor;
  const auto alpha = static_cast<ImU32>(std::lround(std::clamp(a, 0.0, 255.0)));
  return (colour & ~IM_COL32_A_MASK) | (alpha << IM_COL32_A_SHIFT);
}

/// Steps for an arc that strays from the true circle by a tenth of a pixel at most.
int arc_steps(float radius, float angle) {
  const float step = 2.0F * std::acos(1.0F - std::min(0.5F, 0.1F / std::max(radius, 0.2F)));
  return std::clamp(static_cast<int>(std::ceil(std::abs(angle) / step)), 1, 64);
}

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

Canvas::Canvas(ImDrawList& list, ImVec2 white, double width, double height)
    : list_(list), white_(white), width_(width), height_(height) {}

bool Canvas::sees(Vec2 p, double reach) const {
  return p.x >= -reach && p.x <= width_ + reach && p.y >= -reach && p.y <= height_ + reach;
}

// --- lines ----------------------------------------------------------------------------

/// The part [from, to] of segment a-b (0 to 1) inside the picture and `pad` around it;
/// from > to where there is none. Liang and Barsky's method.
void Canvas::clip_segment(Vec2 a, Vec2 b, double pad, double& from, double& to) const {
  from = 0.0;
  to = 1.0;
  const Vec2 d = b - a;
  const double p[4] = {-d.x, d.x, -d.y, d.y};
  const double q[4] = {a.x + pad, width_ + pad - a.x, a.y + pad, height_ + pad - a.y};
  for (int i = 0; i < 4; ++i) {
    if (p[i] == 0.0) {
      if (q[i] < 0.0) to = -1.0;
    } else if (p[i] < 0.0) {
      from = std::max(from, q[i] / p[i]);
    } else {
      to = std::min(to, q[i] / p[i]);
    }
  }
}

void Canvas::stroke(const std::vector<Vec2>& points, const Pen& pen, bool closed) {
  const std::size_t n = points.size();
  if (n == 0 || !(pen.width > 0.0) || (pen.colour & IM_COL32_A_MASK) == 0) return;
  if (n == 1) {
    if (usable(points[0])) disc(points[0], pen.width / 2.0, pen.colour);
    return;
  }
  const double pad = pen.width + 4.0;
  const bool dashed = pen.dash[0] + pen.dash[1] + pen.dash[2] + pen.dash[3] >= kMinPeriod;
  const bool whole = closed && !dashed && std::all_of(points.begin(), points.end(), [&](Vec2 p) {
                       return usable(p) && sees(p, pad);
                     });
  run_.clear();
  if (whole) {
    for (const Vec2 p : points) run_.push_back(to_float(p));
    band(run_, pen, true);
    return;
  }
  double along = 0.0;  // from the first point to the start of the segment
  double start = 0.0;  // the same for the run in hand
  for (std::size_t i = 0; i + 1 < n + (closed ? 1 : 0); ++i) {
    const Vec2 a = points[i];
    const Vec2 b = points[(i + 1) % n];
    if (!usable(a) || !usable(b)) {
      run(pen, start);
      continue;
    }
    const double size = core::length(b - a);
    double from = 0.0;
    double to = 0.0;
    clip_segment(a, b, pad, from, to);
    if (from <= to) {
      if (from > 0.0) run(pen, start);
      if (run_.empty()) {
        start = along + from * size;
        run_.push_back(to_float(a + (b - a) * from));
      }
      run_.push_back(to_float(a + (b - a) * to));
      if (to < 1.0) run(pen, start);
    } else {
      run(pen, start);
    }
    along += size;
  }
  run(pen, start);
}

/// Draws and forgets the run in hand, whose first point lies `start` along the line.
void Canvas::run(const Pen& pen, double start) {
  if (run_.size() >= 2) {
    const int kinds = pen.dash[2] == 0.0 && pen.dash[3] == 0.0 ? 2 : 4;
    const double period = pen.dash[0] + pen.dash[1] + pen.dash[2] + pen.dash[3];
    if (!(period >= kMinPeriod)) {
      band(run_, pen, false);
    } else {
      double left = std::fmod(start, period);
      int kind = 0;
      while (left >= pen.dash[kind]) {
        left -= pen.dash[kind];
        kind = (kind + 1) % kinds;
        if (left <= 0.0 && pen.dash[kind] > 0.0) break;
      }
      left = pen.dash[kind] - left;  // of the dash or gap in hand
      dash_.assign(kind % 2 == 0 ? 1 : 0, run_[0]);
      for (std::size_t i = 0; i + 1 < run_.size(); ++i) {
        const double size = static_cast<double>(length(run_[i + 1] - run_[i]));
        double done = 0.0;
        while (size - done > left) {
          done += left;
          const ImVec2 at = run_[i] + (run_[i + 1] - run_[i]) * static_cast<float>(done / size);
          if (kind % 2 == 0) {
            dash_.push_back(at);
            band(dash_, pen, false);
          }
          kind = (kind + 1) % kinds;
          left = pen.dash[kind];
          dash_.assign(kind % 2 == 0 ? 1 : 0, at);
        }
        left -= size - done;
        if (kind % 2 == 0) dash_.push_back(run_[i + 1]);
      }
      if (kind % 2 == 0) band(dash_, pen, false);
    }
  }
  run_.clear();
}

/// Leaves in `tidy_` the points that differ from the one before.
void Canvas::tidy(const std::vector<ImVec2>& points, bool closed) {
  tidy_.clear();
  const float tiny = static_cast<float>(kTiny);
  for (const ImVec2 p : points) {
    if (tidy_.empty() || length(p - tidy_.back()) > tiny) tidy_.push_back(p);
  }
  while (closed && tidy_.size() > 1 && length(tidy_.front() - tidy_.back()) <= tiny) {
    tidy_.pop_back();
  }
}

void Canvas::row(ImVec2 left_edge, ImVec2 left, ImVec2 right, ImVec2 right_edge) {
  list_.PrimReserve(joined_ ? 18 : 0, 4);
  const auto here = static_cast<ImDrawIdx>(list_._VtxCurrentIdx);
  list_.PrimWriteVtx(left_edge, white_, clear_);
  list_.PrimWriteVtx(left, white_, solid_);
  list_.PrimWriteVtx(right, white_, solid_);
  list_.PrimWriteVtx(right_edge, white_, clear_);
  if (joined_) link(last_row_, here);
  last_row_ = here;
  joined_ = true;
}

void Canvas::row(ImVec2 at, ImVec2 across, float core_half, float edge_half) {
  row(at + across * edge_half, at + across * core_half, at - across * core_half,
      at - across * edge_half);
}

/// The three strips between two rows; their vertices are reserved already.
void Canvas::link(ImDrawIdx from, ImDrawIdx to) {
  for (ImDrawIdx i = 0; i < 3; ++i) {
    list_.PrimWriteIdx(from + i);
    list_.PrimWriteIdx(from + i + 1);
    list_.PrimWriteIdx(to + i + 1);
    list_.PrimWriteIdx(from + i);
    list_.PrimWriteIdx(to + i + 1);
    list_.PrimWriteIdx(to + i);
  }
}

/// A half circle of rows, from the tip inwards at the start and outwards at the end.
void Canvas::cap(const std::vector<ImVec2>& p, bool at_start, float core_half, float edge_half) {
  const ImVec2 at = at_start ? p.front() : p.back();
  const ImVec2 d = at_start ? direction(p[0], p[1]) : direction(p[p.size() - 2], p.back());
  const ImVec2 out = at_start ? d * -1.0F : d;
  const ImVec2 across = left_of(d);
  const float quarter = static_cast<float>(core::kPi / 2.0);
  const int steps = std::max(2, arc_steps(edge_half, quarter));
  for (int k = 0; k <= steps; ++k) {
    const float angle =
        quarter * static_cast<float>(at_start ? steps - k : k) / static_cast<float>(steps);
    const ImVec2 side = across * std::cos(angle);
    const ImVec2 along = out * std::sin(angle);
    row(at + (side + along) * edge_half, at + (side + along) * core_half,
        at + (along - side) * core_half, at + (along - side) * edge_half);
  }
}

/// Where the line turns from direction d0 to d1. `reach` is the shorter of the two
/// segments: the inner side must not be cut further back than that.
void Canvas::corner(ImVec2 at, ImVec2 d0, ImVec2 d1, float reach, float core_half,
                    float edge_half) {
  const ImVec2 n0 = left_of(d0);
  const ImVec2 n1 = left_of(d1);
  const float cosine = dot(d0, d1);
  ImVec2 mitre = (n0 + n1) * (1.0F / std::max(1.0F + cosine, 1e-3F));
  if (cosine > 0.9F) {
    row(at, mitre, core_half, edge_half);
    return;
  }
  const float span = length(mitre) * edge_half;
  if (span > reach) mitre = mitre * (std::max(reach, edge_half) / span);
  const float turn = std::atan2(cross(d0, d1), cosine);  // y is down: positive turns right
  const bool round_left = turn > 0.0F;
  const int steps = std::max(1, arc_steps(edge_half, turn));
  for (int k = 0; k <= steps; ++k) {
    const float angle = turn * static_cast<float>(k) / static_cast<float>(steps);
    const float c = std::cos(angle);
    const float s = std::sin(angle);
    const ImVec2 n = {n0.x * c - n0.y * s, n0.x * s + n0.y * c};
    if (round_left) {
      row(at + n * edge_half, at + n * core_half, at - mitre * core_half, at - mitre * edge_half);
    } else {
      row(at + mitre * edge_half, at + mitre * core_half, at - n * core_half, at - n * edge_half);
    }
  }
}

void Canvas::band(const std::vector<ImVec2>& points, const Pen& pen, bool closed) {
  if (list_.VtxBuffer.Size > kMaxVertices) return;
  tidy(points, closed);
  const std::size_t n = tidy_.size();
  if (n == 0) return;
  if (n == 1) {
    disc({static_cast<double>(tidy_[0].x), static_cast<double>(tidy_[0].y)}, pen.width / 2.0,
         pen.colour);
    return;
  }
  solid_ = with_alpha(pen.colour, std::min(pen.width, 1.0));
  clear_ = solid_ & ~IM_COL32_A_MASK;
  const float half = static_cast<float>(pen.width) / 2.0F;
  const float core_half = std::max(half - kFade, 0.0F);
  const float edge_half = core_half + 2.0F * kFade;
  const bool loop = closed && n > 2;
  joined_ = false;
  const auto first = static_cast<ImDrawIdx>(list_._VtxCurrentIdx);
  if (!loop) cap(tidy_, true, core_half, edge_half);
  for (std::size_t i = loop ? 0 : 1; i + (loop ? 0 : 1) < n; ++i) {
    const ImVec2 before = tidy_[(i + n - 1) % n];
    const ImVec2 after = tidy_[(i + 1) % n];
    const float reach = std::min(length(tidy_[i] - before), length(after - tidy_[i]));
    corner(tidy_[i], direction(before, tidy_[i]), direction(tidy_[i], after), reach, core_half,
           edge_half);
  }
  if (loop) {
    list_.PrimReserve(18, 0);
    link(last_row_, first);
  } else {
    cap(tidy_, false, core_half, edge_half);
  }
}

// --- areas ----------------------------------------------------------------------------

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

// --- circles --------------------------------------------------------------------------

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
