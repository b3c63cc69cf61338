#include "core/flight.h"

#include "core/exact_plan.h"
#include "core/roots.h"

namespace core {
namespace {

constexpr std::string_view kEventNames[] = {"arrival",   "fix",       "level",
                                            "abeam",     "time-up",   "roll-out",
                                            "intercept", "on-course", "fix-missed"};

/// So near to abeam the fix is there: rounding must not decide which events a flight has.
constexpr double kThereNm = 1e-9;

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

OffsetEnd<double> offset_at_once(const Setup& u, double heading_deg, double time_s) {
  return fly_offset<double>({bearing(u.arrival.heading_deg), bearing(heading_deg),
                             bearing(u.inbound.heading_deg), time_s},
                            mover_of(u), u.turn_sign, u.scenario.timer == Timer::fix, u.wind_nm_s.x,
                            u.wind_nm_s.y);
}

OffsetEnd<double> offset_rolled(const Setup& u, double heading_deg, double time_s) {
  const double arrival = u.arrival.heading_deg;
  const TurnMotion out = turn_motion(u, arrival, heading_deg, short_way(u, arrival, heading_deg));
  const TurnMotion in = turn_motion(u, heading_deg, u.inbound.heading_deg, u.scenario.turns);
  double straight_s = u.scenario.timer == Timer::fix ? time_s - out.duration_s : time_s;
  if (!(straight_s > 0.0)) straight_s = 0.0;
  const Vec2 at = out.motion_nm + ground_velocity(u, heading_deg) * straight_s + in.motion_nm;
  return {at.x, at.y, out.duration_s + straight_s + in.duration_s};
}

/// Nobody flies straight for longer; against a wind near the airspeed it would be for ever.
constexpr double kLongestStraightS = 4.0 * kMostOutboundS;

/// Carries the state of a flight in the making.
class Pilot {
 public:
  Pilot(const Setup& setup, Flight& flight)
      : u_(&setup),
        f_(flight),
        change_nm_s2_(setup.wind_change_nm_s2),
        steady_(change_nm_s2_.x == 0.0 && change_nm_s2_.y == 0.0),
        wind_at_fix_(setup.wind_nm_s) {}

  void fly_entry(const EntryPlan& plan);
  void fly_laps();

 private:
  // Each adds a piece. With `to_fix` it is cut where it passes abeam the fix inbound;
  // returns whether that happened.
  bool straight(double duration_s, bool to_fix = false);
  bool turn(double to_deg, Side side, bool to_fix = false);
  Segment& add_piece(double duration_s, double rate_deg_s, const Roll& roll);
  // In a wind that changes: the pilot takes it as it is now for what comes next.
  void look_at_the_wind();
  [[nodiscard]] Vec2 wind() const {
    return steady_ || t_ < 0.0 ? wind_at_fix_ : wind_at_fix_ + change_nm_s2_ * t_;
  }
  void head(double heading_deg, Vec2 direction) {
    heading_ = heading_deg;
    direction_ = direction;
  }
  void head(double heading_deg) { head(heading_deg, along(heading_deg)); }
  [[nodiscard]] Vec2 direction_to(double to_deg) const {
    if (to_deg == u_->inbound.heading_deg) return inbound_;
    return to_deg == outbound_deg_ ? outbound_ : along(to_deg);
  }
  // Over the ground on the present heading, NM/s.
  [[nodiscard]] Vec2 velocity() const { return direction_ * speed_nm_s_ + wind(); }
  void event(EventKind kind);
  // Straight outbound time from here until abeam the fix; negative: never.
  [[nodiscard]] double seconds_to_abeam() const;
  // Straight outbound time from here, at most `timed_s` (negative: by distance), and what
  // ends it; negative: never.
  struct End {
    double seconds;
    LegEnd by;
    /// Why the flight stops there, where it never comes.
    [[nodiscard]] Stop stop() const {
      return by == LegEnd::dme ? Stop::no_reading : Stop::no_outbound;
    }
  };
  [[nodiscard]] End outbound_end(double timed_s) const;
  [[nodiscard]] Rollout roll_out() const;
  // From the roll-out to over (or abeam) the fix.
  void inbound_leg(bool after_entry);
  bool intercept(bool after_entry);
  [[nodiscard]] double cross() const { return u_->cross_nm(at_); }
  [[nodiscard]] double to_go() const { return u_->to_go_nm(at_); }

