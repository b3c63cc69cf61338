// web/view_canvas.h - soft-edged lines and areas on a Dear ImGui draw list.
//
// Everything here is in device pixels, x right, y down. Edges fade over exactly one
// device pixel. Points come in double, are clipped to the picture and only then
// become float, so that no zoom makes a coordinate too large. Points that are not
// finite, or a thousand million pixels away, are left out; a line breaks there.
//
// Lines are in view_stroke.cpp, areas and circles in view_fill.cpp.
//
// Dear ImGui's own polylines would do but for three things: their dashes and ends have
// no soft edge, sharp corners grow spikes, and widths below one pixel are not fainter.
#pragma once

#include <vector>

#include "core/units.h"
#include "imgui.h"

namespace view {

struct Pen {
  double width = 1.0;   ///< > 0; below 1 the line is one pixel wide and fainter
  ImU32 colour = 0;     ///< ImGui's packing
  double dash[4] = {};  ///< on, off, on, off; all zero is solid
};

/// Draws on one list, clipped to [0, width] x [0, height]. `white` is the texture
/// coordinate of an opaque texel.
class Canvas {
 public:
  Canvas(ImDrawList& list, ImVec2 white, double width, double height);

  /// Line through `points` with round joins and ends. `closed` joins last to first.
  void stroke(const std::vector<core::Vec2>& points, const Pen& pen, bool closed);
  /// Area of a simple polygon, convex or not, given either way round. Above 1,000
  /// corners it is filled as if it were convex.
  void fill(const std::vector<core::Vec2>& points, ImU32 colour);
  void disc(core::Vec2 centre, double radius, ImU32 colour);
  void ring(core::Vec2 centre, double radius, const Pen& pen);

  /// Whether a mark of this reach about `p` can be seen at all.
  [[nodiscard]] bool sees(core::Vec2 p, double reach) const;
  [[nodiscard]] ImDrawList& list() { return list_; }

 private:
  void clip_segment(core::Vec2 a, core::Vec2 b, double pad, double& from, double& to) const;
  void run(const Pen& pen, double start);
  void band(const std::vector<ImVec2>& points, const Pen& pen, bool closed);
  void cap(const std::vector<ImVec2>& points, bool at_start, float core_half, float edge_half);
  void corner(ImVec2 at, ImVec2 d0, ImVec2 d1, float reach, float core_half, float edge_half);
  void row(ImVec2 left_edge, ImVec2 left, ImVec2 right, ImVec2 right_edge);
  void row(ImVec2 at, ImVec2 across, float core_half, float edge_half);
  void link(ImDrawIdx from, ImDrawIdx to);
  void tidy(const std::vector<ImVec2>& points, bool closed);
  void clip_area(const std::vector<core::Vec2>& points);
  void area(ImU32 colour, bool convex);
  void fan(ImDrawIdx first);
  void cut_ears(ImDrawIdx first);

  ImDrawList& list_;
  ImVec2 white_;
  double width_, height_;
  ImU32 solid_ = 0, clear_ = 0;
  bool joined_ = false;  ///< the next row continues the one before
  ImDrawIdx last_row_ = 0;
  std::vector<ImVec2> run_, dash_, tidy_;
  std::vector<core::Vec2> area_, clipped_;
  std::vector<ImDrawIdx> ears_;
};

}  // namespace view
