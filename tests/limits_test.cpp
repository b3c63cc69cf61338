// Holding speeds, the slow-down point, standard rate against the bank limit.
#include "core/limits.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/atmosphere.h"
#include "core/explain.h"
#include "tests/scenarios.h"
#include "tests/tables/check_rows.h"
#include "tests/tables/limits_checks.h"
#include "tests/tally.h"

using namespace core;

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

SpeedRule rule_at(int i) { return static_cast<SpeedRule>(i); }

/// Nothing left to fill and no key of the catalogue.
bool is_text(const std::string& s) {
  return !s.empty() && s.find('{') == std::string::npos && s.find("core.") == std::string::npos &&
         s.find("–") == std::string::npos;
}

}  // namespace

TEST_CASE("table: holding speeds and bank limits", "[table][limits]") {
  test::check_rows(test::kLimitsChecks);
}

TEST_CASE("limits: the bands of a book follow each other without gap or overlap", "[limits]") {
  for (const SpeedRule rule : {SpeedRule::faa, SpeedRule::icao, SpeedRule::icao_turbulence}) {
    const std::vector<SpeedBand> bands = speed_bands(rule);
    INFO(name_of(rule));
    REQUIRE(bands.size() >= 3);
    CHECK(bands.front().above_ft == -kInfinite);
    CHECK(bands.back().up_to_ft == kInfinite);
    for (std::size_t i = 1; i < bands.size(); ++i) {
      CHECK(bands[i].above_ft == bands[i - 1].up_to_ft);
    }
  }
}

TEST_CASE("limits: names go there and back", "[limits]") {
  for (int i = 0; i < kSpeedRules; ++i) {
    CHECK(speed_rule(name_of(rule_at(i))) == rule_at(i));
    CHECK(label_of(rule_at(i)).substr(0, 5) != "core.");
  }
  CHECK_FALSE(speed_rule("no such rule"));
}

TEST_CASE("limits: every altitude has one line, and the lesser of airspeed and Mach",
          "[limits][property]") {
  test::Tally tally;
  for (int ft = -1000; ft <= 45000; ++ft) {
    for (int i = 0; i < kSpeedRules; ++i) {
      const SpeedRule rule = rule_at(i);
      if (rule == SpeedRule::faa_charted) continue;
      const SpeedLimit l = greatest_holding_speed(rule, ft);
      const auto say = [&] { return std::string(name_of(rule)) + " at " + std::to_string(ft); };
      if (!tally.check(l.exists(), say)) continue;
      const double mach = mach_from_cas(l.ias_kt, ft);
      tally.check(ft > l.band.above_ft && ft <= l.band.up_to_ft, say);
      tally.check(l.ias_kt <= l.band.ias_kt && mach <= l.band.mach + 1e-9, say);
      // One of the two is met exactly, and `by_mach` says which.
      tally.check(l.by_mach ? std::abs(mach - l.band.mach) < 1e-9 : l.ias_kt == l.band.ias_kt, say);
      const bool own_line = rule == SpeedRule::faa_icon      ? ft > 6000 && ft <= 14000
                            : rule == SpeedRule::icao_cat_ab ? ft <= 14000
                                                             : true;
      tally.check((l.applied == rule) == own_line, say);
      tally.check(rulebook_of(l.applied) == rulebook_of(rule), say);
    }
  }
  tally.settle(46001LL * 8 * 5);
}

TEST_CASE("limits: in turbulence Mach takes over just below the top of its band", "[limits]") {
  // 280 kt is M 0.80 at 33,710 ft: solved outside the core with the same relation.
  CHECK_FALSE(greatest_holding_speed(SpeedRule::icao_turbulence, 33709).by_mach);
  CHECK(greatest_holding_speed(SpeedRule::icao_turbulence, 33711).by_mach);
}

TEST_CASE("limits: what is no limit says why", "[limits]") {
  CHECK(greatest_holding_speed(SpeedRule::faa, std::nan("")).why == NoLimit::bad_altitude);
  CHECK(greatest_holding_speed(SpeedRule::icao, kInfinite).why == NoLimit::bad_altitude);
  for (const double kias : {0.0, -175.0, std::nan(""), kInfinite}) {
    const SpeedLimit l = greatest_holding_speed(SpeedRule::faa_charted, 5000, kias);
    CHECK(l.why == NoLimit::no_charted_speed);
    CHECK(std::isnan(l.ias_kt));
  }
  const SpeedCheck c = check_speed(make_setup(Scenario{}), SpeedRule::faa_charted);
  CHECK_FALSE(c.limit.exists());
  CHECK(c.over_by_kt == 0.0);
  CHECK(std::isnan(c.margin_kt));
  CHECK(speed_words(c) == reason(NoLimit::no_charted_speed));
  for (int i = 1; i <= 2; ++i) CHECK(is_text(reason(static_cast<NoLimit>(i))));
  CHECK(reason(NoLimit::none).empty());
}