  // The parallel entry's turn toward the holding side, and straight to the fix.
  bool turn_to_fix();
  bool fly_lap(bool entry);

  const Setup* u_;
  Flight& f_;
  Vec2 change_nm_s2_;
  bool steady_;
  Vec2 wind_at_fix_;
  std::optional<Setup> now_;  // where the wind changes: the setup as the pilot knows it
  Vec2 at_{0.0, 0.0};
  double t_ = 0.0;
  double heading_ = 360.0;
  // Unit vector of the heading: one sine and cosine serve the end of a turn, the
  // straight after it and the start of the next.
  Vec2 direction_{0.0, 1.0};
  double speed_nm_s_ = u_->tas_kt * kNmPerSecondPerKnot;
  // Of the inbound heading, which most turns end on.
  Vec2 inbound_ = u_->inbound.exists ? along(u_->inbound.heading_deg) : Vec2{0.0, 1.0};
  // Of the outbound heading, which laps have in common.
  double outbound_deg_ = 0.0;
  Vec2 outbound_{0.0, 1.0};
  int lap_ = 0;
  double next_outbound_s_ = 0.0;
};

Segment& Pilot::add_piece(double duration_s, double rate_deg_s, const Roll& roll) {
  Segment& s = f_.track.next();
  s.start_s = t_;
  s.duration_s = duration_s > 0.0 ? duration_s : 0.0;
  s.start = at_;
  s.heading_deg = heading_;
  s.rate_deg_s = rate_deg_s;
  s.speed_nm_s = speed_nm_s_;
  s.wind_nm_s = wind();
  s.wind_change_nm_s2 = t_ < 0.0 ? Vec2{0.0, 0.0} : change_nm_s2_;
  s.roll = roll;
  return s;
}

void Pilot::look_at_the_wind() {
  if (steady_) return;
  if (!now_) now_.emplace(*u_);
  Setup& n = *now_;
  n.wind_nm_s = wind();
  const Vec2 kt = n.wind_nm_s * 3600.0;
  n.wind = {direction_of(kt * -1.0), length(kt)};
  n.inbound = solve_triangle(n.scenario.inbound_course_deg, n.tas_kt, n.wind);
  n.outbound = solve_triangle(n.hold.outbound_course_deg(), n.tas_kt, n.wind);
  inbound_ = n.inbound.exists ? along(n.inbound.heading_deg) : Vec2{0.0, 1.0};
  u_ = &n;
}

bool Pilot::straight(double duration_s, bool to_fix) {
  Segment& s = add_piece(duration_s, 0.0, kNoRoll);
  const Vec2 v = velocity();
  bool cut = false;
  if (to_fix) {
    const double inbound = -dot(u_->outbound_axis, v);
    const double gap = to_go();
    const double t =
        gap > 0.0 ? first_time(gap, inbound, -dot(u_->outbound_axis, s.wind_change_nm_s2)) : -1.0;
    cut = t >= 0.0 && t <= s.duration_s;
    if (cut) s.duration_s = t;
  }
  at_ = at_ + v * s.duration_s + s.wind_change_nm_s2 * (0.5 * s.duration_s * s.duration_s);
  t_ = s.end_s();
  return cut;
}

bool Pilot::turn(double to_deg, Side side, bool to_fix) {
  const double sign = sign_of(side);
  const double angle = turn_angle((to_deg - heading_) * sign);
  const TurnTiming timing = turn_timing(u_->turn, u_->roll_in, angle);
  Segment& s = add_piece(timing.duration_s, timing.rate_deg_s * sign, timing.roll);
  if (to_fix) {
    const double t = first_rise_through(s, u_->outbound_axis * -1.0, 0.0);
    if (t >= 0.0) {
      s.duration_s = t;
      at_ = s.position_at(t);
      t_ = s.end_s();
      head(s.heading_at(t));
      return true;
    }
  }
  // Not the sum of start and angle: no rounding is carried from turn to turn.
  const Vec2 end = direction_to(to_deg);
  at_ = at_ + turn_through_air(*u_, timing, sign, heading_, direction_, end) +
        s.wind_nm_s * s.duration_s + s.wind_change_nm_s2 * (0.5 * s.duration_s * s.duration_s);
  t_ = s.end_s();
  head(wrap_360(to_deg), end);
  return false;
}

void Pilot::event(EventKind kind) {
  if (f_.event_count == Flight::kMostEvents) return;
  f_.events[static_cast<unsigned>(f_.event_count++)] = {kind, lap_, t_, at_, heading_};
}

double Pilot::seconds_to_abeam() const {
  const double gap = -to_go();
  if (gap <= kThereNm) return 0.0;  // in still air wings level is abeam
  const double seconds = first_time(gap, dot(u_->outbound_axis, velocity()),
                                    steady_ ? 0.0 : dot(u_->outbound_axis, change_nm_s2_));
  return seconds <= kLongestStraightS ? seconds : -1.0;
}

Pilot::End Pilot::outbound_end(double timed_s) const {
  // In a wind that changes the leg is a little curved; the wind of its start decides.
  End end{timed_s, LegEnd::time};
  if (timed_s < 0.0) {
    end = {seconds_to_leg_end(*u_, at_, velocity()),
           u_->scenario.measure == Measure::dme ? LegEnd::dme : LegEnd::track};
  }
  const std::optional<double> radial = seconds_to_radial(*u_, at_, velocity());
  if (radial && (end.seconds < 0.0 || *radial < end.seconds)) return {*radial, LegEnd::radial};
  return end;
}

Rollout Pilot::roll_out() const {
  return {true, cross(), to_go(), to_go() / (u_->inbound.groundspeed_kt * kNmPerSecondPerKnot),
          t_,   at_};
}

bool Pilot::intercept(bool after_entry) {
  const double inbound = u_->inbound.heading_deg;
  // Heading right of the inbound heading moves right; the holding side is to the
  // right for right turns, so on the holding side the intercept goes the other way.
  const double sign = (cross() > 0.0 ? -1.0 : 1.0) * u_->turn_sign;
  const Vec2 axis = u_->holding_axis;
  const auto heading_for = [&](double angle) { return wrap_360(inbound + sign * angle); };
  const STurn from_inbound(*u_, sign);
  const bool on_heading = heading_ == inbound && u_->roll_in.rate_rad_s == 0.0;
  const auto turns_for = [&](double angle) {
    if (on_heading) return from_inbound.cross_nm(angle);
    const double h = heading_for(angle);
    return dot(axis, turn_motion(*u_, heading_, h, short_way(*u_, heading_, h)).motion_nm) +
           dot(axis, turn_motion(*u_, h, inbound, short_way(*u_, h, inbound)).motion_nm);
  };
  double angle = u_->scenario.intercept_deg;
  // What is left to cover straight once both turns are taken off.
  const auto left_over = [&](double a) { return cross() + turns_for(a); };
  const bool holding = cross() > 0.0;
  const auto overshoots = [&](double gap) { return holding ? gap < 0.0 : gap > 0.0; };
  double gap = left_over(angle);
  if (overshoots(gap)) {
    // Both turns alone would cross the course: take a smaller angle that just rolls out on it.
    const double at_zero = on_heading ? cross() : left_over(0.0);
    if (overshoots(at_zero)) {
      angle = 0.0;
    } else if (on_heading) {
      const auto with_slope = [&](double a) -> ValueSlope {
        const ValueSlope turns = from_inbound.cross(a);
        return {cross() + turns.value, turns.slope};
      };
      // Two equal and opposite turns move aside nearly with the square of their angle.
      const double start = angle * std::sqrt(at_zero / (at_zero - gap));
      angle = newton_root(with_slope, 0.0, angle, at_zero, gap, start);
    } else {
      angle = bracketed_root(left_over, 0.0, angle, at_zero, gap);
    }
    gap = 0.0;
  }
  const double h = heading_for(angle);
  if (after_entry) f_.intercept_flown_deg = angle;
  // Rounding may carry a piece that ends abeam the fix past it: that is missed, too.
  if (turn(h, short_way(*u_, heading_, h), true) || to_go() <= 0.0) return false;
  if (angle > 0.0) event(EventKind::intercept);
  const double closing = dot(axis, velocity());
  if (gap != 0.0 && closing != 0.0 && (straight(-gap / closing, true) || to_go() <= 0.0)) {
    return false;
  }
  return !turn(inbound, short_way(*u_, heading_, inbound), true);
}

void Pilot::inbound_leg(bool after_entry) {
  // A still-air circle without an outbound leg rolls out over the fix to rounding.
  const bool there = std::abs(to_go()) <= kThereNm;
  bool reached = to_go() > kThereNm;
  // One intercept does it; from the parallel entry a second may be needed, when the
  // turn alone already crossed the course.
  for (int tries = 0; reached && tries < 3; ++tries) {
    if (std::abs(cross()) <= kOnCourseNm && heading_ == u_->inbound.heading_deg) break;
    reached = intercept(after_entry && tries == 0);
    if (reached && std::abs(cross()) <= kOnCourseNm) event(EventKind::on_course);
  }
  if (reached && steady_) {
    straight(to_go() / (u_->inbound.groundspeed_kt * kNmPerSecondPerKnot));
  } else if (reached) {
    const double seconds = first_time(to_go(), -dot(u_->outbound_axis, velocity()),
                                      -dot(u_->outbound_axis, change_nm_s2_));
    if (!(seconds >= 0.0 && seconds <= kLongestStraightS)) {
      f_.stop = Stop::no_inbound;
      return;
    }
    straight(seconds);
  }
  const bool missed = !(reached || there) || std::abs(cross()) > kOnCourseNm;
  if (after_entry) f_.fix_missed = missed;
  event(missed ? EventKind::fix_missed : EventKind::fix);
}

void Pilot::fly_entry(const EntryPlan& plan) {
  f_.plan = plan;
  if (!u_->arrival.exists) {
    f_.stop = Stop::no_arrival;
    return;
  }
  head(u_->arrival.heading_deg);
  t_ = -kArrivalShownS;
  at_ = velocity() * t_;
  event(EventKind::arrival);
  straight(kArrivalShownS);
  at_ = {0.0, 0.0};
  t_ = 0.0;
  event(EventKind::fix);
  if (plan.kind == EntryKind::direct) return;  // the first lap is the entry

  turn(plan.heading_deg, short_way(*u_, heading_, plan.heading_deg));
  f_.level_s = t_;
  event(EventKind::level);
  const double timer_start = u_->scenario.timer == Timer::fix ? 0.0 : t_;
  const bool by_distance = u_->leg.kind == Leg::Kind::distance && !u_->scenario.time_s;
  const double left_s = plan.time_s - (t_ - timer_start);
  const End end = outbound_end(by_distance ? -1.0 : left_s > 0.0 ? left_s : 0.0);
  if (end.seconds < 0.0) {
    f_.stop = end.stop();
    return;
  }
  straight(end.seconds);
  f_.ended_by = end.by;
  f_.entry_time_s = t_ - timer_start;
  event(EventKind::time_up);
  look_at_the_wind();
  if (!u_->inbound.exists) {
    f_.stop = Stop::no_inbound;
    return;
  }
  if (plan.kind == EntryKind::offset) {
    turn(u_->inbound.heading_deg, u_->scenario.turns);
  } else if (u_->scenario.parallel_end == ParallelEnd::fix) {
    if (!turn_to_fix()) f_.stop = Stop::no_inbound;
    return;
  } else {
    // Toward the holding side, through the inbound heading to an intercept of it.
    turn(u_->inbound.heading_deg - u_->turn_sign * u_->scenario.intercept_deg,
         opposite(u_->scenario.turns));
  }
  f_.rollout = roll_out();
  event(EventKind::roll_out);
  inbound_leg(true);
}

bool Pilot::turn_to_fix() {
  // Turned by `angle`, where is the aircraft and does its track lead to the fix?
  const Side side = opposite(u_->scenario.turns);
  const double sign = sign_of(side);
  const auto end_of = [&](double angle) {
    return at_ + turn_motion(*u_, heading_, heading_ + sign * angle, side).motion_nm;
  };
  const auto past = [&](double angle) {
    const Vec2 p = end_of(angle);
    const Vec2 v = ground_velocity(*u_, heading_ + sign * angle);
    return p.x * v.y - p.y * v.x;
  };
  double best = -1.0;
  every_root(past, 0.0, 359.9, 180, [&](double angle) {
    const bool toward = dot(end_of(angle), ground_velocity(*u_, heading_ + sign * angle)) < 0.0;
    if (toward && (best < 0.0 || angle < best)) best = angle;
  });
  if (best < 0.0) return false;
  turn(wrap_360(heading_ + sign * best), side);
  f_.rollout = roll_out();
  event(EventKind::roll_out);
  const double seconds = length(at_) / length(velocity());
  if (!(seconds <= kLongestStraightS)) return false;
  straight(seconds);
  event(EventKind::fix);
  return true;
}

bool Pilot::fly_lap(bool entry) {
  const double start_s = t_;
  look_at_the_wind();
  if (!u_->inbound.exists) {
    f_.stop = Stop::no_inbound;
    return false;
  }
  const Scenario& s = u_->scenario;
  const bool exact_time = s.adjust == Adjust::exact && !entry;
  ExactPlan exact;
  if (!entry && (exact_time || s.exact_multiple)) {
    exact = exact_lap(*u_);
    if (!exact.exists()) {
      f_.stop = Stop::no_exact;
      return false;
    }
  }
  double outbound_s = entry ? f_.plan.time_s : next_outbound_s_;
  if (exact_time) outbound_s = exact.time_s;
  if (!(outbound_s > 0.0)) outbound_s = 0.0;
  if (outbound_s > kMostOutboundS) outbound_s = kMostOutboundS;
  const double heading = entry              ? f_.plan.heading_deg
                         : s.exact_multiple ? exact.heading_deg
                                            : lap_heading(*u_, s.multiple);
  const double wca_deg = u_->inbound.wca_deg;
  if (heading != outbound_deg_) {
    outbound_ = along(heading);
    outbound_deg_ = heading;
  }
  turn(heading, s.turns);
  event(EventKind::level);
  if (entry) f_.level_s = t_;
  const double to_abeam = seconds_to_abeam();
  const bool by_distance =
      u_->leg.kind == Leg::Kind::distance && !(entry && s.time_s) && !exact_time;
  const End end = to_abeam < 0.0 ? End{-1.0, LegEnd::time}
                                 : outbound_end(by_distance ? -1.0 : to_abeam + outbound_s);
  if (end.seconds < 0.0) {
    f_.stop = end.stop();
    return false;
  }
  if (to_abeam > 0.0 && to_abeam <= end.seconds) {
    straight(to_abeam);
    event(EventKind::abeam);
  }
  const double clocked_s = end.seconds > to_abeam ? end.seconds - to_abeam : 0.0;
  // A radial may come before the clock is started.
  const double rest_s = to_abeam <= end.seconds ? clocked_s : end.seconds;
  outbound_s = end.by == LegEnd::time ? outbound_s : clocked_s;
  straight(end.by == LegEnd::time ? outbound_s : rest_s);
  event(EventKind::time_up);
  look_at_the_wind();
  if (!u_->inbound.exists) {
    f_.stop = Stop::no_inbound;
    return false;
  }
  turn(u_->inbound.heading_deg, s.turns);
  const Rollout r = roll_out();
  event(EventKind::roll_out);
  if (entry) {
    f_.rollout = r;
    f_.entry_time_s = outbound_s;
    f_.ended_by = end.by;
  } else {
    f_.laps[static_cast<unsigned>(f_.lap_count++)] = {start_s, wrap_360(heading), outbound_s,
                                                      end.by,  wca_deg,           r};
  }
  next_outbound_s_ = next_outbound_s(*u_, outbound_s, r.inbound_s);
  inbound_leg(entry);
  return f_.stop == Stop::none;
}

void Pilot::fly_laps() {
  if (f_.plan.kind == EntryKind::direct) {
    if (!fly_lap(true)) return;
  } else {
    next_outbound_s_ = next_outbound_s(*u_, f_.entry_time_s, f_.rollout.inbound_s);
  }
  for (int i = 0; i < u_->scenario.laps; ++i) {
    ++lap_;
    if (!fly_lap(false)) return;
  }
}

}  // namespace

std::string_view name_of(LegEnd end) {
  constexpr std::string_view kNames[] = {"time", "distance", "dme", "radial"};
  return kNames[static_cast<int>(end)];
}

double seconds_to_leg_end(const Setup& u, Vec2 from, Vec2 velocity_nm_s) {
  if (u.scenario.measure == Measure::track) {
    const double gap = u.leg.value - u.to_go_nm(from);
    if (gap <= kThereNm) return 0.0;
    const double seconds = first_time(gap, u.to_go_nm(velocity_nm_s), 0.0);
    return seconds <= kLongestStraightS ? seconds : -1.0;
  }
  // The pattern lies beyond the fix from the station, or between: the reading grows or falls.
  const bool falls = u.scenario.station.place == Station::Place::behind;
  const double reading_nm = leg_end_dme_nm(u);
  const double radius_nm = ground_range_nm(reading_nm, u.height_ft);
  if (!(radius_nm >= 0.0)) return -1.0;
  const Vec2 p = from - u.station;
  const double c = dot(p, p) - radius_nm * radius_nm;
  if (falls ? c <= 0.0 : c >= 0.0) return 0.0;
  // |p + v t| = radius
  const double a = dot(velocity_nm_s, velocity_nm_s);
  const double b = dot(p, velocity_nm_s);
  const double square = b * b - a * c;
  if (!(square >= 0.0) || !(a > 0.0)) return -1.0;
  const double root = std::sqrt(square);
  // Falling, c > 0: the nearer crossing, c / (root - b); growing, c < 0: the only one ahead.
  const double seconds = falls     ? (b < 0.0 ? c / (root - b) : -1.0)
                         : b > 0.0 ? -c / (root + b)
                                   : (root - b) / a;
  return seconds <= kLongestStraightS ? seconds : -1.0;
}

double leg_end_dme_nm(const Setup& u) {
  const Station& station = u.scenario.station;
  if (station.place == Station::Place::behind) return station.dme_nm - u.leg.value;
  return station.dme_nm + u.leg.value;
}

std::optional<double> seconds_to_radial(const Setup& u, Vec2 from, Vec2 velocity_nm_s) {
  if (!u.scenario.radial_deg) return std::nullopt;
  const Vec2 out = along(*u.scenario.radial_deg);
  const auto beside = [&](Vec2 p) { return p.x * out.y - p.y * out.x; };  // + to its right
  // The side of the line on which the holding course lies; from a station behind it runs inbound.
  const bool behind = u.scenario.station.place == Station::Place::behind;
  const double course = beside(u.outbound_axis) * (behind ? -1.0 : 1.0);
  if (std::abs(course) < 1e-12) return std::nullopt;  // along the course: limits nothing
  const double side = course > 0.0 ? 1.0 : -1.0;
  const Vec2 p = from - u.station;
  const double gap = side * beside(p);
  const double rate = -side * beside(velocity_nm_s);
  if (gap <= 0.0) return dot(p, out) > 0.0 ? std::optional<double>(0.0) : std::nullopt;
  const double seconds = first_time(gap, rate, 0.0);
  if (!(seconds >= 0.0 && seconds <= kLongestStraightS)) return std::nullopt;
  // Beyond the station it is another radial.
  if (dot(p + velocity_nm_s * seconds, out) <= 0.0) return std::nullopt;
  return seconds;
}

double next_outbound_s(const Setup& u, double outbound_s, double inbound_s) {
  const double wanted = u.published_s;
  switch (u.scenario.adjust) {
    case Adjust::ratio:
      if (inbound_s > 0.0) return outbound_s * wanted / inbound_s;
      return outbound_s + wanted - inbound_s;
    case Adjust::keep:
      return wanted;
    case Adjust::exact:
    case Adjust::seconds:
      break;
  }
  return outbound_s + wanted - inbound_s;
}

std::optional<double> rollout_heading_deg(const Flight& f) {
  if (!f.rollout.exists) return std::nullopt;
  for (int i = 0; i < f.event_count; ++i) {
    const Event& event = f.events[static_cast<unsigned>(i)];
    if (event.kind == EventKind::roll_out) return event.heading_deg;
  }
  return std::nullopt;
}

std::string_view name_of(EventKind kind) { return kEventNames[static_cast<int>(kind)]; }

void fly(const Setup& setup, const EntryPlan& plan, Flight& out) {
  out.track.clear();
  out.stop = Stop::none;
  out.entry_time_s = 0.0;
  out.ended_by = LegEnd::time;
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
  const OffsetEnd<double> end = u.roll_in.rate_rad_s == 0.0 ? offset_at_once(u, heading_deg, time_s)
                                                            : offset_rolled(u, heading_deg, time_s);
  const Vec2 at{end.x_nm, end.y_nm};
  const double to_go = u.to_go_nm(at);
  return {true,     u.cross_nm(at),
          to_go,    to_go / (u.inbound.groundspeed_kt * kNmPerSecondPerKnot),
          end.at_s, at};
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
