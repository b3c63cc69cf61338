// The picture's entry sectors, and the other entry where two are acceptable.
#include <algorithm>

#include "core/artist.h"
#include "core/picture_parts.h"
#include "core/trade_words.h"

namespace core {
namespace {

/// The sectors by the delta of heading less outbound course (core/hold.h).
struct Sector {
  EntryKind kind;
  double from_deg;
  double to_deg;
  [[nodiscard]] double middle_deg() const { return 0.5 * (from_deg + to_deg); }
};
constexpr Sector kSectors[] = {{EntryKind::offset, -70.0, 0.0},
                               {EntryKind::parallel, 0.0, 110.0},
                               {EntryKind::direct, 110.0, 290.0}};
/// Radii of the arrival heading's arrow, in the sectors' own.
constexpr double kArrowTail = 1.0;
constexpr double kArrowTip = 0.76;

}  // namespace

void Artist::sectors() {
  const double r = sector_radius_nm(u_);
  const auto at = [&](double delta, double radius) { return along(from_deg(delta)) * radius; };
  const auto arc = [&](double from, double to) {
    const int n = std::max(1, static_cast<int>((to - from) / 3.0));
    for (int i = 0; i <= n; ++i) w_.point(at(from + (to - from) * i / n, r));
  };
  for (const Sector& s : kSectors) {
    if (u_.sector && u_.sector->kind == s.kind) {
      w_.item(Shape::polygon, Role::sector_fill);
      w_.point({0.0, 0.0});
      arc(s.from_deg, s.to_deg);
    }
  }
  for (const Sector& s : kSectors) {
    // The zone about the edge at which the sector begins: rungs, which need no grey.
    const double step = std::fmax(r / 24.0, std::fmin(nm(7.0), 0.13 * r));
    for (double radius = r - step; radius > 0.45 * r; radius -= step) {
      Item& rung = w_.line(Role::sector, at(s.from_deg - kSectorZoneDeg, radius),
                           at(s.from_deg + kSectorZoneDeg, radius));
      rung.opacity = 0.6F;
      rung.width_scale = 0.6F;
    }
    w_.line(Role::sector, {0.0, 0.0}, at(s.from_deg, r));
    avoid_last_line();
    w_.item(Shape::polyline, Role::sector).width_scale = 1.6F;
    arc(s.from_deg + 1.0, s.to_deg - 1.0);
    avoid_last_line();
  }
}

void Artist::sector_labels() {
  const double r = sector_radius_nm(u_);
  if (u_.arrival.exists) {
    const Vec2 from = along(u_.arrival.heading_deg) * -1.0;
    w_.line(Role::heading, from * (kArrowTip * r), {0.0, 0.0}).width_scale = 0.7F;
    // Paper about the arrow sets it off from the arrival's track.
    w_.line(Role::paper, from * (kArrowTail * r), from * (kArrowTip * r)).width_scale = 8.0F;
    Item& arrow = w_.arrow(Role::heading, from * (kArrowTail * r), from * (kArrowTip * r), 16.0);
    arrow.width_scale = 1.7F;
    const Vec2 tail = px(from * (kArrowTail * r));
    const Vec2 tip = px(from * (kArrowTip * r));
    for (int i = 0; i <= 6; ++i) {
      const Vec2 p = tail + (tip - tail) * (i / 6.0);
      labels_.block({p.x - 6.0, p.y - 6.0, p.x + 6.0, p.y + 6.0});
    }
    const std::string text = phrase(small() ? "core.pic.heading" : "core.picture.sectors.heading",
                                    {{"heading", degrees_3(u_.arrival.heading_deg)}});
    placed_best(Role::heading,
                {{from * (kArrowTail * r), screen(from)},
                 {from * (0.5 * (kArrowTail + kArrowTip) * r), screen(from)}},
                text, kTextPx, true, 9.0);
  }
  const Rulebook book = u_.scenario.book;
  for (const Sector& s : kSectors) {
    std::vector<Anchor> anchors;
    for (const double share : {0.0, -0.3, 0.3, -0.55, 0.55, -0.75, 0.75}) {
      const double bearing = from_deg(s.middle_deg() + share * 0.5 * (s.to_deg - s.from_deg));
      const Vec2 out = along(bearing);
      anchors.push_back({out * r, screen(out * -1.0)});
    }
    const bool in = u_.sector && u_.sector->kind == s.kind;
    placed_best(Role::sector, anchors, label_of(s.kind, book), in ? kStrongPx : kTextPx, in, 9.0);
  }
}

void Artist::other_entry() {
  for (const EntryCase& e : c_.entries) {
    if (!shown_beside(c_, e)) continue;
    w_.item(Shape::polyline, Role::other_entry);
    trace(e.flight.track, 0.0, other_entry_end_s(e), false);
    avoid_last_line();
    w_.mark(Shape::disc, Role::other_entry, e.flight.track.position_at(other_entry_end_s(e)), 4.0);
  }
}

void Artist::other_entry_label() {
  for (const EntryCase& e : c_.entries) {
    if (!shown_beside(c_, e)) continue;
    const std::string name(label_of(e.kind, u_.scenario.book));
    const std::string text = small() ? name : phrase("core.picture.other_entry", {{"entry", name}});
    label_on_arc(Role::other_entry, e.flight, text, {0.96, 0.86, 0.72, 0.55, 0.35});
  }
}

}  // namespace core
