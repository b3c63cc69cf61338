// web/view_font.h - the letters of the picture.
//
// Two weights of the subset in assets/fonts, compiled in, rasterised at each label size
// times the device pixel ratio. Sizes are em sizes, as in CSS. Text is UTF-8; what the
// subset lacks is shown as a question mark.
#pragma once

#include <string_view>

#include "imgui.h"

namespace view {

/// Letters sharp enough for `size_px` device pixels a em, to be drawn `scale` times as
/// large as they were rasterised.
struct Face {
  const ImFont* font = nullptr;
  float scale = 1.0F;
};

class Letters {
 public:
  /// Fills the atlas for this pixel ratio. The caller uploads its texture again.
  void build(ImFontAtlas& atlas, double dpr, bool accents);
  /// Whether `text` has letters that only `build(..., accents = true)` provides.
  [[nodiscard]] bool lacks(std::string_view text) const;
  [[nodiscard]] double dpr() const { return dpr_; }
  /// Texture coordinate of an opaque texel, for everything but letters.
  [[nodiscard]] ImVec2 white() const { return white_; }

  /// `size_px` in CSS pixels. No font before `build`.
  [[nodiscard]] Face face(double size_px, bool strong) const;

 private:
  static constexpr int kSizes = 4;
  const ImFont* fonts_[2][kSizes] = {};  // plain, strong
  ImVec2 white_;
  double dpr_ = 0.0;
  bool accents_ = false;
};

/// Width of `text` in device pixels.
[[nodiscard]] float width_of(Face face, std::string_view text);

/// Where and how a line of text stands: `origin` is the left end of its base line in
/// device pixels, `right` the unit vector along it.
struct Line {
  ImVec2 origin;
  ImVec2 right = {1.0F, 0.0F};
};
void write(ImDrawList& list, Face face, Line line, std::string_view text, ImU32 colour);

}  // namespace view
