#include "core/evaluate.h"

#include "core/apart.h"
#include "core/atmosphere.h"
#include "core/explain.h"
#include "core/json.h"
#include "core/text_number.h"
#include "core/theme.h"
#include "core/words.h"

namespace core {
namespace {

/// One line in `problems` for each part of the answer that is null.
class Gaps {
 public:
  explicit Gaps(std::vector<Problem>& problems) : problems_(problems) {}
  void add(std::string_view key, std::string message) {
    problems_.push_back({std::string(key), std::move(message)});
  }

 private:
  std::vector<Problem>& problems_;
};

void write_scenario(Json& j, const Setup& u) {
  const Scenario& s = u.scenario;
  j.key("scenario").open_object();
  for (std::size_t i = 0; i < key_count(); ++i) {
    const std::string_view name = key_name(i);
    const std::string value = value_text(s, name);
    if (value.empty()) {
      j.key(name).null();
    } else if (const std::optional<double> number = read_number(value);
               number && name != "fix" && name != "held" && name != "limit") {
      j.field(name, *number);
    } else {
      j.field(name, value);
    }
  }
  j.close_object();
}

void write_triangle(Json& j, std::string_view name, const WindTriangle& t) {
  j.key(name);
  if (!t.exists) {
    j.null();
    return;
  }
  j.open_object()
      .field("wca_deg", t.wca_deg)
      .field("heading_deg", t.heading_deg)
      .field("groundspeed_kt", t.groundspeed_kt)
      .close_object();
}

void write_entry(Json& j, const WorkedCase& c) {
  const Setup& u = c.setup;
  j.key("entry").open_object().field("kind", name_of(u.entry));
  j.key("acceptable").open_array();
  if (u.sector) {
    j.text(name_of(u.sector->kind));
    if (u.sector->also != u.sector->kind) j.text(name_of(u.sector->also));
  }
  j.close_array();
  const std::optional<double> rule = chosen_heading(u);
  const std::optional<EntryPlan> plan = scenario_plan(u);
  j.key("rule_heading_deg");
  rule ? j.number(*rule) : j.null();
  j.key("heading_deg");
  plan ? j.number(plan->heading_deg) : j.null();
  j.key("time_s");
  const bool by_distance = u.leg.kind == Leg::Kind::distance && !u.scenario.time_s;
  plan ? j.number(by_distance && c.flown.rollout.exists ? c.flown.entry_time_s : plan->time_s)
       : j.null();
  const Side way = u.entry == EntryKind::parallel ? opposite(u.scenario.turns) : u.scenario.turns;
  j.field("turn", name_of(way));
  j.key("first_turn");
  if (plan && u.arrival.exists) {
    j.text(name_of(u.entry == EntryKind::direct
                       ? u.scenario.turns
                       : short_way(u, u.arrival.heading_deg, plan->heading_deg)));
  } else {
    j.null();
  }
  j.key("ended_by");
  c.flown.rollout.exists ? j.text(name_of(c.flown.ended_by)) : j.null();
  j.close_object();
}

void write_exact(Json& j, std::string_view name, const ExactPlan& p, bool lap) {
  j.key(name).open_object().field("exists", p.exists());
  const auto number = [&](std::string_view key, double v) {
    j.key(key);
    p.exists() ? j.number(v) : j.null();
  };
  number("heading_deg", p.heading_deg);
  number("time_s", p.time_s);
  if (lap) number("straight_s", p.straight_s);
  j.key("why");
  p.exists() ? j.null() : j.text(reason(p.why));
  j.close_object();
}

void write_events(Json& j, const Flight& f) {
  j.key("events").open_array();
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    j.open_object()
        .field("name", name_of(e.kind))
        .field("label", label_of(e.kind))
        .field("mark", mark_of(e.kind))
        .field("lap", e.lap)
        .field("at_s", e.at_s)
        .field("x_nm", e.at.x)
        .field("y_nm", e.at.y)
        .field("heading_deg", e.heading_deg)
        .close_object();
  }
  j.close_array();
}

/// The line style that a plan has in the picture; empty where it is not drawn.
std::string_view role_of(const WorkedCase& c, const PlanRow& row) {
  if (row.flown) return role_name(Role::flown);
  if (row.id == PlanId::still_air) return role_name(Role::no_correction);
  if (row.id == PlanId::exact) return role_name(Role::exact);
  const bool the_rule = static_cast<int>(row.id) == static_cast<int>(c.setup.scenario.rule);
  return the_rule ? role_name(Role::rule) : "";
}

void write_plans(Json& j, const WorkedCase& c) {
  j.key("plans").open_array();
  for (const PlanRow& row : c.rows) {
    const Rollout& r = row.flight.rollout;
    j.open_object()
        .field("id", name_of(row.id))
        .field("name", label_of(row.id))
        .field("role", role_of(c, row))
        .field("exists", row.exists && r.exists)
        .field("flown", row.flown);
    const auto number = [&](std::string_view key, bool known, double v) {
      j.key(key);
      known ? j.number(v) : j.null();
    };
    number("heading_deg", row.exists, row.flight.plan.heading_deg);
    number("time_s", row.exists, r.exists ? row.flight.entry_time_s : row.flight.plan.time_s);
    number("cross_nm", r.exists, r.cross_nm);
    number("to_go_nm", r.exists, r.to_go_nm);
    number("inbound_s", r.exists, r.inbound_s);
    j.key("why");
    if (!row.exists) {
      j.text(reason(row.why));
    } else if (!r.exists) {
      j.text(reason(row.flight.stop));
    } else {
      j.null();
    }
    j.close_object();
  }
  j.close_array();
}

}  // namespace

