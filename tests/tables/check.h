// tests/tables/check.h - one published or derived number that the core must give.
//
// The tables are data: tests/tables_test.cpp checks every row, and docs/sources.md and the
// page's list of sources are made from them (tests/tables/all_tables.h names them all).
#pragma once

#include <cmath>

#include "core/hold.h"
#include "core/units.h"

namespace test {

/// How we know the expected number.
enum class Mark {
  seen,      ///< read in the document named
  memory,    ///< recalled, the document was not seen
  derived,   ///< our own arithmetic; docs/theory.md has it
  practice,  ///< commonly taught; common practice, no source
};

constexpr const char* name_of(Mark mark) {
  switch (mark) {
    case Mark::seen:
      return "seen";
    case Mark::memory:
      return "memory";
    case Mark::derived:
      return "derived";
    case Mark::practice:
      return "practice";
  }
  return "";
}

/// How a number is written: page.sources.unit.<name> in the catalogue.
enum class Unit {
  deg,
  direction,
  kt,
  nm,
  ft,
  s,
  deg_s,
  celsius,
  inhg,
  kg_m3,
  km,
  km_h,
  mach,
  ratio,
  entry,    ///< core::EntryKind as a number
  entries,  ///< set_of(...) acceptable entries
};

constexpr const char* name_of(Unit unit) {
  switch (unit) {
    case Unit::deg:
      return "deg";
    case Unit::direction:
      return "direction";
    case Unit::kt:
      return "kt";
    case Unit::nm:
      return "nm";
    case Unit::ft:
      return "ft";
    case Unit::s:
      return "s";
    case Unit::deg_s:
      return "deg_s";
    case Unit::celsius:
      return "celsius";
    case Unit::inhg:
      return "inhg";
    case Unit::kg_m3:
      return "kg_m3";
    case Unit::km:
      return "km";
    case Unit::km_h:
      return "km_h";
    case Unit::mach:
      return "mach";
    case Unit::ratio:
      return "ratio";
    case Unit::entry:
      return "entry";
    case Unit::entries:
      return "entries";
  }
  return "";
}

/// One number. Several rows may share an id: the id's parts.
struct Check {
  const char* id;
  const char* what;
  double expected;
  double tolerance;  ///< 0: exactly
  Unit unit;
  const char* source;
  Mark mark;
  double (*actual)();
};

/// Whether a computed number is what the row expects. Never where it is not a number.
inline bool agrees(const Check& row, double actual) {
  const double miss = actual - row.expected;
  return std::abs(row.unit == Unit::direction ? core::wrap_180(miss) : miss) <= row.tolerance;
}

constexpr double number_of(core::EntryKind kind) { return static_cast<double>(kind); }
constexpr double set_of(core::EntryKind a) { return static_cast<double>(1 << static_cast<int>(a)); }
/// Two different kinds.
constexpr double set_of(core::EntryKind a, core::EntryKind b) { return set_of(a) + set_of(b); }

}  // namespace test
