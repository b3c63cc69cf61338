// Published and derived numbers, row by row (tests/tables).
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstring>

#include "tests/tables/atmosphere_checks.h"
#include "tests/tables/hold_checks.h"
#include "tests/tables/sector_checks.h"
#include "tests/tables/turn_checks.h"
#include "tests/tables/wind_checks.h"

using test::Check;

namespace {

template <std::size_t N>
void check_all(const Check (&rows)[N]) {
  for (const Check& row : rows) {
    const double actual = row.actual();
    const double miss = row.unit == test::Unit::direction
                            ? std::abs(core::wrap_180(actual - row.expected))
                            : std::abs(actual - row.expected);
    INFO(row.id << " " << row.what << ": expected " << row.expected << " +- " << row.tolerance
                << ", got " << actual << " (" << row.source << ")");
    CHECK(miss <= row.tolerance);
    CHECK(std::strlen(row.source) > 0);
  }
}

}  // namespace

TEST_CASE("table: wind triangles", "[table][wind]") { check_all(test::kWindChecks); }
TEST_CASE("table: level turns", "[table][turn]") { check_all(test::kTurnChecks); }
TEST_CASE("table: atmosphere and airspeed", "[table][atmosphere]") {
  check_all(test::kAtmosphereChecks);
}
TEST_CASE("table: entry sectors", "[table][sectors]") { check_all(test::kSectorChecks); }
TEST_CASE("table: timing, drift and shape of the hold", "[table][hold]") {
  check_all(test::kHoldChecks);
}
