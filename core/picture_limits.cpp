// The picture's limits: where to slow down, the station, the end of a distance leg; and
// the laps.
#include <algorithm>

#include "core/artist.h"
#include "core/limits.h"
#include "core/needles.h"
#include "core/picture_parts.h"
#include "core/text_number.h"

namespace core {
namespace {

/// A station nearer to the picture's edge than this is pointed to from there.
constexpr double kEdgePx = 24.0;

bool in_picture(const Viewport& v, Vec2 px, double inset_px) {
  return px.x > inset_px && px.y > inset_px && px.x < v.width_px - inset_px &&
         px.y < v.height_px - inset_px;
}

/// The part of a ray from `from` along `unit` that lies in the picture, as distances;
/// false where none does.
bool in_view(const Viewport& v, Vec2 from, Vec2 unit, double inset_px, double& near, double& far) {
  const Vec2 low = v.to_nm({inset_px, v.height_px - inset_px});
  const Vec2 high = v.to_nm({v.width_px - inset_px, inset_px});
  near = 0.0;
  far = 1e9;
  const auto cut = [&](double at, double way, double least, double most) {
    if (way == 0.0) {
      if (at < least || at > most) far = -1.0;
      return;
    }
    const double a = (least - at) / way;
    const double b = (most - at) / way;
    near = std::fmax(near, std::fmin(a, b));
    far = std::fmin(far, std::fmax(a, b));
  };
  cut(from.x, unit.x, low.x, high.x);
  cut(from.y, unit.y, low.y, high.y);
  return far > near;
}

std::string_view aid_word(Aid aid) {
  return word(aid == Aid::vor   ? "core.picture.aid.vor"
              : aid == Aid::ndb ? "core.picture.aid.ndb"
                                : "core.picture.aid.satellite");
}

}  // namespace

/// Where a distance leg ends: the line, and the point of it on the holding course. Absent
/// for a timed leg and where no DME shows the reading.
std::optional<Vec2> Artist::leg_end(std::vector<Vec2>& line) const {
  if (u_.leg.kind != Leg::Kind::distance) return std::nullopt;
  const double r = u_.turn.radius_nm;
  // Across the pattern, and some way to either side of it.
  double from = -1.0 * r;
  double to = 3.2 * r;
  for (int i = 0; i < c_.flown.event_count; ++i) {
    const Event& e = c_.flown.events[static_cast<std::size_t>(i)];
    if (e.kind != EventKind::time_up) continue;
    from = std::fmin(from, u_.cross_nm(e.at) - 0.3 * r);
    to = std::fmax(to, u_.cross_nm(e.at) + 0.3 * r);
  }
  if (u_.scenario.measure == Measure::track) {
    const Vec2 on = u_.outbound_axis * u_.leg.value;
    line = {on + u_.holding_axis * from, on + u_.holding_axis * to};
    return on;
  }
  const double radius = ground_range_nm(leg_end_dme_nm(u_), u_.height_ft);
  if (!(radius > 0.0)) return std::nullopt;
  const double way = u_.scenario.station.place == Station::Place::behind ? -1.0 : 1.0;
  const Vec2 axis = u_.outbound_axis * way;
  const auto at = [&](double cross) {
    const double s = std::clamp(cross / radius, -1.0, 1.0);
    return u_.station + axis * (radius * std::sqrt(1.0 - s * s)) + u_.holding_axis * (radius * s);
  };
  constexpr int kSteps = 48;
  for (int i = 0; i <= kSteps; ++i) line.push_back(at(from + (to - from) * i / kSteps));
  return at(0.0);
}

void Artist::limits() {
  const SlowDown slow = slow_down_point(u_);
  if (slow.why == Stop::none) {
    const double shown = u_.arrival.groundspeed_kt * kNmPerSecondPerKnot * kArrivalShownS;
    const Vec2 in = along(u_.scenario.arrival_course_deg);
    w_.line(Role::limit, slow.at, in * -shown).width_scale = 0.7F;
    avoid_last_line();
    // A bar across the course, solid: an arrow's shaft has no dashes.
    const Vec2 across = Vec2{-in.y, in.x} * nm(9.0);
    w_.item(Shape::polygon, Role::limit);
    for (const Vec2 p : {slow.at + across, slow.at - across, slow.at - across + in * nm(3.0),
                         slow.at + across + in * nm(3.0)}) {
      w_.point(p);
    }
  }
  std::vector<Vec2> line;
  if (leg_end(line)) {
    w_.item(Shape::polyline, Role::limit);
    for (const Vec2 p : line) w_.point(p);
    avoid_last_line();
  }
  double near = 0.0;
  double far = 0.0;
  if (u_.scenario.radial_deg &&
      in_view(o_.view, u_.station, along(*u_.scenario.radial_deg), 0.0, near, far)) {
    const Vec2 out = along(*u_.scenario.radial_deg);
    w_.line(Role::limit, u_.station + out * near, u_.station + out * far);
    avoid_last_line();
  }
  const double cone = cone_radius_nm(u_.scenario.aid, u_.height_ft);
  if (cone > 0.0) {
    Item& ring = w_.mark(Shape::ring, Role::station, u_.station, cone);
    ring.size_in_nm = 1;
    ring.width_scale = 0.5F;
    ring.opacity = 0.7F;
  }
  if (u_.scenario.station.place == Station::Place::at_fix) return;
  const Vec2 p = px(u_.station);
  if (in_picture(o_.view, p, kEdgePx)) {
    w_.glyph(Role::station, u_.station, "station", 20.0, 0.0);
    labels_.block({p.x - 13.0, p.y - 13.0, p.x + 13.0, p.y + 13.0});
  }
}

void Artist::limit_labels() {
  const SlowDown slow = slow_down_point(u_);
  if (slow.why == Stop::none) {
    const Vec2 in = screen(along(u_.scenario.arrival_course_deg));
    const Filling time = {"time", minutes(slow.before_fix_s)};
    const Filling distance = {"distance", fixed(slow.distance_nm, 1)};
    const std::string numbers = phrase("core.picture.limits.slow_down", {time, distance});
    const Vec2 beside = {-in.y, in.x};
    if (small()) {
      placed_best(
          Role::limit, {{slow.at, beside}, {slow.at * 0.8, beside}, {slow.at * 0.65, beside}},
          phrase("core.picture.limits.slow_down_small", {time, distance}), kSmallPx, true, 9.0);
    } else {
      two_lines(Role::limit, slow.at, word("core.picture.limits.slow_down_here"), kTextPx, numbers,
                kSmallPx, 16.0, beside);
    }
  }
  std::vector<Vec2> line;
  const std::optional<Vec2> on = leg_end(line);
  if (on) {
    const Vec2 out = screen(u_.outbound_axis);
    const std::string text =
        u_.scenario.measure == Measure::track
            ? phrase("core.picture.limits.leg_track", {{"distance", write_number(u_.leg.value)}})
            : phrase("core.picture.limits.leg_dme", {{"reading", fixed(leg_end_dme_nm(u_), 1)}});
    std::vector<Anchor> anchors = {{line.back(), out}, {line.front(), out}};
    for (const double share : {0.85, 0.15, 0.7}) {
      const auto k =
          static_cast<std::size_t>(std::lround(share * static_cast<double>(line.size() - 1)));
      anchors.push_back({line[k], out});
    }
    placed_best(Role::limit, anchors, text, kSmallPx, true, 9.0);
  }
  double near = 0.0;
  double far = 0.0;
  if (u_.scenario.radial_deg &&
      in_view(o_.view, u_.station, along(*u_.scenario.radial_deg), 20.0, near, far)) {
    const Vec2 out = along(*u_.scenario.radial_deg);
    std::vector<Anchor> anchors;
    for (const double share : {0.9, 0.75, 0.6, 0.45, 0.3}) {
      anchors.push_back(
          {u_.station + out * (near + share * (far - near)), screen({out.y, -out.x})});
    }
    placed_best(
        Role::limit, anchors,
        phrase("core.picture.limits.radial", {{"radial", degrees_3(*u_.scenario.radial_deg)}}),
        kSmallPx, true, 9.0);
  }
  const double cone = cone_radius_nm(u_.scenario.aid, u_.height_ft);
  if (cone * o_.view.px_per_nm > 30.0 && !small()) {
    std::vector<Anchor> anchors;
    for (int k = 0; k < 12; ++k) {
      const Vec2 at = u_.station + along(30.0 * k) * cone;
      if (in_picture(o_.view, px(at), 0.0)) anchors.push_back({at, screen(along(30.0 * k))});
    }
    if (!anchors.empty()) {
      placed_best(Role::station, anchors, word("core.picture.limits.cone"), 11.0, false, 6.0);
    }
  }
  if (u_.scenario.station.place == Station::Place::at_fix) return;
  const std::string reading =
      phrase("core.picture.limits.fix_dme", {{"reading", fixed(u_.scenario.station.dme_nm, 1)}});
  const double way = length(u_.station);
  if (!(way > 0.0)) return;
  const Vec2 toward = u_.station * (1.0 / way);
  if (in_picture(o_.view, px(u_.station), kEdgePx)) {
    two_lines(Role::station, u_.station, aid_word(u_.scenario.aid), kTextPx, reading, kSmallPx,
              18.0, screen(toward));
  } else if (in_view(o_.view, {0.0, 0.0}, toward, kEdgePx, near, far) && way > far) {
    // Outside the picture: pointed to from its edge.
    const Vec2 edge = toward * far;
    w_.glyph(Role::station, edge, "head", 13.0, direction_of(toward));
    const Vec2 p = px(edge);
    labels_.block({p.x - 9.0, p.y - 9.0, p.x + 9.0, p.y + 9.0});
    two_lines(Role::station, edge, aid_word(u_.scenario.aid), kTextPx, reading, kSmallPx, 14.0,
              screen(toward * -1.0));
  }
}

void Artist::lap_lines() {
  const Flight& f = c_.flown;
  for (int i = 0; i < f.lap_count; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double to = i + 1 < f.lap_count ? f.laps[k + 1].start_s : f.track.end_s();
    // Paler and thinner the longer ago, but never so pale that it could not be seen.
    const double share = (i + 1.0) / f.lap_count;
    Item& line = w_.item(Shape::polyline, Role::lap);
    line.opacity = static_cast<float>(0.72 + 0.28 * share);
    line.width_scale = static_cast<float>(0.45 + 0.55 * share);
    trace(f.track, f.laps[k].start_s, to, false);
    avoid_last_line();
  }
}

void Artist::lap_labels() {
  const Flight& f = c_.flown;
  constexpr double kTogetherPx = 17.0;
  std::array<bool, Flight::kMostLaps> named{};
  for (int i = 0; i < f.lap_count; ++i) {
    const Rollout& r = f.laps[static_cast<std::size_t>(i)].rollout;
    if (r.exists) w_.mark(Shape::disc, Role::lap, r.at, i + 1 == f.lap_count ? 4.0 : 3.2);
  }
  // The last lap is named first; whatever rolls out beside it shares its label.
  for (int i = f.lap_count - 1; i >= 0; --i) {
    const auto k = static_cast<std::size_t>(i);
    const Rollout& r = f.laps[k].rollout;
    if (named[k] || !r.exists) continue;
    int first = i;
    while (first > 0) {
      const Rollout& before = f.laps[static_cast<std::size_t>(first - 1)].rollout;
      if (!before.exists || length(px(before.at) - px(r.at)) > kTogetherPx) break;
      --first;
      named[static_cast<std::size_t>(first)] = true;
    }
    std::string text = fixed(first + 1, 0);
    if (first < i) text += "–" + fixed(i + 1, 0);
    if (!small()) {
      text = phrase(first < i ? "core.picture.laps" : "core.picture.lap",
                    {{first < i ? "laps" : "lap", text}});
    }
    placed(Role::lap, r.at, text, kSmallPx, i + 1 == f.lap_count, 9.0, screen(u_.outbound_axis));
  }
}

}  // namespace core
