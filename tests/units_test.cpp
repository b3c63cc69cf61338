// Angles: exact where pilots expect exact numbers, and safe at every seam.
#include "core/units.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <limits>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("units: sine and cosine are exact at every multiple of 90", "[units]") {
  constexpr double kSin[] = {0.0, 1.0, 0.0, -1.0};
  for (int quarter = -4000; quarter <= 4000; ++quarter) {
    const SinCos s = sincos_deg(90.0 * quarter);
    const int i = ((quarter % 4) + 4) % 4;
    INFO(90.0 * quarter);
    REQUIRE(s.sin == kSin[i]);
    REQUIRE(s.cos == kSin[(i + 1) % 4]);
    // A zero must not carry a minus sign into a shown number.
    REQUIRE((s.sin != 0.0 || !std::signbit(s.sin)));
    REQUIRE((s.cos != 0.0 || !std::signbit(s.cos)));
  }
  CHECK(std::abs(sin_deg(30.0) - 0.5) < 1e-15);
  CHECK(cos_deg(-60.0) == cos_deg(60.0));
  CHECK(sin_deg(-150.0) == -sin_deg(150.0));
}

TEST_CASE("units: sine and cosine agree with the library's", "[units][property]") {
  test::Random r(101);
  test::Tally tally;
  for (int i = 0; i < 200000; ++i) {
    const double deg = r.between(-1080.0, 1080.0);
    const SinCos s = sincos_deg(deg);
    tally.check(std::abs(s.sin - std::sin(deg * kDegToRad)) < 4e-15 &&
                    std::abs(s.cos - std::cos(deg * kDegToRad)) < 4e-15 &&
                    std::abs(s.sin * s.sin + s.cos * s.cos - 1.0) < 1e-15,
                [&] { return std::to_string(deg); });
  }
  tally.settle(200000);
}

TEST_CASE("units: directions are reduced to the interval that is promised", "[units][seam]") {
  CHECK(wrap_360(0.0) == 360.0);
  CHECK(wrap_360(-0.0) == 360.0);
  CHECK(wrap_360(360.0) == 360.0);
  CHECK(wrap_360(-360.0) == 360.0);
  CHECK(wrap_360(720.0) == 360.0);
  CHECK(wrap_360(1.0) == 1.0);
  CHECK(wrap_360(-1.0) == 359.0);
  CHECK(wrap_360(361.0) == 1.0);
  CHECK(wrap_360(-1e-20) == 360.0);
  CHECK(wrap_360(1e-20) == 1e-20);
  CHECK(wrap_180(180.0) == 180.0);
  CHECK(wrap_180(-180.0) == 180.0);
  CHECK(wrap_180(540.0) == 180.0);
  CHECK(wrap_180(-540.0) == 180.0);
  CHECK(wrap_180(181.0) == -179.0);
  CHECK(wrap_180(-181.0) == 179.0);
  CHECK(wrap_180(0.0) == 0.0);
  CHECK(wrap_180(-1e-20) == -1e-20);
  CHECK(wrap_180(std::nextafter(180.0, 181.0)) > -180.0);
  CHECK(wrap_180(std::nextafter(180.0, 181.0)) < -179.9);
  CHECK(turn_angle(0.0) == 0.0);
  CHECK(turn_angle(360.0) == 0.0);
  CHECK(turn_angle(-360.0) == 0.0);
  CHECK(turn_angle(-90.0) == 270.0);
  CHECK(turn_angle(450.0) == 90.0);
  // A turn that is a rounding error the wrong way is no turn, not a whole circle.
  CHECK(turn_angle(-1e-14) == 0.0);
  CHECK(turn_angle(-1e-300) == 0.0);
}

TEST_CASE("units: reduction keeps huge, odd and undefined numbers in hand", "[units][seam]") {
  test::Random r(102);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const double exponent = r.between(-300.0, 300.0);
    const double sign = r.chance(0.5) ? 1.0 : -1.0;
    const double deg = sign * std::pow(10.0, exponent);
    const double a = wrap_360(deg);
    const double b = wrap_180(deg);
    const double c = turn_angle(deg);
    tally.check(a > 0.0 && a <= 360.0 && b > -180.0 && b <= 180.0 && c >= 0.0 && c < 360.0,
                [&] { return std::to_string(deg); });
    // Reducing twice changes nothing.
    tally.check(wrap_360(a) == a && wrap_180(b) == b && turn_angle(c) == c,
                [&] { return std::to_string(deg); });
  }
  tally.settle(200000);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  CHECK(std::isnan(wrap_360(nan)));
  CHECK(std::isnan(wrap_180(nan)));
  CHECK(std::isnan(turn_angle(nan)));
  CHECK(std::isnan(wrap_360(inf)));
  CHECK(std::isnan(wrap_180(-inf)));
  CHECK(std::isnan(sincos_deg(nan).sin));
}

TEST_CASE("units: all reductions name the same direction", "[units][property]") {
  test::Random r(103);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const double deg = r.between(-2000.0, 2000.0);
    const double whole = (wrap_360(deg) - wrap_180(deg)) / 360.0;
    const double lap = (wrap_360(deg) - turn_angle(deg)) / 360.0;
    tally.check(std::abs(whole - std::nearbyint(whole)) < 1e-14 &&
                    std::abs(lap - std::nearbyint(lap)) < 1e-14,
                [&] { return std::to_string(deg); });
  }
  tally.settle(100000);
}

TEST_CASE("units: a vector's direction is the one it was made from", "[units]") {
  for (int deg = 1; deg <= 360; ++deg) {
    INFO(deg);
    CHECK(std::abs(wrap_180(direction_of(along(deg) * 7.0) - deg)) < 1e-13);
  }
  CHECK(direction_of({0.0, 1.0}) == 360.0);
  CHECK(direction_of({1.0, 0.0}) == 90.0);
  CHECK(direction_of({0.0, -1.0}) == 180.0);
  CHECK(direction_of({-0.0, -1.0}) == 180.0);
  CHECK(direction_of({-1.0, 0.0}) == 270.0);
  CHECK(direction_of({0.0, 0.0}) == 360.0);
  CHECK(along(90.0) == Vec2{1.0, 0.0});
  CHECK(along(360.0) == Vec2{0.0, 1.0});
}

TEST_CASE("units: constants are the exact ones", "[units]") {
  CHECK(kMetresPerNm == 1852.0);
  CHECK(kMetresPerFoot == 0.3048);
  CHECK(kGravity == 9.80665);
  CHECK(kPi == std::acos(-1.0));
  CHECK(length({3.0, -4.0}) == 5.0);
  CHECK(dot({1.0, 2.0}, {3.0, 4.0}) == 11.0);
}
