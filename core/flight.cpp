#include "core/flight.h"

#include "core/roots.h"

namespace core {
namespace {

constexpr std::string_view kEventNames[] = {"arrival",   "fix",       "level",
                                            "abeam",     "time-up",   "roll-out",
                                            "intercept", "on-course", "fix-missed"};

/// So near to abeam the fix is there, and so near to half a circle is opposite: rounding
/// must not decide which events a flight has, nor which way an aircraft turns.
constexpr double kThereNm = 1e-9;
constexpr double kOppositeDeg = 1e-10;

/// Cross motion of a turn out by `angle_deg` from the inbound heading and the turn
/// back, `sign` +1 to the right of it. Both turns move alike, hence the 2; the wind
/// across the course is what the inbound correction balances (docs/theory.md
/// "Intercept").
class STurn {
 public:
  STurn(const Setup& u, double sign)
      : wca_deg_(u.inbound.wca_deg),
        wca_(sincos_deg(u.inbound.wca_deg)),
        sign_(sign),
        scale_nm_(2.0 * u.turn.radius_nm * u.turn_sign) {}
  /// NM, and its slope in NM a degree.
  [[nodiscard]] ValueSlope cross(double angle_deg) const {
    const SinCos out = sincos_deg(wca_deg_ + sign_ * angle_deg);
    return {scale_nm_ * (sign_ * (wca_.cos - out.cos) - angle_deg * kDegToRad * wca_.sin),
            scale_nm_ * kDegToRad * (out.sin - wca_.sin)};
  }
  [[nodiscard]] double cross_nm(double angle_deg) const { return cross(angle_deg).value; }

 private:
  double wca_deg_;
  SinCos wca_;
  double sign_;
  double scale_nm_;
};

/// Carries the state of a flight in the making.
class Pilot {
 public:
  Pilot(const Setup& setup, Flight& flight) : u_(setup), f_(flight) {}

  void fly_entry(const EntryPlan& plan);
  void fly_laps();

 private:
  // Each adds a piece. With `to_fix` it is cut where it passes abeam the fix inbound;
  // returns whether that happened.
  bool straight(double duration_s, bool to_fix = false);
  bool turn(double to_deg, Side side, bool to_fix = false);
  [[nodiscard]] Segment piece(double duration_s, double rate_deg_s) const;
  void head(double heading_deg, Vec2 direction) {
    heading_ = heading_deg;
    direction_ = direction;
  }
  void head(double heading_deg) { head(heading_deg, along(heading_deg)); }
  // Over the ground on the present heading, NM/s.
  [[nodiscard]] Vec2 velocity() const { return direction_ * speed_nm_s_ + u_.wind_nm_s; }
  void event(EventKind kind);
  // Straight outbound time from here until `to_go` reaches `level_nm`; negative: never.
  [[nodiscard]] double seconds_to(double level_nm) const;
  [[nodiscard]] Rollout roll_out() const;
  // From the roll-out to over (or abeam) the fix.
  void inbound_leg(bool after_entry);
  bool intercept(bool after_entry);
  [[nodiscard]] double cross() const { return u_.cross_nm(at_); }
  [[nodiscard]] double to_go() const { return u_.to_go_nm(at_); }

