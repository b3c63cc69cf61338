// core/plan.h - what the numbers of a scenario are, and what a pilot plans with them.
#pragma once

#include <optional>

#include "core/roll.h"
#include "core/scenario.h"
#include "core/turn.h"
#include "core/wind.h"

namespace core {

/// A scenario with everything derived that plans and flights need, computed once.
struct Setup {
  Scenario scenario;
  Hold hold;
  Wind wind;  ///< magnetic
  double tas_kt = 0.0;
  Turn turn{};
  WindTriangle arrival;
  WindTriangle inbound;
  WindTriangle outbound;
  std::optional<SectorChoice> sector;   ///< absent where the arrival cannot be flown
  double published_s = 60.0;            ///< outbound time by the book: 1:00 or 1:30
  Leg leg;                              ///< inbound leg wanted
  EntryKind entry = EntryKind::offset;  ///< the entry that is flown
  double turn_sign = 1.0;               ///< +1 right, -1 left
  Vec2 wind_nm_s{0.0, 0.0};             ///< motion of the air
  Vec2 outbound_axis{0.0, 0.0};         ///< hold.outbound_axis(), once for all solvers
  Vec2 holding_axis{0.0, 0.0};          ///< hold.holding_axis()
  Vec2 wind_change_nm_s2{0.0, 0.0};     ///< of wind_nm_s with time, from the fix on
  RollIn roll_in;                       ///< how turns are rolled into
  Vec2 station{0.0, 0.0};               ///< NM
  double height_ft = 0.0;               ///< above the station

  /// As Hold::cross_nm and Hold::to_go_nm, without computing the axes again.
  [[nodiscard]] double cross_nm(Vec2 at) const { return dot(at, holding_axis); }
  [[nodiscard]] double to_go_nm(Vec2 at) const { return dot(at, outbound_axis); }
};

/// Altitude up to which the leg is one minute (AIM 5-3-8 j4; Doc 8168 Vol I).
inline constexpr double kOneMinuteUpToFt = 14000.0;

/// Longest outbound leg, seconds: the most that a link can ask for, and nobody flies
/// longer by the clock.
inline constexpr double kMostOutboundS = 600.0;

[[nodiscard]] Setup make_setup(const Scenario& scenario);

/// What the pilot will do at the fix.
struct EntryPlan {
  EntryKind kind = EntryKind::offset;
  double heading_deg = 360.0;  ///< first outbound heading
  double time_s = 60.0;        ///< outbound, from the scenario's timer
};

/// First outbound heading by a rule of thumb, in (0, 360]; absent where the rule
/// needs a wind triangle that has no solution. For the parallel entry the same
/// rules apply about the outbound course itself; for the direct entry they are the
/// outbound course, it corrected once, its track made good, and it corrected three
/// times. Rules and sources: docs/theory.md "Rules of thumb".
[[nodiscard]] std::optional<double> rule_heading(const Setup& setup, HeadingRule rule);

/// The heading that the scenario's own choice of rule gives: its `rule`, but for the direct
/// entry the laps' correction.
[[nodiscard]] std::optional<double> chosen_heading(const Setup& setup);

/// Outbound time by a rule of thumb, seconds; absent like rule_heading, and where the
/// rule asks for more than kMostOutboundS.
[[nodiscard]] std::optional<double> rule_time(const Setup& setup, TimingRule rule);

/// A direction of the scenario's winds, magnetic: a true one by its variation.
[[nodiscard]] double magnetic_wind_deg(const Scenario& scenario, double from_deg);
/// The scenario with its winds referred to magnetic north.
void refer_winds_to_magnetic(Scenario& scenario);

/// Outbound heading of the laps: the outbound course corrected by `multiple` times
/// the inbound WCA, the other way. Needs setup.inbound.exists.
[[nodiscard]] double lap_heading(const Setup& setup, double multiple);

/// The plan of the scenario: its own heading and time where given, else by rule.
/// Absent where a rule is needed that has no answer in this wind.
[[nodiscard]] std::optional<EntryPlan> scenario_plan(const Setup& setup);

/// The plan that a rule makes, whatever the scenario's own heading and time.
[[nodiscard]] std::optional<EntryPlan> rule_plan(const Setup& setup, HeadingRule heading,
                                                 TimingRule timing);

}  // namespace core
