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
  /// Which letters there are. All of them take ten times as long as those of one picture: the
  /// first picture does not wait for the rest.
  enum class Alphabet { none, some, plain, accents };

  /// Fills the atlas for this pixel ratio; of `some`, with the letters of `text` and the digits.
  /// The caller uploads its texture again.
  void build(ImFontAtlas& atlas, double dpr, Alphabet alphabet, std::string_view text);
  /// The least alphabet, not less than there is, that has all that the subset has of `text`.
  [[nodiscard]] Alphabet wanted(std::string_view text) const;
  [[nodiscard]] Alphabet alphabet() const { return alphabet_; }
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
  Alphabet alphabet_ = Alphabet::none;
  ImFontGlyphRangesBuilder some_;  ///< what `some` has
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
