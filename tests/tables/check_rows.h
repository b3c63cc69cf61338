// tests/tables/check_rows.h - checks every row of a table.
#pragma once

#include <catch2/catch_test_macros.hpp>
#include <cstddef>
#include <cstring>

#include "tests/tables/check.h"

namespace test {

inline void check_row(const Check& row) {
  const double actual = row.actual();
  INFO(row.id << " " << row.what << ": expected " << row.expected << " +- " << row.tolerance
              << ", got " << actual << " (" << row.source << ")");
  CHECK(agrees(row, actual));
  CHECK(std::strlen(row.source) > 0);
}

template <std::size_t N>
void check_rows(const Check (&rows)[N]) {
  for (const Check& row : rows) check_row(row);
}

}  // namespace test
