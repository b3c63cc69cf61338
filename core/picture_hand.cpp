// The picture of a flight by hand: what was flown, and afterwards the exact plan beside it.
#include <algorithm>

#include "core/artist.h"
#include "core/explain.h"
#include "core/picture_parts.h"

namespace core {

void Artist::hand() {
  const HandPicture& hand = *o_.hand;
  if (hand.wind_shown) streaks();
  rings();
  north();
  pattern();
  course_to(pattern_leg_nm(u_) + 1.7 * u_.turn.radius_nm);
  const FlownRound* entry = hand.told ? hand.told->entry() : nullptr;
  if (hand.exact) {
    w_.item(Shape::polyline, Role::exact);
    trace(hand.exact->track, 0.0, hand.exact->track.end_s(), false);
    avoid_last_line();
  }
  if (hand.flown->exists()) {
    w_.item(Shape::polyline, Role::flown);
    trace(hand.flown->track(), hand.flown->start_s(), hand.until_s, false);
    avoid_last_line(4.0);
  }
  if (hand.wind_shown) wind();
  fix();
  if (entry) {
    hand_miss(*entry);
    hand_labels(hand, *entry);
  }
  ring_labels();
  if (o_.time_s && hand.flown->exists()) {
    const HandFlown::Pose pose = hand.flown->pose(*o_.time_s);
    aircraft_at(pose.at, pose.heading_deg, pose.velocity_nm_s * 3600.0, hand.wind_shown);
  }
}

void Artist::hand_miss(const FlownRound& entry) {
  const Rollout& r = entry.rollout;
  if (!r.exists) return;
  const bool off = miss_of(r) != Miss::on_course;
  miss_line(r,
            off ? phrase(r.cross_nm < 0.0 ? "core.pic.miss.past" : "core.pic.miss.short",
                         {{"nm", fixed(std::abs(r.cross_nm), 1)}})
                : text_of("core.pic.hand.on_course"),
            kStrongPx);
}

void Artist::hand_labels(const HandPicture& hand, const FlownRound& entry) {
  // Where each turned inbound: there the two are farthest apart, and named by what was flown.
  if (entry.inbound && entry.outbound) {
    const double at_s = entry.inbound->begun_s;
    const HandFlown::Pose pose = hand.flown->pose(at_s);
    w_.mark(Shape::disc, Role::flown, pose.at, 4.2);
    placed(Role::flown, pose.at,
           phrase("core.pic.hand.you", {{"heading", degrees_3(entry.outbound->heading_deg)},
                                        {"time", minutes(entry.inbound->outbound_s)}}),
           kTextPx, true, 10.0, screen(pose.velocity_nm_s));
  }
  if (!hand.exact) return;
  const Flight& f = *hand.exact;
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind != EventKind::time_up) continue;
    w_.mark(Shape::disc, Role::exact, e.at, 4.2);
    placed(Role::exact, e.at, plan_text("core.pic.plan.exact", f), kTextPx, true, 10.0,
           screen(f.track.velocity_kt_at(e.at_s)));
    break;
  }
}

Viewport fitted_for_hand(const Setup& u, double width_px, double height_px) {
  const double r = u.turn.radius_nm;
  const double leg = pattern_leg_nm(u);
  const Vec2 out = u.outbound_axis;
  const Vec2 side = u.holding_axis;
  const Vec2 points[] = {out * (1.5 * leg + 1.5 * r) + side * (3.2 * r),
                         out * (1.5 * leg + 1.5 * r) - side * (2.2 * r),
                         out * (-1.6 * r) + side * (3.2 * r), out * (-1.6 * r) - side * (2.2 * r),
                         // The arrival.
                         along(u.scenario.arrival_course_deg) *
                             -(kHandArrivalS * kNmPerSecondPerKnot *
                               (u.arrival.exists ? u.arrival.groundspeed_kt : u.tas_kt))};
  Vec2 low = points[0];
  Vec2 high = points[0];
  for (const Vec2 p : points) {
    low = {std::fmin(low.x, p.x), std::fmin(low.y, p.y)};
    high = {std::fmax(high.x, p.x), std::fmax(high.y, p.y)};
  }
  const double margin = std::fmin(40.0, 0.08 * std::fmin(width_px, height_px));
  return viewport_around(low, high, width_px, height_px, margin);
}

Viewport widened_to(const Viewport& view, Vec2 at) {
  const double edge = std::fmin(36.0, 0.08 * std::fmin(view.width_px, view.height_px));
  const Vec2 p = view.to_px(at);
  const bool inside =
      p.x >= edge && p.y >= edge && p.x <= view.width_px - edge && p.y <= view.height_px - edge;
  if (inside || !std::isfinite(p.x) || !std::isfinite(p.y)) return view;
  // All that was in view, and as much again of the way to the aircraft beyond it.
  const Vec2 corner_a = view.to_nm({0.0, view.height_px});
  const Vec2 corner_b = view.to_nm({view.width_px, 0.0});
  const Vec2 beyond = at + (at - view.centre) * 0.4;
  const Vec2 low{std::fmin(corner_a.x, beyond.x), std::fmin(corner_a.y, beyond.y)};
  const Vec2 high{std::fmax(corner_b.x, beyond.x), std::fmax(corner_b.y, beyond.y)};
  Viewport v = view;
  v.centre = (low + high) * 0.5;
  v.px_per_nm = std::fmin(view.width_px / (high.x - low.x), view.height_px / (high.y - low.y));
  return v;
}

std::string hand_summary(const HandPicture& hand) {
  const Setup& u = hand.flown->setup();
  std::string text = phrase(hand.told ? "core.pic.hand.summary.told" : "core.pic.hand.summary",
                            {{"inbound", degrees_3(u.hold.inbound_course_deg)},
                             {"turns", side_text(sign_of(u.scenario.turns))}});
  if (hand.told) {
    for (const DebriefLine& line : hand.told->lines) {
      if (line.about == "roll-out") text += " " + line.text;
    }
  }
  return text;
}

}  // namespace core
