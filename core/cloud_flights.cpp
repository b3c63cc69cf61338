#include "core/cloud_flights.h"

#include <limits>

namespace core {
namespace {

template <class N>
struct Place {
  N cross_nm;
  N to_go_nm;
  N inbound_s;
};

template <class N>
Place<N> fly_one(const CloudFrame& f, const Columns& columns, std::size_t i) {
  const auto off = [&](Unknown u) {
    return f.sd[u] * load<N>(columns.z[static_cast<std::size_t>(u)] + i);
  };
  const Bearing<N> from = turned(splat<N>(f.wind_from),
                                 Bearing<N>{off(Unknown::wind_from), load<N>(columns.from_sin + i),
                                            load<N>(columns.from_cos + i)});
  const N wind_kt = f.wind_kt + off(Unknown::wind_speed);
  const N tas_kt = f.tas_kt + off(Unknown::speed);
  const N late_s = off(Unknown::turn_start);
  const N wind_share = wind_kt / tas_kt;
  const Correction<N> arrival = hold_course(splat<N>(f.arrival), tas_kt, from, wind_share);
  const Correction<N> inbound = hold_course(splat<N>(f.inbound), tas_kt, from, wind_share);
  OffsetPlan<N> plan{
      turned(splat<N>(f.arrival), arrival.wca),
      turned(splat<N>(f.out), Bearing<N>{off(Unknown::heading), load<N>(columns.heading_sin + i),
                                         load<N>(columns.heading_cos + i)}),
      splat<N>(f.home), f.time_s + off(Unknown::clock)};
  if (f.from_fix) plan.time_s = plan.time_s - late_s;
  // Of the two rates the lower, which takes longer.
  constexpr double kStandardSPerDeg = 1.0 / kStandardRateDegS;
  const N limit_s_per_deg = tas_kt * f.limit_s_per_deg_kt;
  const N s_per_deg =
      select(limit_s_per_deg > kStandardSPerDeg, limit_s_per_deg, splat<N>(kStandardSPerDeg));
  const N speed_nm_s = tas_kt * kNmPerSecondPerKnot;
  const Mover<N> mover{speed_nm_s, speed_nm_s * s_per_deg * kRadToDeg, s_per_deg};
  const N wind_nm_s = wind_kt * kNmPerSecondPerKnot;
  const OffsetEnd<N> end = fly_offset(plan, mover, f.turn_sign, f.from_fix, -wind_nm_s * from.sin,
                                      -wind_nm_s * from.cos);
  const N late_nm = arrival.groundspeed_kt * kNmPerSecondPerKnot * late_s;
  const N x_nm = end.x_nm + late_nm * f.arrival.sin;
  const N y_nm = end.y_nm + late_nm * f.arrival.cos;
  const N to_go_nm = x_nm * f.outbound.sin + y_nm * f.outbound.cos;
  const N cross_nm = f.turn_sign * (y_nm * f.outbound.sin - x_nm * f.outbound.cos);
  const N inbound_s = to_go_nm / (inbound.groundspeed_kt * kNmPerSecondPerKnot);
  const auto flown =
      (tas_kt > 0.0) & (arrival.groundspeed_kt > 0.0) & (inbound.groundspeed_kt > 0.0);
  const N none = nan_unless(flown);
  return {cross_nm + none, to_go_nm + none, inbound_s + none};
}

template <class N>
void fly_run(const CloudFrame& f, const Columns& columns, std::size_t first, std::size_t end,
             double* cross_nm, double* to_go_nm, double* inbound_s) {
  for (std::size_t i = first; i < end; i += kLanes<N>) {
    const Place<N> place = fly_one<N>(f, columns, i);
    store(cross_nm + (i - first), place.cross_nm);
    store(to_go_nm + (i - first), place.to_go_nm);
    store(inbound_s + (i - first), place.inbound_s);
  }
}

}  // namespace

CloudFrame cloud_frame(const Setup& u, const EntryPlan& plan, const Amounts& sd) {
  return {sd,
          u.tas_kt,
          1.0 / (turn_rate_deg_s(u.tas_kt, u.scenario.bank_limit_deg) * u.tas_kt),
          u.wind.speed_kt,
          plan.time_s,
          u.turn_sign,
          u.scenario.timer == Timer::fix,
          bearing(u.wind.from_deg),
          bearing(u.scenario.arrival_course_deg),
          bearing(u.scenario.inbound_course_deg),
          bearing(u.hold.outbound_course_deg()),
          bearing(plan.heading_deg),
          bearing(u.inbound.heading_deg)};
}

void fly_cloud(const CloudFrame& f, const Columns& columns, std::size_t first, std::size_t end,
               double* cross_nm, double* to_go_nm, double* inbound_s, bool one_by_one) {
  std::size_t done = first;
#if defined(CORE_HAS_LANES)
  if (!one_by_one) {
    done = end - (end - first) % kLanes<Lanes>;
    fly_run<Lanes>(f, columns, first, done, cross_nm, to_go_nm, inbound_s);
  }
#else
  (void)one_by_one;
#endif
  const std::size_t by = done - first;
  fly_run<double>(f, columns, done, end, cross_nm + by, to_go_nm + by, inbound_s + by);
}

}  // namespace core
