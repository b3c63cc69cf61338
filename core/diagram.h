// core/diagram.h - the picture as device-independent primitives.
//
// Positions are nautical miles in the core's plane (x east, y north, fix at the
// origin); sizes of marks and text are CSS pixels, so that zooming never fattens
// a line. The canvas painter and the SVG writer draw exactly this and nothing of
// their own. Items are in painting order, back to front.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/theme.h"
#include "core/units.h"

namespace core {

enum class Shape : std::uint8_t {
  polyline,  ///< points[first .. first+count), open, stroked with the role's paint
  polygon,   ///< closed and filled with the role's paint, no outline
  ring,      ///< circle outline about points[first]; radius `size` px, or NM if `size_in_nm`
  disc,      ///< filled circle about points[first], likewise
  glyph,  ///< filled symbol about points[first]: `text` names it, `size` px, turned by `angle_deg`
  arrow,  ///< two points, tail then tip: stroked shaft, filled head of `size` px
  label,  ///< `text` at points[first], `size` px high, placed by `align` and `offset_px`
};

/// Which point of a label lies on its anchor.
enum class Align : std::uint8_t { left, centre, right };

enum Emphasis : std::uint8_t { plain = 0, strong = 1 };

/// One mark. A plain record: the two WebAssembly modules exchange it by bytes.
struct Item {
  Shape shape = Shape::polyline;
  Role role = Role::text;
  Align align = Align::left;
  std::uint8_t emphasis = plain;  ///< strong labels are set in the heavier weight
  std::uint8_t size_in_nm = 0;
  std::uint8_t halo = 0;  ///< label: paper-coloured outline behind the letters
  std::uint16_t pad = 0;
  std::uint32_t first = 0;       ///< first point
  std::uint32_t count = 0;       ///< number of points
  std::uint32_t text_first = 0;  ///< first byte of UTF-8 in Diagram::text
  std::uint32_t text_count = 0;
  float size = 0.0F;         ///< px, or NM with `size_in_nm`
  float angle_deg = 0.0F;    ///< glyph: clockwise from up; label: clockwise from level
  float offset_x_px = 0.0F;  ///< label: right of the anchor
  float offset_y_px = 0.0F;  ///< label: below the anchor (to the vertical middle of the text)
  float opacity = 1.0F;      ///< multiplies the paint's own
  float width_scale = 1.0F;  ///< multiplies the paint's line width
};
static_assert(sizeof(Item) == 48);

/// How the plane is laid on the picture: `centre` in the middle, north up.
struct Viewport {
  Vec2 centre{0.0, 0.0};     ///< NM
  double px_per_nm = 100.0;  ///< CSS pixels
  double width_px = 800.0;
  double height_px = 600.0;

  [[nodiscard]] Vec2 to_px(Vec2 nm) const {
    return {width_px / 2 + (nm.x - centre.x) * px_per_nm,
            height_px / 2 - (nm.y - centre.y) * px_per_nm};
  }
  [[nodiscard]] Vec2 to_nm(Vec2 px) const {
    return {centre.x + (px.x - width_px / 2) / px_per_nm,
            centre.y - (px.y - height_px / 2) / px_per_nm};
  }
};

struct Diagram {
  Viewport view;
  std::vector<Item> items;
  std::vector<Vec2> points;
  std::string text;

  [[nodiscard]] std::string_view text_of(const Item& item) const {
    return std::string_view(text).substr(item.text_first, item.text_count);
  }
};

/// Adds items to a diagram. A returned reference is good until the next call.
class DiagramWriter {
 public:
  explicit DiagramWriter(Diagram& diagram) : d_(diagram) {}

  /// An item without points yet; push them with point().
  Item& item(Shape shape, Role role);
  void point(Vec2 at) {
    d_.points.push_back(at);
    ++d_.items.back().count;
  }
  Item& line(Role role, Vec2 a, Vec2 b);
  /// A ring or disc of `size` px.
  Item& mark(Shape shape, Role role, Vec2 at, double size);
  Item& arrow(Role role, Vec2 tail, Vec2 tip, double head_px);
  Item& glyph(Role role, Vec2 at, std::string_view name, double size_px, double angle_deg);
  Item& label(Role role, Vec2 at, std::string_view text, double size_px, bool strong);

 private:
  void set_text(Item& item, std::string_view text);

  Diagram& d_;
};

/// Glyph names that painters must know: "fix" (triangle on its base, point up,
/// hollow), "aircraft" (seen from above, nose up), "head" (bare arrow head, tip up),
/// "station" (a square on its corner, hollow).
inline constexpr int kGlyphCount = 4;

/// Outline of a glyph in units of its size, x right, y up, centred on its anchor.
/// Hollow ones are stroked. Unknown names have no points.
struct GlyphPath {
  const Vec2* points = nullptr;
  int count = 0;
  bool filled = true;
};
[[nodiscard]] GlyphPath glyph_path(std::string_view name);

}  // namespace core