  const Setup& u_;
  Flight& f_;
  Vec2 at_{0.0, 0.0};
  double t_ = 0.0;
  double heading_ = 360.0;
  // Unit vector of the heading: one sine and cosine serve the end of a turn, the
  // straight after it and the start of the next.
  Vec2 direction_{0.0, 1.0};
  double speed_nm_s_ = u_.tas_kt * kNmPerSecondPerKnot;
  // Of the inbound heading, which most turns end on.
  Vec2 inbound_ = u_.inbound.exists ? along(u_.inbound.heading_deg) : Vec2{0.0, 1.0};
  int lap_ = 0;
};

Segment Pilot::piece(double duration_s, double rate_deg_s) const {
  return {t_,          duration_s > 0.0 ? duration_s : 0.0, at_, heading_, rate_deg_s, speed_nm_s_,
          u_.wind_nm_s};
}

bool Pilot::straight(double duration_s, bool to_fix) {
  Segment s = piece(duration_s, 0.0);
  const Vec2 v = velocity();
  bool cut = false;
  if (to_fix) {
    const double inbound = -dot(u_.outbound_axis, v);
    const double gap = to_go();
    cut = gap > 0.0 && inbound > 0.0 && gap <= inbound * s.duration_s;
    if (cut) s.duration_s = gap / inbound;
  }
  f_.track.add(s);
  at_ = at_ + v * s.duration_s;
  t_ = s.end_s();
  return cut;
}

bool Pilot::turn(double to_deg, Side side, bool to_fix) {
  const double sign = sign_of(side);
  const double angle = turn_angle((to_deg - heading_) * sign);
  Segment s = piece(angle / u_.turn.rate_deg_s, u_.turn.rate_deg_s * sign);
  if (to_fix) {
    const double t = first_rise_through(s, u_.outbound_axis * -1.0, 0.0);
    if (t >= 0.0) {
      s.duration_s = t;
      f_.track.add(s);
      at_ = s.position_at(t);
      t_ = s.end_s();
      head(s.heading_at(t));
      return true;
    }
  }
  f_.track.add(s);
  // Not the sum of start and angle: no rounding is carried from turn to turn.
  const Vec2 end = to_deg == u_.inbound.heading_deg ? inbound_ : along(to_deg);
  const Vec2 chord = {direction_.y - end.y, end.x - direction_.x};
  at_ = at_ + chord * (sign * u_.turn.radius_nm) + u_.wind_nm_s * s.duration_s;
  t_ = s.end_s();
  head(wrap_360(to_deg), end);
  return false;
}

void Pilot::event(EventKind kind) {
  if (f_.event_count == Flight::kMostEvents) return;
  f_.events[static_cast<unsigned>(f_.event_count++)] = {kind, lap_, t_, at_, heading_};
}

double Pilot::seconds_to(double level_nm) const {
  const double gap = level_nm - to_go();
  if (gap <= kThereNm) return 0.0;  // in still air wings level is abeam
  const double rate = dot(u_.outbound_axis, velocity());
  if (!(rate > 0.0)) return -1.0;
  const double seconds = gap / rate;
  return seconds <= 4.0 * kMostOutboundS ? seconds : -1.0;
}

Rollout Pilot::roll_out() const {
  return {true, cross(), to_go(), to_go() / (u_.inbound.groundspeed_kt * kNmPerSecondPerKnot),
          t_,   at_};
}

bool Pilot::intercept(bool after_entry) {
  const double inbound = u_.inbound.heading_deg;
  // Heading right of the inbound heading moves right; the holding side is to the
  // right for right turns, so on the holding side the intercept goes the other way.
  const double sign = (cross() > 0.0 ? -1.0 : 1.0) * u_.turn_sign;
  const Vec2 axis = u_.holding_axis;
  const auto heading_for = [&](double angle) { return wrap_360(inbound + sign * angle); };
  const STurn from_inbound(u_, sign);
  const bool on_heading = heading_ == inbound;
  const auto turns_for = [&](double angle) {
    if (on_heading) return from_inbound.cross_nm(angle);
    const double h = heading_for(angle);
    return dot(axis, turn_motion(u_, heading_, h, short_way(u_, heading_, h)).motion_nm) +
           dot(axis, turn_motion(u_, h, inbound, short_way(u_, h, inbound)).motion_nm);
  };
  double angle = u_.scenario.intercept_deg;
  // What is left to cover straight once both turns are taken off.
  const auto left_over = [&](double a) { return cross() + turns_for(a); };
  const bool holding = cross() > 0.0;
  const auto overshoots = [&](double gap) { return holding ? gap < 0.0 : gap > 0.0; };
  double gap = left_over(angle);
  if (overshoots(gap)) {
    // Both turns alone would cross the course: take a smaller angle that just rolls out on it.
    const double at_zero = left_over(0.0);
    if (overshoots(at_zero)) {
      angle = 0.0;
    } else if (on_heading) {
      const auto with_slope = [&](double a) -> ValueSlope {
        const ValueSlope turns = from_inbound.cross(a);
        return {cross() + turns.value, turns.slope};
      };
      angle = newton_root(with_slope, 0.0, angle, at_zero, gap);
    } else {
      angle = bracketed_root(left_over, 0.0, angle, at_zero, gap);
    }
    gap = 0.0;
  }
  const double h = heading_for(angle);
  if (after_entry) f_.intercept_flown_deg = angle;
  // Rounding may carry a piece that ends abeam the fix past it: that is missed, too.
  if (turn(h, short_way(u_, heading_, h), true) || to_go() <= 0.0) return false;
  if (angle > 0.0) event(EventKind::intercept);
  const double closing = dot(axis, velocity());
  if (gap != 0.0 && closing != 0.0 && (straight(-gap / closing, true) || to_go() <= 0.0)) {
    return false;
  }
  return !turn(inbound, short_way(u_, heading_, inbound), true);
}

void Pilot::inbound_leg(bool after_entry) {
  // A still-air circle without an outbound leg rolls out over the fix to rounding.
  const bool there = std::abs(to_go()) <= kThereNm;
  bool reached = to_go() > kThereNm;
  // One intercept does it; from the parallel entry a second may be needed, when the
  // turn alone already crossed the course.
  for (int tries = 0; reached && tries < 3; ++tries) {
    if (std::abs(cross()) <= kOnCourseNm && heading_ == u_.inbound.heading_deg) break;
    reached = intercept(after_entry && tries == 0);
    if (reached && std::abs(cross()) <= kOnCourseNm) event(EventKind::on_course);
  }
  if (reached) straight(to_go() / (u_.inbound.groundspeed_kt * kNmPerSecondPerKnot));
  const bool missed = !(reached || there) || std::abs(cross()) > kOnCourseNm;
  if (after_entry) f_.fix_missed = missed;
  event(missed ? EventKind::fix_missed : EventKind::fix);
}

void Pilot::fly_entry(const EntryPlan& plan) {
  f_.plan = plan;
  if (!u_.arrival.exists) {
    f_.stop = Stop::no_arrival;
    return;
  }
  head(u_.arrival.heading_deg);
  t_ = -kArrivalShownS;
  at_ = velocity() * t_;
  event(EventKind::arrival);
  straight(kArrivalShownS);
  at_ = {0.0, 0.0};
  t_ = 0.0;
  event(EventKind::fix);
  if (plan.kind == EntryKind::direct) return;  // the first lap is the entry

  turn(plan.heading_deg, short_way(u_, heading_, plan.heading_deg));
  f_.level_s = t_;
  event(EventKind::level);
  const double timer_start = u_.scenario.timer == Timer::fix ? 0.0 : t_;
  double leg_s = plan.time_s - (t_ - timer_start);
  if (u_.leg.kind == Leg::Kind::distance && !u_.scenario.time_s) {
    leg_s = seconds_to(u_.leg.value);
    if (leg_s < 0.0) {
      f_.stop = Stop::no_outbound;
      return;
    }
  }
  straight(leg_s);
  f_.entry_time_s = t_ - timer_start;
  event(EventKind::time_up);
  if (!u_.inbound.exists) {
    f_.stop = Stop::no_inbound;
    return;
  }
  if (plan.kind == EntryKind::offset) {
    turn(u_.inbound.heading_deg, u_.scenario.turns);
  } else {
    // Toward the holding side, through the inbound heading to an intercept of it.
    turn(u_.inbound.heading_deg - u_.turn_sign * u_.scenario.intercept_deg,
         opposite(u_.scenario.turns));
  }
  f_.rollout = roll_out();
  event(EventKind::roll_out);
  inbound_leg(true);
}

void Pilot::fly_laps() {
  const bool direct = f_.plan.kind == EntryKind::direct;
  const int wanted = u_.scenario.laps + (direct ? 1 : 0);
  double outbound_s = f_.entry_time_s;
  double inbound_s = f_.rollout.inbound_s;
  const double leg_s = u_.published_s;
  for (int i = 0; i < wanted && f_.stop == Stop::none; ++i) {
    const bool entry = direct && i == 0;
    if (!entry) ++lap_;
    if (!u_.inbound.exists) {
      f_.stop = Stop::no_inbound;
      return;
    }
    const double start_s = t_;
    // Second for second: as much longer outbound as the last inbound was short.
    outbound_s = entry ? f_.plan.time_s : outbound_s + leg_s - inbound_s;
    if (!(outbound_s > 0.0)) outbound_s = 0.0;
    if (outbound_s > kMostOutboundS) outbound_s = kMostOutboundS;
    const double heading = entry ? f_.plan.heading_deg : lap_heading(u_, u_.scenario.multiple);
    turn(heading, u_.scenario.turns);
    event(EventKind::level);
    if (entry) f_.level_s = t_;
    const double to_abeam = seconds_to(0.0);
    const bool by_distance = u_.leg.kind == Leg::Kind::distance && !(entry && u_.scenario.time_s);
    const double to_distance = by_distance ? seconds_to(u_.leg.value) : 0.0;
    if (to_abeam < 0.0 || to_distance < 0.0) {
      f_.stop = Stop::no_outbound;
      return;
    }
    if (to_abeam > 0.0) {
      straight(to_abeam);
      event(EventKind::abeam);
    }
    if (by_distance) outbound_s = to_distance > to_abeam ? to_distance - to_abeam : 0.0;
    straight(outbound_s);
    event(EventKind::time_up);
    turn(u_.inbound.heading_deg, u_.scenario.turns);
    const Rollout r = roll_out();
    event(EventKind::roll_out);
    inbound_s = r.inbound_s;
    if (entry) {
      f_.rollout = r;
      f_.entry_time_s = outbound_s;
    } else {
      f_.laps[static_cast<unsigned>(f_.lap_count++)] = {start_s, wrap_360(heading), outbound_s, r};
    }
    inbound_leg(entry);
  }
}

}  // namespace

std::string_view name_of(EventKind kind) { return kEventNames[static_cast<int>(kind)]; }

TurnMotion turn_motion(const Setup& u, double from_deg, double to_deg, Side side) {
  const double sign = sign_of(side);
  const double angle = turn_angle((to_deg - from_deg) * sign);
  const double seconds = angle / u.turn.rate_deg_s;
  const double half_deg = 0.5 * angle;
  // Chord of the arc, along the mean heading.
  const Vec2 air = along(from_deg + sign * half_deg) * (2.0 * u.turn.radius_nm * sin_deg(half_deg));
  return {angle, seconds, air + u.wind_nm_s * seconds};
}

Side short_way(const Setup& u, double from_deg, double to_deg) {
  const double difference = wrap_180(to_deg - from_deg);
  if (std::abs(difference) > 180.0 - kOppositeDeg) return u.scenario.turns;
  return difference >= 0.0 ? Side::right : Side::left;
}

Vec2 ground_velocity(const Setup& u, double heading_deg) {
  return along(heading_deg) * (u.tas_kt * kNmPerSecondPerKnot) + u.wind_nm_s;
}

void fly(const Setup& setup, const EntryPlan& plan, Flight& out) {
  out.track.clear();
  out.stop = Stop::none;
  out.entry_time_s = 0.0;
  out.rollout = {};
  out.level_s = 0.0;
  out.intercept_flown_deg = 0.0;
  out.fix_missed = false;
  out.lap_count = 0;
  out.event_count = 0;
  Pilot pilot(setup, out);
  pilot.fly_entry(plan);
  if (out.stop == Stop::none) pilot.fly_laps();
}

void fly_scenario(const Setup& setup, Flight& out) {
  const std::optional<EntryPlan> plan = scenario_plan(setup);
  if (plan) {
    fly(setup, *plan, out);
    return;
  }
  out = Flight();
  out.stop = !setup.arrival.exists ? Stop::no_arrival : Stop::no_plan;
}

Rollout offset_rollout(const Setup& u, double heading_deg, double time_s) {
  const double arrival = u.arrival.heading_deg;
  const TurnMotion out = turn_motion(u, arrival, heading_deg, short_way(u, arrival, heading_deg));
  const TurnMotion in = turn_motion(u, heading_deg, u.inbound.heading_deg, u.scenario.turns);
  double straight_s = u.scenario.timer == Timer::fix ? time_s - out.duration_s : time_s;
  if (!(straight_s > 0.0)) straight_s = 0.0;
  const Vec2 at = out.motion_nm + ground_velocity(u, heading_deg) * straight_s + in.motion_nm;
  const double to_go = u.to_go_nm(at);
  return {true,
          u.cross_nm(at),
          to_go,
          to_go / (u.inbound.groundspeed_kt * kNmPerSecondPerKnot),
          out.duration_s + straight_s + in.duration_s,
          at};
}

std::optional<double> intercept_angle_within(const Setup& u, double cross_nm, double within_s) {
  if (!u.inbound.exists || cross_nm == 0.0) return std::nullopt;
  const double sign = (cross_nm > 0.0 ? -1.0 : 1.0) * u.turn_sign;
  const Vec2 axis = u.holding_axis;
  const double side = cross_nm > 0.0 ? 1.0 : -1.0;
  const STurn turns(u, sign);
  // Distance to the course, on the near side, after `within_s` with this angle:
  // turn out, straight for the rest, turn back. In a strong wind a larger angle can
  // close more slowly, so the smallest of all roots is looked for.
  const auto short_by = [&](double angle) {
    const double turns_s = 2.0 * angle / u.turn.rate_deg_s;
    const double closing = dot(axis, ground_velocity(u, u.inbound.heading_deg + sign * angle));
    return side * (cross_nm + turns.cross_nm(angle) + closing * (within_s - turns_s));
  };
  const double most = std::fmin(90.0, 0.5 * within_s * u.turn.rate_deg_s);
  std::optional<double> smallest;
  every_root(short_by, 0.0, most, 45, [&](double angle) {
    if (!smallest || angle < *smallest) smallest = angle;
  });
  return smallest;
}

}  // namespace core
