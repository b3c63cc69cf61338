// The level turn: least bank of the two limits, and three formulas that agree.
#include "core/turn.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>

#include "core/units.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("turn: rate, bank and radius are one relation", "[turn][property]") {
  test::Random r(301);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const double tas = r.between(40.0, 700.0);
    const double bank = r.between(5.0, 60.0);
    const double rate = turn_rate_deg_s(tas, bank);
    const double radius = turn_radius_nm(tas, rate);
    const auto say = [&] { return std::to_string(tas) + " kt, bank " + std::to_string(bank); };
    tally.check(test::near(bank_for_rate_deg(tas, rate), bank, 1e-13), say);
    // v^2 / (g tan bank), in metres.
    const double v = tas * kMetresPerNm / 3600.0;
    tally.check(
        test::near(radius * kMetresPerNm, v * v / (kGravity * std::tan(bank * kDegToRad)), 1e-13),
        say);
    // Once round takes as long as the circle's length at this speed.
    tally.check(test::near(2.0 * kPi * radius / tas * 3600.0, 360.0 / rate, 1e-13), say);
  }
  tally.settle(300000);
}

TEST_CASE("turn: standard rate or the limit, whichever needs the least bank", "[turn][property]") {
  test::Random r(302);
  test::Tally tally;
  int limited = 0;
  for (int i = 0; i < 100000; ++i) {
    const double tas = r.between(40.0, 700.0);
    const double limit = r.between(5.0, 60.0);
    const Turn t = level_turn(tas, limit);
    const auto say = [&] { return std::to_string(tas) + " kt, limit " + std::to_string(limit); };
    tally.check(t.bank_deg <= limit && t.rate_deg_s <= kStandardRateDegS, say);
    tally.check(t.bank_deg == limit || t.rate_deg_s == kStandardRateDegS, say);
    tally.check(test::near(turn_rate_deg_s(tas, t.bank_deg), t.rate_deg_s, 1e-13), say);
    tally.check(test::near(turn_radius_nm(tas, t.rate_deg_s), t.radius_nm, 1e-15), say);
    limited += t.bank_deg == limit ? 1 : 0;
  }
  CHECK(limited > 10000);
  CHECK(limited < 90000);
  tally.settle(400000);
}

TEST_CASE("turn: no jump where the limit takes over", "[turn][seam]") {
  for (const double limit : {15.0, 25.0, 30.0}) {
    const double crossover = 170.0 * turn_rate_deg_s(170.0, limit) / kStandardRateDegS;
    const Turn below = level_turn(crossover * (1.0 - 1e-12), limit);
    const Turn above = level_turn(crossover * (1.0 + 1e-12), limit);
    CHECK(std::abs(below.rate_deg_s - above.rate_deg_s) < 1e-10);
    CHECK(std::abs(below.radius_nm - above.radius_nm) < 1e-10);
    CHECK(std::abs(below.bank_deg - above.bank_deg) < 1e-10);
  }
}
