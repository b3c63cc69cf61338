// tests/tables/all_tables.h - every table of checks, in the order of docs/sources.md.
//
// A new table is one #include and one line here; web/sources.mjs stops where a table of
// this folder is missing.
#pragma once

#include <cstddef>

#include "tests/tables/atmosphere_checks.h"
#include "tests/tables/check.h"
#include "tests/tables/clearance_checks.h"
#include "tests/tables/hold_checks.h"
#include "tests/tables/infer_checks.h"
#include "tests/tables/item_checks.h"
#include "tests/tables/limits_checks.h"
#include "tests/tables/needles_checks.h"
#include "tests/tables/practice_checks.h"
#include "tests/tables/protected_area_checks.h"
#include "tests/tables/sector_checks.h"
#include "tests/tables/turn_checks.h"
#include "tests/tables/wind_checks.h"
#include "tests/tables/wind_report_checks.h"

namespace test {

struct Table {
  const char* id;  ///< of the page's section: small letters and hyphens
  const char* title;
  const Check* rows;
  std::size_t count;
};

template <std::size_t N>
constexpr Table table(const char* id, const char* title, const Check (&rows)[N]) {
  return {id, title, rows, N};
}

inline const Table kTables[] = {
    table("wind", "Wind triangles", kWindChecks),
    table("air", "Standard atmosphere and airspeed", kAtmosphereChecks),
    table("turn", "Level turns", kTurnChecks),
    table("sectors", "Which entry", kSectorChecks),
    table("hold", "Timing, drift correction and shape of the hold", kHoldChecks),
    table("clearance", "Hold clearances", kClearanceChecks),
    table("reports", "Wind reports", kWindReportChecks),
    table("infer", "Wind inferred from what was seen", kInferChecks),
    table("limits", "Holding speeds and limits", kLimitsChecks),
    table("needles", "Navigation displays", kNeedlesChecks),
    table("practice", "Common practice and the multiple of the correction", kPracticeChecks),
    table("items", "Practice: how far off an answer may be", kItemChecks),
    table("area", "Protected area, indicative", kProtectedAreaChecks),
};

}  // namespace test
