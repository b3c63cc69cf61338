#include "web/view_paint.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/theme.h"
#include "core/units.h"
#include "web/view_canvas.h"

namespace view {
namespace {

using core::Item;
using core::Shape;
using core::Vec2;

// Three measures that core/svg.cpp shares.
/// The base line lies so far below the middle of the letters, in em.
constexpr double kHalfLetter = 0.35;
/// Paper shows so far around letters that have a halo.
constexpr double kHaloPx = 1.75;
/// Depth of an arrow head's notch, from the tip, in head lengths.
constexpr double kNotch = 0.8;
constexpr int kHaloSteps = 12;
constexpr double kMaxSizePx = 1e4;

bool finite(Vec2 p) { return std::isfinite(p.x) && std::isfinite(p.y); }

class Painter {
 public:
  Painter(ImDrawList& list, const Letters& letters, const Scene& scene, const Frame& frame)
      : canvas_(list, letters.white(), frame.width, frame.height),
        letters_(letters),
        scene_(scene),
        frame_(frame),
        paper_(core::paint(core::Role::paper, frame.theme).rgb) {}

  void item(const Item& item);

 private:
  [[nodiscard]] Vec2 place(Vec2 nm) const;
  [[nodiscard]] double size_of(const Item& item) const;
  [[nodiscard]] Pen pen_for(const Item& item) const;
  [[nodiscard]] ImU32 colour_of(const Item& item, bool faint) const;
  [[nodiscard]] std::string_view text_of(const Item& item) const;
  void arrow(const Item& item);
  void glyph(const Item& item);
  void label(const Item& item);

