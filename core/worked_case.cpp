#include "core/worked_case.h"

#include <algorithm>

namespace core {
namespace {

constexpr std::string_view kPlanNames[] = {"still-air",    "drift-once", "track-30",
                                           "drift-triple", "exact",      "exact-heading",
                                           "exact-time",   "own"};

PlanRow flown_row(const Setup& without_laps, PlanId id, const std::optional<EntryPlan>& plan,
                  NoPlan why) {
  PlanRow row;
  row.id = id;
  row.exists = plan.has_value();
  row.why = plan ? NoPlan::none : why;
  if (plan) fly(without_laps, *plan, row.flight);
  return row;
}

/// An exact plan's numbers as a link shows them: 0.01 deg, 0.1 s.
double shown_heading(const EntryPlan& plan) {
  return wrap_360(std::floor(plan.heading_deg * 100.0 + 0.5) / 100.0);
}
double shown_time(const EntryPlan& plan) { return std::floor(plan.time_s * 10.0 + 0.5) / 10.0; }

/// The multiple of the inbound correction that a rule is for the direct entry; absent for
/// the one that is none.
std::optional<double> multiple_of(HeadingRule rule) {
  switch (rule) {
    case HeadingRule::still_air:
      return 0.0;
    case HeadingRule::drift_once:
      return 1.0;
    case HeadingRule::drift_triple:
      return 3.0;
    case HeadingRule::track_30:
      break;
  }
  return std::nullopt;
}

bool rule_is_flown(const Setup& u, HeadingRule rule) {
  if (u.entry == EntryKind::direct) return multiple_of(rule) == u.scenario.multiple;
  return rule == u.scenario.rule;
}

EntryCase entry_case(const WorkedCase& c, EntryKind kind) {
  EntryCase e;
  e.kind = kind;
  Setup u = c.setup;
  const bool flown = u.entry == kind;
  e.flown = flown;
  u.entry = kind;
  u.scenario.laps = 0;
  if (u.sector) {
    e.in_sector = u.sector->kind == kind;
    e.acceptable = e.in_sector || u.sector->also == kind;
  }
  if (!flown) {  // the scenario's own numbers are for the entry that it flies
    u.scenario.heading_deg.reset();
    u.scenario.time_s.reset();
  }
  const std::optional<EntryPlan> plan = scenario_plan(u);
  e.exists = plan.has_value() && u.arrival.exists;
  if (e.exists) {
    e.why = NoPlan::none;
    fly(u, *plan, e.flight);
  } else {
    e.why = u.arrival.exists ? NoPlan::no_rule : NoPlan::no_arrival;
  }
  e.exact = flown ? c.heading_and_time : exact_heading_and_time(u);
  return e;
}

bool is_chosen(const Setup& u, const PlanRow& row) {
  const Scenario& s = u.scenario;
  if (!row.exists || s.heading_deg != shown_heading(row.flight.plan)) return false;
  // The direct entry's track made good is no multiple: choosing it gives its heading.
  if (row.id == PlanId::track_30) return u.entry == EntryKind::direct && !s.time_s;
  const bool exact =
      row.id == PlanId::exact || row.id == PlanId::exact_heading || row.id == PlanId::exact_time;
  return exact && s.time_s == shown_time(row.flight.plan);
}

}  // namespace

std::string_view name_of(PlanId id) { return kPlanNames[static_cast<int>(id)]; }

std::optional<PlanId> plan_id(std::string_view name) {
  for (int i = 0; i < kPlans; ++i) {
    if (kPlanNames[i] == name) return static_cast<PlanId>(i);
  }
  return std::nullopt;
}

std::optional<double> EntryCase::on_course_s() const {
  const Flight& f = flight;
  if (!f.rollout.exists || f.fix_missed) return std::nullopt;
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == EventKind::on_course) return e.at_s;
  }
  // Rolled out on it; the parallel entry that goes back to the fix never is.
  if (kind == EntryKind::parallel || std::abs(f.rollout.cross_nm) > kOnCourseNm)
    return std::nullopt;
  return f.rollout.at_s;
}

std::optional<double> EntryCase::fix_again_s() const {
  const Flight& f = flight;
  if (!f.rollout.exists) return std::nullopt;
  for (int i = f.event_count - 1; i >= 0; --i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.at_s < f.rollout.at_s) break;
    if (e.kind == EventKind::fix || e.kind == EventKind::fix_missed) return e.at_s;
  }
  return std::nullopt;
}

