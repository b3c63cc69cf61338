// web/view_paint.h - the diagram's items as Dear ImGui triangles.
//
// Knows core's diagram and theme and nothing of SDL or the browser. The bytes may come
// from anywhere: an index out of range, an unknown kind, or a number that is not finite
// drops that item and nothing else.
#pragma once

#include <cstddef>
#include <string_view>

#include "core/diagram.h"
#include "imgui.h"
#include "web/view_font.h"

namespace view {

/// The records to paint, as handed over by the page.
struct Scene {
  const core::Item* items = nullptr;
  std::size_t item_count = 0;
  const core::Vec2* points = nullptr;
  std::size_t point_count = 0;
  std::string_view text;
};

/// How they are laid on the canvas.
struct Frame {
  core::Theme theme = core::Theme::light;
  core::Vec2 centre;         ///< NM, in the middle of the canvas
  double px_per_nm = 100.0;  ///< CSS pixels
  double dpr = 1.0;          ///< device pixels in a CSS pixel
  double width = 0.0;        ///< device pixels
  double height = 0.0;
};

void paint(ImDrawList& list, const Letters& letters, const Scene& scene, const Frame& frame);

/// ImGui's packing of 0xRRGGBB and an opacity, which is clamped to 0..1 (NaN: 0).
[[nodiscard]] ImU32 packed(std::uint32_t rgb, double opacity);

}  // namespace view
