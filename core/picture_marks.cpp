// The picture's marks and words: what is read off it.
#include "core/artist.h"

#include <algorithm>

#include "core/explain.h"
#include "core/picture_parts.h"

namespace core {

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

Item& Artist::placed_best(Role role, const std::vector<Anchor>& anchors, std::string_view text,
                          double size, bool strong, double gap) {
  const double width = text_width_px(text, size, strong);
  Anchor best = anchors.front();
  double best_cost = 1e300;
  for (const Anchor& anchor : anchors) {
    const double cost =
        labels_.propose(px(anchor.at), width, size * 1.25, gap, anchor.toward, best_cost).cost;
    if (cost >= best_cost) continue;
    best_cost = cost;
    best = anchor;
  }
  return placed(role, best.at, text, size, strong, gap, best.toward);
}

void Artist::ring_labels() {
  const double step = ring_step_nm();
  // On the side away from the pattern, where there is room.
  const Vec2 away = u_.holding_axis * -1.0;
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
                     kTextPx * 1.25, 12.0, outward(f.track.velocity_kt_at(at_s)), best_cost)
            .cost;
    if (cost >= best_cost) continue;
    best_cost = cost;
    best_s = at_s;
  }
  placed(role, f.track.position_at(best_s), text, kTextPx, true, 12.0,
         outward(f.track.velocity_kt_at(best_s)));
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
  const bool off = miss_of(f.rollout) != Miss::on_course;
  std::string text = headline(c_);
  if (off && f.rollout.to_go_nm > 0.0) {
    const bool past = f.rollout.cross_nm < 0.0;
    const char* const brief = past ? "core.pic.miss.past" : "core.pic.miss.short";
    const char* const full = past ? "core.pic.miss.past_course" : "core.pic.miss.short_course";
    text = phrase(small() ? brief : full, {{"nm", fixed(std::abs(f.rollout.cross_nm), 1)}});
  }
  miss_line(f.rollout, text, off && !small() ? 17.0 : kStrongPx);
}

void Artist::miss_line(const Rollout& r, std::string_view text, double size_px) {
  const Vec2 on = u_.outbound_axis * r.to_go_nm;
  const bool off = miss_of(r) != Miss::on_course;
  if (off) {
    w_.line(Role::miss, r.at, on);
    avoid_last_line();
    w_.mark(Shape::disc, Role::miss, on, 4.0);
  }
  w_.mark(Shape::disc, Role::miss, r.at, 5.0);
  placed(Role::miss, off ? (r.at + on) * 0.5 : r.at, text, size_px, true, 13.0,
         screen(u_.outbound_axis * -1.0));
}

void Artist::fix() {
  w_.glyph(Role::fix, {0.0, 0.0}, "fix", far() ? 13.0 : 22.0, 0.0);
  const Vec2 p = px({0.0, 0.0});
  labels_.block({p.x - 12.0, p.y - 12.0, p.x + 12.0, p.y + 10.0});
  const Vec2 away = screen(u_.outbound_axis * -1.0);
  const Vec2 toward = {away.x, away.y + 0.6};
  const std::string_view given = u_.scenario.fix_name.data();
  const std::string_view name = given.empty() ? word("core.pic.fix") : given;
  if (o_.handles) {
    // The handles say the course and the turns.
    placed(Role::text, {0.0, 0.0}, name, kStrongPx, true, 17.0, toward);
    return;
  }
  const std::string hold = phrase(
      "core.pic.hold",
      {{"inbound", degrees_3(u_.hold.inbound_course_deg)}, {"turns", std::string(turns_word())}});
  two_lines(Role::text, {0.0, 0.0}, name, kStrongPx, hold, kSmallPx, 20.0, toward);
}

void Artist::two_lines(Role role, Vec2 at, std::string_view first, double first_px,
                       std::string_view second, double second_px, double gap, Vec2 toward) {
  const double width =
      std::fmax(text_width_px(first, first_px, true), text_width_px(second, second_px, false));
  const Placement place = labels_.place(px(at), width, 36.0, gap, toward);
  const auto line = [&](std::string_view text, double size, bool strong, double dy) {
    Item& i = w_.label(role, at, text, size, strong);
    i.align = place.align;
    i.offset_x_px = static_cast<float>(place.offset_px.x);
    i.offset_y_px = static_cast<float>(place.offset_px.y + dy);
  };
  line(first, first_px, true, -9.0);
  line(second, second_px, false, 9.0);
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
  if (o_.handles && !o_.is_fixed(Handle::wind)) {
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

void Artist::keep_handles_clear() {
  if (!o_.handles) return;
  for (const Handle handle : {Handle::inbound, Handle::arrival, Handle::turns}) {
    const std::optional<Vec2> at = handle_at(c_, o_, handle);
    if (!at) continue;
    const Vec2 p = px(*at);
    labels_.block({p.x - 13.0, p.y - 13.0, p.x + 13.0, p.y + 13.0});
  }
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
    if (!o_.is_fixed(grip.handle)) {
      Item& ring = w_.mark(Shape::ring, Role::handle, *at, 12.0);
      ring.width_scale = active ? 1.4F : 0.9F;
    }
    // A head inside says which way the course, or the turn, runs.
    w_.glyph(Role::handle, *at, "head", 10.0, grip.direction_deg);
    placed(Role::handle, *at, grip.text, active ? kStrongPx : kSmallPx, active, 17.0, screen(*at));
  }
}

void Artist::aircraft() {
  const Track& track = c_.flown.track;
  if (!o_.time_s || track.size() == 0) return;
  const double t = std::clamp(*o_.time_s, track.start_s(), o_.flight ? track.end_s() : 0.0);
  aircraft_at(track.position_at(t), track.heading_at(t), track.velocity_kt_at(t), true);
}

void Artist::aircraft_at(Vec2 at, double heading, Vec2 v, bool drifts) {
  const double speed = drifts ? length(v) : 0.0;
  // A minute's flight would leave the picture: show the directions at a fixed length.
  const double reach = nm(small() ? 60.0 : 92.0);
  if (far()) {
    w_.glyph(Role::aircraft, at, "aircraft", 18.0, heading);
    return;
  }
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
  } else if (!drifts && !small()) {
    placed(Role::text, nose, phrase("core.pic.heading", {{"heading", degrees_3(heading)}}),
           kSmallPx, true, 8.0, screen(along(heading)));
  }
  w_.glyph(Role::aircraft, at, "aircraft", small() ? 24.0 : 30.0, heading);
}

void Artist::probe() {
  const Track& track = c_.flown.track;
  if (!o_.probe_s || !o_.flight || track.size() == 0) return;
  const double t = *o_.probe_s;
  const Vec2 at = track.position_at(t);
  const double cross = u_.cross_nm(at);
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
  two_lines(Role::probe, at, first, kTextPx, second, kTextPx, 14.0, {0.7, -0.7});
}

}  // namespace core
