// The same pictures natively and in the page's module, byte by byte.
//
// With the environment variable HOLD_PICTURES set, writes the pictures and answers of a fixed list
// of links to that file; tests/compare-results.mjs then asks core.mjs for the same.
#include <catch2/catch_test_macros.hpp>
#include <set>
#include <string>

#include "core/evaluate.h"
#include "core/json.h"
#include "tests/hand_over.h"
#include "tests/json_check.h"
#include "web/session.h"

using namespace core;

namespace {

struct Row {
  const char* link;
  const char* layers;
};

constexpr Row kRows[] = {
#include "tests/golden/everywhere.inc"
};

struct Switch {
  const char* name;
  bool at_first;
};

/// As core.mjs has them.
constexpr Switch kSwitches[] = {
    {"no_correction", true}, {"rule", true},  {"exact", true},   {"own", true},  {"air_path", true},
    {"pattern", true},       {"marks", true}, {"streaks", true}, {"miss", true}, {"sectors", false},
    {"other_entry", false},  {"area", false}, {"limits", false}};

/// Whether `name` is one of `list`, which has commas between.
bool has(const std::string& list, const std::string& name) {
  return ("," + list + ",").find("," + name + ",") != std::string::npos;
}

}  // namespace

TEST_CASE("pictures: a fixed list of links, for comparison with the page's module", "[results]") {
  web::Session session;
  session.resize(880.0, 640.0);
  std::string out = "[";
  std::set<std::string> pictures;
  int n = 0;
  for (const Row& row : kRows) {
    session.open(row.link);
    for (const auto& [name, at_first] : kSwitches) {
      session.layer(name, has(row.layers, name) != at_first);
    }
    session.fit();
    session.seek(n % 3 == 0 ? -20.0 : 40.0 * n);
    const std::string svg = session.svg(static_cast<Theme>(n++ & 3));
    CHECK(svg.starts_with("<svg "));
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(svg.find("inf\"") == std::string::npos);
    pictures.insert(svg);
    Json link, layers, picture;
    link.text(row.link);
    layers.text(row.layers);
    picture.text(svg);
    if (out.size() > 1) out += ",\n";
    out += "{\"link\":" + link.str() + ",\"layers\":" + layers.str() + ",\"svg\":" + picture.str() +
           ",\"answer\":" + evaluate(row.link) + "}";
  }
  out += "]\n";
  CHECK(n >= 50);
  CHECK(static_cast<int>(pictures.size()) == n);
  CHECK(test::json_fault(out).empty());
  test::hand_over(out, "HOLD_PICTURES");
}
