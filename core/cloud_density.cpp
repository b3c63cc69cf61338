#include "core/cloud_density.h"

#include <algorithm>
#include <cmath>

namespace core {
namespace {

/// Stragglers beyond the outer hundredths may be anywhere: the grid reaches this much of the rest's
/// width past it.
constexpr double kMargin = 0.45;
/// Half of the least width of a grid, so that a cloud without any spread is a dot.
constexpr double kLeastNm = 0.02;
/// Smoothing, in cells: less would leave the numbers' own grain, more hides the cloud's shape.
constexpr double kLeastBlur = 0.7;
constexpr double kMostBlur = 8.0;

struct Range {
  double low;
  double high;
  [[nodiscard]] double width() const { return high - low; }
};

Range range_of(std::vector<double> values) {
  const auto value_at = [&](double share) {
    const auto k =
        static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1) + 0.5);
    std::nth_element(values.begin(), values.begin() + k, values.end());
    return values[static_cast<std::size_t>(k)];
  };
  const double low = value_at(0.01);
  const double high = value_at(0.99);
  const double margin = kMargin * (high - low) + kLeastNm;
  return {low - margin, high + margin};
}

std::vector<Vec2> flown_rollouts(const Cloud& cloud) {
  std::vector<Vec2> out;
  out.reserve(static_cast<std::size_t>(cloud.drawn()));
  for (int i = 0; i < cloud.drawn(); ++i) {
    const Vec2 at = cloud.rollout(i);
    if (!std::isnan(at.x)) out.push_back(at);
  }
  return out;
}

/// Where a place lies between nodes.
struct Cell {
  int column;
  int row;
  double right;  ///< share of the way to the next column
  double up;
};
bool cell_of(const CloudDensity& d, Vec2 nm, Cell& out) {
  const double x = (nm.x - d.corner_nm.x) / d.cell_nm;
  const double y = (nm.y - d.corner_nm.y) / d.cell_nm;
  if (!(x >= 0.0 && y >= 0.0 && x < d.columns - 1 && y < d.rows - 1)) return false;
  out.column = static_cast<int>(x);
  out.row = static_cast<int>(y);
  out.right = x - out.column;
  out.up = y - out.row;
  return true;
}

/// Each point to the four nodes about it, and how wide they lie, in cells: the geometric mean of
/// their greatest and least standard deviation.
double scatter(const std::vector<Vec2>& points, CloudDensity& d) {
  const double each = 1.0 / static_cast<double>(points.size());
  double sum_x = 0.0;
  double sum_y = 0.0;
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
  double n = 0.0;
  for (const Vec2& p : points) {
    Cell c{};
    if (!cell_of(d, p, c)) continue;
    double* const low = &d.share[static_cast<std::size_t>(c.row * d.columns + c.column)];
    double* const high = low + d.columns;
    low[0] += each * (1.0 - c.right) * (1.0 - c.up);
    low[1] += each * c.right * (1.0 - c.up);
    high[0] += each * (1.0 - c.right) * c.up;
    high[1] += each * c.right * c.up;
    const double x = c.column + c.right;
    const double y = c.row + c.up;
    n += 1.0;
    sum_x += x;
    sum_y += y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  d.covered = n * each;
  if (n < 2.0) return 0.0;
  const double mx = sum_x / n;
  const double my = sum_y / n;
  const double det =
      (xx / n - mx * mx) * (yy / n - my * my) - (xy / n - mx * my) * (xy / n - mx * my);
  return det > 0.0 ? std::sqrt(std::sqrt(det)) : 0.0;
}

/// Spreads each value along a line of `count`, `stride` apart; nothing falls off an end.
void blur_line(double* line, int count, int stride, const std::vector<double>& kernel,
               std::vector<double>& room) {
  const int reach = static_cast<int>(kernel.size()) - 1;
  std::fill(room.begin(), room.end(), 0.0);
  bool any = false;
  for (int i = 0; i < count; ++i) {
    const double v = line[i * stride];
    if (v == 0.0) continue;
    any = true;
    for (int k = -reach; k <= reach; ++k) {
      const int to = std::clamp(i + k, 0, count - 1);
      room[static_cast<std::size_t>(to)] += v * kernel[static_cast<std::size_t>(std::abs(k))];
    }
  }
  if (!any) return;
  for (int i = 0; i < count; ++i) line[i * stride] = room[static_cast<std::size_t>(i)];
}

void blur(CloudDensity& d, double sd_cells) {
  const int reach = static_cast<int>(std::ceil(3.0 * sd_cells));
  std::vector<double> kernel;
  double sum = 0.0;
  for (int k = 0; k <= reach; ++k) {
    kernel.push_back(std::exp(-0.5 * k * k / (sd_cells * sd_cells)));
    sum += k == 0 ? kernel.back() : 2.0 * kernel.back();
  }
  for (double& w : kernel) w /= sum;
  std::vector<double> room(CloudDensity::kMostNodes);
  for (int row = 0; row < d.rows; ++row) {
    blur_line(&d.share[static_cast<std::size_t>(row * d.columns)], d.columns, 1, kernel, room);
  }
  for (int column = 0; column < d.columns; ++column) {
    blur_line(&d.share[static_cast<std::size_t>(column)], d.rows, d.columns, kernel, room);
  }
}

/// Follows a level through the grid: a line enters a cell by one edge and leaves by another, with
/// the greater density on its left.
class Contours {
 public:
  Contours(const CloudDensity& density, double level) : d_(density), level_(level) {
    next_.assign(static_cast<std::size_t>(2 * (d_.columns + 2) * (d_.rows + 2)), kNone);
    for (int row = -1; row < d_.rows; ++row) {
      for (int column = -1; column < d_.columns; ++column) add_cell(column, row);
    }
  }

  [[nodiscard]] std::vector<Ring> rings() {
    std::vector<Ring> out;
    for (std::size_t start = 0; start < next_.size(); ++start) {
      if (next_[start] == kNone) continue;
      Ring ring;
      for (std::size_t edge = start; next_[edge] != kNone;) {
        ring.push_back(crossing(edge));
        const std::size_t to = next_[edge];
        next_[edge] = kNone;
        edge = to;
      }
      out.push_back(std::move(ring));
    }
    return out;
  }

 private:
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

  /// Nothing lies outside the grid, so that every line closes.
  [[nodiscard]] double node(int column, int row) const {
    if (column < 0 || row < 0 || column >= d_.columns || row >= d_.rows) return 0.0;
    return d_.node(column, row);
  }
  /// From a node to the right, or up.
  [[nodiscard]] std::size_t edge(int column, int row, bool up) const {
    return 2 * (static_cast<std::size_t>(row + 1) * static_cast<std::size_t>(d_.columns + 2) +
                static_cast<std::size_t>(column + 1)) +
           (up ? 1U : 0U);
  }
  void add_cell(int c, int r) {
    const std::array<double, 4> corner = {node(c, r), node(c + 1, r), node(c + 1, r + 1),
                                          node(c, r + 1)};
    std::array<bool, 4> in{};
    int count = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      in[k] = corner[k] >= level_;
      count += in[k] ? 1 : 0;
    }
    if (count == 0 || count == 4) return;
    const std::array<std::size_t, 4> edges = {edge(c, r, false), edge(c + 1, r, true),
                                              edge(c, r + 1, false), edge(c, r, true)};
    const auto leads_out = [&](std::size_t k) { return in[k] && !in[(k + 1) % 4]; };
    const auto leads_in = [&](std::size_t k) { return !in[k] && in[(k + 1) % 4]; };
    // Two corners opposite: the middle decides whether they hang together.
    const bool joined = corner[0] + corner[1] + corner[2] + corner[3] >= 4.0 * level_;
    for (std::size_t k = 0; k < 4; ++k) {
      if (!leads_out(k)) continue;
      std::size_t to = (k + (joined ? 1 : 3)) % 4;
      while (!leads_in(to)) to = (to + 1) % 4;
      next_[edges[k]] = edges[to];
    }
  }
  [[nodiscard]] Vec2 crossing(std::size_t edge) const {
    const bool up = edge % 2 == 1;
    const auto place = static_cast<int>(edge / 2);
    const int column = place % (d_.columns + 2) - 1;
    const int row = place / (d_.columns + 2) - 1;
    const double a = node(column, row);
    const double b = up ? node(column, row + 1) : node(column + 1, row);
    const double t = (level_ - a) / (b - a);
    return d_.corner_nm + Vec2{column + (up ? 0.0 : t), row + (up ? t : 0.0)} * d_.cell_nm;
  }

  const CloudDensity& d_;
  double level_;
  std::vector<std::size_t> next_;  ///< by edge: where the line goes on
};

}  // namespace

