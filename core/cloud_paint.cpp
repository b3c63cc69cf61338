#include "core/cloud_paint.h"

#include <algorithm>
#include <cmath>

namespace core {
namespace {

/// Where the cloud is densest, and where all tracks are one, what lies below is still seen.
constexpr double kMostOpaqueRollouts = 0.8;
constexpr double kMostOpaqueTracks = 0.5;
/// This share of the tracks on one pixel is as many as counts.
constexpr double kFullTracks = 0.25;
/// A turn is drawn by chords of at most so much.
constexpr double kChordDeg = 8.0;

/// A view that shows anything of a hold; far beyond it pixels could not be counted.
constexpr double kMostPxPerNm = 1e5;
constexpr double kFarNm = 1e4;
bool is_usable(const Viewport& v) {
  return v.width_px >= 1.0 && v.height_px >= 1.0 && v.width_px * v.height_px <= kMostCloudPixels &&
         v.px_per_nm > 0.0 && v.px_per_nm <= kMostPxPerNm && std::abs(v.centre.x) <= kFarNm &&
         std::abs(v.centre.y) <= kFarNm;
}

/// Pixels [first, end) of a row or a column.
struct Span {
  int first;
  int end;
  void take(int pixel, int margin) {
    first = std::min(first, pixel - margin);
    end = std::max(end, pixel + margin + 1);
  }
  [[nodiscard]] Span within(int size) const { return {std::max(first, 0), std::min(end, size)}; }
};
/// None: a pixel taken makes it that pixel.
constexpr Span kNowhere{1 << 30, -(1 << 30)};
Span both(Span a, Span b) { return {std::min(a.first, b.first), std::max(a.end, b.end)}; }

/// Pixels whose `start + pixel step` lies in [0, end), for a step of either sign but not 0.
Span pixels_between(double start, double step, double end, int size) {
  const double a = -start / step;
  const double b = (end - start) / step;
  const auto pixel = [&](double at) {
    return static_cast<int>(std::clamp(std::ceil(at), 0.0, static_cast<double>(size)));
  };
  return {pixel(std::min(a, b)), pixel(std::max(a, b))};
}

/// How many tracks cross each pixel.
class TrackField {
 public:
  TrackField(int width, int height)
      : width_(width),
        height_(height),
        count_(static_cast<std::size_t>(width) * static_cast<std::size_t>(height)) {}

  void add(const Pieces& pieces, const Viewport& view) {
    for (const Segment& s : pieces) {
      const double angle_deg = std::abs(s.rate_deg_s) * s.duration_s;
      const int chords = 1 + static_cast<int>(angle_deg / kChordDeg);
      Vec2 from = view.to_px(s.start);
      for (int i = 1; i <= chords; ++i) {
        const Vec2 to = view.to_px(s.position_at(s.duration_s * i / chords));
        line(from, to);
        from = to;
      }
    }
  }
  [[nodiscard]] Span rows() const { return rows_.within(height_); }
  [[nodiscard]] Span columns() const { return columns_.within(width_); }
  [[nodiscard]] const float* row(int y) const { return &count_[index(0, y)]; }

  /// Each pixel with its neighbours, so that single flights do not look like lines.
  void soften() {
    for (int pass = 0; pass < kSoftenings; ++pass) {
      soften_across();
      soften_down();
    }
  }

