// Links of the first published version, with what it answered: old links keep working.
//
// The numbers were written down from that version's own answers, so they say that nothing
// has changed, not that it is right; the other tests do that.
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

#include "core/worked_case.h"

using namespace core;

namespace {

struct Golden {
  const char* link;
  const char* canonical;
  const char* entry;
  double heading_deg, cross_nm, to_go_nm, at_s;
  int laps;
  double end_s;
};

constexpr Golden kGolden[] = {
#include "tests/golden/links.inc"
};

bool near(double a, double b) { return std::abs(a - b) <= 1e-9 * (1.0 + std::abs(b)); }

}  // namespace

TEST_CASE("golden links: read, written and flown as when they were first published",
          "[link][golden]") {
  for (const Golden& g : kGolden) {
    INFO(g.link);
    const ParsedLink p = parse_link(g.link);
    CHECK(p.problems.empty());
    CHECK(write_link(p.scenario) == g.canonical);
    CHECK(parse_link(g.canonical).scenario == p.scenario);
    const WorkedCase c = work_out(p.scenario);
    CHECK(name_of(c.setup.entry) == g.entry);
    CHECK(near(c.flown.plan.heading_deg, g.heading_deg));
    REQUIRE(c.flown.rollout.exists);
    CHECK(near(c.flown.rollout.cross_nm, g.cross_nm));
    CHECK(near(c.flown.rollout.to_go_nm, g.to_go_nm));
    CHECK(near(c.flown.rollout.at_s, g.at_s));
    CHECK(c.flown.lap_count == g.laps);
    CHECK(near(c.flown.track.end_s(), g.end_s));
  }
}
