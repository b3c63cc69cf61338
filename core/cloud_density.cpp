#include "core/cloud_density.h"

#include <algorithm>
#include <cmath>

#include "core/level_lines.h"
#include "core/quantile.h"

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
  const double low = at_share(values, 0.01);
  const double high = at_share(values, 0.99);
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
    double* const low = &d.share[d.index(c.column, c.row)];
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

/// Spreads each value along a line of `count`, `stride` apart, by a kernel of odd length; what
/// would fall off an end stays on it.
void blur_line(double* line, int count, std::ptrdiff_t stride, const std::vector<double>& kernel,
               std::vector<double>& room) {
  const auto length = static_cast<std::ptrdiff_t>(kernel.size());
  const std::ptrdiff_t reach = length / 2;
  std::fill(room.begin(), room.end(), 0.0);
  for (std::ptrdiff_t i = 0; i < count; ++i) {
    const double v = line[i * stride];
    if (v == 0.0) continue;
    double* const to = room.data() + i;
    for (std::ptrdiff_t k = 0; k < length; ++k) to[k] += v * kernel[static_cast<std::size_t>(k)];
  }
  double* const first = room.data() + reach;
  double* const last = first + count - 1;
  for (std::ptrdiff_t k = 1; k <= reach; ++k) {
    *first += first[-k];
    *last += last[k];
  }
  for (std::ptrdiff_t i = 0; i < count; ++i) line[i * stride] = first[i];
}

void blur(CloudDensity& d, double sd_cells) {
  const int reach = static_cast<int>(std::ceil(3.0 * sd_cells));
  std::vector<double> kernel;
  double sum = 0.0;
  for (int k = -reach; k <= reach; ++k) {
    kernel.push_back(std::exp(-0.5 * k * k / (sd_cells * sd_cells)));
    sum += kernel.back();
  }
  for (double& w : kernel) w /= sum;
  std::vector<double> room(static_cast<std::size_t>(CloudDensity::kMostNodes + 2 * reach));
  for (int row = 0; row < d.rows; ++row) {
    blur_line(&d.share[d.index(0, row)], d.columns, 1, kernel, room);
  }
  for (int column = 0; column < d.columns; ++column) {
    blur_line(&d.share[d.index(column, 0)], d.rows, d.columns, kernel, room);
  }
}

/// The nodes with a rim of nothing about them, so that every line closes.
class RimmedNodes {
 public:
  explicit RimmedNodes(const CloudDensity& density) : d_(density) {}
  [[nodiscard]] int columns() const { return d_.columns + 2; }
  [[nodiscard]] int rows() const { return d_.rows + 2; }
  [[nodiscard]] bool wraps() const { return false; }
  [[nodiscard]] double value(int column, int row) const {
    if (column < 1 || row < 1 || column > d_.columns || row > d_.rows) return 0.0;
    return d_.node(column - 1, row - 1);
  }
  [[nodiscard]] Vec2 place(int column, int row) const {
    return d_.corner_nm + Vec2{column - 1.0, row - 1.0} * d_.cell_nm;
  }

 private:
  const CloudDensity& d_;
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
  const double level = at_share(values, 1.0 - share);
  if (!(level > 0.0)) return {};
  std::vector<Ring> rings;
  const RimmedNodes nodes(density);
  for (LevelLine& line : LevelLines(nodes, level).lines()) rings.push_back(std::move(line.points));
  return rings;
}

}  // namespace core
