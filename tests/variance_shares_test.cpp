// Variance shares of functions whose shares are known, and of clouds that are nearly linear.
#include "core/variance_shares.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/cloud.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

using Six = std::array<double, kUnknowns>;

/// Shares of a function of six standard normal numbers, from `n` flights' draws.
template <class Function>
VarianceShares shares_of(const Function& f, int n, double centre = 0.0) {
  Draws a(1);
  Draws b(2);
  for (Draws* d : {&a, &b}) {
    d->aim(77, 1.0, 1.0);
    d->reach(static_cast<std::size_t>(n));
  }
  const Columns first = a.columns();
  const Columns second = b.columns();
  const auto value = [&](const Columns& c, int i) {
    Six x;
    for (std::size_t k = 0; k < kUnknowns; ++k) x[k] = c.z[k][i];
    return f(x);
  };
  ShareSums sums(centre);
  for (int i = 0; i < n; ++i) {
    Six mixed;
    for (std::size_t k = 0; k < kUnknowns; ++k) {
      mixed[k] = value(first.with(static_cast<Unknown>(k), second), i);
    }
    sums.add(value(first, i), value(second, i), mixed);
  }
  return sums.shares();
}

}  // namespace

TEST_CASE("shares: of a linear function the squares of slope times sd", "[cloud][shares]") {
  // Derived: the variance of a sum of independent numbers is the sum of theirs.
  const Six slope = {3.0, -2.0, 1.0, 0.5, 0.0, -1.5};
  double all = 0.0;
  for (const double s : slope) all += s * s;
  const VarianceShares got = shares_of(
      [&](const Six& x) {
        double sum = 40.0;
        for (std::size_t k = 0; k < kUnknowns; ++k) sum += slope[k] * x[k];
        return sum;
      },
      20000, 40.0);
  CHECK(got.used == 20000);
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    // Twice what holds 19 of 20 is nearly four standard errors.
    CHECK(std::abs(got.of[k].share - slope[k] * slope[k] / all) <=
          2.0 * got.of[k].give_or_take + 1e-12);
    CHECK(got.of[k].give_or_take < 0.04);
  }
  CHECK(got.of[4].share == 0.0);
  CHECK(std::abs(got.together.share) < 2.0 * got.together.give_or_take);
  CHECK(got.together.give_or_take < 0.04);
}

TEST_CASE("shares: a product is all working together; curves are their own", "[cloud][shares]") {
  // Derived: E[x y | x] = 0, so neither alone has a share; a square is x's own.
  const VarianceShares product = shares_of([](const Six& x) { return x[0] * x[3]; }, 20000);
  CHECK(std::abs(product.of[0].share) < 0.05);
  CHECK(std::abs(product.of[3].share) < 0.05);
  CHECK(std::abs(product.together.share - 1.0) < 0.07);
  // Var(x^2) = 2, Var(y) = 1.
  const VarianceShares curve =
      shares_of([](const Six& x) { return x[1] * x[1] + x[2]; }, 40000, 1.0);
  CHECK(std::abs(curve.of[1].share - 2.0 / 3.0) < 0.08);
  CHECK(std::abs(curve.of[2].share - 1.0 / 3.0) < 0.04);
}

TEST_CASE("shares: how far an estimate is off is as often within its +- as said",
          "[cloud][shares]") {
  int within = 0;
  int all = 0;
  test::Random r(6211);
  for (int i = 0; i < 200; ++i) {
    Six slope;
    double total = 0.0;
    for (double& s : slope) {
      s = r.between(-1.0, 1.0);
      total += s * s;
    }
    ShareSums sums(0.0);
    const auto normal = [&] {
      double z = -6.0;
      for (int k = 0; k < 12; ++k) z += r.unit();
      return z;
    };
    const auto value = [&](const Six& x) {
      double sum = 0.0;
      for (std::size_t k = 0; k < kUnknowns; ++k) sum += slope[k] * x[k];
      return sum;
    };
    for (int n = 0; n < 300; ++n) {
      Six a;
      Six b;
      for (double& x : a) x = normal();
      for (double& x : b) x = normal();
      Six mixed;
      for (std::size_t k = 0; k < kUnknowns; ++k) {
        Six x = a;
        x[k] = b[k];
        mixed[k] = value(x);
      }
      sums.add(value(a), value(b), mixed);
    }
    const VarianceShares got = sums.shares();
    for (std::size_t k = 0; k < kUnknowns; ++k) {
      ++all;
      within += std::abs(got.of[k].share - slope[k] * slope[k] / total) <= got.of[k].give_or_take;
    }
  }
  INFO(within << " of " << all);
  CHECK(within > 0.90 * all);
}

