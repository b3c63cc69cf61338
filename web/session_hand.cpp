// The session while a flight is flown by hand.
#include "core/explain.h"
#include "core/json.h"
#include "web/session.h"

namespace web {

void Session::drop_hand() {
  if (!hand_) return;
  hand_.reset();
  const core::Viewport now = view_;
  view_ = scene_view_;
  view_.width_px = now.width_px;
  view_.height_px = now.height_px;
  own_view_ = scene_own_view_;
}

unsigned Session::fly_start(const HandOptions& options) {
  // A wind that is drawn always lets the arrival be made good.
  if (!options.wind_seed && !worked_.setup.arrival.exists) return kNothing;
  if (!hand_) {
    scene_view_ = view_;
    scene_own_view_ = own_view_;
  }
  clock_.pause();
  dragged_ = core::Handle::none;
  hovered_ = core::Handle::none;
  probing_ = false;
  hand_.emplace(scenario(), options);
  own_view_ = false;
  refit();
  return kPicture | kClock;
}

unsigned Session::commanded(bool taken) const { return taken ? kPicture | kClock : kNothing; }

unsigned Session::fly_bug(double heading_deg, int way) {
  const core::Way to = way < 0 ? core::Way::left : way > 0 ? core::Way::right : core::Way::shorter;
  return commanded(hand_ && hand_->bug(heading_deg, to));
}

unsigned Session::fly_turn(int side) {
  return commanded(hand_ && hand_->turn(side < 0 ? core::Side::left : core::Side::right));
}

unsigned Session::fly_level() { return commanded(hand_ && hand_->level()); }
unsigned Session::fly_clock() { return commanded(hand_ && hand_->start_stopwatch()); }

unsigned Session::fly_end() {
  if (!hand_ || !hand_->flying()) return kNothing;
  hand_->end();
  if (!own_view_) {
    // The exact plan comes into the picture, and has to have room.
    const core::HandPicture p = hand_->picture();
    for (int i = 0; p.exact && i < p.exact->event_count; ++i) {
      view_ = core::widened_to(view_, p.exact->events[static_cast<unsigned>(i)].at);
    }
    wind_corner_ = core::emptiest_corner(hand_->worked(), view_, has_tools());
  }
  return kPicture | kClock;
}

unsigned Session::fly_leave() {
  if (!hand_) return kNothing;
  drop_hand();
  if (!own_view_) refit();
  return kPicture | kClock;
}

std::string Session::fly_state() const {
  if (hand_) return hand_->state();
  core::Json j;
  j.open_object().field("phase", "off").key("why");
  if (worked_.setup.arrival.exists) {
    j.null();
  } else {
    j.text(core::reason(core::Stop::no_arrival));
  }
  j.close_object();
  return j.take();
}

std::string Session::fly_debrief() const { return hand_ ? hand_->debrief() : "null"; }
std::string Session::fly_link() const { return hand_ ? hand_->link() : link(); }

Live Session::live_by_hand() const {
  const core::HandFlown::Pose at = hand_->pose();
  return readings(hand_->clock(), hand_->worked().setup, at.at, at.velocity_nm_s * 3600.0,
                  at.heading_deg, -1);
}

}  // namespace web
