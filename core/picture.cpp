#include "core/picture.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "core/explain.h"
#include "core/label_placer.h"
#include "core/picture_parts.h"
#include "core/words.h"

namespace core {
namespace {

constexpr double kSmallPx = 12.0;
constexpr double kTextPx = 13.0;
constexpr double kStrongPx = 15.0;

/// A repeatable scramble of two cell numbers, for the streaks' places.
std::uint32_t scramble(std::int64_t a, std::int64_t b) {
  std::uint64_t h = static_cast<std::uint64_t>(a) * 0x9E3779B97F4A7C15ULL ^
                    static_cast<std::uint64_t>(b) * 0xC2B2AE3D27D4EB4FULL;
  h ^= h >> 29;
  h *= 0xBF58476D1CE4E5B9ULL;
  return static_cast<std::uint32_t>(h >> 32);
}

class Artist {
 public:
  Artist(const WorkedCase& c, const PictureOptions& o, Diagram& d)
      : c_(c), u_(c.setup), o_(o), d_(d), w_(d), labels_(o.view.width_px, o.view.height_px) {}

  void draw();

 private:
  void streaks();
  void rings();
  void ring_labels();
  void pattern();
  void course();
  void plan_lines();
  void plan_labels();
  void flown_label();
  [[nodiscard]] static std::string plan_text(const char* word_key, const Flight& f);
  /// A label beside a flight's track, at that share of the entry where it fits best.
  void label_on_arc(Role role, const Flight& f, const std::string& text,
                    std::initializer_list<double> shares);
  void flown();
  void air_label();
  void ticks_and_events();
  void miss();
  void fix();
  void wind();
  void handles();
  void aircraft();
  void probe();

  /// A plan drawn beside the flown one; `flight` is null where it is not shown.
  struct Overlay {
    const Flight* flight;
    Role role;
    const char* word_key;
  };
  [[nodiscard]] std::array<Overlay, 3> overlays() const;
  /// Points of `track` from `from_s` to `to_s`, fine enough to look smooth, less the
  /// drift of the air when `in_air`.
  [[nodiscard]] double ring_step_nm() const;
  void trace(const Track& track, double from_s, double to_s, bool in_air);
  void avoid_last_line();
  Item& placed(Role role, Vec2 at, std::string_view text, double size, bool strong, double gap,
               Vec2 toward);
  /// A phone's picture: only the labels that the lesson cannot do without.
  [[nodiscard]] bool small() const {
    return std::fmin(o_.view.width_px, o_.view.height_px) < 480.0;
  }
  [[nodiscard]] Vec2 px(Vec2 nm) const { return o_.view.to_px(nm); }
  /// NM that make `px` pixels.
  [[nodiscard]] double nm(double pixels) const { return pixels / o_.view.px_per_nm; }
  [[nodiscard]] std::string_view turns_word() const {
    return word(u_.scenario.turns == Side::right ? "core.right" : "core.left");
  }
  /// Screen direction square to a velocity, to the outside of the pattern's turns.
  [[nodiscard]] Vec2 outward(Vec2 v) const {
    return screen({-v.y * u_.turn_sign, v.x * u_.turn_sign});
  }
  /// End of the entry: the roll-out, or as far as it could be flown.
  static double entry_end_s(const Flight& f) {
    return f.rollout.exists ? f.rollout.at_s : f.track.end_s();
  }
  /// Direction on the screen (y down) of a vector in the plane.
  static Vec2 screen(Vec2 v) {
    const double l = length(v);
    return l > 0.0 ? Vec2{v.x / l, -v.y / l} : Vec2{0.0, -1.0};
  }