TEST_CASE("limits: margin and excess of a setup", "[limits]") {
  Scenario s;
  s.altitude_ft = 5000.0;
  s.speed_kt = 105.0;
  SpeedCheck c = check_speed(make_setup(s), SpeedRule::faa);
  CHECK(c.within());
  CHECK(c.margin_kt == 95.0);
  s.speed_kt = 215.0;
  c = check_speed(make_setup(s), SpeedRule::faa);
  CHECK_FALSE(c.within());
  CHECK(c.over_by_kt == 15.0);
  CHECK(speed_words(c).find("15 kt too fast") != std::string::npos);
  CHECK(check_speed(make_setup(s), SpeedRule::icao).within());
  CHECK(check_speed(make_setup(s), SpeedRule::icao_cat_ab).over_by_kt == 45.0);
  s.speed_kt = 80.0;
  c = check_speed(make_setup(s), SpeedRule::faa);
  CHECK(c.below_least);
  CHECK(speed_words(c).find("90 kt or more") != std::string::npos);
  CHECK(speed_words(check_speed(make_setup(s), SpeedRule::icao)).find("90 kt") ==
        std::string::npos);
  // A true airspeed that is the limit exactly is no faster than it, however it rounds.
  s.speed_is_tas = true;
  test::Random r(2104);
  test::Tally tally;
  for (int i = 0; i < 2000; ++i) {
    s.altitude_ft = r.between(6100.0, 14000.0);
    s.isa_deviation_c = r.between(-30.0, 30.0);
    s.speed_kt = tas_from_cas(230.0, s.altitude_ft, s.isa_deviation_c);
    c = check_speed(make_setup(s), SpeedRule::faa);
    tally.check(c.within() && std::abs(c.margin_kt) < 1e-9, [&] { return test::named(s); });
  }
  tally.settle(2000);
}

TEST_CASE("limits: speed, words and numbers agree in any scenario", "[limits][property]") {
  test::Random r(2101);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::random_scenario(r);
    const SpeedRule rule = rule_at(r.below(kSpeedRules));
    const Setup u = make_setup(s);
    const SpeedCheck c = check_speed(u, rule, 175.0);
    const auto say = [&] { return std::string(name_of(rule)) + test::named(s) + speed_words(c); };
    tally.check(
        test::near(tas_from_cas(c.ias_kt, s.altitude_ft, s.isa_deviation_c), u.tas_kt, 1e-9), say);
    tally.check(c.within() == (c.ias_kt <= c.limit.ias_kt + 1e-9), say);
    tally.check(
        (c.over_by_kt > 0.0) == (c.limit_tas_kt < u.tas_kt - 1e-6) || std::abs(c.margin_kt) < 1e-5,
        say);
    const std::string words = speed_words(c);
    tally.check(is_text(words), say);
    const bool fast =
        words.find("too fast") != std::string::npos || words.find("just over") != std::string::npos;
    tally.check(fast == !c.within(), say);
    tally.check((words.find("in hand") != std::string::npos) == (c.within() && c.margin_kt >= 0.05),
                say);
    tally.check((words.find("Mach") != std::string::npos) == c.limit.by_mach, say);
  }
  tally.settle(140000);
}

TEST_CASE("limits: from the slow-down point it is three minutes to the fix", "[limits][property]") {
  test::Random r(2102);
  test::Tally tally;
  int none = 0;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    const SlowDown p = slow_down_point(u);
    const auto say = [&] { return test::named(s); };
    if (!u.arrival.exists) {
      tally.check(p.why == Stop::no_arrival && std::isnan(p.distance_nm), say);
      tally.check(slow_down_words(p) == reason(Stop::no_arrival), say);
      ++none;
      continue;
    }
    const Vec2 end = p.at + ground_velocity(u, u.arrival.heading_deg) * p.before_fix_s;
    tally.check(p.why == Stop::none && length(end) < 1e-9 * (1.0 + p.distance_nm), say);
    tally.check(test::near(length(p.at), p.distance_nm, 1e-12), say);
    tally.check(is_text(slow_down_words(p)), say);
    // Arriving faster, it is farther out.
    const SlowDown fast = slow_down_point(u, u.tas_kt + 40.0);
    tally.check(fast.why == Stop::none && fast.distance_nm > p.distance_nm, say);
    tally.check(std::abs(wrap_180(direction_of(fast.at) - s.arrival_course_deg - 180.0)) < 1e-9,
                say);
  }
  CHECK(none > 100);
  tally.settle(90000);
}

TEST_CASE("limits: the bank limit binds above its crossover and only there", "[limits][property]") {
  test::Random r(2103);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    const RateCheck c = check_rate(u);
    const auto say = [&] { return test::named(s) + rate_words(c); };
    tally.check(c.limited == (u.tas_kt > c.crossover_tas_kt), say);
    tally.check(c.limited == (c.standard_bank_deg > c.bank_limit_deg), say);
    tally.check(test::near(bank_for_rate_deg(c.crossover_tas_kt, kStandardRateDegS),
                           s.bank_limit_deg, 1e-12),
                say);
    tally.check(c.turn.radius_nm >= c.standard_radius_nm - 1e-12, say);
    tally.check(test::near(c.circle_s * c.turn.rate_deg_s, 360.0, 1e-12), say);
    tally.check(is_text(rate_words(c)), say);
    tally.check((rate_words(c).find("instead of") != std::string::npos) == c.limited, say);
  }
  tally.settle(140000);
}

TEST_CASE("limits: the rest of the words", "[limits][words]") {
  CHECK(bank_books_words().find("170 kt") != std::string::npos);
  CHECK(bank_books_words().find("210 kt") != std::string::npos);
  const std::vector<std::string> lines = faa_exception_words();
  CHECK(lines.size() == 6);
  for (const std::string& line : lines) CHECK(is_text(line));
}
