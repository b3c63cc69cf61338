// core/rule_study.h - how far off rules of thumb are over many winds, arrivals and speeds, and
// which simple rule would do better.
//
// A simple rule: so many degrees off the outbound course toward the holding side, corrected so
// many times by the wind correction of a course. docs/theory.md "How far off the rules are".
#pragma once

#include <vector>

#include "core/flight.h"
#include "core/json.h"

namespace core {

/// What is flown through: every combination, each counted alike. Timed legs of a minute from the
/// fix, right turns, at standard rate or 30 degrees of bank.
struct StudyScope {
  double most_kt = 30.0;  ///< winds from 0, in steps of 5
  int directions = 36;    ///< of the wind
  std::vector<double> tas_kt{80.0, 90.0, 105.0, 120.0, 140.0};
  int arrivals = 8;  ///< arrival courses across the offset sector, both edges included
};

/// Whose wind correction.
enum class Corrects { arrival, inbound };

struct SimpleRule {
  double lean_deg = 30.0;  ///< off the outbound course, toward the holding side
  double times = 0.0;      ///< that the correction is applied; + as it is, - the other way
  Corrects of = Corrects::arrival;
  bool makes_track = false;  ///< the lean is a track made good, and `times` is not used
  TimingRule timing = TimingRule::fixed;
};

struct RuleScore {
  SimpleRule rule;
  int flown = 0;
  double mean_nm = 0.0;         ///< of the miss, either way
  double ninety_five_nm = 0.0;  ///< 19 of 20 miss by no more
  double quarter_share = 0.0;   ///< within 0.25 NM
  double half_share = 0.0;      ///< within 0.5 NM
  double inbound_off_s = 0.0;   ///< mean of how far the inbound time is from a minute
};
[[nodiscard]] RuleScore score_rule(const StudyScope& scope, const SimpleRule& rule);

struct RuleStudy {
  StudyScope scope;
  std::vector<RuleScore> book;  ///< the four headings with the fixed time, then with the other
  /// The best, by mean miss, of each kind, simplest first: another lean and no correction; one
  /// correction, added or taken off; two or three times.
  std::vector<RuleScore> simple;
  /// The first of `simple` that misses less on average than all of `book`; -1: none does.
  int better = -1;
};
[[nodiscard]] RuleStudy study_rules(const StudyScope& scope = {});

void write_rule_study(Json& json, const RuleStudy& study);

}  // namespace core