  const WorkedCase& c_;
  const Setup& u_;
  const PictureOptions& o_;
  Diagram& d_;
  DiagramWriter w_;
  LabelPlacer labels_;
};

void Artist::trace(const Track& track, double from_s, double to_s, bool in_air) {
  const Vec2 wind = u_.wind.velocity_kt() * kNmPerSecondPerKnot;
  const auto add = [&](double t) {
    const Vec2 at = track.position_at(t);
    w_.point(in_air ? at - wind * t : at);
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
    const int n = std::max(1, static_cast<int>(std::ceil(turned / step_deg)));
    for (int i = 1; i <= n; ++i) add(a + (b - a) * i / n);
  }
}

void Artist::avoid_last_line() {
  const Item& i = d_.items.back();
  for (std::uint32_t k = 0; k + 1 < i.count; ++k) {
    const Vec2 a = px(d_.points[i.first + k]);
    const Vec2 b = px(d_.points[i.first + k + 1]);
    const double l = length(b - a);
    const int n = std::clamp(static_cast<int>(l / 8.0), 1, 200);
    for (int j = 0; j < n; ++j) labels_.avoid(a + (b - a) * (static_cast<double>(j) / n));
  }
}

Item& Artist::placed(Role role, Vec2 at, std::string_view text, double size, bool strong,
                     double gap, Vec2 toward) {
  const Placement p =
      labels_.place(px(at), text_width_px(text, size, strong), size * 1.25, gap, toward);
  Item& i = w_.label(role, at, text, size, strong);
  i.align = p.align;
  i.offset_x_px = static_cast<float>(p.offset_px.x);
  i.offset_y_px = static_cast<float>(p.offset_px.y);
  return i;
}

void Artist::streaks() {
  if (!o_.layers.streaks || u_.wind.speed_kt < 0.5) return;
  const Vec2 to = along(u_.wind.from_deg) * -1.0;
  const double streak_nm = nm(std::fmin(34.0, 6.0 + 0.55 * u_.wind.speed_kt));
  const double cell_nm = std::exp2(std::floor(std::log2(nm(96.0)) + 0.5));
  // The streaks stand still in the air; the air moves over the ground.
  const Vec2 shift = u_.wind.velocity_kt() * (kNmPerSecondPerKnot * o_.air_s);
  const Vec2 low = o_.view.to_nm({-40.0, o_.view.height_px + 40.0}) - shift;
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

void Artist::ring_labels() {
  const double step = ring_step_nm();
  // On the side away from the pattern, where there is room.
  const Vec2 away = u_.hold.holding_axis() * -1.0;
  for (int k = 1; k <= 3; ++k) {
    const Vec2 at = away * (step * k);
    const Vec2 p = px(at);
    const Box box{p.x - 18.0, p.y - 8.0, p.x + 18.0, p.y + 8.0};
    const bool inside = box.left > 0.0 && box.top > 0.0 && box.right < o_.view.width_px &&
                        box.bottom < o_.view.height_px;
    if (!inside || !labels_.is_free(box)) continue;
    const std::string text = phrase("core.pic.ring", {{"nm", fixed(step * k, 0)}});
    Item& label = w_.label(Role::quiet, at, text, 11.0, false);
    label.align = Align::centre;
    labels_.block(box);
  }
}

void Artist::pattern() {
  if (!o_.layers.pattern) return;
  const Vec2 out = u_.hold.outbound_axis();
  const Vec2 side = u_.hold.holding_axis();
  const double leg = pattern_leg_nm(u_);
  const double r = u_.turn.radius_nm;
  constexpr int kSteps = 36;
  const auto outline = [&](bool closed) {
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
  };
  w_.item(Shape::polygon, Role::pattern_fill);
  outline(false);
  w_.item(Shape::polyline, Role::pattern);
  outline(true);
  avoid_last_line();

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
  const Vec2 out = u_.hold.outbound_axis();
  // As far as the miss is measured to.
  const Rollout& r = c_.flown.rollout;
  const double far = std::fmax(pattern_leg_nm(u_) + 1.7 * u_.turn.radius_nm,
                               r.exists ? r.to_go_nm + nm(24.0) : 0.0);
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
    return on && row && row->exists && !row->flown ? &row->flight : nullptr;
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

void Artist::plan_labels() {
  for (const Overlay& overlay : overlays()) {
    if (!overlay.flight) continue;
    const Flight& f = *overlay.flight;
    const double end = entry_end_s(f);
    const std::string text = plan_text(overlay.word_key, f);
    if (overlay.role == Role::exact && f.rollout.exists) {
      // Its end lies on the course among everything else: name it on its own arc.
      label_on_arc(overlay.role, f, text, {0.72, 0.6, 0.5, 0.84});
    } else {
      placed(overlay.role, f.track.position_at(end), text, kTextPx, true, 9.0,
             screen(f.track.velocity_kt_at(end)));
    }
  }
}

void Artist::flown_label() {
  for (const PlanRow& row : c_.rows) {
    if (!row.flown || !row.exists) continue;
    constexpr const char* kWords[] = {"core.pic.plan.still_air", "core.pic.plan.drift_once",
                                      "core.pic.plan.track_30",  "core.pic.plan.drift_triple",
                                      "core.pic.plan.exact",     "core.pic.plan.exact",
                                      "core.pic.plan.exact",     "core.pic.plan.own"};
    label_on_arc(Role::flown, row.flight, plan_text(kWords[static_cast<int>(row.id)], row.flight),
                 {0.88, 0.8, 0.95, 0.7});
  }
}

std::string Artist::plan_text(const char* word_key, const Flight& f) {
  return phrase(word_key,
                {{"heading", degrees_3(f.plan.heading_deg)}, {"time", minutes(f.plan.time_s)}});
}

void Artist::label_on_arc(Role role, const Flight& f, const std::string& text,
                          std::initializer_list<double> shares) {
  const double end = entry_end_s(f);
  double best_s = end;
  double best_cost = 1e300;
  for (const double share : shares) {
    const double at_s = f.level_s + share * (end - f.level_s);
    const double cost =
        labels_
            .propose(px(f.track.position_at(at_s)), text_width_px(text, kTextPx, true),
                     kTextPx * 1.25, 12.0, outward(f.track.velocity_kt_at(at_s)))
            .cost;
    if (cost >= best_cost) continue;
    best_cost = cost;
    best_s = at_s;
  }
  placed(role, f.track.position_at(best_s), text, kTextPx, true, 12.0,
         outward(f.track.velocity_kt_at(best_s)));
}

void Artist::flown() {
  const Flight& f = c_.flown;
  const Track& track = f.track;
  if (track.size() == 0) return;
  const double split = entry_end_s(f);
  if (o_.layers.air_path && u_.wind.speed_kt >= 0.5) {
    w_.item(Shape::polyline, Role::air_path);
    trace(track, 0.0, split, true);
    avoid_last_line();
  }
  if (track.end_s() > split) {
    w_.item(Shape::polyline, Role::after);
    trace(track, split, track.end_s(), false);
    avoid_last_line();
  }
  w_.item(Shape::polyline, Role::flown);
  trace(track, track.start_s(), split, false);
  avoid_last_line();
}

void Artist::air_label() {
  const Track& track = c_.flown.track;
  if (small() || !o_.layers.air_path || u_.wind.speed_kt < 0.5 || track.size() == 0) return;
  const double split = entry_end_s(c_.flown);
  const double half = 0.55 * split;
  const Vec2 wind = u_.wind.velocity_kt() * (kNmPerSecondPerKnot * half);
  const Vec2 v = track.velocity_kt_at(half) - u_.wind.velocity_kt();
  Item& i = placed(Role::air_path, track.position_at(half) - wind, word("core.pic.air"), 11.0,
                   false, 8.0, screen({v.y * -u_.turn_sign, v.x * u_.turn_sign}));
  i.opacity = 0.9F;
}

void Artist::ticks_and_events() {
  const Flight& f = c_.flown;
  if (f.track.size() == 0 || !o_.layers.marks) return;
  const double split = entry_end_s(f);
  for (double t = 10.0; t < split - 1.0; t += 10.0) {
    const Vec2 at = f.track.position_at(t);
    w_.mark(Shape::disc, Role::paper, at, 2.6);
    w_.mark(Shape::ring, Role::tick, at, 2.6);
  }
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == EventKind::arrival || e.kind == EventKind::fix || e.kind == EventKind::level ||
        e.kind == EventKind::roll_out || e.lap > 0) {
      continue;
    }
    w_.mark(Shape::disc, Role::event, e.at, 4.2);
    const Vec2 v = f.track.velocity_kt_at(e.at_s);
    std::string text(mark_of(e.kind));
    if (e.kind == EventKind::time_up) text += " " + minutes(f.entry_time_s);
    if (small()) continue;
    placed(Role::event, e.at, text, kSmallPx, false, 10.0, outward(v));
  }
}

void Artist::miss() {
  const Flight& f = c_.flown;
  if (!f.rollout.exists) return;
  const Vec2 at = f.rollout.at;
  const Vec2 on = u_.hold.outbound_axis() * f.rollout.to_go_nm;
  const bool off = miss_of(f.rollout) != Miss::on_course;
  if (off) {
    w_.line(Role::miss, at, on);
    avoid_last_line();
    w_.mark(Shape::disc, Role::miss, on, 4.0);
  }
  w_.mark(Shape::disc, Role::miss, at, 5.0);
  const Vec2 middle = (at + on) * 0.5;
  const Vec2 away = screen(u_.hold.outbound_axis() * -1.0);
  std::string text = headline(c_);
  if (off && f.rollout.to_go_nm > 0.0) {
    const bool past = f.rollout.cross_nm < 0.0;
    const char* const brief = past ? "core.pic.miss.past" : "core.pic.miss.short";
    const char* const full = past ? "core.pic.miss.past_course" : "core.pic.miss.short_course";
    text = phrase(small() ? brief : full, {{"nm", fixed(std::abs(f.rollout.cross_nm), 1)}});
  }
  placed(Role::miss, off ? middle : at, text, off && !small() ? 17.0 : kStrongPx, true, 13.0, away);
}

void Artist::fix() {
  w_.glyph(Role::fix, {0.0, 0.0}, "fix", 22.0, 0.0);
  const Vec2 p = px({0.0, 0.0});
  labels_.block({p.x - 12.0, p.y - 12.0, p.x + 12.0, p.y + 10.0});
  const std::string hold =
      phrase("core.pic.hold",
             {{"inbound", degrees_3(u_.hold.inbound_course_deg)},
              {"turns",
               std::string(word(u_.scenario.turns == Side::right ? "core.right" : "core.left"))}});
  // Two lines, placed as one block.
  const double width = text_width_px(hold, kSmallPx, false);
  const Vec2 toward = screen(u_.hold.outbound_axis() * -1.0);
  const Placement place = labels_.place(p, width, 36.0, 20.0, {toward.x, toward.y + 0.6});
  const auto line = [&](std::string_view text, double size, bool strong, double dy) {
    Item& i = w_.label(Role::text, {0.0, 0.0}, text, size, strong);
    i.align = place.align;
    i.offset_x_px = static_cast<float>(place.offset_px.x);
    i.offset_y_px = static_cast<float>(place.offset_px.y + dy);
  };
  line(word("core.pic.fix"), kStrongPx, true, -9.0);
  line(hold, kSmallPx, false, 9.0);
}

void Artist::wind() {
  const Vec2 centre = dial_centre_px(o_);
  const double half = 0.5 * dial_length_px(o_, u_.wind.speed_kt);
  const Vec2 from = along(u_.wind.from_deg);
  const Vec2 step = {from.x * half, -from.y * half};
  const bool active = o_.active == Handle::wind;
  if (half > 4.0) {
    w_.arrow(Role::wind, o_.view.to_nm(centre + step), o_.view.to_nm(centre - step), 17.0);
  }
  if (o_.handles) {
    const Vec2 at = o_.view.to_nm(centre + step);
    w_.mark(Shape::disc, Role::paper, at, 12.0);
    Item& ring = w_.mark(Shape::ring, Role::wind, at, 12.0);
    ring.width_scale = active ? 1.25F : 0.8F;
    if (active) w_.mark(Shape::disc, Role::wind, at, 6.0);
  }
  const std::string text = u_.wind.speed_kt < 0.5
                               ? std::string(word("core.pic.calm"))
                               : phrase("core.pic.wind", {{"wind", degrees_3(u_.wind.from_deg)},
                                                          {"speed", fixed(u_.wind.speed_kt, 0)}});
  const bool low = o_.wind_corner >= 2;
  const double reach = std::abs(step.y) + 14.0;
  const double y = centre.y + (low ? -1.0 : 1.0) * (reach + 12.0);
  Item& label = w_.label(Role::wind, o_.view.to_nm({centre.x, y}), text, kStrongPx, true);
  label.align = Align::centre;
  const double w = text_width_px(text, kStrongPx, true) / 2.0;
  labels_.block({centre.x - w, y - 10.0, centre.x + w, y + 10.0});
  labels_.block({centre.x - std::abs(step.x) - 14.0, centre.y - std::abs(step.y) - 14.0,
                 centre.x + std::abs(step.x) + 14.0, centre.y + std::abs(step.y) + 14.0});
}

void Artist::handles() {
  if (!o_.handles) return;
  struct Grip {
    Handle handle;
    double direction_deg;
    std::string text;
  };
  const Grip grips[] = {
      {Handle::inbound, u_.scenario.inbound_course_deg,
       phrase("core.pic.inbound", {{"inbound", degrees_3(u_.scenario.inbound_course_deg)}})},
      {Handle::arrival, u_.scenario.arrival_course_deg,
       phrase("core.pic.arrive", {{"arrive", degrees_3(u_.scenario.arrival_course_deg)}})},
      {Handle::turns, direction_of(u_.holding_axis),
       phrase("core.pic.turns", {{"turns", std::string(turns_word())}})}};
  for (const Grip& grip : grips) {
    const std::optional<Vec2> at = handle_at(c_, o_, grip.handle);
    if (!at) continue;
    const bool active = o_.active == grip.handle;
    w_.mark(Shape::disc, Role::paper, *at, 12.0);
    Item& ring = w_.mark(Shape::ring, Role::handle, *at, 12.0);
    ring.width_scale = active ? 1.4F : 0.9F;
    // A head inside says which way the course, or the turn, runs.
    w_.glyph(Role::handle, *at, "head", 10.0, grip.direction_deg);
    placed(Role::handle, *at, grip.text, active ? kStrongPx : kSmallPx, active, 17.0, screen(*at));
  }
}

void Artist::aircraft() {
  const Track& track = c_.flown.track;
  if (!o_.time_s || track.size() == 0) return;
  const double t = std::clamp(*o_.time_s, track.start_s(), track.end_s());
  const Vec2 at = track.position_at(t);
  const double heading = track.heading_at(t);
  const Vec2 v = track.velocity_kt_at(t);
  const double speed = length(v);
  // A minute's flight would leave the picture: show the directions at a fixed length.
  const double reach = nm(small() ? 60.0 : 92.0);
  const Vec2 nose = at + along(heading) * reach;
  w_.line(Role::heading, at, nose);
  const double drift = speed > 0.0 ? wrap_180(direction_of(v) - heading) : 0.0;
  if (speed > 1.0) {
    const Vec2 tip = at + v * (reach / speed);
    w_.arrow(Role::ground_track, at, tip, 9.0);
    if (small()) {
      // No room for words here: the instruments under the picture say them.
    } else if (std::abs(drift) >= 1.0) {
      // The labels stand outside the wedge between the two, so they never meet.
      const Vec2 right = along(heading + 90.0) * (drift > 0.0 ? 1.0 : -1.0);
      placed(Role::ground_track, tip,
             phrase("core.pic.track", {{"track", degrees_3(direction_of(v))}}), kSmallPx, true, 8.0,
             screen(right + along(heading)));
      placed(Role::text, nose, phrase("core.pic.heading", {{"heading", degrees_3(heading)}}),
             kSmallPx, true, 8.0, screen(along(heading) - right));
    } else {
      placed(Role::text, nose, phrase("core.pic.heading", {{"heading", degrees_3(heading)}}),
             kSmallPx, true, 8.0, screen(along(heading)));
    }
  }
  w_.glyph(Role::aircraft, at, "aircraft", small() ? 24.0 : 30.0, heading);
}

void Artist::probe() {
  const Track& track = c_.flown.track;
  if (!o_.probe_s || track.size() == 0) return;
  const double t = *o_.probe_s;
  const Vec2 at = track.position_at(t);
  const double cross = u_.hold.cross_nm(at);
  w_.mark(Shape::ring, Role::probe, at, 7.0);
  const std::string first =
      phrase("core.pic.probe", {{"time", minutes(t)},
                                {"heading", degrees_3(track.heading_at(t))},
                                {"groundspeed", fixed(length(track.velocity_kt_at(t)), 0)}});
  const std::string second = phrase(
      "core.pic.probe_cross",
      {{"nm", fixed(std::abs(cross), 1)},
       {"side",
        std::string(word(cross >= 0.0 ? "core.pic.side.holding" : "core.pic.side.nonholding"))}});
  const double width =
      std::fmax(text_width_px(first, kTextPx, true), text_width_px(second, kTextPx, false));
  const Placement place = labels_.place(px(at), width, 36.0, 14.0, {0.7, -0.7});
  const auto line = [&](std::string_view text, bool strong, double dy) {
    Item& i = w_.label(Role::probe, at, text, kTextPx, strong);
    i.align = place.align;
    i.offset_x_px = static_cast<float>(place.offset_px.x);
    i.offset_y_px = static_cast<float>(place.offset_px.y + dy);
  };
  line(first, true, -9.0);
  line(second, false, 9.0);
}

void Artist::draw() {
  streaks();
  rings();
  Item& north =
      w_.label(Role::quiet, o_.view.to_nm({16.0, 18.0}), word("core.pic.north"), kSmallPx, false);
  north.align = Align::left;
  labels_.block({0.0, 0.0, 150.0, 30.0});
  if (o_.tools) labels_.block({o_.view.width_px - 62.0, 0.0, o_.view.width_px, 138.0});
  pattern();
  course();
  // Lines first, so that every label knows what it should not cover; the miss is
  // placed before the lesser labels because it matters most.
  plan_lines();
  flown();
  wind();
  fix();
  miss();
  handles();
  flown_label();
  plan_labels();
  ticks_and_events();
  air_label();
  ring_labels();
  aircraft();
  probe();
}

}  // namespace

void draw_picture(const WorkedCase& worked, const PictureOptions& options, Diagram& out) {
  out.view = options.view;
  out.items.clear();
  out.points.clear();
  out.text.clear();
  Artist(worked, options, out).draw();
}

}  // namespace core