double CloudDensity::at(Vec2 nm) const {
  Cell c{};
  if (share.empty() || !cell_of(*this, nm, c)) return 0.0;
  const double low = node(c.column, c.row) * (1.0 - c.right) + node(c.column + 1, c.row) * c.right;
  const double high =
      node(c.column, c.row + 1) * (1.0 - c.right) + node(c.column + 1, c.row + 1) * c.right;
  return low * (1.0 - c.up) + high * c.up;
}

CloudDensity density_of(const Cloud& cloud) {
  CloudDensity d;
  const std::vector<Vec2> points = flown_rollouts(cloud);
  if (points.empty()) return d;
  std::vector<double> xs;
  std::vector<double> ys;
  for (const Vec2& p : points) {
    xs.push_back(p.x);
    ys.push_back(p.y);
  }
  const Range x = range_of(std::move(xs));
  const Range y = range_of(std::move(ys));
  d.corner_nm = {x.low, y.low};
  d.cell_nm = std::max(x.width(), y.width()) / (CloudDensity::kMostNodes - 2);
  const auto nodes = [&](const Range& range) {
    return std::min(static_cast<int>(std::ceil(range.width() / d.cell_nm)) + 1,
                    CloudDensity::kMostNodes);
  };
  d.columns = nodes(x);
  d.rows = nodes(y);
  d.share.assign(static_cast<std::size_t>(d.columns) * static_cast<std::size_t>(d.rows), 0.0);
  const double width_cells = scatter(points, d);
  // Scott (1992) for two dimensions: standard deviation by n^(-1/6) (memory).
  const double rule = width_cells * std::pow(static_cast<double>(points.size()), -1.0 / 6.0);
  blur(d, std::clamp(rule, kLeastBlur, kMostBlur));
  d.peak = *std::max_element(d.share.begin(), d.share.end());
  return d;
}

std::vector<Ring> outlines_holding(const Cloud& cloud, const CloudDensity& density, double share) {
  std::vector<double> values;
  for (const Vec2& p : flown_rollouts(cloud)) values.push_back(density.at(p));
  if (values.empty() || !(share > 0.0 && share <= 1.0)) return {};
  // As many of the roll-outs lie where it is denser: Hyndman (1996), The American Statistician
  // 50:120 (memory).
  const auto k =
      static_cast<std::ptrdiff_t>((1.0 - share) * static_cast<double>(values.size() - 1) + 0.5);
  std::nth_element(values.begin(), values.begin() + k, values.end());
  const double level = values[static_cast<std::size_t>(k)];
  if (!(level > 0.0)) return {};
  return Contours(density, level).rings();
}

}  // namespace core
