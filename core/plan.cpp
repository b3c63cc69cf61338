#include "core/plan.h"

#include "core/atmosphere.h"

namespace core {
namespace {

/// Angle of the offset entry's still-air heading off the outbound course.
constexpr double kOffsetDeg = 30.0;

}  // namespace

double magnetic_wind_deg(const Scenario& s, double from_deg) {
  return s.wind_is_true ? magnetic_from_true(from_deg, s.variation_east_deg) : wrap_360(from_deg);
}

void refer_winds_to_magnetic(Scenario& s) {
  s.wind_from_deg = magnetic_wind_deg(s, s.wind_from_deg);
  if (s.later_wind) s.later_wind->from_deg = magnetic_wind_deg(s, s.later_wind->from_deg);
  s.wind_is_true = false;
}

Setup make_setup(const Scenario& s) {
  Setup u;
  u.scenario = s;
  u.hold = {s.inbound_course_deg, s.turns};
  u.turn_sign = sign_of(s.turns);
  u.wind = {magnetic_wind_deg(s, s.wind_from_deg), s.wind_kt};
  u.wind_nm_s = u.wind.velocity_kt() * kNmPerSecondPerKnot;
  u.outbound_axis = u.hold.outbound_axis();
  u.holding_axis = u.hold.holding_axis();
  u.tas_kt =
      s.speed_is_tas ? s.speed_kt : tas_from_cas(s.speed_kt, s.altitude_ft, s.isa_deviation_c);
  u.turn = level_turn(u.tas_kt, s.bank_limit_deg);
  if (s.roll_deg_s > 0.0) u.roll_in = make_roll_in(u.turn, u.tas_kt, s.roll_deg_s);
  if (s.later_wind) {
    const double later_from = magnetic_wind_deg(s, s.later_wind->from_deg);
    const Vec2 later = Wind{later_from, s.later_wind->speed_kt}.velocity_kt() * kNmPerSecondPerKnot;
    u.wind_change_nm_s2 = (later - u.wind_nm_s) * (1.0 / kLaterWindS);
  }
  u.height_ft = s.altitude_ft > s.elevation_ft ? s.altitude_ft - s.elevation_ft : 0.0;
  if (s.station.place != Station::Place::at_fix) {
    const double way = s.station.place == Station::Place::ahead ? -1.0 : 1.0;
    u.station = u.outbound_axis * (way * fix_to_station_nm(s.station, u.height_ft));
  }
  u.arrival = solve_triangle(s.arrival_course_deg, u.tas_kt, u.wind);
  u.inbound = solve_triangle(s.inbound_course_deg, u.tas_kt, u.wind);
  u.outbound = solve_triangle(u.hold.outbound_course_deg(), u.tas_kt, u.wind);
  if (u.arrival.exists) u.sector = choose_sector(u.hold, u.arrival.heading_deg);
  const double by_altitude_s = s.altitude_ft <= kOneMinuteUpToFt ? 60.0 : 90.0;
  u.leg = s.leg.value_or(Leg{Leg::Kind::time, by_altitude_s});
  u.published_s = u.leg.kind == Leg::Kind::time ? u.leg.value : by_altitude_s;
  u.entry = s.entry ? *s.entry : u.sector ? u.sector->kind : EntryKind::offset;
  return u;
}

std::optional<double> rule_heading(const Setup& u, HeadingRule rule) {
  if (u.entry == EntryKind::direct) {
    if (rule == HeadingRule::still_air) return u.hold.outbound_course_deg();
    if (rule == HeadingRule::track_30) {
      if (!u.outbound.exists) return std::nullopt;
      return u.outbound.heading_deg;
    }
    if (!u.inbound.exists) return std::nullopt;
    return lap_heading(u, rule == HeadingRule::drift_once ? 1.0 : 3.0);
  }
  const double offset = u.entry == EntryKind::offset ? kOffsetDeg : 0.0;
  const double still_air = wrap_360(u.hold.outbound_course_deg() - u.turn_sign * offset);
  switch (rule) {
    case HeadingRule::still_air:
      return still_air;
    case HeadingRule::drift_once:
      if (!u.arrival.exists) return std::nullopt;
      return wrap_360(still_air + u.arrival.wca_deg);
    case HeadingRule::track_30: {
      const WindTriangle t = solve_triangle(still_air, u.tas_kt, u.wind);
      if (!t.exists) return std::nullopt;
      return t.heading_deg;
    }
    case HeadingRule::drift_triple:
      if (!u.inbound.exists) return std::nullopt;
      return wrap_360(still_air - 3.0 * u.inbound.wca_deg);
  }
  return std::nullopt;
}

std::optional<double> chosen_heading(const Setup& u) {
  if (u.entry != EntryKind::direct) return rule_heading(u, u.scenario.rule);
  if (!u.inbound.exists) return std::nullopt;
  return lap_heading(u, u.scenario.multiple);
}

std::optional<double> rule_time(const Setup& u, TimingRule rule) {
  if (rule == TimingRule::fixed) return u.published_s;
  if (!u.outbound.exists) return std::nullopt;
  const double time_s = u.published_s * u.tas_kt / u.outbound.groundspeed_kt;
  if (time_s > kMostOutboundS) return std::nullopt;
  return time_s;
}

double lap_heading(const Setup& u, double multiple) {
  return wrap_360(u.hold.outbound_course_deg() - multiple * u.inbound.wca_deg);
}

std::optional<EntryPlan> rule_plan(const Setup& u, HeadingRule heading, TimingRule timing) {
  const std::optional<double> h = rule_heading(u, heading);
  const std::optional<double> t = rule_time(u, timing);
  if (!h || !t) return std::nullopt;
  return EntryPlan{u.entry, *h, *t};
}

std::optional<EntryPlan> scenario_plan(const Setup& u) {
  const Scenario& s = u.scenario;
  const std::optional<double> h = s.heading_deg ? s.heading_deg : chosen_heading(u);
  const std::optional<double> t = s.time_s ? s.time_s : rule_time(u, s.timing);
  if (!h || !t) return std::nullopt;
  return EntryPlan{u.entry, *h, *t};
}

}  // namespace core
