// The picture's second flight: somebody's answer beside the right one.
#include "core/artist.h"
#include "core/explain.h"
#include "core/picture_parts.h"

namespace core {
namespace {

bool same_pattern(const Setup& a, const Setup& b) {
  return a.hold.inbound_course_deg == b.hold.inbound_course_deg && a.hold.turns == b.hold.turns;
}

}  // namespace

void Artist::beside() {
  const WorkedCase& other = o_.beside->worked;
  if (!same_pattern(other.setup, u_)) {
    // Another hold altogether: a track alone would not say so.
    w_.item(Shape::polyline, Role::own).width_scale = 0.5F;
    pattern_outline(other.setup, true);
    avoid_last_line();
  }
  const Flight& f = other.flown;
  if (f.track.size() == 0) return;
  w_.item(Shape::polyline, Role::own);
  trace(f.track, 0.0, beside_end_s(f), false);
  avoid_last_line();
  if (f.rollout.exists && !o_.until_s) w_.mark(Shape::ring, Role::own, f.rollout.at, 5.0);
}

void Artist::beside_label() {
  const WorkedCase& other = o_.beside->worked;
  const Flight& f = other.flown;
  if (f.track.size() == 0) return;
  const double end = f.rollout.exists ? f.rollout.at_s : f.track.end_s();
  const std::string miss = f.rollout.exists ? headline(other) : std::string();
  two_lines(Role::own, f.track.position_at(end), o_.beside->label, kTextPx, miss, kSmallPx, 12.0,
            screen(f.track.velocity_kt_at(end)));
}

}  // namespace core