TEST_CASE("shares: of a narrow cloud the squares of its slopes", "[cloud][shares]") {
  test::Random r(6212);
  test::Tally tally;
  Amounts narrow = Cloud::kUsual;
  for (double& amount : narrow.of) amount *= 0.05;
  for (int i = 0; i < 40; ++i) {
    const Setup u = make_setup(test::calm_scenario(r));
    Cloud cloud;
    cloud.set(u, narrow, 21);
    if (cloud.why() != NoCloud::none) continue;
    cloud.share_more(1500);
    cloud.share_more(1500);
    const VarianceShares cross = cloud.cross_shares();
    const VarianceShares inbound = cloud.inbound_shares();
    Amounts by_cross;
    Amounts by_inbound;
    double all_cross = 0.0;
    double all_inbound = 0.0;
    bool smooth = true;
    for (std::size_t k = 0; k < kUnknowns; ++k) {
      Amounts off;
      off.of[k] = 0.5 * narrow.of[k];
      const Rollout more = deviated_rollout(u, cloud.plan(), off);
      off.of[k] = -off.of[k];
      const Rollout less = deviated_rollout(u, cloud.plan(), off);
      // At a jump, where the turn back is a whole circle or none, there is no slope.
      smooth = smooth && more.exists && less.exists && std::abs(more.at_s - less.at_s) < 20.0;
      by_cross.of[k] = (more.cross_nm - less.cross_nm) * (more.cross_nm - less.cross_nm);
      by_inbound.of[k] = (more.inbound_s - less.inbound_s) * (more.inbound_s - less.inbound_s);
      all_cross += by_cross.of[k];
      all_inbound += by_inbound.of[k];
    }
    if (!smooth || !(all_cross > 1e-12) || cloud.summary(1.0).cross_nm.sd > 0.1) continue;
    for (std::size_t k = 0; k < kUnknowns; ++k) {
      const auto say = [&] {
        return test::named(u.scenario) + " " + std::to_string(k) + ": " +
               std::to_string(cross.of[k].share) + " for " +
               std::to_string(by_cross.of[k] / all_cross);
      };
      tally.check(std::abs(cross.of[k].share - by_cross.of[k] / all_cross) <=
                      2.0 * cross.of[k].give_or_take + 0.03,
                  say);
      tally.check(std::abs(inbound.of[k].share - by_inbound.of[k] / all_inbound) <=
                      2.0 * inbound.of[k].give_or_take + 0.03,
                  say);
    }
  }
  tally.settle(200);
}

TEST_CASE("shares: none where nothing varies, and what is not flown is left out",
          "[cloud][shares]") {
  const double nan = std::nan("");
  ShareSums sums(2.0);
  CHECK(std::isnan(sums.shares().together.share));
  const Six twos = {2.0, 2.0, 2.0, 2.0, 2.0, 2.0};
  for (int i = 0; i < 10; ++i) sums.add(2.0, 2.0, twos);
  CHECK(std::isnan(sums.shares().of[0].share));
  sums.add(nan, 2.0, twos);
  sums.add(2.0, nan, twos);
  sums.add(2.0, 2.0, {2.0, nan, 2.0, 2.0, 2.0, 2.0});
  CHECK(sums.shares().used == 10);

  Cloud still;
  still.set(make_setup(Scenario{}), {}, 1);
  still.share_more(100);
  CHECK(std::isnan(still.cross_shares().of[0].share));
  CHECK(cloud_json(still, 0.25).find("\"cross_shares\":null") != std::string::npos);
  // More at once or bit by bit.
  Cloud a;
  Cloud b;
  a.set(make_setup(Scenario{}), Cloud::kUsual, 1);
  b.set(make_setup(Scenario{}), Cloud::kUsual, 1);
  a.share_more(500);
  for (const int count : {100, 1, 399}) b.share_more(count);
  CHECK(a.drawn() == b.drawn());
  CHECK(a.cross_shares().of[0].share == b.cross_shares().of[0].share);
  CHECK(a.inbound_shares().together.share == b.inbound_shares().together.share);
}
