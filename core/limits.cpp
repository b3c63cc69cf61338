#include "core/limits.h"

#include "core/atmosphere.h"
#include "core/explain.h"
#include "core/words.h"

namespace core {
namespace {

constexpr double kNone = std::numeric_limits<double>::infinity();
constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

// AIM TBL 5-3-1 and 5-3-8 j2 (seen).
constexpr SpeedBand kFaa[] = {{-kNone, 6000.0, 200.0, kNone},
                              {6000.0, 14000.0, 230.0, kNone},
                              {14000.0, kNone, 265.0, kNone}};
constexpr SpeedBand kFaaIcon[] = {{6000.0, 14000.0, 210.0, kNone}};
constexpr SpeedBand kFaaAirForce[] = {{-kNone, kNone, 310.0, kNone}};
constexpr SpeedBand kFaaNavy[] = {{-kNone, kNone, 230.0, kNone}};
constexpr SpeedBand kFaaClimb[] = {{-kNone, kNone, 310.0, kNone}};
// Doc 8168 Vol I Part I Sec 6 Ch 1, as restated by a State AIP (seen).
constexpr SpeedBand kIcao[] = {{-kNone, 14000.0, 230.0, kNone},
                               {14000.0, 20000.0, 240.0, kNone},
                               {20000.0, 34000.0, 265.0, kNone},
                               {34000.0, kNone, kNone, 0.83}};
constexpr SpeedBand kIcaoTurbulence[] = {
    {-kNone, 14000.0, 280.0, kNone}, {14000.0, 34000.0, 280.0, 0.8}, {34000.0, kNone, kNone, 0.83}};
constexpr SpeedBand kIcaoCatAb[] = {{-kNone, 14000.0, 170.0, kNone}};

/// A speed that was converted from TAS and back may miss its own limit by rounding.
constexpr double kRoundingKt = 1e-9;

struct RuleRow {
  std::string_view name;
  const char* label;
  const SpeedBand* bands;
  int count;
  SpeedRule rule;
  SpeedRule otherwise;  ///< the rule that counts where this has no line
  Rulebook book;
};

template <int N>
constexpr RuleRow row(SpeedRule rule, std::string_view name, Rulebook book,
                      const SpeedBand (&bands)[N], SpeedRule otherwise, const char* label) {
  return {name, label, bands, N, rule, otherwise, book};
}

constexpr RuleRow kRules[] = {
    row(SpeedRule::faa, "faa", Rulebook::faa, kFaa, SpeedRule::faa, "core.limits.rule.faa"),
    row(SpeedRule::faa_icon, "faa-icon", Rulebook::faa, kFaaIcon, SpeedRule::faa,
        "core.limits.rule.faa_icon"),
    {"faa-charted", "core.limits.rule.faa_charted", nullptr, 0, SpeedRule::faa_charted,
     SpeedRule::faa, Rulebook::faa},
    row(SpeedRule::faa_air_force, "faa-air-force", Rulebook::faa, kFaaAirForce, SpeedRule::faa,
        "core.limits.rule.faa_air_force"),
    row(SpeedRule::faa_navy, "faa-navy", Rulebook::faa, kFaaNavy, SpeedRule::faa,
        "core.limits.rule.faa_navy"),
    row(SpeedRule::faa_climb, "faa-climb", Rulebook::faa, kFaaClimb, SpeedRule::faa,
        "core.limits.rule.faa_climb"),
    row(SpeedRule::icao, "icao", Rulebook::icao, kIcao, SpeedRule::icao, "core.limits.rule.icao"),
    row(SpeedRule::icao_turbulence, "icao-turbulence", Rulebook::icao, kIcaoTurbulence,
        SpeedRule::icao, "core.limits.rule.icao_turbulence"),
    row(SpeedRule::icao_cat_ab, "icao-cat-ab", Rulebook::icao, kIcaoCatAb, SpeedRule::icao,
        "core.limits.rule.icao_cat_ab"),
};
static_assert(sizeof kRules / sizeof kRules[0] == kSpeedRules);

const RuleRow& row_of(SpeedRule rule) { return kRules[static_cast<int>(rule)]; }

const SpeedBand* band_at(const RuleRow& r, double altitude_ft) {
  for (int i = 0; i < r.count; ++i) {
    if (altitude_ft > r.bands[i].above_ft && altitude_ft <= r.bands[i].up_to_ft) {
      return &r.bands[i];
    }
  }
  return nullptr;
}

SpeedLimit no_limit(NoLimit why, SpeedRule rule) {
  return {why, rule, rule, {kNaN, kNaN, kNaN, kNaN}, kNaN, false};
}

std::string kt(double v) { return fixed(v, 0); }

/// "above 6000 up to 14000 ft" and the like.
std::string band_words(const SpeedBand& b) {
  if (b.above_ft == -kNone && b.up_to_ft == kNone) {
    return std::string(word("core.limits.band.all"));
  }
  if (b.above_ft == -kNone) return phrase("core.limits.band.up_to", {{"top", kt(b.up_to_ft)}});
  if (b.up_to_ft == kNone) return phrase("core.limits.band.above", {{"bottom", kt(b.above_ft)}});
  return phrase("core.limits.band.between", {{"bottom", kt(b.above_ft)}, {"top", kt(b.up_to_ft)}});
}

}  // namespace

std::string_view name_of(SpeedRule rule) { return row_of(rule).name; }

std::optional<SpeedRule> speed_rule(std::string_view name) {
  for (const RuleRow& r : kRules) {
    if (r.name == name) return r.rule;
  }
  return std::nullopt;
}

SpeedRule speed_rule_of(const Scenario& s) {
  if (s.speed_rule) return *s.speed_rule;
  return s.book == Rulebook::faa ? SpeedRule::faa : SpeedRule::icao;
}

Rulebook rulebook_of(SpeedRule rule) { return row_of(rule).book; }

std::vector<SpeedBand> speed_bands(SpeedRule rule) {
  const RuleRow& r = row_of(rule);
  return {r.bands, r.bands + r.count};
}

double cas_from_mach(double mach, double altitude_ft) {
  return cas_from_tas(mach * speed_of_sound_kt(altitude_ft), altitude_ft);
}

SpeedLimit greatest_holding_speed(SpeedRule rule, double altitude_ft, double charted_kias) {
  if (!std::isfinite(altitude_ft)) return no_limit(NoLimit::bad_altitude, rule);
  if (rule == SpeedRule::faa_charted) {
    if (!(charted_kias > 0.0) || !std::isfinite(charted_kias)) {
      return no_limit(NoLimit::no_charted_speed, rule);
    }
    return {NoLimit::none, rule, rule, {-kNone, kNone, charted_kias, kNone}, charted_kias, false};
  }
  const RuleRow* r = &row_of(rule);
  const SpeedBand* band = band_at(*r, altitude_ft);
  if (!band) {
    r = &row_of(r->otherwise);
    band = band_at(*r, altitude_ft);
  }
  if (!band) return no_limit(NoLimit::bad_altitude, rule);
  SpeedLimit limit{NoLimit::none, rule, r->rule, *band, band->ias_kt, false};
  if (band->mach != kNone) {
    const double by_mach = cas_from_mach(band->mach, altitude_ft);
    if (by_mach < limit.ias_kt) {
      limit.ias_kt = by_mach;
      limit.by_mach = true;
    }
  }
  return limit;
}

double ias_of(const Setup& u) {
  const Scenario& s = u.scenario;
  if (!s.speed_is_tas) return s.speed_kt;
  return cas_from_tas(s.speed_kt, s.altitude_ft, s.isa_deviation_c);
}

SpeedCheck check_speed(const Setup& u, SpeedRule rule, double charted_kias) {
  const Scenario& s = u.scenario;
  SpeedCheck c{};
  c.limit = greatest_holding_speed(rule, s.altitude_ft, charted_kias);
  c.ias_kt = ias_of(u);
  c.below_least = c.ias_kt < kLeastHoldingKias - kRoundingKt;
  c.margin_kt = kNaN;
  c.limit_tas_kt = kNaN;
  if (!c.limit.exists()) return c;
  c.margin_kt = c.limit.ias_kt - c.ias_kt;
  if (c.margin_kt < -kRoundingKt) c.over_by_kt = -c.margin_kt;
  c.limit_tas_kt = tas_from_cas(c.limit.ias_kt, s.altitude_ft, s.isa_deviation_c);
  return c;
}

SlowDown slow_down_point(const Setup& u, std::optional<double> arriving_tas_kt) {
  const double course = u.scenario.arrival_course_deg;
  const WindTriangle t =
      arriving_tas_kt ? solve_triangle(course, *arriving_tas_kt, u.wind) : u.arrival;
  if (!t.exists) return {Stop::no_arrival, kNaN, kNaN, kNaN, {kNaN, kNaN}};
  const double nm = t.groundspeed_kt * kNmPerSecondPerKnot * kSlowDownS;
  return {Stop::none, kSlowDownS, t.groundspeed_kt, nm, along(course) * -nm};
}

double crossover_tas_kt(double bank_limit_deg) {
  // A turn's rate is inversely proportional to speed: any speed will do to scale from.
  constexpr double kAnyKt = 100.0;
  return kAnyKt * turn_rate_deg_s(kAnyKt, bank_limit_deg) / kStandardRateDegS;
}

RateCheck check_rate(const Setup& u) {
  const double limit = u.scenario.bank_limit_deg;
  RateCheck c{};
  c.tas_kt = u.tas_kt;
  c.bank_limit_deg = limit;
  c.standard_bank_deg = bank_for_rate_deg(u.tas_kt, kStandardRateDegS);
  c.standard_radius_nm = turn_radius_nm(u.tas_kt, kStandardRateDegS);
  c.turn = u.turn;
  c.limited = u.turn.rate_deg_s < kStandardRateDegS;
  c.circle_s = 360.0 / u.turn.rate_deg_s;
  c.crossover_tas_kt = crossover_tas_kt(limit);
  return c;
}

std::string_view label_of(SpeedRule rule) { return word(row_of(rule).label); }

std::string reason(NoLimit why) {
  constexpr const char* kKeys[] = {"core.limits.none.none", "core.limits.none.bad_altitude",
                                   "core.limits.none.no_charted_speed"};
  return std::string(word(kKeys[static_cast<int>(why)]));
}

std::string speed_words(const SpeedCheck& c) {
  if (!c.limit.exists()) return reason(c.limit.why);
  const SpeedLimit& l = c.limit;
  std::string text = phrase(l.by_mach ? "core.limits.speed.mach" : "core.limits.speed.ias",
                            {{"rule", std::string(label_of(l.applied))},
                             {"band", band_words(l.band)},
                             {"limit", kt(l.ias_kt)},
                             {"mach", l.by_mach ? fixed(l.band.mach, 2) : std::string()}});
  if (l.applied != l.asked) {
    text += " " + phrase("core.limits.speed.no_line", {{"asked", std::string(label_of(l.asked))}});
  }
  // Said by the rounded numbers that the reader sees, but never "over by 0".
  const double over = c.over_by_kt;
  const std::string gap = fixed(std::abs(c.margin_kt), std::abs(c.margin_kt) < 0.95 ? 1 : 0);
  if (over > 0.0 && gap == "0.0") {
    text += " " + phrase("core.limits.speed.just_over", {{"ias", kt(c.ias_kt)}});
  } else if (over > 0.0) {
    text += " " + phrase("core.limits.speed.over", {{"ias", kt(c.ias_kt)}, {"over", gap}});
  } else if (gap == "0.0") {
    text += " " + phrase("core.limits.speed.at", {{"ias", kt(c.ias_kt)}});
  } else {
    text += " " + phrase("core.limits.speed.within", {{"ias", kt(c.ias_kt)}, {"margin", gap}});
  }
  if (c.below_least && rulebook_of(l.asked) == Rulebook::faa) {
    text += " " + phrase("core.limits.speed.below_least", {{"least", kt(kLeastHoldingKias)}});
  }
  return text;
}

std::string slow_down_words(const SlowDown& p) {
  if (p.why != Stop::none) return reason(p.why);
  return phrase("core.limits.slow_down", {{"time", minutes(p.before_fix_s)},
                                          {"distance", fixed(p.distance_nm, 1)},
                                          {"groundspeed", kt(p.groundspeed_kt)}});
}

std::string rate_words(const RateCheck& c) {
  const std::string tas = kt(c.tas_kt);
  if (!c.limited) {
    return phrase("core.limits.rate.standard", {{"tas", tas},
                                                {"bank", fixed(c.turn.bank_deg, 1)},
                                                {"limit", fixed(c.bank_limit_deg, 0)},
                                                {"crossover", kt(c.crossover_tas_kt)},
                                                {"radius", fixed(c.turn.radius_nm, 2)}});
  }
  return phrase("core.limits.rate.limited", {{"tas", tas},
                                             {"standard_bank", fixed(c.standard_bank_deg, 1)},
                                             {"limit", fixed(c.bank_limit_deg, 0)},
                                             {"rate", fixed(c.turn.rate_deg_s, 2)},
                                             {"circle", minutes(c.circle_s)},
                                             {"radius", fixed(c.turn.radius_nm, 2)},
                                             {"standard_radius", fixed(c.standard_radius_nm, 2)},
                                             {"crossover", kt(c.crossover_tas_kt)}});
}

std::string bank_books_words() {
  return phrase("core.limits.rate.books", {{"thirty", fixed(kFaaBankDeg, 0)},
                                           {"director", fixed(kFaaFlightDirectorBankDeg, 0)},
                                           {"icao", fixed(kIcaoBankDeg, 0)},
                                           {"at_thirty", kt(crossover_tas_kt(kFaaBankDeg))},
                                           {"at_icao", kt(crossover_tas_kt(kIcaoBankDeg))}});
}

std::vector<std::string> faa_exception_words() {
  std::vector<std::string> lines;
  for (const SpeedRule rule :
       {SpeedRule::faa_icon, SpeedRule::faa_air_force, SpeedRule::faa_navy, SpeedRule::faa_climb}) {
    const RuleRow& r = row_of(rule);
    lines.push_back(phrase("core.limits.exception", {{"rule", std::string(label_of(rule))},
                                                     {"band", band_words(r.bands[0])},
                                                     {"limit", kt(r.bands[0].ias_kt)}}));
  }
  lines.emplace_back(word("core.limits.exception.charted"));
  lines.push_back(phrase("core.limits.exception.least", {{"least", kt(kLeastHoldingKias)}}));
  return lines;
}

}  // namespace core
