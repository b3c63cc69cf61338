#include "core/deviation.h"

#include "core/wind_map.h"

namespace core {
namespace {

/// A plan flown as everything really is.
struct Flown {
  Setup setup;  ///< true wind and speed; the inbound heading is the planned one
  double heading_deg;
  double time_s;
  double late_s;
  Vec2 start;  ///< of the turn at the fix
};

std::optional<Flown> flown(const Setup& planned, const EntryPlan& plan, const Amounts& off) {
  Flown f{planned,
          wrap_360(plan.heading_deg + off[Unknown::heading]),
          plan.time_s + off[Unknown::clock],
          off[Unknown::turn_start],
          {}};
  Setup& u = f.setup;
  u.tas_kt += off[Unknown::speed];
  if (!(u.tas_kt > 0.0)) return std::nullopt;
  u.turn = level_turn(u.tas_kt, u.scenario.bank_limit_deg);
  if (u.scenario.roll_deg_s > 0.0) {
    u.roll_in = make_roll_in(u.turn, u.tas_kt, u.scenario.roll_deg_s);
  }
  set_wind(u,
           {u.wind.from_deg + off[Unknown::wind_from], u.wind.speed_kt + off[Unknown::wind_speed]});
  if (!u.arrival.exists || !u.inbound.exists) return std::nullopt;
  u.inbound.heading_deg = planned.inbound.heading_deg;
  f.start = along(u.scenario.arrival_course_deg) *
            (u.arrival.groundspeed_kt * kNmPerSecondPerKnot * f.late_s);
  if (u.scenario.timer == Timer::fix) f.time_s -= f.late_s;
  return f;
}

}  // namespace

std::string_view name_of(Unknown unknown) {
  constexpr std::string_view kNames[] = {"wind-from", "wind-speed", "heading",
                                         "clock",     "speed",      "turn-start"};
  return kNames[static_cast<int>(unknown)];
}

std::string_view name_of(NoCloud why) {
  constexpr std::string_view kNames[] = {"none",       "not-offset", "not-by-clock", "wind-changes",
                                         "no-arrival", "no-inbound", "no-plan"};
  return kNames[static_cast<int>(why)];
}

NoCloud why_no_cloud(const Setup& u) {
  if (u.entry != EntryKind::offset) return NoCloud::not_offset;
  if (!ends_by_clock(u)) return NoCloud::not_by_clock;
  if (!(u.wind_change_nm_s2 == Vec2{0.0, 0.0})) return NoCloud::wind_changes;
  if (!u.arrival.exists) return NoCloud::no_arrival;
  if (!u.inbound.exists) return NoCloud::no_inbound;
  return NoCloud::none;
}

Rollout deviated_rollout(const Setup& setup, const EntryPlan& plan, const Amounts& off) {
  const std::optional<Flown> f = flown(setup, plan, off);
  if (!f) return {};
  Rollout r = offset_rollout(f->setup, f->heading_deg, f->time_s);
  r.at = r.at + f->start;
  r.at_s += f->late_s;
  r.cross_nm = setup.cross_nm(r.at);
  r.to_go_nm = setup.to_go_nm(r.at);
  r.inbound_s = r.to_go_nm / (f->setup.inbound.groundspeed_kt * kNmPerSecondPerKnot);
  return r;
}

void DeviatedTrack::add(const Setup& u, double duration_s, double rate_deg_s, Roll roll) {
  const Segment& last = pieces_[static_cast<std::size_t>(count_ - 1)];
  pieces_[static_cast<std::size_t>(count_)] = {last.end_s(),
                                               duration_s,
                                               last.position_at(last.duration_s),
                                               last.heading_at(last.duration_s),
                                               rate_deg_s,
                                               last.speed_nm_s,
                                               u.wind_nm_s,
                                               {0.0, 0.0},
                                               roll};
  ++count_;
}

DeviatedTrack::DeviatedTrack(const Setup& setup, const EntryPlan& plan, const Amounts& off) {
  const std::optional<Flown> f = flown(setup, plan, off);
  if (!f) return;
  const Setup& u = f->setup;
  const double arrival = u.arrival.heading_deg;
  const double late_s = f->late_s > 0.0 ? f->late_s : 0.0;
  pieces_[0] = {f->late_s - late_s,
                late_s,
                f->late_s > 0.0 ? Vec2{0.0, 0.0} : f->start,
                arrival,
                0.0,
                u.tas_kt * kNmPerSecondPerKnot,
                u.wind_nm_s,
                {0.0, 0.0},
                kNoRoll};
  count_ = 1;
  const auto turn = [&](double to_deg, Side side) {
    const Segment& last = pieces_[static_cast<std::size_t>(count_ - 1)];
    const double sign = sign_of(side);
    const TurnTiming timing = turn_timing(
        u.turn, u.roll_in, turn_angle((to_deg - last.heading_at(last.duration_s)) * sign));
    add(u, timing.duration_s, timing.rate_deg_s * sign, timing.roll);
    return timing.duration_s;
  };
  const double out_s = turn(f->heading_deg, short_way(u, arrival, f->heading_deg));
  const double left_s = u.scenario.timer == Timer::fix ? f->time_s - out_s : f->time_s;
  add(u, left_s > 0.0 ? left_s : 0.0, 0.0, kNoRoll);
  turn(u.inbound.heading_deg, u.scenario.turns);
}

}  // namespace core
