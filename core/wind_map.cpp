#include "core/wind_map.h"

#include <limits>

namespace core {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

/// What does not depend on the wind.
struct Frame {
  double tas_kt;
  Mover<double> mover;
  double turn_sign;
  double time_s;
  bool from_fix;
  bool by_groundspeed;
  Bearing<double> arrival;
  Bearing<double> inbound;
  Bearing<double> outbound;
  Bearing<double> base;  ///< the plan's heading before any correction
};

template <class N>
struct Place {
  N cross_nm;
  N inbound_s;
};

/// Where the rule takes its correction from, in the order of HeadingRule.
enum class Correct { not_at_all, as_on_arrival, on_its_track, triple_of_inbound };

/// The roll-out in winds from `from` at `wind_kt`; NaN where there is none.
template <Correct kRule, class N>
Place<N> roll_out(const Frame& f, const Bearing<N>& from, N wind_kt) {
  const N wind_share = wind_kt * (1.0 / f.tas_kt);
  const N tas_kt = splat<N>(f.tas_kt);
  const Bearing<N> base = splat<N>(f.base);
  const Correction<N> arrival = hold_course(splat<N>(f.arrival), tas_kt, from, wind_share);
  const Correction<N> inbound = hold_course(splat<N>(f.inbound), tas_kt, from, wind_share);
  // Every speed that must be positive, and the least of them; a NaN stays one.
  N least_kt = select(arrival.groundspeed_kt < inbound.groundspeed_kt, arrival.groundspeed_kt,
                      inbound.groundspeed_kt);
  OffsetPlan<N> plan{turned(splat<N>(f.arrival), arrival.wca), base,
                     turned(splat<N>(f.inbound), inbound.wca), splat<N>(f.time_s)};
  if constexpr (kRule == Correct::as_on_arrival) plan.out = turned(base, arrival.wca);
  if constexpr (kRule == Correct::on_its_track) {
    const Correction<N> track = hold_course(base, tas_kt, from, wind_share);
    plan.out = turned(base, track.wca);
    least_kt = select(track.groundspeed_kt < least_kt, track.groundspeed_kt, least_kt);
  }
  if constexpr (kRule == Correct::triple_of_inbound) {
    const Bearing<N>& w = inbound.wca;
    plan.out = turned(base, Bearing<N>{-3.0 * w.deg, w.sin * (4.0 * w.sin * w.sin - 3.0),
                                       w.cos * (4.0 * w.cos * w.cos - 3.0)});
  }
  N most_s = splat<N>(0.0);
  if (f.by_groundspeed) {
    const Correction<N> outbound = hold_course(splat<N>(f.outbound), tas_kt, from, wind_share);
    plan.time_s = plan.time_s * (tas_kt / outbound.groundspeed_kt);
    least_kt = select(outbound.groundspeed_kt < least_kt, outbound.groundspeed_kt, least_kt);
    most_s = plan.time_s;
  }
  const Mover<N> mover{splat<N>(f.mover.speed_nm_s), splat<N>(f.mover.radius_nm),
                       splat<N>(f.mover.s_per_deg)};
  const N wind_nm_s = wind_kt * kNmPerSecondPerKnot;
  const OffsetEnd<N> end = fly_offset(plan, mover, f.turn_sign, f.from_fix, -wind_nm_s * from.sin,
                                      -wind_nm_s * from.cos);
  // Away from the fix along the outbound course; the holding side is to the left of right turns.
  const N to_go_nm = end.x_nm * f.outbound.sin + end.y_nm * f.outbound.cos;
  const N cross_nm = f.turn_sign * (end.y_nm * f.outbound.sin - end.x_nm * f.outbound.cos);
  const N inbound_s = to_go_nm / (inbound.groundspeed_kt * kNmPerSecondPerKnot);
  const auto flown = (least_kt > 0.0) & (most_s <= kMostOutboundS);
  const N none = nan_unless(flown);
  return {cross_nm + none, inbound_s + none};
}

/// The winds' directions, with their sines and cosines side by side.
struct Winds {
  std::vector<double> sin;
  std::vector<double> cos;
};

template <Correct kRule, class N>
void fill(const Frame& f, const Winds& winds, std::size_t first, std::size_t end, double wind_kt,
          double* cross_nm, double* inbound_s) {
  for (std::size_t i = first; i < end; i += kLanes<N>) {
    const Bearing<N> from{N{}, load<N>(&winds.sin[i]), load<N>(&winds.cos[i])};
    const Place<N> place = roll_out<kRule>(f, from, splat<N>(wind_kt));
    store(cross_nm + i, place.cross_nm);
    store(inbound_s + i, place.inbound_s);
  }
}

template <Correct kRule>
void fill_speeds(const Frame& f, const Winds& winds, int first, int end, RolloutMap& out) {
  const std::size_t directions = winds.sin.size();
  for (int speed = first; speed < end; ++speed) {
    const double wind_kt = out.grid.speed_kt(speed);
    double* const cross_nm = &out.cross_nm[out.grid.index(0, speed)];
    double* const inbound_s = &out.inbound_s[out.grid.index(0, speed)];
    std::size_t done = 0;
#if defined(CORE_HAS_LANES)
    done = directions - directions % kLanes<Lanes>;
    fill<kRule, Lanes>(f, winds, 0, done, wind_kt, cross_nm, inbound_s);
#endif
    fill<kRule, double>(f, winds, done, directions, wind_kt, cross_nm, inbound_s);
  }
}

void fill_one_by_one(const Setup& setup, const MappedPlan& plan, int first, int end,
                     RolloutMap& out) {
  Setup u = setup;
  for (int speed = first; speed < end; ++speed) {
    for (int i = 0; i < out.grid.directions; ++i) {
      set_wind(u, {out.grid.from_deg(i), out.grid.speed_kt(speed)});
      const Rollout at = mapped_rollout(u, plan);
      out.cross_nm[out.grid.index(i, speed)] = at.exists ? at.cross_nm : kNan;
      out.inbound_s[out.grid.index(i, speed)] = at.exists ? at.inbound_s : kNan;
    }
  }
}

double heading_before_wind(const Setup& setup, const MappedPlan& plan) {
  if (!plan.rule) return plan.heading_deg;
  Setup offset = setup;
  offset.entry = EntryKind::offset;
  return *rule_heading(offset, HeadingRule::still_air);
}

}  // namespace