 private:
  static constexpr int kSoftenings = 2;

  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
           static_cast<std::size_t>(x);
  }
  void soften_across() {
    const Span x = columns();
    for (int y = rows().first; y < rows().end; ++y) {
      float* const line = &count_[index(0, y)];
      float last = 0.0F;
      for (int i = x.first; i < x.end; ++i) {
        const float here = line[i];
        const float next = i + 1 < x.end ? line[i + 1] : 0.0F;
        line[i] = 0.25F * last + 0.5F * here + 0.25F * next;
        last = here;
      }
    }
  }
  void soften_down() {
    const Span x = columns();
    const Span y = rows();
    const auto width = static_cast<std::size_t>(width_);
    std::vector<float> above(width);
    std::vector<float> here(width);
    const std::vector<float> none(width);
    for (int j = y.first; j < y.end; ++j) {
      float* const line = &count_[index(0, j)];
      const float* const below = j + 1 < y.end ? line + width_ : none.data();
      std::copy(line + x.first, line + x.end, here.data() + x.first);
      for (int i = x.first; i < x.end; ++i) {
        const auto k = static_cast<std::size_t>(i);
        line[i] = 0.25F * above[k] + 0.5F * here[k] + 0.25F * below[i];
      }
      std::swap(above, here);
    }
  }
  /// One step a pixel along the longer way; each step's one is shared by the two pixels beside the
  /// line. The last point is the next line's first.
  void line(Vec2 from, Vec2 to) {
    double begin = 0.0;
    double end = 1.0;
    if (!clip(from.x, to.x, width_, begin, end) || !clip(from.y, to.y, height_, begin, end)) return;
    const Vec2 way = to - from;
    for (const double part : {begin, end}) {
      columns_.take(static_cast<int>(from.x + way.x * part), kSoftenings + 1);
      rows_.take(static_cast<int>(from.y + way.y * part), kSoftenings + 1);
    }
    if (std::abs(way.x) >= std::abs(way.y)) {
      steps({from.x, way.x, width_, 1}, {from.y, way.y, height_, width_}, begin, end);
    } else {
      steps({from.y, way.y, height_, width_}, {from.x, way.x, width_, 1}, begin, end);
    }
  }
  /// One coordinate of a line: where it begins, how far it goes, in how many pixels of which step.
  struct Axis {
    double from;
    double way;
    int size;
    std::ptrdiff_t stride;
  };
  void steps(const Axis& ahead, const Axis& aside, double begin, double end) {
    const double length_px = std::abs(ahead.way);
    const double each = 1.0 / length_px;
    const int last = static_cast<int>(std::ceil(end * length_px));
    for (int i = static_cast<int>(std::ceil(begin * length_px)); i < last; ++i) {
      const double part = i * each;
      const int on = std::clamp(static_cast<int>(ahead.from + ahead.way * part), 0, ahead.size - 1);
      const double across = std::max(aside.from + aside.way * part - 0.5, -1.0);
      const int low = static_cast<int>(across + 1.0) - 1;
      const double rest = across - low;
      float* const at = count_.data() + on * ahead.stride;
      if (low >= 0 && low < aside.size) at[low * aside.stride] += static_cast<float>(1.0 - rest);
      if (low + 1 < aside.size) at[(low + 1) * aside.stride] += static_cast<float>(rest);
    }
  }
  /// The part of [begin, end] in which the coordinate lies in [0, size).
  static bool clip(double from, double to, int size, double& begin, double& end) {
    const double way = to - from;
    if (!std::isfinite(way)) return false;
    if (way == 0.0) return from >= 0.0 && from < size;
    const double a = -from / way;
    const double b = (size - from) / way;
    begin = std::max(begin, std::min(a, b));
    end = std::min(end, std::max(a, b));
    return begin < end;
  }

  int width_;
  int height_;
  Span columns_ = kNowhere;
  Span rows_ = kNowhere;
  std::vector<float> count_;
};

/// A density's opacity, row by row of a picture.
class DensityRows {
 public:
  DensityRows(const CloudDensity& density, const Viewport& view, int width, int height)
      : d_(density), opacity_(static_cast<std::size_t>(width)) {
    if (!(d_.peak > 0.0)) return;
    const Vec2 first = (view.to_nm({0.5, 0.5}) - d_.corner_nm) * (1.0 / d_.cell_nm);
    x_ = first.x;
    y_ = first.y;
    step_ = 1.0 / (view.px_per_nm * d_.cell_nm);
    columns_ = pixels_between(x_, step_, d_.columns - 1, width);
    rows_ = pixels_between(y_, -step_, d_.rows - 1, height);
    line_.resize(static_cast<std::size_t>(d_.columns));
  }
  [[nodiscard]] Span rows() const { return rows_; }
  [[nodiscard]] Span columns() const { return columns_; }