CORE_APART void write_more(Json& j, const WorkedCase& c, const ReportParts& parts) {
  write_laps(j, c);
  write_clearance_of(j, c);
  write_book(j, c);
  write_entries(j, c);
  write_station(j, c);
  write_roll(j, c);
  write_wind_model(j, c);
  write_limits(j, c);
  write_displays(j, c);
  write_area(j, c, parts.area);
  write_inferred_wind(j, c);
  write_study(j, c, parts.study);
}

std::string evaluate(std::string_view query, const ReportParts& parts) {
  ParsedLink link = parse_link(query);
  return evaluate(work_out(link.scenario), std::move(link.problems), parts);
}

std::string evaluate(const WorkedCase& c, std::vector<Problem> problems, const ReportParts& parts) {
  const Setup& u = c.setup;
  const Flight& f = c.flown;
  Gaps gaps(problems);
  const auto triangle_gap = [&](std::string_view key, const WindTriangle& t, double course) {
    if (t.exists) return;
    gaps.add(key, phrase("core.gap.triangle", {{"course", degrees_3(course)},
                                               {"wind", degrees_3(u.wind.from_deg)},
                                               {"speed", fixed(u.wind.speed_kt, 0)},
                                               {"tas", fixed(u.tas_kt, 0)}}));
  };
  triangle_gap("wind.arrival", u.arrival, u.scenario.arrival_course_deg);
  triangle_gap("wind.inbound", u.inbound, u.scenario.inbound_course_deg);
  triangle_gap("wind.outbound", u.outbound, u.hold.outbound_course_deg());
  if (f.stop != Stop::none) {
    gaps.add(f.rollout.exists ? "laps" : "rollout", reason(f.stop));
  }
  if (!chosen_heading(u) || !scenario_plan(u)) gaps.add("entry", reason(NoPlan::no_rule));

  Json j;
  j.open_object();
  write_scenario(j, u);
  j.key("problems").open_array();
  for (const Problem& p : problems) {
    j.open_object().field("key", p.key).field("message", p.message).close_object();
  }
  j.close_array();
  j.key("air")
      .open_object()
      .field("tas_kt", u.tas_kt)
      .field("ias_kt", u.scenario.speed_is_tas ? cas_from_tas(u.tas_kt, u.scenario.altitude_ft,
                                                              u.scenario.isa_deviation_c)
                                               : u.scenario.speed_kt)
      .field("bank_deg", u.turn.bank_deg)
      .field("turn_rate_deg_s", u.turn.rate_deg_s)
      .field("turn_radius_nm", u.turn.radius_nm)
      .close_object();
  j.key("wind").open_object();
  write_triangle(j, "arrival", u.arrival);
  write_triangle(j, "inbound", u.inbound);
  write_triangle(j, "outbound", u.outbound);
  j.close_object();
  write_entry(j, c);
  j.key("rollout");
  write_rollout(j, f.rollout);
  j.key("exact").open_object();
  write_exact(j, "heading_for_time", c.heading_for_time, false);
  write_exact(j, "heading_and_time", c.heading_and_time, false);
  write_exact(j, "time_for_heading", c.time_for_heading, false);
  write_exact(j, "lap", c.lap, true);
  j.close_object();
  write_events(j, f);

  j.field("link", write_link(u.scenario));
  j.key("fields").open_object();
  for (std::size_t i = 0; i < key_count(); ++i) {
    const std::string value = value_text(u.scenario, key_name(i));
    if (!value.empty()) j.field(key_name(i), value);
  }
  j.close_object();
  write_plans(j, c);
  j.key("sum").open_array();
  for (const std::string& step : sum_steps(c)) j.text(step);
  j.close_array();
  j.field("headline", headline(c))
      .field("outcome", outcome(c))
      .field("summary", picture_summary(c, parts.flight))
      .field("sector", sector_reason(c))
      .field("published_s", u.published_s)
      .field("fix_missed", f.fix_missed);
  if (parts.more) write_more(j, c, parts);
  j.close_object();
  return j.take();
}

}  // namespace core
