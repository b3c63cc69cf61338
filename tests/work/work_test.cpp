// Bounds on work, in steps and not in time: each stretch of the core's code that is run without
// a branch counts one. The compiler calls the counter (web/cmake/counted.cmake).
#include <catch2/catch_test_macros.hpp>

#include "core/clearance.h"
#include "core/evaluate.h"
#include "core/progress.h"
#include "core/question_set.h"
#include "core/wind_report.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {
long long g_steps = 0;

template <class Work>
long long steps_of(const Work& work) {
  g_steps = 0;
  work();
  return g_steps;
}
long long steps_of_link(const std::string& link) {
  return steps_of([&] { CHECK_FALSE(evaluate(link).empty()); });
}

std::string repeated(std::string_view part, std::size_t bytes) {
  std::string out;
  while (out.size() < bytes) out += part;
  return out;
}
}  // namespace

extern "C" void __sanitizer_cov_trace_pc() { ++g_steps; }  // NOLINT: the compiler's name

TEST_CASE("work: any link is answered in a bounded number of steps", "[work]") {
  const long long usual = steps_of_link("");
  REQUIRE(usual > 10000);
  test::Random r(7301);
  long long most = 0;
  std::string worst;
  for (int i = 0; i < 3000; ++i) {
    const Scenario s = test::scenario_of_each(r, i);
    const std::string link = write_link(s);
    const long long steps = steps_of_link(link);
    if (steps > most) {
      most = steps;
      worst = link;
    }
  }
  WARN("the opening scene takes " << usual << " steps, the worst of 3,000 links " << most << ", "
                                  << static_cast<double>(most) / static_cast<double>(usual)
                                  << " times that: " << worst);
  CHECK(most > usual);
  CHECK(most < 20 * usual);
}
