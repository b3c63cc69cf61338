// Where things go in the picture: fitting, handles, the wind's dial.
#include <algorithm>

#include "core/picture.h"
#include "core/picture_parts.h"

namespace core {
namespace {

/// Half the arrow of the strongest wind that can be set, px. The length goes with the
/// root of the speed: light winds can be set to the knot, strong ones stay on the dial.
constexpr double kDialReachPx = 106.0;
constexpr double kDialMostKt = 150.0;

struct LayerRow {
  std::string_view name;
  bool Layers::*on;
};
constexpr LayerRow kLayerRows[kLayers] = {
    {"no_correction", &Layers::no_correction},
    {"rule", &Layers::rule},
    {"exact", &Layers::exact},
    {"own", &Layers::own},
    {"air_path", &Layers::air_path},
    {"pattern", &Layers::pattern},
    {"marks", &Layers::marks},
    {"streaks", &Layers::streaks},
    {"miss", &Layers::miss},
    {"sectors", &Layers::sectors},
    {"other_entry", &Layers::other_entry},
    {"area", &Layers::area},
    {"limits", &Layers::limits},
};

struct Bounds {
  Vec2 low{1e9, 1e9};
  Vec2 high{-1e9, -1e9};
  void add(Vec2 p) {
    low = {std::fmin(low.x, p.x), std::fmin(low.y, p.y)};
    high = {std::fmax(high.x, p.x), std::fmax(high.y, p.y)};
  }
};

void add_track(const Track& track, double from_s, double to_s, Bounds& bounds) {
  for (const Segment& s : track) {
    if (s.start_s > to_s || s.end_s() < from_s) continue;
    for (int i = 0; i <= 8; ++i) {
      const double t = s.start_s + s.duration_s * i / 8.0;
      if (t >= from_s && t <= to_s) bounds.add(s.position_at(t - s.start_s));
    }
  }
}

Bounds content(const WorkedCase& c) {
  Bounds b;
  const Hold& hold = c.setup.hold;
  const double leg = pattern_leg_nm(c.setup);
  const double r = c.setup.turn.radius_nm;
  const Vec2 out = hold.outbound_axis();
  const Vec2 side = hold.holding_axis();
  b.add({0.0, 0.0});
  for (const double end : {-1.0, 1.0}) {
    const Vec2 centre = (end < 0.0 ? Vec2{0.0, 0.0} : out * leg) + side * r;
    for (int k = 0; k < 12; ++k) b.add(centre + along(30.0 * k) * r);
  }
  b.add(inbound_handle_nm(c.setup));
  if (c.flown.rollout.exists) b.add(out * c.flown.rollout.to_go_nm);
  add_track(c.flown.track, -kArrivalShownS, 1e9, b);
  for (const PlanRow& row : c.rows) {
    const bool shown = row.id == PlanId::still_air || row.id == PlanId::exact || row.flown;
    if (row.exists && shown) add_track(row.flight.track, 0.0, row.flight.rollout.at_s, b);
  }
  return b;
}

/// What the layers add; `area` may be null where it is not to be shown.
void add_layers(const WorkedCase& c, const Layers& layers, const ProtectedArea* area, Bounds& b) {
  const Setup& u = c.setup;
  if (layers.sectors) {
    const double r = sector_radius_nm(u);
    b.add({-r, -r});
    b.add({r, r});
  }
  if (layers.other_entry) {
    for (const EntryCase& e : c.entries) {
      if (shown_beside(c, e)) add_track(e.flight.track, 0.0, other_entry_end_s(e), b);
    }
  }
  if (layers.limits) {
    const SlowDown slow = slow_down_point(u);
    if (slow.why == Stop::none) b.add(slow.at);
    // A station far away is pointed to from the edge.
    if (length(u.station) <= kStationInViewNm) b.add(u.station);
  }
  if (area && area->exists()) {
    for (const Vec2 p : area->buffer.points) b.add(p);
  }
}

double dial_inset_px(const Viewport& v) {
  return std::fmax(64.0, std::fmin(118.0, 0.19 * std::fmin(v.width_px, v.height_px)));
}

double dial_scale(const Viewport& v) { return dial_inset_px(v) / 118.0; }

}  // namespace

double pattern_leg_nm(const Setup& u) {
  return u.leg.kind == Leg::Kind::distance ? u.leg.value
                                           : u.tas_kt * kNmPerSecondPerKnot * u.leg.value;
}

bool too_far(const PictureOptions& o, const Setup& u) {
  constexpr double kLeastTurnPx = 36.0;
  return o.layers.area && u.turn.radius_nm * o.view.px_per_nm < kLeastTurnPx;
}

double sector_radius_nm(const Setup& u) {
  // Beyond the arrival's handle, so that the arrival heading has room outside it; a long
  // leg does not make the sectors long.
  const double r = u.turn.radius_nm;
  return 0.5 * std::fmin(pattern_leg_nm(u), 4.0 * r) + 1.2 * r;
}

bool shown_beside(const WorkedCase& c, const EntryCase& e) {
  const std::optional<SectorChoice>& s = c.setup.sector;
  return s && s->also != s->kind && e.acceptable && !e.flown && e.exists;
}

double beside_end_s(const Flight& f) {
  return f.lap_count > 0 || !f.rollout.exists ? f.track.end_s() : f.rollout.at_s;
}

double other_entry_end_s(const EntryCase& e) {
  return e.on_course_s().value_or(e.flight.track.end_s());
}

Vec2 inbound_handle_nm(const Setup& u) {
  return u.hold.outbound_axis() * (pattern_leg_nm(u) + 1.7 * u.turn.radius_nm);
}

Vec2 turns_handle_nm(const Setup& u) {
  return (u.holding_axis - u.outbound_axis) * u.turn.radius_nm;
}

Vec2 dial_centre_px(const PictureOptions& o) {
  const double inset = dial_inset_px(o.view);
  const bool right = o.wind_corner == 1 || o.wind_corner == 2;
  const bool low = o.wind_corner >= 2;
  return {right ? o.view.width_px - inset - 10.0 : inset + 10.0,
          low ? o.view.height_px - inset - 8.0 : inset + 16.0};
}

double dial_length_px(const PictureOptions& o, double wind_kt) {
  return 2.0 * dial_scale(o.view) * kDialReachPx * std::sqrt(wind_kt / kDialMostKt);
}

Wind dialled_wind(const PictureOptions& o, Vec2 px, double from_deg) {
  const Vec2 v = px - dial_centre_px(o);
  const double share = std::fmin(1.0, length(v) / (dial_scale(o.view) * kDialReachPx));
  const double kt = std::floor(kDialMostKt * share * share + 0.5);
  const double from = kt < 1.0 ? from_deg : std::floor(direction_of({v.x, -v.y}) + 0.5);
  return {wrap_360(from), kt};
}

std::optional<Vec2> handle_at(const WorkedCase& c, const PictureOptions& o, Handle handle) {
  if (!o.handles || (handle != Handle::wind && too_far(o, c.setup))) return std::nullopt;
  switch (handle) {
    case Handle::none:
      return std::nullopt;
    case Handle::wind: {
      const Vec2 from = along(c.setup.wind.from_deg);
      const double half = 0.5 * dial_length_px(o, c.setup.wind.speed_kt);
      return o.view.to_nm(dial_centre_px(o) + Vec2{from.x * half, -from.y * half});
    }
    case Handle::inbound:
      return inbound_handle_nm(c.setup);
    case Handle::turns:
      return turns_handle_nm(c.setup);
    case Handle::arrival:
      if (!c.setup.arrival.exists) {
        return along(c.setup.scenario.arrival_course_deg) * -(110.0 / o.view.px_per_nm);
      }
      return along(c.setup.scenario.arrival_course_deg) *
             -(c.setup.arrival.groundspeed_kt * kNmPerSecondPerKnot * kArrivalShownS);
  }
  return std::nullopt;
}

Viewport viewport_around(Vec2 low, Vec2 high, double width_px, double height_px, double margin_px,
                         double foot_px) {
  const Vec2 size = high - low;
  const double per_nm = std::fmin((width_px - 2.0 * margin_px) / std::fmax(size.x, 0.1),
                                  (height_px - foot_px - 2.0 * margin_px) / std::fmax(size.y, 0.1));
  Viewport v;
  v.px_per_nm = std::fmax(1.0, std::fmin(per_nm, 400.0));
  v.centre = (low + high) * 0.5 - Vec2{0.0, 0.5 * foot_px / v.px_per_nm};
  v.width_px = width_px;
  v.height_px = height_px;
  return v;
}

Viewport fitted(const WorkedCase& c, double width_px, double height_px, const Layers& layers,
                const ProtectedArea* area, const Beside* beside) {
  Bounds b = content(c);
  if (beside) {
    const Flight& f = beside->worked.flown;
    add_track(f.track, 0.0, beside_end_s(f), b);
  }
  std::optional<ProtectedArea> own;
  if (layers.area && !area) area = &own.emplace(area_of(c.setup));
  add_layers(c, layers, layers.area ? area : nullptr, b);
  const double margin = std::fmin(64.0, 0.11 * std::fmin(width_px, height_px));
  // Captions stand below what they are about.
  const double foot = layers.area || layers.sectors ? std::fmin(22.0, 0.05 * height_px) : 0.0;
  return viewport_around(b.low, b.high, width_px, height_px, margin, foot);
}

int emptiest_corner(const WorkedCase& c, const Viewport& view, bool tools, const Layers& layers) {
  PictureOptions o;
  o.view = view;
  const double reach = dial_inset_px(view) + 30.0;
  int best = 2;
  double best_cost = 1e300;
  for (const int corner : {2, 1, 0, 3}) {
    if (tools && corner == 1) continue;
    o.wind_corner = corner;
    const Vec2 centre = dial_centre_px(o);
    double cost = 0.0;
    const auto weigh = [&](Vec2 nm) {
      const Vec2 d = view.to_px(nm) - centre;
      if (std::abs(d.x) < reach && std::abs(d.y) < reach) cost += 1.0;
    };
    const auto weigh_track = [&](const Flight& f) {
      const double end = f.track.end_s();
      for (double t = -kArrivalShownS; t <= end; t += 5.0) weigh(f.track.position_at(t));
    };
    weigh_track(c.flown);
    for (const PlanRow& row : c.rows) {
      if (row.exists && (row.id == PlanId::still_air || row.id == PlanId::exact)) {
        weigh_track(row.flight);
      }
    }
    for (double d = 0.0; d <= 1.0; d += 0.1) {
      const Vec2 along_leg = c.setup.hold.outbound_axis() * (pattern_leg_nm(c.setup) * d);
      weigh(along_leg);
      weigh(along_leg + c.setup.hold.holding_axis() * (2.0 * c.setup.turn.radius_nm));
    }
    weigh(inbound_handle_nm(c.setup));
    if (layers.sectors) {
      for (int k = 0; k < 24; ++k) weigh(along(15.0 * k) * sector_radius_nm(c.setup));
    }
    if (layers.other_entry) {
      for (const EntryCase& e : c.entries) {
        if (shown_beside(c, e)) weigh_track(e.flight);
      }
    }
    if (layers.limits) {
      const SlowDown slow = slow_down_point(c.setup);
      for (int k = 1; k <= 8 && slow.why == Stop::none; ++k) weigh(slow.at * (k / 8.0));
      weigh(c.setup.station);
    }
    if (cost < best_cost) {
      best_cost = cost;
      best = corner;
    }
  }
  return best;
}

std::optional<double> nearest_time(const WorkedCase& c, const Viewport& view, Vec2 px,
                                   double reach_px) {
  const Track& track = c.flown.track;
  if (track.size() == 0) return std::nullopt;
  const auto distance = [&](double t) { return length(view.to_px(track.position_at(t)) - px); };
  // Samples closer together than the reach; then narrowed by thirds.
  double best_t = track.start_s();
  double best = distance(best_t);
  for (double t = track.start_s(); t <= track.end_s(); t += 1.0) {
    const double d = distance(t);
    if (d < best) {
      best = d;
      best_t = t;
    }
  }
  if (best > reach_px + 10.0) return std::nullopt;
  double low = std::fmax(track.start_s(), best_t - 1.0);
  double high = std::fmin(track.end_s(), best_t + 1.0);
  for (int i = 0; i < 24; ++i) {
    const double a = low + (high - low) / 3.0;
    const double b = high - (high - low) / 3.0;
    if (distance(a) < distance(b)) {
      high = b;
    } else {
      low = a;
    }
  }
  const double t = 0.5 * (low + high);
  if (distance(t) > reach_px) return std::nullopt;
  return t;
}

std::string_view layer_name(int index) {
  return index >= 0 && index < kLayers ? kLayerRows[index].name : std::string_view();
}

bool* layer_by_name(Layers& layers, std::string_view name) {
  for (const LayerRow& row : kLayerRows) {
    if (row.name == name) return &(layers.*row.on);
  }
  return nullptr;
}

}  // namespace core
