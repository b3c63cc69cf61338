// core/level_lines.h - lines of equal value over a grid: marching squares.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "core/units.h"

namespace core {

/// A line along which the value is the same. `closed` where its last point is joined to the first.
struct LevelLine {
  std::vector<Vec2> points;
  bool closed = false;
};

/// `Grid` has `columns()`, `rows()`, `wraps()` (whether the first column follows the last),
/// `value(column, row)` and `place(column, row)`. Between nodes values change evenly along straight
/// edges; where a cell's corners leave two ways, the mean of the four decides. Cells with a corner
/// that is NaN have no line, and so a line ends there.
template <class Grid>
class LevelLines {
 public:
  LevelLines(const Grid& grid, double level) : grid_(grid), level_(level) {
    next_.assign(2 * index(0, grid.rows()), kNone);
    entered_.assign(next_.size(), false);
    const int cells = grid.wraps() ? grid.columns() : grid.columns() - 1;
    for (int row = 0; row + 1 < grid.rows(); ++row) {
      for (int column = 0; column < cells; ++column) add_cell(column, row);
    }
  }

  [[nodiscard]] std::vector<LevelLine> lines() {
    std::vector<LevelLine> out;
    // First those that begin somewhere; what is left goes round.
    for (std::size_t edge = 0; edge < next_.size(); ++edge) {
      if (next_[edge] != kNone && !entered_[edge]) out.push_back({follow(edge), false});
    }
    for (std::size_t edge = 0; edge < next_.size(); ++edge) {
      if (next_[edge] == kNone) continue;
      out.push_back({follow(edge), true});
      out.back().points.pop_back();  // the first again
    }
    return out;
  }

 private:
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  [[nodiscard]] std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(grid_.columns()) +
           static_cast<std::size_t>(column);
  }
  [[nodiscard]] int after(int column) const {
    return column + 1 < grid_.columns() ? column + 1 : 0;
  }
  // From a node to the next column, or to the next row.
  [[nodiscard]] std::size_t along_row(int column, int row) const { return 2 * index(column, row); }
  [[nodiscard]] std::size_t across(int column, int row) const { return along_row(column, row) + 1; }

  void add_cell(int c, int r) {
    const int d = after(c);
    const std::array<double, 4> corner{grid_.value(c, r), grid_.value(d, r), grid_.value(d, r + 1),
                                       grid_.value(c, r + 1)};
    std::array<bool, 4> in{};
    int count = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      if (corner[k] != corner[k]) return;
      in[k] = corner[k] >= level_;
      count += in[k] ? 1 : 0;
    }
    if (count == 0 || count == 4) return;
    const std::array<std::size_t, 4> edges{along_row(c, r), across(d, r), along_row(c, r + 1),
                                           across(c, r)};
    const auto leads_out = [&](std::size_t k) { return in[k] && !in[(k + 1) % 4]; };
    const auto leads_in = [&](std::size_t k) { return !in[k] && in[(k + 1) % 4]; };
    // Two corners opposite: the middle decides whether they hang together.
    const bool joined = corner[0] + corner[1] + corner[2] + corner[3] >= 4.0 * level_;
    for (std::size_t k = 0; k < 4; ++k) {
      if (!leads_out(k)) continue;
      std::size_t to = (k + (joined ? 1 : 3)) % 4;
      while (!leads_in(to)) to = (to + 1) % 4;
      next_[edges[k]] = edges[to];
      entered_[edges[to]] = true;
    }
  }

  [[nodiscard]] Vec2 crossing(std::size_t edge) const {
    const auto columns = static_cast<std::size_t>(grid_.columns());
    const auto column = static_cast<int>(edge / 2 % columns);
    const auto row = static_cast<int>(edge / 2 / columns);
    const int to_column = edge % 2 == 0 ? after(column) : column;
    const int to_row = edge % 2 == 0 ? row : row + 1;
    const double a = grid_.value(column, row);
    const double b = grid_.value(to_column, to_row);
    const double t = (level_ - a) / (b - a);
    const Vec2 from = grid_.place(column, row);
    return from + (grid_.place(to_column, to_row) - from) * t;
  }

  std::vector<Vec2> follow(std::size_t edge) {
    std::vector<Vec2> points;
    while (edge != kNone) {
      points.push_back(crossing(edge));
      const std::size_t next = next_[edge];
      next_[edge] = kNone;
      edge = next;
    }
    return points;
  }

  const Grid& grid_;
  double level_;
  std::vector<std::size_t> next_;  ///< by edge: where the line goes on
  std::vector<bool> entered_;      ///< whether a line comes to it
};

}  // namespace core