  /// Row `y` of the picture from its first pixel on; nothing outside the density.
  const double* row(int y) {
    std::fill(opacity_.begin(), opacity_.end(), 0.0);
    if (y < rows_.first || y >= rows_.end) return opacity_.data();
    const double at = y_ - y * step_;
    const int low = std::clamp(static_cast<int>(at), 0, d_.rows - 2);
    for (int c = 0; c < d_.columns; ++c) {
      const double below = d_.node(c, low);
      line_[static_cast<std::size_t>(c)] = below + (d_.node(c, low + 1) - below) * (at - low);
    }
    for (int i = columns_.first; i < columns_.end; ++i) {
      const double x = x_ + i * step_;
      const int left = std::clamp(static_cast<int>(x), 0, d_.columns - 2);
      const double* const node = &line_[static_cast<std::size_t>(left)];
      const double share = node[0] + (node[1] - node[0]) * (x - left);
      // The clamps leave a rounding error outside.
      const double of_peak = std::clamp(share / d_.peak, 0.0, 1.0);
      opacity_[static_cast<std::size_t>(i)] = kMostOpaqueRollouts * std::sqrt(of_peak);
    }
    return opacity_.data();
  }

 private:
  const CloudDensity& d_;
  double x_ = 0.0;  ///< of the first pixel, in cells
  double y_ = 0.0;
  double step_ = 1.0;  ///< cells a pixel
  Span columns_{0, 0};
  Span rows_{0, 0};
  std::vector<double> line_;
  std::vector<double> opacity_;
};

std::uint8_t byte_of(double value) { return static_cast<std::uint8_t>(std::floor(value + 0.5)); }

}  // namespace

void paint_cloud(const Cloud& cloud, const CloudDensity& density, const Viewport& view,
                 CloudInk rollouts, CloudInk tracks_ink, int tracks,
                 std::vector<std::uint8_t>& rgba) {
  rgba.clear();
  if (!is_usable(view)) return;
  const int width = static_cast<int>(view.width_px);
  const int height = static_cast<int>(view.height_px);
  rgba.assign(4U * static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 0);
  TrackField field(width, height);
  const int drawn = std::clamp(tracks, 0, std::min(kMostCloudTracks, cloud.drawn()));
  for (int i = 0; i < drawn; ++i) {
    field.add(DeviatedTrack(cloud.setup(), cloud.plan(), cloud.off(i)).pieces(), view);
  }
  field.soften();
  DensityRows dense(density, view, width, height);
  const Span rows = both(field.rows(), dense.rows());
  const Span columns = both(field.columns(), dense.columns());
  const double full = std::max(1.0, kFullTracks * drawn);
  for (int y = rows.first; y < rows.end; ++y) {
    const double* const over_row = dense.row(y);
    const float* const count = field.row(y);
    for (int x = columns.first; x < columns.end; ++x) {
      const double over = over_row[x];
      const double many = std::min(1.0, static_cast<double>(count[x]) / full);
      if (over <= 0.0 && many <= 0.0) continue;
      const double under = kMostOpaqueTracks * std::sqrt(many) * (1.0 - over);
      const double all = over + under;
      const auto mix = [&](std::uint8_t a, std::uint8_t b) {
        return byte_of((a * over + b * under) / all);
      };
      std::uint8_t* const to =
          &rgba[4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                     static_cast<std::size_t>(x))];
      to[0] = mix(rollouts.red, tracks_ink.red);
      to[1] = mix(rollouts.green, tracks_ink.green);
      to[2] = mix(rollouts.blue, tracks_ink.blue);
      to[3] = byte_of(255.0 * all);
    }
  }
}

}  // namespace core
