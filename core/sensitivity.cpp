#include "core/sensitivity.h"

#include <limits>

#include "core/json.h"

namespace core {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

Effect effect_of(const Setup& u, const EntryPlan& plan, const Rollout& planned, Unknown unknown,
                 double amount) {
  Amounts off;
  off[unknown] = amount;
  const Rollout r = deviated_rollout(u, plan, off);
  if (!r.exists) return {kNan, kNan};
  return {r.cross_nm - planned.cross_nm, r.inbound_s - planned.inbound_s};
}

void write_effect(Json& j, std::string_view key, const Effect& effect) {
  j.key(key).open_object().field("cross_nm", effect.cross_nm);
  j.field("inbound_s", effect.inbound_s).close_object();
}

}  // namespace

Sensitivity study_sensitivity(const Setup& u) {
  Sensitivity s;
  s.why = why_no_cloud(u);
  if (s.why != NoCloud::none) return s;
  const std::optional<EntryPlan> plan = scenario_plan(u);
  if (!plan) {
    s.why = NoCloud::no_plan;
    return s;
  }
  s.planned = deviated_rollout(u, *plan, {});
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    const auto unknown = static_cast<Unknown>(k);
    const double amount = Sensitivity::kSteps.of[k];
    s.rows[k] = {unknown, amount, effect_of(u, *plan, s.planned, unknown, amount),
                 effect_of(u, *plan, s.planned, unknown, -amount)};
  }
  return s;
}

std::string sensitivity_json(const Setup& setup) {
  const Sensitivity s = study_sensitivity(setup);
  Json j;
  j.open_object().text_or_null("why", s.why == NoCloud::none ? "" : name_of(s.why));
  if (s.why != NoCloud::none) {
    j.key("planned").null().key("rows").null().close_object();
    return j.take();
  }
  j.key("planned").open_object();
  j.field("cross_nm", s.planned.cross_nm).field("inbound_s", s.planned.inbound_s).close_object();
  j.key("rows").open_array();
  for (const SensitivityRow& row : s.rows) {
    j.open_object().field("unknown", name_of(row.unknown)).field("amount", row.amount);
    write_effect(j, "more", row.more);
    write_effect(j, "less", row.less);
    j.close_object();
  }
  j.close_array().close_object();
  return j.take();
}

}  // namespace core
