#include "core/contour.h"

#include <array>

namespace core {
namespace {

/// Lines are made of steps from one edge of a cell to another.
class Tracer {
 public:
  Tracer(const MapField& field, double level) : f_(field), g_(field.grid), level_(level) {
    next_.assign(2 * f_.value.size(), {kNone, kNone});
    for (int i = 0; i < g_.directions; ++i) {
      const double deg = g_.from_deg(i);
      axes_.push_back(along(deg));
    }
  }

  std::vector<ContourLine> lines() {
    for (int speed = 0; speed + 1 < g_.speeds; ++speed) {
      for (int i = 0; i < g_.directions; ++i) cross_cell(i, speed);
    }
    std::vector<ContourLine> out;
    // First those that end somewhere, from an end; what is left goes round.
    for (std::size_t edge = 0; edge < next_.size(); ++edge) {
      if (next_[edge][0] != kNone && next_[edge][1] == kNone) out.push_back(follow(edge));
    }
    for (std::size_t edge = 0; edge < next_.size(); ++edge) {
      if (next_[edge][0] == kNone) continue;
      out.push_back(follow(edge));
      out.back().points.pop_back();  // the first again
      out.back().closed = true;
    }
    return out;
  }

 private:
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  int after(int direction) const { return direction + 1 < g_.directions ? direction + 1 : 0; }
  double value(int i, int speed) const { return f_.value[g_.index(i, speed)]; }
  // From a grid point outward, and from it to the next direction.
  std::size_t edge_out(int i, int speed) const { return 2 * g_.index(i, speed); }
  std::size_t edge_on(int i, int speed) const { return 2 * g_.index(i, speed) + 1; }

  void cross_cell(int i, int speed) {
    const int j = after(i);
    const std::array<double, 4> corner{value(i, speed), value(j, speed), value(j, speed + 1),
                                       value(i, speed + 1)};
    const std::array<std::size_t, 4> edge{edge_on(i, speed), edge_out(j, speed),
                                          edge_on(i, speed + 1), edge_out(i, speed)};
    std::array<std::size_t, 4> crossed{};
    std::size_t count = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      if (corner[k] != corner[k]) return;
      if (is_above(corner[k]) != is_above(corner[(k + 1) % 4])) crossed[count++] = edge[k];
    }
    if (count == 2) join(crossed[0], crossed[1]);
    if (count != 4) return;
    // A saddle: the corners that are unlike the middle are cut off.
    const double mean = 0.25 * (corner[0] + corner[1] + corner[2] + corner[3]);
    const std::size_t shift = is_above(mean) == is_above(corner[0]) ? 0 : 1;
    join(edge[shift], edge[1 + shift]);
    join(edge[2 + shift], edge[(3 + shift) % 4]);
  }

  bool is_above(double v) const { return v >= level_; }

  void join(std::size_t a, std::size_t b) {
    add(a, b);
    add(b, a);
  }
  void add(std::size_t from, std::size_t to) { next_[from][next_[from][0] == kNone ? 0 : 1] = to; }
  void remove(std::size_t from, std::size_t to) {
    auto& n = next_[from];
    if (n[0] == to) n[0] = n[1];
    n[1] = kNone;
  }

  Vec2 point(std::size_t edge) const {
    const std::size_t at = edge / 2;
    const int speed = static_cast<int>(at) / g_.directions;
    const int i = static_cast<int>(at) % g_.directions;
    const bool outward = edge % 2 == 0;
    const int to_i = outward ? i : after(i);
    const int to_speed = outward ? speed + 1 : speed;
    const double a = value(i, speed);
    const double b = value(to_i, to_speed);
    const double t = (level_ - a) / (b - a);
    const Vec2 from = axes_[static_cast<std::size_t>(i)] * g_.speed_kt(speed);
    const Vec2 to = axes_[static_cast<std::size_t>(to_i)] * g_.speed_kt(to_speed);
    return from + (to - from) * t;
  }

  ContourLine follow(std::size_t edge) {
    ContourLine line;
    while (edge != kNone) {
      line.points.push_back(point(edge));
      const std::size_t next = next_[edge][0];
      if (next != kNone) {
        remove(edge, next);
        remove(next, edge);
      }
      edge = next;
    }
    return line;
  }

  const MapField& f_;
  const WindGrid& g_;
  double level_;
  std::vector<Vec2> axes_;
  std::vector<std::array<std::size_t, 2>> next_;
};

}  // namespace

std::vector<ContourLine> contour(const MapField& field, double level) {
  if (field.empty() || !(level == level)) return {};
  return Tracer(field, level).lines();
}

}  // namespace core
