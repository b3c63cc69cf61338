// The atmosphere: consistent with itself where no table reaches.
#include "core/atmosphere.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("atmosphere: at sea level in standard air IAS is TAS", "[atmosphere]") {
  for (double kt = 40.0; kt <= 350.0; kt += 10.0) {
    CHECK(std::abs(tas_from_cas(kt, 0.0) - kt) < 1e-11);
  }
  CHECK(pressure_ratio(0.0) == 1.0);
  CHECK(density_ratio(0.0) == 1.0);
  CHECK(std::abs(speed_of_sound_kt(0.0) - 661.4786) < 0.001);  // 340.294 m/s
}

TEST_CASE("atmosphere: pressure balances the weight of the air", "[atmosphere][property]") {
  // dp/dh = -rho g, with rho from the gas law: checks exponent, lapse and both layers.
  test::Tally tally;
  for (double ft = -1000.0; ft <= 45000.0; ft += 50.0) {
    if (std::abs(ft * 0.3048 - 11000.0) < 2.0) continue;
    const double h = 1.0;  // ft
    const double slope = (pressure_ratio(ft + h) - pressure_ratio(ft - h)) / (2.0 * h * 0.3048);
    const double weight = 9.80665 * pressure_ratio(ft) / (287.05287 * temperature_k(ft));
    tally.check(std::abs(slope / weight + 1.0) < 1e-8, [&] { return std::to_string(ft); });
  }
  tally.settle(900);
}

TEST_CASE("atmosphere: the two layers meet", "[atmosphere][seam]") {
  const double tropopause_ft = 11000.0 / 0.3048;
  for (const double d : {1e-6, 1e-3}) {
    const double below = pressure_ratio(tropopause_ft - d);
    const double above = pressure_ratio(tropopause_ft + d);
    CHECK(above < below);
    CHECK(below - above < 3e-5 * d);
    CHECK(temperature_k(tropopause_ft - d) - temperature_k(tropopause_ft + d) < 0.002 * d + 1e-12);
  }
}

TEST_CASE("atmosphere: airspeed conversion and back", "[atmosphere][property]") {
  test::Random r(401);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const double cas = r.between(40.0, 350.0);
    const double ft = r.between(-1000.0, 45000.0);
    const double dev = r.between(-60.0, 60.0);
    const double tas = tas_from_cas(cas, ft, dev);
    const auto say = [&] {
      return std::to_string(cas) + " kt, " + std::to_string(ft) + " ft, " + std::to_string(dev);
    };
    tally.check(std::isfinite(tas) && tas > 0.0, say);
    tally.check(test::near(cas_from_tas(tas, ft, dev), cas, 1e-12), say);
    tally.check(test::near(mach_from_cas(cas, ft) * speed_of_sound_kt(ft, dev), tas, 1e-14), say);
    // Warmer, higher or faster: more true airspeed.
    tally.check(tas_from_cas(cas, ft, dev + 1.0) > tas, say);
    tally.check(tas_from_cas(cas, ft + 100.0, dev) > tas, say);
    tally.check(tas_from_cas(cas + 1.0, ft, dev) > tas, say);
  }
  tally.settle(600000);
}

TEST_CASE("atmosphere: slow flight nears the incompressible relation", "[atmosphere]") {
  // TAS = CAS / sqrt(sigma), always the larger: within 0.7 kt up to 180 kt and within
  // 0.9 kt up to 200 kt, at or below 8,000 ft (docs/theory.md "Atmosphere").
  for (double ft = 0.0; ft <= 8000.0; ft += 500.0) {
    for (double cas = 40.0; cas <= 200.0; cas += 10.0) {
      const double plain = cas / std::sqrt(density_ratio(ft));
      const double tas = tas_from_cas(cas, ft);
      INFO(cas << " kt at " << ft << " ft");
      CHECK(plain - tas > -1e-10);
      CHECK(plain - tas < (cas <= 180.0 ? 0.7 : 0.9));
    }
  }
}
