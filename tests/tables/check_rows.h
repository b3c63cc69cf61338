// tests/tables/check_rows.h - checks every row of a table.
#pragma once

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstring>

#include "core/units.h"
#include "tests/tables/check.h"

namespace test {

template <std::size_t N>
void check_rows(const Check (&rows)[N]) {
  for (const Check& row : rows) {
    const double actual = row.actual();
    const double miss = row.unit == Unit::direction
                            ? std::abs(core::wrap_180(actual - row.expected))
                            : std::abs(actual - row.expected);
    INFO(row.id << " " << row.what << ": expected " << row.expected << " +- " << row.tolerance
                << ", got " << actual << " (" << row.source << ")");
    CHECK(miss <= row.tolerance);
    CHECK(std::strlen(row.source) > 0);
  }
}

}  // namespace test
