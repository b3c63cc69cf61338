// Prints every table of checks, with what the core computes for each row, as JSON.
// web/sources.mjs makes docs/sources.md and the page's list of sources from it.
#include <cstdio>

#include "core/json.h"
#include "core/scenario.h"
#include "tests/tables/all_tables.h"

namespace {

/// A number, or for a row about entries the names of those it stands for.
void write_value(core::Json& json, test::Unit unit, double value) {
  constexpr core::EntryKind kinds[] = {core::EntryKind::direct, core::EntryKind::offset,
                                       core::EntryKind::parallel};
  if (unit != test::Unit::entry && unit != test::Unit::entries) {
    json.number(value);
    return;
  }
  json.open_array();
  for (const core::EntryKind kind : kinds) {
    const bool named = unit == test::Unit::entry
                           ? value == test::number_of(kind)
                           : (static_cast<int>(value) >> static_cast<int>(kind) & 1) != 0;
    if (named) json.text(core::name_of(kind));
  }
  json.close_array();
}

void write_row(core::Json& json, const test::Check& row) {
  const double actual = row.actual();
  json.open_object();
  json.field("id", row.id).field("what", row.what).field("unit", test::name_of(row.unit));
  write_value(json.key("expected"), row.unit, row.expected);
  json.field("tolerance", row.tolerance);
  write_value(json.key("actual"), row.unit, actual);
  json.field("source", row.source).field("mark", test::name_of(row.mark));
  json.field("ok", test::agrees(row, actual));
  json.close_object();
}

}  // namespace

int main() {
  core::Json json;
  json.open_array();
  for (const test::Table& table : test::kTables) {
    json.open_object().field("id", table.id).field("title", table.title).key("rows").open_array();
    for (std::size_t i = 0; i < table.count; ++i) write_row(json, table.rows[i]);
    json.close_array().close_object();
  }
  json.close_array();
  std::puts(json.str().c_str());
  return 0;
}