bool ends_by_clock(const Setup& u) {
  const bool timed = u.leg.kind == Leg::Kind::time || u.scenario.time_s;
  return timed && !u.scenario.radial_deg;
}

bool has_closed_form(const Setup& u) { return u.roll_in.rate_rad_s == 0.0 && ends_by_clock(u); }

void set_wind(Setup& u, Wind wind) {
  u.entry = EntryKind::offset;
  u.scenario.laps = 0;
  u.wind_change_nm_s2 = {0.0, 0.0};
  u.wind = wind;
  u.wind_nm_s = wind.velocity_kt() * kNmPerSecondPerKnot;
  u.arrival = solve_triangle(u.scenario.arrival_course_deg, u.tas_kt, wind);
  u.inbound = solve_triangle(u.scenario.inbound_course_deg, u.tas_kt, wind);
  u.outbound = solve_triangle(u.hold.outbound_course_deg(), u.tas_kt, wind);
}

std::optional<EntryPlan> plan_in(const Setup& u, const MappedPlan& plan) {
  const std::optional<double> heading_deg =
      plan.rule ? rule_heading(u, *plan.rule) : std::optional<double>(plan.heading_deg);
  const std::optional<double> time_s = plan.time_s ? plan.time_s : rule_time(u, plan.timing);
  if (!heading_deg || !time_s) return std::nullopt;
  return EntryPlan{EntryKind::offset, *heading_deg, *time_s};
}

Rollout mapped_rollout(const Setup& u, const MappedPlan& mapped) {
  const std::optional<EntryPlan> plan = plan_in(u, mapped);
  if (!plan || !u.arrival.exists || !u.inbound.exists) return {};
  if (has_closed_form(u)) return offset_rollout(u, plan->heading_deg, plan->time_s);
  Flight flight;
  fly(u, *plan, flight);
  return flight.rollout;
}

void map_rollouts(const Setup& u, const MappedPlan& plan, const WindGrid& grid, int first, int end,
                  RolloutMap& out) {
  if (!grid.is_usable()) return;
  if (!(out.grid == grid) || out.cross_nm.empty()) {
    out.grid = grid;
    out.cross_nm.assign(static_cast<std::size_t>(grid.size()), kNan);
    out.inbound_s = out.cross_nm;
  }
  const int from = first > 0 ? first : 0;
  const int to = end < grid.speeds ? end : grid.speeds;
  if (!has_closed_form(u)) {
    fill_one_by_one(u, plan, from, to, out);
    return;
  }
  const Frame frame{u.tas_kt,
                    mover_of(u),
                    u.turn_sign,
                    plan.time_s.value_or(u.published_s),
                    u.scenario.timer == Timer::fix,
                    !plan.time_s && plan.timing == TimingRule::groundspeed,
                    bearing(u.scenario.arrival_course_deg),
                    bearing(u.scenario.inbound_course_deg),
                    bearing(u.hold.outbound_course_deg()),
                    bearing(heading_before_wind(u, plan))};
  Winds winds;
  winds.sin.reserve(static_cast<std::size_t>(grid.directions));
  winds.cos.reserve(static_cast<std::size_t>(grid.directions));
  for (int i = 0; i < grid.directions; ++i) {
    const SinCos s = sincos_deg(grid.from_deg(i));
    winds.sin.push_back(s.sin);
    winds.cos.push_back(s.cos);
  }
  switch (plan.rule.value_or(HeadingRule::still_air)) {
    case HeadingRule::still_air:
      return fill_speeds<Correct::not_at_all>(frame, winds, from, to, out);
    case HeadingRule::drift_once:
      return fill_speeds<Correct::as_on_arrival>(frame, winds, from, to, out);
    case HeadingRule::track_30:
      return fill_speeds<Correct::on_its_track>(frame, winds, from, to, out);
    case HeadingRule::drift_triple:
      return fill_speeds<Correct::triple_of_inbound>(frame, winds, from, to, out);
  }
}

}  // namespace core
