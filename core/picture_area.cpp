// The picture's protected area, and the captions at its foot.
#include <algorithm>

#include "core/artist.h"
#include "core/picture_parts.h"
#include "core/trade_words.h"

namespace core {
namespace {
/// Points on the outlines that labels keep off: their corners are closer together.
constexpr double kApartPx = 8.0;
}  // namespace

void Artist::area() {
  const ProtectedArea& a = *o_.area;
  const auto outline = [&](const Outline& line, bool closed) {
    for (int i = 0; i < Outline::kPoints; ++i) w_.point(line[i]);
    if (closed) w_.point(line[0]);
  };
  w_.item(Shape::polygon, Role::area_fill);
  outline(a.entry, false);
  w_.item(Shape::polyline, Role::area_buffer);
  outline(a.buffer, true);
  avoid_last_line(kApartPx);
  w_.item(Shape::polyline, Role::area).width_scale = 0.7F;
  outline(a.entry, true);
  avoid_last_line(kApartPx);
  w_.item(Shape::polyline, Role::area);
  outline(a.basic, true);
  avoid_last_line(kApartPx);
}

void Artist::area_labels() {
  struct Line {
    const Outline& outline;
    Role role;
    const char* word_key;
    double way;  ///< 1: best outside, -1: best inside
  };
  const Line lines[] = {{o_.area->basic, Role::area, "core.area.label.basic", -1.0},
                        {o_.area->entry, Role::area, "core.area.label.entry", 1.0},
                        {o_.area->buffer, Role::area_buffer, "core.area.label.buffer", -1.0}};
  for (const Line& line : lines) {
    std::vector<Anchor> anchors;
    for (int i = 0; i < Outline::kPoints; i += 20) {
      const Vec2 p = px(line.outline[i]);
      if (p.x < 0.0 || p.y < 0.0 || p.x > o_.view.width_px || p.y > o_.view.height_px) continue;
      const Vec2 out = along(u_.hold.outbound_course_deg() + i);
      anchors.push_back({line.outline[i], screen(out * line.way)});
    }
    if (anchors.empty()) continue;
    placed_best(line.role, anchors, word(line.word_key), kSmallPx, false, 7.0);
  }
}

void Artist::captions() {
  if (o_.layers.area) {
    caption(Role::text, caption_of_area(), kSmallPx);
    if (o_.area && !o_.area->exists()) caption(Role::quiet, reason(o_.area->why), kSmallPx);
  }
  if (o_.layers.sectors) caption(Role::quiet, word("core.picture.sectors.caption"), kSmallPx);
  if (o_.layers.other_entry && u_.sector && u_.sector->also == u_.sector->kind) {
    caption(Role::quiet,
            phrase("core.picture.one_entry",
                   {{"entry", std::string(label_of(u_.sector->kind, u_.scenario.book))}}),
            kSmallPx);
  }
}

void Artist::caption(Role role, std::string_view text, double size_px) {
  constexpr double kEdgePx = 16.0;
  // Beside the wind's dial where that stands low, in the other corner.
  const bool right = o_.wind_corner == 3;
  const Vec2 dial = dial_centre_px(o_);
  const double reach = o_.view.height_px - dial.y;
  const double room = (o_.wind_corner == 2   ? dial.x - reach
                       : o_.wind_corner == 3 ? o_.view.width_px - dial.x - reach
                                             : o_.view.width_px - kEdgePx) -
                      kEdgePx;
  // Broken into lines at spaces; a word longer than the room stands as it is.
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    std::size_t cut = text.size();
    while (text_width_px(text.substr(0, cut), size_px, false) > room) {
      const std::size_t space = text.rfind(' ', cut - 1);
      if (space == std::string_view::npos || space == 0) break;
      cut = space;
    }
    lines.push_back(text.substr(0, cut));
    text.remove_prefix(std::min(text.size(), cut + 1));
  }
  const double height = size_px * 1.3;
  for (std::size_t i = lines.size(); i-- > 0;) {
    const double y = o_.view.height_px - 14.0 - foot_px_;
    foot_px_ += height;
    const double x = right ? o_.view.width_px - kEdgePx : kEdgePx;
    const double width = text_width_px(lines[i], size_px, false);
    w_.label(role, o_.view.to_nm({x, y}), lines[i], size_px, false).align =
        right ? Align::right : Align::left;
    const double left = right ? x - width : x;
    labels_.block({left, y - 0.5 * height, left + width, y + 0.5 * height});
  }
  foot_px_ += 3.0;
}

}  // namespace core
