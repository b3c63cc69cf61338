#include "core/sensitivity.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/json.h"
#include "core/words.h"

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

/// A size, or the two sizes of both ways, with its unit: rounded to `decimals`.
std::string size_text(double a, double b, int decimals, const char* one, const char* range,
                      const char* least) {
  const double low = std::fmin(std::abs(a), std::abs(b));  // of one number and a NaN the number
  const double high = std::fmax(std::abs(a), std::abs(b));
  const std::string low_text = fixed(low, decimals);
  const std::string high_text = fixed(high, decimals);
  if (high_text == fixed(0.0, decimals)) return text_of(least);
  if (low_text == high_text) return phrase(one, {{"n", high_text}});
  return phrase(range, {{"low", low_text}, {"high", high_text}});
}
std::string miles(double a, double b) {
  return size_text(a, b, 2, "core.sense.nm", "core.sense.nm_range", "core.sense.nm_least");
}
std::string seconds(double a, double b) {
  return size_text(a, b, 0, "core.sense.s", "core.sense.s_range", "core.sense.s_least");
}

std::string key_of(const char* start, Unknown unknown, const char* end = "") {
  std::string name(name_of(unknown));
  std::replace(name.begin(), name.end(), '-', '_');
  return std::string("core.sense.") + start + name + end;
}

void write_effect(Json& j, const SensitivityRow& row, bool more) {
  const Effect& e = more ? row.more : row.less;
  j.key(more ? "more" : "less").open_object();
  j.field("label", phrase(key_of("way.", row.unknown, more ? ".more" : ".less"),
                          {{"n", fixed(row.amount, 0)}}));
  j.field("cross_nm", e.cross_nm).field("inbound_s", e.inbound_s);
  j.field("words", std::isnan(e.cross_nm)
                       ? text_of("core.sense.unflown")
                       : phrase("core.sense.way",
                                {{"nm", miles(e.cross_nm, e.cross_nm)},
                                 {"side", text_of(e.cross_nm < 0.0 ? "core.side.nonholding"
                                                                   : "core.side.holding")},
                                 {"s", seconds(e.inbound_s, e.inbound_s)},
                                 {"longer", text_of(e.inbound_s < 0.0 ? "core.sense.shorter"
                                                                      : "core.sense.longer")}}));
  j.close_object();
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

std::string sensitivity_words(const SensitivityRow& row) {
  const std::string step = phrase(key_of("step.", row.unknown), {{"n", fixed(row.amount, 0)}});
  const bool more = !std::isnan(row.more.cross_nm);
  const bool less = !std::isnan(row.less.cross_nm);
  if (!more && !less) return phrase("core.sense.row_unflown", {{"step", step}});
  return phrase(more && less ? "core.sense.row" : "core.sense.row_one_way",
                {{"step", step},
                 {"nm", miles(row.more.cross_nm, row.less.cross_nm)},
                 {"s", seconds(row.more.inbound_s, row.less.inbound_s)}});
}

std::string sensitivity_json(const Setup& setup) {
  const Sensitivity s = study_sensitivity(setup);
  Json j;
  j.open_object().text_or_null("why", reason(s.why));
  if (s.why != NoCloud::none) {
    j.key("planned").null().key("rows").null().close_object();
    return j.take();
  }
  j.key("planned").open_object();
  j.field("cross_nm", s.planned.cross_nm).field("inbound_s", s.planned.inbound_s).close_object();
  j.key("rows").open_array();
  for (const SensitivityRow& row : s.rows) {
    j.open_object().field("unknown", name_of(row.unknown)).field("amount", row.amount);
    write_effect(j, row, true);
    write_effect(j, row, false);
    j.field("words", sensitivity_words(row)).close_object();
  }
  j.close_array().close_object();
  return j.take();
}

}  // namespace core
