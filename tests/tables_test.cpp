// Published and derived numbers, row by row (tests/tables).
#include <catch2/catch_test_macros.hpp>
#include <string>
#include <vector>

#include "tests/tables/all_tables.h"
#include "tests/tables/check_rows.h"

TEST_CASE("tables: every row is what the core computes", "[table]") {
  for (const test::Table& table : test::kTables) {
    DYNAMIC_SECTION(table.title) {
      for (std::size_t i = 0; i < table.count; ++i) test::check_row(table.rows[i]);
    }
  }
}

TEST_CASE("tables: a row that is off, or no number, does not agree", "[table]") {
  const auto row = [](double tolerance, test::Unit unit) {
    return test::Check{"", "", 359.0, tolerance, unit, "", test::Mark::derived, nullptr};
  };
  CHECK(test::agrees(row(0.0, test::Unit::kt), 359.0));
  CHECK_FALSE(test::agrees(row(0.0, test::Unit::kt), 359.0000001));
  CHECK(test::agrees(row(2.0, test::Unit::kt), 361.0));
  CHECK_FALSE(test::agrees(row(2.0, test::Unit::kt), 1.0));
  CHECK(test::agrees(row(2.0, test::Unit::direction), 1.0));
  CHECK_FALSE(test::agrees(row(2.0, test::Unit::direction), 1.1));
  CHECK_FALSE(test::agrees(row(2.0, test::Unit::kt), std::nan("")));
  CHECK_FALSE(test::agrees(row(2.0, test::Unit::direction), std::nan("")));
}

TEST_CASE("tables: the page can tell its sections apart", "[table]") {
  std::vector<std::string> ids;
  for (const test::Table& table : test::kTables) {
    const std::string id = table.id;
    INFO(id);
    CHECK(table.count > 0);
    CHECK(id.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string::npos);
    for (const std::string& other : ids) CHECK(id != other);
    ids.push_back(id);
  }
}