const PlanRow* WorkedCase::row(PlanId id) const {
  for (const PlanRow& r : rows) {
    if (r.id == id) return &r;
  }
  return nullptr;
}

WorkedCase work_out(const Scenario& scenario) {
  WorkedCase c;
  c.setup = make_setup(scenario);
  fly_scenario(c.setup, c.flown);
  c.heading_for_time = exact_heading_for_time(c.setup);
  c.heading_and_time = exact_heading_and_time(c.setup);
  c.time_for_heading = exact_time_for_heading(c.setup);
  c.lap = exact_lap(c.setup);

  Setup entry_only = c.setup;
  entry_only.scenario.laps = 0;
  // The rows fly what they say even where the scenario's leg is a distance.
  const bool own = scenario.heading_deg || scenario.time_s;
  const NoPlan no_rule = c.setup.arrival.exists ? NoPlan::no_rule : NoPlan::no_arrival;
  c.rows.reserve(kPlans);
  for (int i = 0; i < kHeadingRules; ++i) {
    const auto rule = static_cast<HeadingRule>(i);
    Setup by_rule = entry_only;
    by_rule.scenario.time_s.reset();
    PlanRow row = flown_row(by_rule, static_cast<PlanId>(i),
                            rule_plan(c.setup, rule, scenario.timing), no_rule);
    row.flown = row.exists && !own && rule_is_flown(c.setup, rule);
    c.rows.push_back(row);
  }
  const auto add_exact = [&](PlanId id, const ExactPlan& exact) {
    std::optional<EntryPlan> plan;
    if (exact.exists()) plan = EntryPlan{c.setup.entry, exact.heading_deg, exact.time_s};
    // Not cut short by a limiting radial: it shows what the wind asks for.
    Setup timed = entry_only;
    timed.scenario.time_s = exact.time_s;
    timed.scenario.radial_deg.reset();
    c.rows.push_back(flown_row(timed, id, plan, exact.why));
  };
  add_exact(PlanId::exact, c.heading_and_time);
  add_exact(PlanId::exact_heading, c.heading_for_time);
  add_exact(PlanId::exact_time, c.time_for_heading);
  // Own numbers that are an exact plan's, to the rounding of a link, are that plan.
  for (PlanRow& row : c.rows) {
    row.flown = row.flown || (own && is_chosen(c.setup, row));
  }
  for (int i = 0; i < kEntryKinds; ++i)
    c.entries.push_back(entry_case(c, static_cast<EntryKind>(i)));
  const bool own_multiple = !own && c.setup.entry == EntryKind::direct;
  const bool named =
      std::any_of(c.rows.begin(), c.rows.end(), [](const PlanRow& row) { return row.flown; });
  if ((own || own_multiple) && !named) {
    PlanRow row = flown_row(entry_only, PlanId::own, scenario_plan(c.setup), no_rule);
    row.flown = row.exists;
    c.rows.push_back(row);
  }
  return c;
}

double flown_lap_heading(const WorkedCase& c) {
  const Scenario& s = c.setup.scenario;
  if (s.exact_multiple && c.lap.exists()) return c.lap.heading_deg;
  return lap_heading(c.setup, s.multiple);
}

Scenario choose_plan(const WorkedCase& worked, PlanId id) {
  Scenario s = worked.setup.scenario;
  if (id == PlanId::own) return s;
  const int rule = static_cast<int>(id);
  if (rule < kHeadingRules) {
    s.heading_deg.reset();
    s.time_s.reset();
    if (worked.setup.entry != EntryKind::direct) {
      s.rule = static_cast<HeadingRule>(rule);
    } else if (const std::optional<double> m = multiple_of(static_cast<HeadingRule>(rule))) {
      s.multiple = *m;
      s.exact_multiple = false;
    } else if (const PlanRow* row = worked.row(id); row && row->exists) {
      s.heading_deg = shown_heading(row->flight.plan);
    }
    return s;
  }
  const PlanRow* row = worked.row(id);
  if (!row || !row->exists) return s;
  s.heading_deg = shown_heading(row->flight.plan);
  s.time_s = shown_time(row->flight.plan);
  return s;
}

}  // namespace core
