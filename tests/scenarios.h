// tests/scenarios.h - random scenarios, and the symmetries that they are put through.
#pragma once

#include <string>

#include "core/atmosphere.h"
#include "core/plan.h"
#include "tests/random.h"

namespace test {

using core::Scenario;

/// Direction in (0, 360], sometimes a round one: ties and seams live there.
inline double random_direction(Random& r, double round_share) {
  if (r.chance(round_share)) return r.stepped(5.0, 360.0, 5.0);
  const double d = r.decimal(0.0, 360.0);
  return d <= 0.0 ? 360.0 : d;
}

/// Any scenario that a link can say, strong winds, seams and own plans included.
/// `round_share` of the directions are multiples of five degrees.
inline Scenario random_scenario(Random& r, double round_share = 0.3) {
  Scenario s;
  s.inbound_course_deg = random_direction(r, round_share);
  s.turns = r.chance(0.5) ? core::Side::left : core::Side::right;
  if (r.chance(0.3)) {
    const bool timed = r.chance(0.6);
    s.leg = timed ? core::Leg{core::Leg::Kind::time, r.stepped(15.0, 600.0, 0.5)}
                  : core::Leg{core::Leg::Kind::distance, r.decimal(0.5, 50.0)};
  }
  s.altitude_ft = r.stepped(-1000.0, 45000.0, 100.0);
  s.speed_is_tas = r.chance(0.4);
  s.speed_kt = r.decimal(40.0, 350.0);
  s.isa_deviation_c = r.chance(0.5) ? 0.0 : r.stepped(-60.0, 60.0, 1.0);
  if (!s.speed_is_tas && !(core::mach_from_cas(s.speed_kt, s.altitude_ft) < 1.0)) {
    s.speed_is_tas = true;
  }
  s.bank_limit_deg = r.chance(0.5) ? 30.0 : r.decimal(5.0, 60.0);
  s.wind_from_deg = random_direction(r, round_share);
  s.wind_kt = r.chance(0.1) ? 0.0 : r.chance(0.6) ? r.decimal(0.0, 50.0) : r.decimal(0.0, 150.0);
  if (r.chance(0.2)) {
    s.wind_is_true = true;
    s.variation_east_deg = r.stepped(-180.0, 180.0, 0.25);
  }
  s.arrival_course_deg = random_direction(r, round_share);
  if (r.chance(0.6)) s.entry = static_cast<core::EntryKind>(r.below(core::kEntryKinds));
  if (r.chance(0.5)) s.entry = core::EntryKind::offset;
  if (r.chance(0.2)) s.heading_deg = random_direction(r, round_share);
  s.rule = static_cast<core::HeadingRule>(r.below(core::kHeadingRules));
  if (r.chance(0.2)) s.time_s = r.stepped(0.0, 600.0, 0.1);
  s.timing = r.chance(0.5) ? core::TimingRule::fixed : core::TimingRule::groundspeed;
  s.timer = r.chance(0.5) ? core::Timer::fix : core::Timer::level;
  s.multiple = r.chance(0.5) ? 3.0 : r.decimal(0.0, 10.0);
  s.intercept_deg = r.chance(0.5) ? 30.0 : r.decimal(5.0, 90.0);
  s.laps = r.below(11);
  // As the link's own reader would have it: the nearest double to the decimal.
  if (s.time_s) s.time_s = std::floor(*s.time_s * 1e6 + 0.5) / 1e6;
  return s;
}

/// The same, and whatever else a link can say: books, stations, limits, rolling, a wind
/// that changes, what was seen.
inline Scenario any_scenario(Random& r) {
  Scenario s = random_scenario(r);
  s.exact_multiple = r.chance(0.2);
  if (s.exact_multiple) s.multiple = Scenario{}.multiple;  // a link says one of the two
  s.adjust = static_cast<core::Adjust>(r.below(4));
  s.book = r.chance(0.5) ? core::Rulebook::faa : core::Rulebook::icao;
  s.parallel_end = r.chance(0.5) ? core::ParallelEnd::course : core::ParallelEnd::fix;
  if (r.chance(0.5)) {
    s.station.place = r.chance(0.5) ? core::Station::Place::ahead : core::Station::Place::behind;
    s.station.dme_nm = r.stepped(1.0, 200.0, 0.5);
  }
  if (r.chance(0.3)) s.elevation_ft = r.stepped(-1000.0, 20000.0, 50.0);
  s.aid = static_cast<core::Aid>(r.below(3));
  if (r.chance(0.3)) s.scale = static_cast<core::CourseScale>(r.below(core::kCourseScales));
  s.measure = r.chance(0.5) ? core::Measure::track : core::Measure::dme;
  if (r.chance(0.3)) s.radial_deg = random_direction(r, 0.3);
  if (r.chance(0.3)) s.fix_name = {'A', ' ', '-', '7'};
  if (r.chance(0.3)) s.further_clearance_min = r.below(1440);
  if (r.chance(0.3)) {
    s.speed_rule = static_cast<core::SpeedRule>(r.below(core::kSpeedRules));
    if (s.speed_rule == core::SpeedRule::faa_charted) s.charted_kias = r.stepped(60.0, 350.0, 1.0);
  }
  if (r.chance(0.3)) s.roll_deg_s = r.stepped(1.0, 30.0, 0.5);
  if (r.chance(0.3)) s.later_wind = {random_direction(r, 0.3), r.stepped(0.0, 150.0, 1.0)};
  if (r.chance(0.3)) s.seen.cross_nm = r.stepped(-20.0, 20.0, 0.25);
  if (r.chance(0.3)) s.seen.inbound_s = r.stepped(0.0, 1200.0, 0.5);
  if (r.chance(0.3)) s.seen.wca_deg = r.stepped(-60.0, 60.0, 0.5);
  return s;
}

/// any_scenario() in turn for every entry, kind of leg and policy of the laps: the same share of
/// each, whatever else chance brings.
inline Scenario scenario_of_each(Random& r, int round) {
  Scenario s = any_scenario(r);
  s.entry = static_cast<core::EntryKind>(round % core::kEntryKinds);
  const int leg = round / core::kEntryKinds % 3;
  const double time_s = r.stepped(15.0, 600.0, 0.5);
  const double distance_nm = r.decimal(0.5, 50.0);
  s.leg.reset();
  if (leg == 1) s.leg = core::Leg{core::Leg::Kind::time, time_s};
  if (leg == 2) s.leg = core::Leg{core::Leg::Kind::distance, distance_nm};
  s.adjust = static_cast<core::Adjust>(round / (core::kEntryKinds * 3) % 4);
  return s;
}
inline constexpr int kOfEach = core::kEntryKinds * 3 * 4;

/// A scenario such as people fly: offset entry, every course can be made good.
inline Scenario calm_scenario(Random& r) {
  for (;;) {
    Scenario s = random_scenario(r, 0.0);
    s.entry = core::EntryKind::offset;
    s.wind_kt = r.decimal(0.0, 40.0);
    s.laps = r.below(4);
    if (r.chance(0.8)) s.heading_deg.reset();
    if (r.chance(0.8)) s.time_s.reset();
    const core::Setup u = core::make_setup(s);
    if (u.arrival.exists && u.inbound.exists && u.outbound.exists) return s;
  }
}

/// Seen in a mirror that stands along the north axis: east becomes west.
inline Scenario mirrored(Scenario s) {
  const auto flip = [](double deg) { return core::wrap_360(360.0 - deg); };
  s.inbound_course_deg = flip(s.inbound_course_deg);
  s.turns = core::opposite(s.turns);
  s.wind_from_deg = flip(s.wind_from_deg);
  s.variation_east_deg = -s.variation_east_deg;
  s.arrival_course_deg = flip(s.arrival_course_deg);
  if (s.heading_deg) s.heading_deg = flip(*s.heading_deg);
  if (s.radial_deg) s.radial_deg = flip(*s.radial_deg);
  if (s.later_wind) s.later_wind->from_deg = flip(s.later_wind->from_deg);
  if (s.seen.wca_deg) s.seen.wca_deg = -*s.seen.wca_deg;
  return s;
}

/// Everything turned clockwise by `by_deg`.
inline Scenario rotated(Scenario s, double by_deg) {
  const auto turn = [by_deg](double deg) { return core::wrap_360(deg + by_deg); };
  s.inbound_course_deg = turn(s.inbound_course_deg);
  s.wind_from_deg = turn(s.wind_from_deg);
  s.arrival_course_deg = turn(s.arrival_course_deg);
  if (s.heading_deg) s.heading_deg = turn(*s.heading_deg);
  if (s.radial_deg) s.radial_deg = turn(*s.radial_deg);
  if (s.later_wind) s.later_wind->from_deg = turn(s.later_wind->from_deg);
  return s;
}

/// How a failing scenario is named in a report.
inline std::string named(const Scenario& s) { return "[" + core::write_link(s) + "]"; }

}  // namespace test
