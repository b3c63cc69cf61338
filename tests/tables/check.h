// tests/tables/check.h - one published or derived number that the core must give.
//
// The tables are data: tests/tables_test.cpp checks every row, and a list of sources
// can be printed from them.
#pragma once

#include "core/hold.h"

namespace test {

/// How we know the expected number.
enum class Mark {
  seen,     ///< read in the document named
  memory,   ///< recalled, the document was not seen
  derived,  ///< our own arithmetic; docs/theory.md has it
};

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

constexpr double number_of(core::EntryKind kind) { return static_cast<double>(kind); }
constexpr double set_of(core::EntryKind a) { return static_cast<double>(1 << static_cast<int>(a)); }
/// Two different kinds.
constexpr double set_of(core::EntryKind a, core::EntryKind b) { return set_of(a) + set_of(b); }

}  // namespace test
