// Scores of rules over many winds are those of flights one by one.
#include "core/rule_study.h"
#include "core/json.h"

#include <catch2/catch_approx.hpp>
#include <catch2/catch_test_macros.hpp>

using namespace core;
using Catch::Approx;

namespace {

/// The same by whole flights of scenarios, for a rule that has a name.
RuleScore flown_one_by_one(const StudyScope& scope, HeadingRule heading, TimingRule timing,
                           Side turns) {
  RuleScore score;
  Flight flight;
  for (const double tas_kt : scope.tas_kt) {
    for (int arrival = 0; arrival < scope.arrivals; ++arrival) {
      for (double wind_kt = 0.0; wind_kt <= scope.most_kt; wind_kt += 5.0) {
        for (int i = 0; i < scope.directions; ++i) {
          Scenario s;
          s.inbound_course_deg = 90.0;
          s.turns = turns;
          s.speed_is_tas = true;
          s.speed_kt = tas_kt;
          s.arrival_course_deg =
              wrap_360(270.0 - sign_of(turns) * 70.0 * arrival / (scope.arrivals - 1));
          s.wind_from_deg = wrap_360(90.0 + 360.0 * i / scope.directions);
          s.wind_kt = wind_kt;
          s.entry = EntryKind::offset;
          s.rule = heading;
          s.timing = timing;
          fly_scenario(make_setup(s), flight);
          if (!flight.rollout.exists) continue;
          ++score.flown;
          const double miss_nm = std::abs(flight.rollout.cross_nm);
          score.mean_nm += miss_nm;
          score.quarter_share += miss_nm <= 0.25;
          score.inbound_off_s += std::abs(flight.rollout.inbound_s - 60.0);
        }
      }
    }
  }
  score.mean_nm /= score.flown;
  score.quarter_share /= score.flown;
  score.inbound_off_s /= score.flown;
  return score;
}

StudyScope small_scope() {
  StudyScope scope;
  scope.most_kt = 25.0;
  scope.directions = 12;
  scope.tas_kt = {90.0, 130.0};
  scope.arrivals = 3;
  return scope;
}

}  // namespace

TEST_CASE("rule study: scores are those of flights one by one", "[rule-study]") {
  const StudyScope scope = small_scope();
  const RuleStudy study = study_rules(scope);
  REQUIRE(study.book.size() == 8);
  std::size_t row = 0;
  for (const TimingRule timing : {TimingRule::fixed, TimingRule::groundspeed}) {
    for (int i = 0; i < kHeadingRules; ++i, ++row) {
      for (const Side turns : {Side::right, Side::left}) {
        const RuleScore want = flown_one_by_one(scope, static_cast<HeadingRule>(i), timing, turns);
        const RuleScore& score = study.book[row];
        CHECK(score.flown == want.flown);
        CHECK(score.mean_nm == Approx(want.mean_nm).epsilon(1e-9));
        // One flight on the very edge may fall on either side of it.
        CHECK(std::abs(score.quarter_share - want.quarter_share) <= 1.5 / want.flown);
        CHECK(score.inbound_off_s == Approx(want.inbound_off_s).epsilon(1e-9));
      }
    }
  }
}

TEST_CASE("rule study: the best of each kind is better than others of its kind", "[rule-study]") {
  const StudyScope scope = small_scope();
  const RuleStudy study = study_rules(scope);
  REQUIRE(study.simple.size() == 3);
  // The simplest kind corrects nothing, and has the still-air rule in it.
  CHECK(study.simple[0].rule.times == 0.0);
  CHECK(study.simple[0].mean_nm <= study.book[0].mean_nm);
  // Correcting once has the rule of that name in it, and triple its own.
  CHECK(study.simple[1].mean_nm <= study.book[1].mean_nm);
  CHECK(study.simple[2].mean_nm <= study.book[3].mean_nm);
  for (const RuleScore& best : study.simple) {
    const RuleScore again = score_rule(scope, best.rule);
    CHECK(again.mean_nm == best.mean_nm);
    CHECK(again.ninety_five_nm >= again.mean_nm);
    CHECK(again.half_share >= again.quarter_share);
  }
  double best_book_nm = 1e9;
  for (const RuleScore& score : study.book) best_book_nm = std::fmin(best_book_nm, score.mean_nm);
  int first = -1;
  for (int i = 2; i >= 0; --i) {
    if (study.simple[static_cast<std::size_t>(i)].mean_nm < best_book_nm) first = i;
  }
  CHECK(study.better == first);
}

TEST_CASE("rule study: its JSON has every number of it", "[rule-study]") {
  StudyScope scope;
  scope.tas_kt = {150.0};
  scope.directions = 8;
  scope.arrivals = 2;
  scope.most_kt = 20.0;
  const RuleStudy study = study_rules(scope);
  Json json;
  write_rule_study(json, study);
  const std::string text = json.take();
  const auto has = [&](const std::string& part) { return text.find(part) != std::string::npos; };
  CHECK(has("\"most_kt\":20"));
  CHECK(has("\"directions\":8"));
  CHECK(has("\"arrivals\":2"));
  CHECK(has("\"tas_kt\":[150]"));
  CHECK(has("\"better\":" + std::to_string(study.better)));
  std::size_t at = 0;
  const auto next = [&](const char* key, double value) {
    CAPTURE(key, value);
    const std::string name = std::string("\"") + key + "\":";
    at = text.find(name, at);
    REQUIRE(at != std::string::npos);
    at += name.size();
    CHECK(std::stod(text.substr(at)) == Approx(value).margin(1e-6).epsilon(1e-5));
  };
  for (const auto* list : {&study.book, &study.simple}) {
    for (const RuleScore& score : *list) {
      next("lean_deg", score.rule.lean_deg);
      next("times", score.rule.times);
      next("flown", score.flown);
      next("mean_nm", score.mean_nm);
      next("ninety_five_nm", score.ninety_five_nm);
      next("quarter_share", score.quarter_share);
      next("half_share", score.half_share);
      next("inbound_off_s", score.inbound_off_s);
    }
  }
}
