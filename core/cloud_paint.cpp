#include "core/cloud_paint.h"

#include <algorithm>
#include <cmath>

namespace core {
namespace {

/// Where the cloud is densest, and where all tracks are one, there is still something seen below.
constexpr double kMostOpaqueRollouts = 0.8;
constexpr double kMostOpaqueTracks = 0.5;
/// So much of the tracks on one pixel is as many as counts.
constexpr double kFullTracks = 0.25;
/// A turn is drawn by chords of at most so much.
constexpr double kChordDeg = 8.0;

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
  /// Each pixel with its neighbours, so that single flights do not look like lines.
  void soften() {
    std::vector<float> before;
    for (int pass = 0; pass < 2; ++pass) {
      soften_lines(height_, width_, width_, 1, before);
      soften_lines(width_, height_, 1, width_, before);
    }
  }
  [[nodiscard]] double at(std::size_t pixel) const { return static_cast<double>(count_[pixel]); }

 private:
  void soften_lines(int lines, int count, int line_step, int step, std::vector<float>& before) {
    before.resize(static_cast<std::size_t>(count));
    for (int l = 0; l < lines; ++l) {
      float* const line = &count_[static_cast<std::size_t>(l * line_step)];
      float last = 0.0F;
      for (int i = 0; i < count; ++i) {
        const float here = line[i * step];
        const float next = i + 1 < count ? line[(i + 1) * step] : 0.0F;
        line[i * step] = 0.25F * last + 0.5F * here + 0.25F * next;
        last = here;
      }
    }
  }
  void add(int x, int y, double amount) {
    if (x < 0 || y < 0 || x >= width_ || y >= height_) return;
    count_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
           static_cast<std::size_t>(x)] += static_cast<float>(amount);
  }
  /// One step a pixel along the longer way; each step's one is shared by the two pixels beside the
  /// line. The last point is the next line's first.
  void line(Vec2 from, Vec2 to) {
    double begin = 0.0;
    double end = 1.0;
    if (!clip(from.x, to.x, width_, begin, end) || !clip(from.y, to.y, height_, begin, end)) return;
    const Vec2 way = to - from;
    const double length_px = std::max(std::abs(way.x), std::abs(way.y));
    const bool flat = std::abs(way.x) >= std::abs(way.y);
    const int first = static_cast<int>(std::ceil(begin * length_px));
    const int last = static_cast<int>(std::ceil(end * length_px));
    for (int i = first; i < last; ++i) {
      const Vec2 p = from + way * (i / length_px);
      const double across = (flat ? p.y : p.x) - 0.5;
      const double low = std::floor(across);
      const int pixel = static_cast<int>(low);
      const int along_px = static_cast<int>(std::floor(flat ? p.x : p.y));
      add(flat ? along_px : pixel, flat ? pixel : along_px, 1.0 - (across - low));
      add(flat ? along_px : pixel + 1, flat ? pixel + 1 : along_px, across - low);
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
  std::vector<float> count_;
};

std::uint8_t byte_of(double value) { return static_cast<std::uint8_t>(value + 0.5); }

}  // namespace

void paint_cloud(const Cloud& cloud, const CloudDensity& density, const Viewport& view,
                 CloudInk rollouts, CloudInk tracks_ink, int tracks,
                 std::vector<std::uint8_t>& rgba) {
  rgba.clear();
  if (!(view.width_px >= 1.0 && view.height_px >= 1.0 &&
        view.width_px * view.height_px <= kMostCloudPixels && view.px_per_nm > 0.0)) {
    return;
  }
  const int width = static_cast<int>(view.width_px);
  const int height = static_cast<int>(view.height_px);
  rgba.assign(4U * static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 0);
  const int drawn = std::clamp(tracks, 0, std::min(kMostCloudTracks, cloud.drawn()));
  TrackField field(drawn > 0 ? width : 0, drawn > 0 ? height : 0);
  for (int i = 0; i < drawn; ++i) {
    const DeviatedTrack track(cloud.setup(), cloud.plan(), cloud.off(i));
    field.add(track.pieces(), view);
  }
  if (drawn > 0) field.soften();
  const double full = std::max(1.0, kFullTracks * drawn);
  std::size_t pixel = 0;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x, ++pixel) {
      const double many = drawn > 0 ? std::min(1.0, field.at(pixel) / full) : 0.0;
      const double dense =
          density.peak > 0.0 ? density.at(view.to_nm({x + 0.5, y + 0.5})) / density.peak : 0.0;
      if (many <= 0.0 && dense <= 0.0) continue;
      const double over = kMostOpaqueRollouts * std::sqrt(dense);
      const double under = kMostOpaqueTracks * std::sqrt(many) * (1.0 - over);
      const double all = over + under;
      const auto mix = [&](std::uint8_t a, std::uint8_t b) {
        return byte_of((a * over + b * under) / all);
      };
      std::uint8_t* const to = &rgba[4 * pixel];
      to[0] = mix(rollouts.red, tracks_ink.red);
      to[1] = mix(rollouts.green, tracks_ink.green);
      to[2] = mix(rollouts.blue, tracks_ink.blue);
      to[3] = byte_of(255.0 * all);
    }
  }
}

}  // namespace core
