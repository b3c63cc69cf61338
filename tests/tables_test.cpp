// Published and derived numbers, row by row (tests/tables).
#include <catch2/catch_test_macros.hpp>

#include "tests/tables/atmosphere_checks.h"
#include "tests/tables/check_rows.h"
#include "tests/tables/hold_checks.h"
#include "tests/tables/sector_checks.h"
#include "tests/tables/turn_checks.h"
#include "tests/tables/wind_checks.h"

TEST_CASE("table: wind triangles", "[table][wind]") { test::check_rows(test::kWindChecks); }
TEST_CASE("table: level turns", "[table][turn]") { test::check_rows(test::kTurnChecks); }
TEST_CASE("table: atmosphere and airspeed", "[table][atmosphere]") {
  test::check_rows(test::kAtmosphereChecks);
}
TEST_CASE("table: entry sectors", "[table][sectors]") { test::check_rows(test::kSectorChecks); }
TEST_CASE("table: timing, drift and shape of the hold", "[table][hold]") {
  test::check_rows(test::kHoldChecks);
}
