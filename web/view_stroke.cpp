// web/view_stroke.cpp - lines: clipping, dashes, and the soft band along each piece.
#include <algorithm>
#include <cmath>

#include "web/view_canvas.h"
#include "web/view_pixels.h"

namespace view {
namespace {

using core::Vec2;

constexpr double kMinPeriod = 1.0;  // finer dashes than this are a solid line, px

/// Steps for an arc that strays from the true circle by a tenth of a pixel at most.
int arc_steps(float radius, float angle) {
  const float step = 2.0F * std::acos(1.0F - std::min(0.5F, 0.1F / std::max(radius, 0.2F)));
  return std::clamp(static_cast<int>(std::ceil(std::abs(angle) / step)), 1, 64);
}

}  // namespace

Canvas::Canvas(ImDrawList& list, ImVec2 white, double width, double height)
    : list_(list), white_(white), width_(width), height_(height) {}

bool Canvas::sees(Vec2 p, double reach) const {
  return p.x >= -reach && p.x <= width_ + reach && p.y >= -reach && p.y <= height_ + reach;
}

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

}  // namespace view
