#include "core/lap_study.h"

#include <limits>

#include "core/explain.h"
#include "core/practice_text.h"

namespace core {
namespace {

constexpr double kMultiples[] = {1.0, 2.0, 2.5, 3.0};
// For words: as long as each other, and as good as triple.
constexpr double kSameTimeS = 2.0;
constexpr double kSameMultiple = 0.1;

struct LapMotion {
  TurnMotion out;
  TurnMotion in;
  Vec2 ground_nm_s;
  double abeam_s = 0.0;  ///< straight until abeam; negative: never
};

LapMotion lap_motion(const Setup& u, double heading_deg) {
  LapMotion m{turn_motion(u, u.inbound.heading_deg, heading_deg, u.scenario.turns),
              turn_motion(u, heading_deg, u.inbound.heading_deg, u.scenario.turns),
              ground_velocity(u, heading_deg)};
  const double at_level = u.to_go_nm(m.out.motion_nm);
  // In still air wings level is abeam, whatever the last digit says.
  if (at_level < -1e-9) {
    const double along = u.to_go_nm(m.ground_nm_s);
    m.abeam_s = along > 0.0 ? -at_level / along : -1.0;
  }
  return m;
}

double wanted_nm(const Setup& u) {
  return u.leg.kind == Leg::Kind::distance
             ? u.leg.value
             : u.inbound.groundspeed_kt * kNmPerSecondPerKnot * u.published_s;
}

LapFit exact_fit(const Setup& u, const ExactPlan& lap) {
  if (!lap.exists()) return {lap.why};
  const LapMotion m = lap_motion(u, lap.heading_deg);
  const Vec2 end = m.out.motion_nm + m.ground_nm_s * lap.straight_s + m.in.motion_nm;
  return {NoPlan::none, lap.time_s, lap.straight_s, u.cross_nm(end)};
}

NoMultiple multiple_of(const Setup& u, const ExactPlan& lap, double& multiple) {
  if (!u.inbound.exists) return NoMultiple::no_inbound;
  if (std::abs(u.inbound.wca_deg) < kLeastMultipliedDeg) return NoMultiple::no_drift;
  if (!lap.exists()) return NoMultiple::no_lap;
  multiple = wrap_180(u.hold.outbound_course_deg() - lap.heading_deg) / u.inbound.wca_deg;
  return NoMultiple::none;
}

std::string good_word(double cross_nm) {
  return phrase(std::abs(cross_nm) <= kGoodRolloutNm ? "core.multiples.good" : "core.multiples.bad",
                {{"limit", fixed(kGoodRolloutNm, 2)}});
}

std::string why_not(const LapStudy& s) {
  return s.why == NoMultiple::no_drift
             ? phrase("core.multiples.no_drift", {{"least", fixed(kLeastMultipliedDeg, 1)}})
             : reason(s.lap.why);
}

std::string once_or_triple(const LapFit& fit, std::string_view name_key) {
  const std::string name(word(name_key));
  if (!fit.exists()) {
    return phrase("core.multiples.row_none", {{"name", name}, {"why", reason(fit.why)}});
  }
  return phrase("core.multiples.row", {{"name", name},
                                       {"miss", cross_text(fit.cross_nm, kGoodRolloutNm)},
                                       {"good", good_word(fit.cross_nm)}});
}

void add_explanation(const Setup& u, const LapStudy& s, std::vector<std::string>& out) {
  const double both_s = 360.0 / u.turn.rate_deg_s;
  const double straight_s = s.lap.straight_s;
  if (straight_s < 1.0) return;  // nothing to divide by
  const double ratio = (straight_s + both_s) / straight_s;
  out.push_back(phrase("core.multiples.why", {{"half", fixed(0.5 * both_s, 1)},
                                              {"both", fixed(both_s, 1)},
                                              {"straight", fixed(straight_s, 1)},
                                              {"ratio", fixed(ratio, 1)},
                                              {"exact", fixed(s.exact, 1)}}));
  const double longer_s = straight_s - 0.5 * both_s;
  const bool longer = longer_s > kSameTimeS;
  const bool shorter = longer_s < -kSameTimeS;
  std::string when = phrase("core.multiples.when",
                            {{"half", fixed(0.5 * both_s, 0)}, {"straight", fixed(straight_s, 0)}});
  const double more = s.exact - 3.0;
  when += ' ';
  when += word(std::abs(more) <= kSameMultiple ? "core.multiples.same"
               : more < 0.0                    ? "core.multiples.less"
                                               : "core.multiples.more");
  // The law is one of sines: large angles outrun it.
  if (more > kSameMultiple && !shorter) {
    when += ' ';
    when += word(longer ? "core.multiples.sine_longer" : "core.multiples.sine");
  }
  out.push_back(when);
}

void add_round_the_wind(const Setup& u, const LapStudy& s, std::vector<std::string>& out) {
  const StudiedWind* low = nullptr;
  const StudiedWind* high = nullptr;
  const StudiedWind* worst = nullptr;
  int without = 0;
  int triple_without = 0;
  // Of equals the first: winds from either side differ by rounding only.
  constexpr double kAlike = 1e-9;
  for (const StudiedWind& w : s.by_wind) {
    if (w.why == NoMultiple::none) {
      if (!low || w.exact < low->exact - kAlike) low = &w;
      if (!high || w.exact > high->exact + kAlike) high = &w;
      if (!w.triple.exists()) {
        ++triple_without;
      } else if (!worst ||
                 std::abs(w.triple.cross_nm) > std::abs(worst->triple.cross_nm) + kAlike) {
        worst = &w;
      }
    } else if (w.why != NoMultiple::no_drift) {
      ++without;
    }
  }
  if (!low) return;
  std::string text = phrase("core.multiples.round", {{"speed", fixed(u.wind.speed_kt, 0)},
                                                     {"low", fixed(low->exact, 1)},
                                                     {"low_from", degrees_3(low->from_deg)},
                                                     {"high", fixed(high->exact, 1)},
                                                     {"high_from", degrees_3(high->from_deg)}});
  const auto add = [&](std::string_view key, int count, const StudiedWind* wind) {
    text += ' ';
    text += phrase(key, {{"count", fixed(count, 0)},
                         {"nm", wind ? fixed(std::abs(wind->triple.cross_nm), 2) : ""},
                         {"from", wind ? degrees_3(wind->from_deg) : ""}});
  };
  if (worst) add("core.multiples.worst", 0, worst);
  if (triple_without > 0) add("core.multiples.triple_without", triple_without, nullptr);
  if (without > 0) add("core.multiples.without", without, nullptr);
  out.push_back(text);
}

/// The exact lap whose straight makes way outbound, in closed form: with o the correction
/// off the outbound course, (D + u T) sin o - V T sin w cos o = D sin w (docs/theory.md
/// "The exact multiple"). Of two the nearer to triple.
ExactPlan closed_lap(const Setup& u) {
  const double turns_s = 360.0 / u.turn.rate_deg_s;
  const double wind = sin_deg(u.inbound.wca_deg);
  const double out_nm = wanted_nm(u) - u.to_go_nm(u.wind_nm_s) * turns_s;
  const double across_nm = u.tas_kt * kNmPerSecondPerKnot * turns_s * wind;
  const double size_nm = std::sqrt(out_nm * out_nm + across_nm * across_nm);
  const double sine = wanted_nm(u) * wind / size_nm;
  ExactPlan best{NoPlan::too_short};
  if (!(std::abs(sine) <= 1.0)) return best;
  const double asin_deg = std::asin(sine) * kRadToDeg;
  const double lean_deg = std::atan2(across_nm, out_nm) * kRadToDeg;
  const double triple = lap_heading(u, 3.0);
  for (const double off : {lean_deg + asin_deg, lean_deg + 180.0 - asin_deg}) {
    const double heading = wrap_360(u.hold.outbound_course_deg() - off);
    const LapFit fit = fit_lap(u, heading);
    if (!fit.exists()) continue;
    const bool nearer = !best.exists() || std::abs(wrap_180(heading - triple)) <
                                              std::abs(wrap_180(best.heading_deg - triple));
    if (nearer) best = {NoPlan::none, heading, fit.outbound_s, fit.straight_s};
  }
  return best;
}

/// Where the nearest exact lap makes no way outbound, the turns alone carry the aircraft
/// beyond the wanted point and it drifts back: no multiple of a correction is that.
ExactPlan making_way(const Setup& u, const ExactPlan& lap) {
  if (!lap.exists() || u.to_go_nm(ground_velocity(u, lap.heading_deg)) > 0.0) return lap;
  return closed_lap(u);
}

}  // namespace

std::string_view name_of(NoMultiple why) {
  constexpr std::string_view kNames[] = {"none", "no-inbound", "no-drift", "no-lap"};
  return kNames[static_cast<int>(why)];
}

LapFit fit_lap(const Setup& u, double heading_deg) {
  if (!u.inbound.exists) return {NoPlan::no_inbound};
  const LapMotion m = lap_motion(u, heading_deg);
  const double along = u.to_go_nm(m.ground_nm_s);
  if (!(along > 0.0) || m.abeam_s < 0.0) return {NoPlan::misses};
  const Vec2 turns = m.out.motion_nm + m.in.motion_nm;
  const double straight_s = (wanted_nm(u) - u.to_go_nm(turns)) / along;
  if (straight_s < 0.0) return {NoPlan::too_short};
  if (!(straight_s <= kMostOutboundS)) return {NoPlan::too_long};
  return {NoPlan::none, straight_s - m.abeam_s, straight_s,
          u.cross_nm(turns) + u.cross_nm(m.ground_nm_s) * straight_s};
}

Rollout lap_rollout(const Setup& u, double heading_deg, double outbound_s) {
  if (!u.inbound.exists) return {};
  const LapMotion m = lap_motion(u, heading_deg);
  if (m.abeam_s < 0.0) return {};
  const double straight_s = m.abeam_s + (outbound_s > 0.0 ? outbound_s : 0.0);
  const Vec2 at = m.out.motion_nm + m.ground_nm_s * straight_s + m.in.motion_nm;
  const double to_go = u.to_go_nm(at);
  return {true,
          u.cross_nm(at),
          to_go,
          to_go / (u.inbound.groundspeed_kt * kNmPerSecondPerKnot),
          m.out.duration_s + straight_s + m.in.duration_s,
          at};
}

std::optional<double> exact_multiple(const Setup& u) {
  if (!u.inbound.exists) return std::nullopt;
  double multiple = 0.0;
  if (multiple_of(u, closed_lap(u), multiple) != NoMultiple::none) return std::nullopt;
  return multiple;
}

LapStudy study_laps(const Setup& setup, const ExactPlan& lap_as_rolled) {
  // The law of the multiple holds for turns begun at once.
  Setup u = setup;
  u.roll_in = RollIn{};
  u.scenario.roll_deg_s = 0.0;
  const ExactPlan lap = setup.roll_in.rate_rad_s == 0.0 ? lap_as_rolled : exact_lap(u);
  LapStudy s;
  for (LapRow& row : s.rows) row.fit.why = NoPlan::no_inbound;
  s.lap = making_way(u, lap);
  s.why = multiple_of(u, s.lap, s.exact);
  if (s.why != NoMultiple::no_inbound) {
    s.inbound_wca_deg = u.inbound.wca_deg;
    for (unsigned i = 0; i < 4; ++i) {
      const double heading = lap_heading(u, kMultiples[i]);
      s.rows[i] = {false, kMultiples[i], heading, fit_lap(u, heading)};
    }
    LapRow& exact = s.rows[4];
    exact.exact = true;
    exact.multiple = s.why == NoMultiple::none ? s.exact : std::numeric_limits<double>::quiet_NaN();
    exact.heading_deg = s.lap.heading_deg;
    exact.fit = exact_fit(u, s.lap);
  }
  Scenario turned = u.scenario;
  turned.wind_is_true = false;
  turned.wind_kt = u.wind.speed_kt;
  turned.later_wind.reset();
  for (unsigned i = 0; i < kStudiedWinds; ++i) {
    StudiedWind& w = s.by_wind[i];
    w.from_deg = wrap_360(u.scenario.inbound_course_deg + 360.0 / kStudiedWinds * i);
    turned.wind_from_deg = w.from_deg;
    const Setup v = make_setup(turned);
    if (!v.inbound.exists) {
      w.once.why = w.triple.why = NoPlan::no_inbound;
      continue;
    }
    w.why = multiple_of(v, closed_lap(v), w.exact);
    w.once = fit_lap(v, lap_heading(v, 1.0));
    w.triple = fit_lap(v, lap_heading(v, 3.0));
  }
  return s;
}

std::vector<std::string> lap_study_words(const Setup& u, const LapStudy& s) {
  std::vector<std::string> out;
  switch (s.why) {
    case NoMultiple::no_inbound:
      return out;
    case NoMultiple::no_drift:
      out.push_back(why_not(s));
      break;
    case NoMultiple::no_lap:
      out.push_back(phrase("core.multiples.no_lap",
                           {{"wca", correction_text(s.inbound_wca_deg)}, {"why", why_not(s)}}));
      break;
    case NoMultiple::none: {
      const double right = wrap_180(s.lap.heading_deg - u.hold.outbound_course_deg());
      out.push_back(phrase("core.multiples.exact", {{"wca", correction_text(s.inbound_wca_deg)},
                                                    {"out", correction_text(right)},
                                                    {"exact", fixed(s.exact, 1)},
                                                    {"heading", degrees_3(s.lap.heading_deg)}}));
      add_explanation(u, s, out);
      break;
    }
  }
  if (s.why != NoMultiple::no_drift) {
    out.push_back(once_or_triple(s.rows[3].fit, "core.multiples.triple"));
    out.push_back(once_or_triple(s.rows[0].fit, "core.multiples.once"));
  }
  add_round_the_wind(u, s, out);
  return out;
}

void write_multiples(Json& j, const Setup& u, const LapStudy& s) {
  if (s.why == NoMultiple::no_inbound) {
    j.null();
    return;
  }
  const auto number = [&](std::string_view key, bool known, double v) {
    j.key(key);
    known ? j.number(v) : j.null();
  };
  j.open_object().field("inbound_wca_deg", s.inbound_wca_deg);
  number("exact", s.why == NoMultiple::none, s.exact);
  j.key("why");
  s.why == NoMultiple::none ? j.null() : j.text(why_not(s));
  constexpr std::string_view kLabels[] = {
      "core.multiples.label.once", "core.multiples.label.twice", "core.multiples.label.half",
      "core.multiples.label.triple", "core.multiples.label.exact"};
  j.key("rows").open_array();
  for (unsigned i = 0; i < s.rows.size(); ++i) {
    const LapRow& row = s.rows[i];
    j.open_object();
    number("multiple", !row.exact || s.why == NoMultiple::none, row.multiple);
    j.field("label", word(kLabels[i]));
    number("heading_deg", !row.exact || s.lap.exists(), row.heading_deg);
    number("outbound_s", row.fit.exists(), row.fit.outbound_s);
    number("cross_nm", row.fit.exists(), row.fit.cross_nm);
    j.key("why");
    row.fit.exists() ? j.null() : j.text(reason(row.fit.why));
    j.close_object();
  }
  j.close_array();
  j.key("words").open_array();
  for (const std::string& sentence : lap_study_words(u, s)) j.text(sentence);
  j.close_array();
  j.key("by_wind").open_array();
  for (const StudiedWind& w : s.by_wind) {
    j.open_object().field("from_deg", w.from_deg).field("speed_kt", u.wind.speed_kt);
    number("exact", w.why == NoMultiple::none, w.exact);
    number("triple_cross_nm", w.triple.exists(), w.triple.cross_nm);
    number("once_cross_nm", w.once.exists(), w.once.cross_nm);
    j.close_object();
  }
  j.close_array().close_object();
}

}  // namespace core
