// core/cloud_flights.h - many flights of one plan at once, by the formula of core/offset_path.h.
#pragma once

#include "core/cloud_draws.h"
#include "core/offset_path.h"

namespace core {

/// What all flights have in common.
struct CloudFrame {
  Amounts sd;
  double tas_kt;
  double limit_s_per_deg_kt;  ///< seconds a degree of turn at the bank limit, for each knot
  double wind_kt;
  double time_s;
  double turn_sign;
  bool from_fix;
  Bearing<double> wind_from;
  Bearing<double> arrival;
  Bearing<double> inbound;
  Bearing<double> outbound;
  Bearing<double> out;   ///< first outbound heading as planned
  Bearing<double> home;  ///< inbound heading as planned
};
[[nodiscard]] CloudFrame cloud_frame(const Setup& setup, const EntryPlan& plan, const Amounts& sd);

/// Flights [first, end) of the columns, each to its place in the three results, NaN where one
/// cannot be flown; the same as deviated_rollout(), for turns that begin at once. Several at a
/// time where the processor can, unless `one_by_one`: the same bits either way.
void fly_cloud(const CloudFrame& frame, const Columns& columns, std::size_t first, std::size_t end,
               double* cross_nm, double* to_go_nm, double* inbound_s, bool one_by_one = false);

}  // namespace core
