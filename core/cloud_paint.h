// core/cloud_paint.h - a cloud as pixels: the more flights, the less one sees through.
#pragma once

#include <cstdint>
#include <vector>

#include "core/cloud_density.h"
#include "core/diagram.h"

namespace core {

struct CloudInk {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
};

/// Most pixels that are painted, and most flights whose tracks are drawn.
inline constexpr int kMostCloudPixels = 4000000;
inline constexpr int kMostCloudTracks = 500;

/// Red, green, blue (as the inks say) and opacity of each pixel, row by row from the top left, as
/// a canvas takes them; `view` in those pixels. Roll-outs by `density` in the ink, under them the
/// tracks of the first `tracks` flights in theirs. Leaves `rgba` empty where the view has no
/// pixels or too many.
void paint_cloud(const Cloud& cloud, const CloudDensity& density, const Viewport& view,
                 CloudInk rollouts, CloudInk tracks_ink, int tracks,
                 std::vector<std::uint8_t>& rgba);

}  // namespace core