  Canvas canvas_;
  const Letters& letters_;
  const Scene& scene_;
  const Frame& frame_;
  std::uint32_t paper_;
  std::vector<Vec2> px_;  // the item's points in device pixels
  std::vector<Vec2> shape_;
};

Vec2 Painter::place(Vec2 nm) const {
  const double scale = frame_.px_per_nm * frame_.dpr;
  return {frame_.width / 2 + (nm.x - frame_.centre.x) * scale,
          frame_.height / 2 - (nm.y - frame_.centre.y) * scale};
}

/// Device pixels; 0 where the record makes no sense.
double Painter::size_of(const Item& item) const {
  const double size =
      static_cast<double>(item.size) * frame_.dpr * (item.size_in_nm != 0 ? frame_.px_per_nm : 1.0);
  if (!(size > 0.0) || !std::isfinite(size)) return 0.0;
  return item.size_in_nm != 0 ? size : std::min(size, kMaxSizePx * frame_.dpr);
}

/// Lines and areas may be faint; what is read or taken hold of is not.
ImU32 Painter::colour_of(const Item& item, bool faint) const {
  const core::Paint p = core::paint(item.role, frame_.theme);
  return packed(p.rgb, (faint ? p.opacity : 1.0) * static_cast<double>(item.opacity));
}

Pen Painter::pen_for(const Item& item) const {
  const core::Paint p = core::paint(item.role, frame_.theme);
  Pen pen;
  pen.width = p.width_px * static_cast<double>(item.width_scale) * frame_.dpr;
  if (!(pen.width < kMaxSizePx)) pen.width = 0.0;
  pen.colour = colour_of(item, true);
  if (item.shape == Shape::polyline) {
    for (int i = 0; i < 4; ++i) pen.dash[i] = p.dash_px[i] * frame_.dpr;
  }
  return pen;
}

std::string_view Painter::text_of(const Item& item) const {
  if (item.text_first > scene_.text.size()) return {};
  return scene_.text.substr(item.text_first, item.text_count);
}

void Painter::item(const Item& item) {
  if (item.count == 0 || item.first >= scene_.point_count ||
      item.count > scene_.point_count - item.first) {
    return;
  }
  px_.clear();
  for (std::uint32_t i = 0; i < item.count; ++i) {
    px_.push_back(place(scene_.points[item.first + i]));
  }
  switch (item.shape) {
    case Shape::polyline:
      canvas_.stroke(px_, pen_for(item), false);
      break;
    case Shape::polygon:
      canvas_.fill(px_, colour_of(item, true));
      break;
    case Shape::ring:
      canvas_.ring(px_[0], size_of(item), pen_for(item));
      break;
    case Shape::disc:
      canvas_.disc(px_[0], size_of(item), colour_of(item, false));
      break;
    case Shape::glyph:
      glyph(item);
      break;
    case Shape::arrow:
      arrow(item);
      break;
    case Shape::label:
      label(item);
      break;
  }
}

void Painter::arrow(const Item& item) {
  if (px_.size() < 2 || !finite(px_[0]) || !finite(px_[1])) return;
  const Pen pen = pen_for(item);
  const Vec2 tail = px_[0];
  const Vec2 tip = px_[1];
  const double size = core::length(tip - tail);
  if (!(size > 1e-6)) return;
  const Vec2 ahead = (tip - tail) * (1.0 / size);
  const Vec2 left = {ahead.y, -ahead.x};
  const double head = std::min(size_of(item), size);
  if (!(head > 0.0)) {
    canvas_.stroke(px_, pen, false);
    return;
  }
  const Vec2 notch = tip - ahead * (kNotch * head);
  px_.resize(2);
  px_[1] = notch;
  canvas_.stroke(px_, pen, false);
  shape_ = {tip, tip - ahead * head + left * (0.42 * head), notch,
            tip - ahead * head - left * (0.42 * head)};
  if (canvas_.sees(tip, head)) canvas_.fill(shape_, colour_of(item, false));
}

void Painter::glyph(const Item& item) {
  const core::GlyphPath path = core::glyph_path(text_of(item));
  const double size = size_of(item);
  const Vec2 at = px_[0];
  if (path.points == nullptr || !(size > 0.0) || !finite(at) || !canvas_.sees(at, 2.0 * size)) {
    return;
  }
  if (!std::isfinite(item.angle_deg)) return;
  const core::SinCos turn = core::sincos_deg(static_cast<double>(item.angle_deg));
  shape_.clear();
  for (int i = 0; i < path.count; ++i) {
    const Vec2 p = path.points[i] * size;
    shape_.push_back(
        {at.x + p.x * turn.cos + p.y * turn.sin, at.y + p.x * turn.sin - p.y * turn.cos});
  }
  const ImU32 paper = packed(paper_, static_cast<double>(item.opacity));
  Pen pen = pen_for(item);
  if (path.filled) {
    if (item.halo != 0) {
      pen.colour = paper;
      pen.width = 2.0 * kHaloPx * frame_.dpr;
      canvas_.stroke(shape_, pen, true);
    }
    canvas_.fill(shape_, colour_of(item, false));
  } else {
    canvas_.fill(shape_, paper);
    canvas_.stroke(shape_, pen, true);
  }
}

void Painter::label(const Item& item) {
  const double size_px = static_cast<double>(item.size);
  const Vec2 at = px_[0];
  const Vec2 offset = {static_cast<double>(item.offset_x_px),
                       static_cast<double>(item.offset_y_px)};
  if (!(size_px > 0.0 && size_px < 400.0) || !finite(at) || !std::isfinite(item.angle_deg) ||
      !(core::length(offset) < kMaxSizePx)) {
    return;
  }
  const std::string_view text = text_of(item);
  const Face face = letters_.face(size_px, item.emphasis == core::strong);
  const double width = static_cast<double>(width_of(face, text));
  const double reach = width + (core::length(offset) + size_px) * frame_.dpr;
  if (!canvas_.sees(at, reach)) return;

  // The offset is the screen's; the letters then turn about the point it leads to.
  double u = 0.0;
  const double v = kHalfLetter * size_px * frame_.dpr;
  if (item.align == core::Align::centre) u = -width / 2;
  if (item.align == core::Align::right) u = -width;
  const core::SinCos turn = core::sincos_deg(static_cast<double>(item.angle_deg));
  const Vec2 pivot = at + offset * frame_.dpr;
  Vec2 origin = {pivot.x + u * turn.cos - v * turn.sin, pivot.y + u * turn.sin + v * turn.cos};
  if (turn.cos == 1.0) origin.y = std::round(origin.y);  // sharp feet
  Line line;
  line.right = {static_cast<float>(turn.cos), static_cast<float>(turn.sin)};
  const auto write_at = [&](Vec2 p, ImU32 colour) {
    line.origin = {static_cast<float>(p.x), static_cast<float>(p.y)};
    write(canvas_.list(), face, line, text, colour);
  };
  if (item.halo != 0) {
    const ImU32 paper = packed(paper_, static_cast<double>(item.opacity));
    for (int i = 0; i < kHaloSteps; ++i) {
      const Vec2 away = core::along(360.0 * i / kHaloSteps) * (kHaloPx * frame_.dpr);
      write_at(origin + away, paper);
    }
  }
  write_at(origin, colour_of(item, false));
}

}  // namespace

ImU32 packed(std::uint32_t rgb, double opacity) {
  const double alpha = opacity > 0.0 ? std::min(opacity, 1.0) * 255.0 : 0.0;
  return IM_COL32((rgb >> 16) & 0xFFU, (rgb >> 8) & 0xFFU, rgb & 0xFFU,
                  static_cast<ImU32>(std::lround(alpha)));
}

void paint(ImDrawList& list, const Letters& letters, const Scene& scene, const Frame& frame) {
  if (!finite(frame.centre) || !(frame.px_per_nm > 0.0) || !std::isfinite(frame.px_per_nm)) return;
  Painter painter(list, letters, scene, frame);
  for (std::size_t i = 0; i < scene.item_count; ++i) painter.item(scene.items[i]);
}

}  // namespace view
