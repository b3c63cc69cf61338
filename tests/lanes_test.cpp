// Formulas over several numbers at once give what they give for one.
#include "core/lanes.h"

#include <catch2/catch_test_macros.hpp>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("lanes: the arc sine is the library's", "[lanes]") {
  // Derived: asin is asin; the library's is the reference.
  test::Random r(6100);
  test::Tally tally;
  for (int i = 0; i < 200000; ++i) {
    const double x =
        i % 3 ? r.between(-1.0, 1.0) : (r.chance(0.5) ? 1.0 : -1.0) * (1.0 - r.unit() * 1e-9);
    const double want = std::asin(x) * kRadToDeg;
    tally.check(std::abs(arc_sine_deg(x) - want) <= 6e-16 * std::abs(want),
                [&] { return std::to_string(x) + " " + std::to_string(arc_sine_deg(x)); });
  }
  tally.settle(200000);
  CHECK(arc_sine_deg(0.0) == 0.0);
  CHECK(arc_sine_deg(1.0) == 90.0);
  CHECK(arc_sine_deg(-1.0) == -90.0);
  CHECK(std::isnan(arc_sine_deg(1.0000001)));
  CHECK(std::isnan(arc_sine_deg(-2.0)));
}

TEST_CASE("lanes: angles wrap as all angles do", "[lanes]") {
  for (double deg = -1079.75; deg < 1080.0; deg += 0.25) {
    for (const double near : {std::nextafter(deg, 2000.0), std::nextafter(deg, -2000.0)}) {
      CHECK(std::abs(within_half_circle(near)) == std::abs(wrap_180(near)));
      CHECK(turned_angle(near) == turn_angle(near));
    }
    CHECK(std::abs(within_half_circle(deg)) == std::abs(wrap_180(deg)));
    CHECK(turned_angle(deg) == turn_angle(deg));
  }
  CHECK(turned_angle(-1e-16) == turn_angle(-1e-16));
}

#if defined(CORE_HAS_LANES)
TEST_CASE("lanes: each lane is the plain number", "[lanes]") {
  test::Random r(6101);
  test::Tally tally;
  for (int i = 0; i < 50000; ++i) {
    const double both[2] = {r.between(-1.2, 1.2), r.between(-719.0, 719.0)};
    const auto lanes = load<Lanes>(both);
    for (int k = 0; k < 2; ++k) {
      const auto same = [&](double a, double b) {
        tally.check(a == b || (std::isnan(a) && std::isnan(b)),
                    [&] { return std::to_string(both[k]); });
      };
      same(arc_sine_deg(lanes)[k], arc_sine_deg(both[k]));
      same(within_half_circle(lanes)[k], within_half_circle(both[k]));
      same(nan_unless(lanes > 0.0)[k], nan_unless(both[k] > 0.0));
      same(with_sign(magnitude(lanes), lanes)[k], both[k]);
      same(turned_angle(lanes)[k], turned_angle(both[k]));
      same(square_root(lanes)[k], square_root(both[k]));
      same(magnitude(lanes)[k], magnitude(both[k]));
    }
  }
  tally.settle(500000);
}
#endif
