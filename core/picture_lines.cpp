// The picture's lines and areas: air, rings, pattern, course and tracks.
#include "core/artist.h"

#include <algorithm>
#include <cstdint>

#include "core/picture_parts.h"

namespace core {
namespace {

/// A repeatable scramble of two cell numbers, for the streaks' places.
std::uint32_t scramble(std::int64_t a, std::int64_t b) {
  std::uint64_t h = static_cast<std::uint64_t>(a) * 0x9E3779B97F4A7C15ULL ^
                    static_cast<std::uint64_t>(b) * 0xC2B2AE3D27D4EB4FULL;
  h ^= h >> 29;
  h *= 0xBF58476D1CE4E5B9ULL;
  return static_cast<std::uint32_t>(h >> 32);
}

}  // namespace

void Artist::trace(Pieces track, double from_s, double to_s, bool in_air) {
  if (o_.until_s) to_s = std::fmin(to_s, *o_.until_s);
  if (to_s < from_s) return;
  const Vec2 wind = u_.wind.velocity_kt() * kNmPerSecondPerKnot;
  const Vec2 change = u_.wind_change_nm_s2;
  const auto add = [&](double t) {
    const Vec2 at = track.position_at(t);
    w_.point(in_air ? at - wind * t - change * (t > 0.0 ? 0.5 * t * t : 0.0) : at);
  };
  add(from_s);
  for (const Segment& s : track) {
    const double a = std::fmax(s.start_s, from_s);
    const double b = std::fmin(s.end_s(), to_s);
    if (!(b > a)) continue;
    // Chords no longer than about 6 px and 6 degrees of turn.
    const double turned = std::abs(s.rate_deg_s) * (b - a);
    const double radius_px = u_.turn.radius_nm * o_.view.px_per_nm;
    const double step_deg = std::fmax(0.5, std::fmin(6.0, 340.0 / std::fmax(radius_px, 1.0)));
    const int least = s.even() ? 1 : 12;  // a straight is curved by a wind that changes
    const int n = std::max(least, static_cast<int>(std::ceil(turned / step_deg)));
    for (int i = 1; i <= n; ++i) add(a + (b - a) * i / n);
  }
}

void Artist::avoid_last_line(double apart_px) {
  const Item& i = d_.items.back();
  Vec2 last = {1e9, 1e9};
  for (std::uint32_t k = 0; k + 1 < i.count; ++k) {
    const Vec2 a = px(d_.points[i.first + k]);
    const Vec2 b = px(d_.points[i.first + k + 1]);
    const double l = length(b - a);
    if (apart_px > 0.0 && length(a - last) < apart_px) continue;
    last = a;
    const int n = std::clamp(static_cast<int>(l / 8.0), 1, 200);
    for (int j = 0; j < n; ++j) labels_.avoid(a + (b - a) * (static_cast<double>(j) / n));
  }
}

void Artist::streaks() {
  if (!o_.layers.streaks || u_.wind.speed_kt < 0.5) return;
  const Vec2 to = along(u_.wind.from_deg) * -1.0;
  const double streak_nm = nm(std::fmin(34.0, 6.0 + 0.55 * u_.wind.speed_kt));
  const double cell_nm = std::exp2(std::floor(std::log2(nm(96.0)) + 0.5));
  // The streaks stand still in the air; the air moves over the ground.
  const Vec2 shift = u_.wind.velocity_kt() * (kNmPerSecondPerKnot * o_.air_s);
  const Vec2 low = o_.view.to_nm({-40.0, o_.view.height_px + 40.0}) - shift;
  // So far away that places are not told apart any more there is nothing to see either.
  if (!(std::fmax(std::abs(low.x), std::abs(low.y)) < 1e12 * cell_nm)) return;
  const Vec2 high = o_.view.to_nm({o_.view.width_px + 40.0, -40.0}) - shift;
  const auto first_x = static_cast<std::int64_t>(std::floor(low.x / cell_nm));
  const auto first_y = static_cast<std::int64_t>(std::floor(low.y / cell_nm));
  const auto nx =
      std::min<std::int64_t>(64, static_cast<std::int64_t>((high.x - low.x) / cell_nm) + 2);
  const auto ny =
      std::min<std::int64_t>(64, static_cast<std::int64_t>((high.y - low.y) / cell_nm) + 2);
  for (std::int64_t ix = first_x; ix < first_x + nx; ++ix) {
    for (std::int64_t iy = first_y; iy < first_y + ny; ++iy) {
      const std::uint32_t h = scramble(ix, iy);
      const double jx = static_cast<double>(h & 0xFFFFU) / 65536.0;
      const double jy = static_cast<double>(h >> 16) / 65536.0;
      const Vec2 at =
          Vec2{(static_cast<double>(ix) + jx) * cell_nm, (static_cast<double>(iy) + jy) * cell_nm} +
          shift;
      w_.line(Role::streak, at, at + to * (streak_nm * (0.6 + 0.8 * jx)));
    }
  }
}

double Artist::ring_step_nm() const {
  double step = 1.0;
  while (step * o_.view.px_per_nm < 90.0) step *= step == 2.0 || step == 20.0 ? 2.5 : 2.0;
  return step;
}

void Artist::rings() {
  const double step = ring_step_nm();
  const Vec2 corners[] = {o_.view.to_nm({0, 0}), o_.view.to_nm({o_.view.width_px, 0}),
                          o_.view.to_nm({0, o_.view.height_px}),
                          o_.view.to_nm({o_.view.width_px, o_.view.height_px})};
  double farthest = 0.0;
  for (const Vec2 corner : corners) farthest = std::fmax(farthest, length(corner));
  for (int k = 1; k <= 12 && step * k < farthest; ++k) {
    Item& ring = w_.mark(Shape::ring, Role::ring, {0.0, 0.0}, step * k);
    ring.size_in_nm = 1;
  }
}

void Artist::pattern_outline(const Setup& u, bool closed) {
  const Vec2 out = u.outbound_axis;
  const Vec2 side = u.holding_axis;
  const double leg = pattern_leg_nm(u);
  const double r = u.turn.radius_nm;
  constexpr int kSteps = 36;
  // Around: fix end (away from the leg), then the far end.
  for (int i = 0; i <= kSteps; ++i) {
    const SinCos a = sincos_deg(180.0 * i / kSteps);
    w_.point(side * r - side * (r * a.cos) - out * (r * a.sin));
  }
  for (int i = 0; i <= kSteps; ++i) {
    const SinCos a = sincos_deg(180.0 * i / kSteps);
    w_.point(out * leg + side * r + side * (r * a.cos) + out * (r * a.sin));
  }
  if (closed) w_.point({0.0, 0.0});
}

void Artist::pattern() {
  if (!o_.layers.pattern) return;
  w_.item(Shape::polygon, Role::pattern_fill);
  pattern_outline(u_, false);
  w_.item(Shape::polyline, Role::pattern);
  pattern_outline(u_, true);
  avoid_last_line();

  const Vec2 out = u_.outbound_axis;
  const Vec2 side = u_.holding_axis;
  const double leg = pattern_leg_nm(u_);
  const double r = u_.turn.radius_nm;
  const double leg_px = leg * o_.view.px_per_nm;
  const std::string_view text = word("core.pic.pattern");
  if (!small() && leg_px > text_width_px(text, 11.0, false) + 10.0) {
    // Just inside the outbound leg, along it, the right way up.
    double angle = turn_angle(u_.hold.outbound_course_deg() - 90.0);
    const bool flipped = angle > 90.0 && angle <= 270.0;
    if (flipped) angle -= 180.0;
    const Vec2 at = out * (0.5 * leg) + side * (2.0 * r - nm(11.0));
    Item& i = w_.label(Role::quiet, at, text, 11.0, false);
    i.align = Align::centre;
    i.halo = 0;
    i.angle_deg = static_cast<float>(angle);
    const Vec2 p = px(at);
    labels_.block({p.x - 16.0, p.y - 12.0, p.x + 16.0, p.y + 12.0});
  }
}

void Artist::course() {
  // As far as the miss is measured to.
  const Rollout& r = c_.flown.rollout;
  const double far = std::fmax(pattern_leg_nm(u_) + 1.7 * u_.turn.radius_nm,
                               o_.flight && r.exists ? r.to_go_nm + nm(24.0) : 0.0);
  course_to(far);
}

void Artist::course_to(double far) {
  const Vec2 out = u_.outbound_axis;
  Item& i = w_.line(Role::course, out * far, out * -nm(70.0));
  i.width_scale = 0.8F;
  avoid_last_line();
  Item& head =
      w_.glyph(Role::course, out * nm(64.0 - 128.0), "head", 9.0, u_.hold.inbound_course_deg);
  head.opacity = 0.9F;
}

std::array<Artist::Overlay, 3> Artist::overlays() const {
  constexpr const char* kRuleWords[] = {"core.pic.plan.still_air", "core.pic.plan.drift_once",
                                        "core.pic.plan.track_30", "core.pic.plan.drift_triple"};
  const Scenario& s = u_.scenario;
  const bool own = s.heading_deg || s.time_s;
  const auto rule = static_cast<PlanId>(static_cast<int>(s.rule));
  const auto shown = [&](PlanId id, bool on) -> const Flight* {
    const PlanRow* row = c_.row(id);
    const bool flies = row && row->exists && row->flight.track.size() > 0;
    return on && flies && !row->flown ? &row->flight : nullptr;
  };
  return {{{shown(PlanId::still_air, o_.layers.no_correction), Role::no_correction, kRuleWords[0]},
           {shown(rule, o_.layers.rule && own && rule != PlanId::still_air), Role::rule,
            kRuleWords[static_cast<int>(s.rule)]},
           {shown(PlanId::exact, o_.layers.exact), Role::exact, "core.pic.plan.exact"}}};
}

void Artist::plan_lines() {
  for (const Overlay& overlay : overlays()) {
    if (!overlay.flight) continue;
    w_.item(Shape::polyline, overlay.role);
    trace(overlay.flight->track, 0.0, entry_end_s(*overlay.flight), false);
    avoid_last_line();
  }
}

void Artist::flown() {
  const Flight& f = c_.flown;
  const Track& track = f.track;
  if (track.size() == 0) return;
  if (!o_.flight) {
    w_.item(Shape::polyline, Role::flown);
    trace(track, track.start_s(), 0.0, false);
    return;
  }
  const double split = entry_end_s(f);
  if (o_.layers.air_path && !far() && u_.wind.speed_kt >= 0.5) {
    w_.item(Shape::polyline, Role::air_path);
    trace(track, 0.0, split, true);
    avoid_last_line();
  }
  const double laps_s = f.lap_count > 0 ? f.laps[0].start_s : track.end_s();
  if (laps_s > split) {
    w_.item(Shape::polyline, Role::after);
    trace(track, split, laps_s, false);
    avoid_last_line();
  }
  lap_lines();
  w_.item(Shape::polyline, Role::flown).width_scale = far() ? 0.6F : 1.0F;
  trace(track, track.start_s(), split, false);
  avoid_last_line();
}

}  // namespace core
