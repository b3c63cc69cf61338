// core/worked_case.h - a scenario worked out: its plans side by side, each flown.
#pragma once

#include <optional>
#include <vector>

#include "core/exact.h"
#include "core/flight.h"

namespace core {

/// The plans that are compared. The order is that of the table on the page.
enum class PlanId {
  still_air,
  drift_once,
  track_30,
  drift_triple,
  exact,          ///< heading and time
  exact_heading,  ///< heading for the published time
  exact_time,     ///< time for the rule's heading
  own,            ///< the scenario's own heading or time
};
inline constexpr int kPlans = 8;
[[nodiscard]] std::string_view name_of(PlanId id);
[[nodiscard]] std::optional<PlanId> plan_id(std::string_view name);

struct PlanRow {
  PlanId id = PlanId::still_air;
  bool exists = false;
  NoPlan why = NoPlan::no_rule;  ///< where it does not
  bool flown = false;            ///< the one that the aircraft flies
  Flight flight;                 ///< without laps
};

/// One of the three entries, flown by the scenario's rule: for the entries side by side.
struct EntryCase {
  EntryKind kind = EntryKind::offset;
  bool acceptable = false;  ///< by the sector of the arrival heading, or its neighbour's
  bool in_sector = false;   ///< the very sector
  bool flown = false;       ///< the one that the scenario flies, then with its own numbers
  bool exists = false;
  NoPlan why = NoPlan::no_rule;  ///< where it does not
  ExactPlan exact;               ///< heading and time
  Flight flight;                 ///< without laps

  /// Established on the inbound course after the entry; absent where it is not, before the
  /// fix is passed again.
  [[nodiscard]] std::optional<double> on_course_s() const;
  /// Over (or abeam) the fix again.
  [[nodiscard]] std::optional<double> fix_again_s() const;
};

struct WorkedCase {
  Setup setup;
  Flight flown;
  ExactPlan heading_for_time;
  ExactPlan heading_and_time;
  ExactPlan time_for_heading;
  ExactPlan lap;
  std::vector<EntryCase> entries;  ///< offset, parallel, direct
  std::vector<PlanRow> rows;       ///< `own` only where the scenario has a plan of its own

  [[nodiscard]] const PlanRow* row(PlanId id) const;
};

[[nodiscard]] WorkedCase work_out(const Scenario& scenario);

/// Outbound heading that the scenario's laps are flown on: the exact lap's where they are flown by
/// it, else by the multiple. Needs setup.inbound.exists.
[[nodiscard]] double flown_lap_heading(const WorkedCase& worked);

/// The scenario that flies plan `id`: a rule without own numbers, or an exact plan's
/// numbers as own ones, rounded to what a link shows (0.01 deg, 0.1 s). Unchanged
/// where the plan does not exist. For the direct entry the rules are multiples of the
/// inbound correction: 0, 1 and 3.
[[nodiscard]] Scenario choose_plan(const WorkedCase& worked, PlanId id);

}  // namespace core
