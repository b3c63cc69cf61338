#include "core/label_placer.h"

#include <cmath>

namespace core {

double text_width_px(std::string_view text, double size_px, bool strong) {
  double em = 0.0;
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    if ((u & 0xC0U) == 0x80U) continue;  // later bytes of one letter
    const bool narrow = c == ' ' || c == '.' || c == ',' || c == ':' || c == 'i' || c == 'l' ||
                        c == 't' || c == 'f' || c == 'j' || c == 'I' || c == '/';
    em += narrow ? 0.32 : c == 'm' || c == 'w' || c == 'M' || c == 'W' ? 0.86 : 0.6;
  }
  return em * size_px * (strong ? 1.05 : 1.0);
}

bool LabelPlacer::is_free(const Box& box) const {
  for (const Box& other : boxes_) {
    if (box.overlaps(other)) return false;
  }
  return true;
}

Placement LabelPlacer::place(Vec2 anchor, double width, double height, double gap, Vec2 toward) {
  const Placement p = propose(anchor, width, height, gap, toward);
  boxes_.push_back(p.box);
  return p;
}

Placement LabelPlacer::propose(Vec2 anchor, double width, double height, double gap, Vec2 toward,
                               double most) const {
  constexpr int kSides = 8;
  constexpr double kMargin = 4.0;
  constexpr double kRingCost = 7.0;
  constexpr double kOverLabelCost = 120.0;
  constexpr double kCutOffCost = 60.0;
  // Lines under a label are a pity, but past a few it must rather stay near.
  constexpr double kOverPointCost = 3.0;
  constexpr double kOverPointsMost = 30.0;
  Placement best;
  best.cost = most;
  // Each ring farther out costs more, so the search ends once nothing out there can win.
  for (int ring = 0; ring < 4 && kRingCost * ring < best.cost; ++ring) {
    for (int i = 0; i < kSides; ++i) {
      const Vec2 d = along(360.0 / kSides * i);  // x right, y up
      const double reach = gap * (1.0 + 1.6 * ring);
      Placement p;
      p.align = d.x > 0.3 ? Align::left : d.x < -0.3 ? Align::right : Align::centre;
      p.offset_px = {d.x * reach,
                     -d.y * (reach + (p.align == Align::centre ? height / 2 : height / 4))};
      const double side = anchor.x + p.offset_px.x;
      const double left = p.align == Align::left    ? side
                          : p.align == Align::right ? side - width
                                                    : side - width / 2;
      const double top = anchor.y + p.offset_px.y - height / 2;
      p.box = {left - 2.0, top, left + width + 2.0, top + height};
      p.cost = kRingCost * ring + 1.5 * (1.0 - (d.x * toward.x - d.y * toward.y));
      p.cost += 2.0 * (std::fmax(0.0, kMargin - p.box.left) + std::fmax(0.0, kMargin - p.box.top) +
                       std::fmax(0.0, p.box.right - width_px_ + kMargin) +
                       std::fmax(0.0, p.box.bottom - height_px_ + kMargin));
      // Cut off at the picture's edge is as bad as unreadable.
      if (p.box.left < 0.0 || p.box.top < 0.0 || p.box.right > width_px_ ||
          p.box.bottom > height_px_) {
        p.cost += kCutOffCost;
      }
      for (const Box& other : boxes_) {
        if (p.box.overlaps(other)) p.cost += kOverLabelCost;
      }
      if (p.cost >= best.cost) continue;
      double over = 0.0;
      for (const Vec2 point : points_) {
        if (p.cost + over >= best.cost || over >= kOverPointsMost) break;
        if (p.box.contains(point)) over += kOverPointCost;
      }
      p.cost += over;
      if (p.cost < best.cost) best = p;
    }
  }
  return best;
}

}  // namespace core
