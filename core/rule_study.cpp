#include "core/rule_study.h"

#include <limits>

#include "core/map_study.h"
#include "core/quantile.h"

namespace core {
namespace {

constexpr double kSpeedStepKt = 5.0;
constexpr double kOneMinuteS = 60.0;
/// The offset sector's size, core/hold.h.
constexpr double kSectorDeg = 70.0;
constexpr double kLeans[] = {20.0, 25.0, 30.0, 35.0, 40.0, 45.0};

/// Everything that is flown through, in every wind.
std::vector<Setup> setups_of(const StudyScope& scope) {
  std::vector<Setup> out;
  for (const double tas_kt : scope.tas_kt) {
    for (int arrival = 0; arrival < scope.arrivals; ++arrival) {
      Scenario s;
      s.inbound_course_deg = 360.0;
      s.turns = Side::right;
      s.leg = Leg{Leg::Kind::time, kOneMinuteS};
      s.speed_is_tas = true;
      s.speed_kt = tas_kt;
      s.arrival_course_deg =
          wrap_360(180.0 - kSectorDeg * arrival / (scope.arrivals > 1 ? scope.arrivals - 1 : 1));
      Setup u = make_setup(s);
      for (double wind_kt = 0.0; wind_kt <= scope.most_kt; wind_kt += kSpeedStepKt) {
        for (int i = 0; i < scope.directions; ++i) {
          set_wind(u, {wrap_360(360.0 * i / scope.directions), wind_kt});
          if (u.arrival.exists && u.inbound.exists) out.push_back(u);
        }
      }
    }
  }
  return out;
}

std::optional<double> heading_of(const Setup& u, const SimpleRule& rule) {
  const double lean = wrap_360(u.hold.outbound_course_deg() - u.turn_sign * rule.lean_deg);
  if (rule.makes_track) {
    const WindTriangle t = solve_triangle(lean, u.tas_kt, u.wind);
    return t.exists ? std::optional<double>(t.heading_deg) : std::nullopt;
  }
  const WindTriangle& of = rule.of == Corrects::arrival ? u.arrival : u.inbound;
  return wrap_360(lean + rule.times * of.wca_deg);
}

RuleScore score_in(const std::vector<Setup>& setups, const SimpleRule& rule) {
  RuleScore score{rule};
  std::vector<double> misses;
  double inbound_off = 0.0;
  int quarter = 0;
  int half = 0;
  for (const Setup& u : setups) {
    const std::optional<double> heading_deg = heading_of(u, rule);
    const std::optional<double> time_s = rule_time(u, rule.timing);
    if (!heading_deg || !time_s) continue;
    const Rollout at = offset_rollout(u, *heading_deg, *time_s);
    misses.push_back(std::abs(at.cross_nm));
    score.mean_nm += misses.back();
    inbound_off += std::abs(at.inbound_s - kOneMinuteS);
    quarter += misses.back() <= 0.25;
    half += misses.back() <= 0.5;
  }
  score.flown = static_cast<int>(misses.size());
  if (misses.empty()) return score;
  const auto count = static_cast<double>(score.flown);
  score.mean_nm /= count;
  score.inbound_off_s = inbound_off / count;
  score.quarter_share = quarter / count;
  score.half_share = half / count;
  score.ninety_five_nm = at_share(misses, 0.95);
  return score;
}

/// The rules of thumb, as simple rules.
SimpleRule book_rule(HeadingRule heading, TimingRule timing) {
  SimpleRule rule;
  rule.timing = timing;
  rule.makes_track = heading == HeadingRule::track_30;
  if (heading == HeadingRule::drift_once) rule.times = 1.0;
  if (heading == HeadingRule::drift_triple) {
    rule.times = -3.0;
    rule.of = Corrects::inbound;
  }
  return rule;
}

}  // namespace

RuleScore score_rule(const StudyScope& scope, const SimpleRule& rule) {
  return score_in(setups_of(scope), rule);
}

RuleStudy study_rules(const StudyScope& scope) {
  RuleStudy study;
  study.scope = scope;
  const std::vector<Setup> setups = setups_of(scope);
  constexpr TimingRule kTimings[] = {TimingRule::fixed, TimingRule::groundspeed};
  double best_book_nm = std::numeric_limits<double>::infinity();
  for (const TimingRule timing : kTimings) {
    for (int i = 0; i < kHeadingRules; ++i) {
      study.book.push_back(score_in(setups, book_rule(static_cast<HeadingRule>(i), timing)));
      best_book_nm = std::fmin(best_book_nm, study.book.back().mean_nm);
    }
  }
  const std::vector<double> kinds[] = {{0.0}, {-1.0, 1.0}, {-3.0, -2.0, 2.0, 3.0}};
  for (const std::vector<double>& times : kinds) {
    RuleScore best;
    best.mean_nm = std::numeric_limits<double>::infinity();
    for (const double lean_deg : kLeans) {
      for (const double by : times) {
        for (const Corrects of : {Corrects::arrival, Corrects::inbound}) {
          for (const TimingRule timing : kTimings) {
            const RuleScore score = score_in(setups, {lean_deg, by, of, false, timing});
            if (score.mean_nm < best.mean_nm) best = score;
          }
        }
      }
    }
    study.simple.push_back(best);
    if (study.better < 0 && best.mean_nm < best_book_nm) {
      study.better = static_cast<int>(study.simple.size()) - 1;
    }
  }
  return study;
}

namespace {

void write_score(Json& json, const RuleScore& score) {
  const SimpleRule& rule = score.rule;
  json.open_object().field("lean_deg", rule.lean_deg).field("times", rule.times);
  json.field("of", rule.of == Corrects::arrival ? "arrival" : "inbound");
  json.field("makes_track", rule.makes_track).field("timing", name_of(rule.timing));
  json.field("flown", score.flown).field("mean_nm", score.mean_nm);
  json.field("ninety_five_nm", score.ninety_five_nm);
  json.field("quarter_share", score.quarter_share).field("half_share", score.half_share);
  json.field("inbound_off_s", score.inbound_off_s).close_object();
}

}  // namespace

void write_rule_study(Json& json, const RuleStudy& study) {
  json.open_object().field("most_kt", study.scope.most_kt);
  json.field("directions", study.scope.directions).field("arrivals", study.scope.arrivals);
  json.key("tas_kt").open_array();
  for (const double tas_kt : study.scope.tas_kt) json.number(tas_kt);
  json.close_array().key("book").open_array();
  for (const RuleScore& score : study.book) write_score(json, score);
  json.close_array().key("simple").open_array();
  for (const RuleScore& score : study.simple) write_score(json, score);
  json.close_array().field("better", study.better).close_object();
}

}  // namespace core
