// The same numbers natively and in the page's module.
//
// With the environment variable HOLD_RESULTS set, writes what evaluate() answers for a
// fixed list of links to that file; tests/compare-results.mjs then asks core.mjs for the
// same links and compares number by number.
#include <catch2/catch_test_macros.hpp>
#include <vector>

#include "core/evaluate.h"
#include "core/json.h"
#include "tests/hand_over.h"
#include "tests/json_check.h"
#include "tests/scenarios.h"

using namespace core;

namespace {

std::vector<std::string> fixed_links() {
  std::vector<std::string> links = {
      "",
      "laps=3",
      "wind=360/0&laps=2",
      "inbound=360&turns=right&arrive=210&wind=270/30&tas=120&laps=2",
      "inbound=360&turns=right&arrive=150&wind=360/0&tas=120&timer=level",
      "inbound=90&turns=right&arrive=90&wind=45/20&laps=10",
      "inbound=10&arrive=245&turns=right&wind=310/22&windref=true&variation=7E",
      "tas=60&wind=328/100&arrive=58&entry=offset",
      "tas=60&wind=58/100&arrive=58&entry=offset",
      "leg=4nm&laps=4&wind=200/35",
      "entry=parallel&laps=2&wind=300/25",
      "entry=direct&laps=2&wind=300/25&rule=still-air",
      "altitude=20000&ias=220&wind=270/80&bank=25&laps=2",
      "heading=94&time=1:10&intercept=45&laps=1",
      "rule=track-30&timing=groundspeed&timer=level&laps=2",
      "inbound=999&wind=VRB/05&colour=blue&v=2",
      "ias=350&altitude=45000",
      "isa=-30&altitude=36089.238845&ias=200",
      "inbound=0.000001&arrive=359.999999&wind=0/150",
  };
  test::Random r(2301);
  while (links.size() < 110) links.push_back(write_link(test::calm_scenario(r)));
  while (links.size() < 200) links.push_back(write_link(test::random_scenario(r)));
  return links;
}

}  // namespace

TEST_CASE("results: a fixed list of links, for comparison with the page's module", "[results]") {
  const std::vector<std::string> links = fixed_links();
  std::string out = "[";
  for (const std::string& link : links) {
    Json quoted;
    quoted.text(link);
    if (out.size() > 1) out += ",\n";
    out += "{\"link\":" + quoted.str() + ",\"answer\":" + evaluate(link) + "}";
  }
  out += "]\n";
  CHECK(links.size() == 200);
  CHECK(test::json_fault(out).empty());
  test::hand_over(out, "HOLD_RESULTS");
}
