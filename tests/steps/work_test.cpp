// Bounds on work, in steps and not in time: each stretch of the core's code that is run without
// a branch counts one. The compiler calls the counter (web/cmake/counted.cmake).
#include <catch2/catch_test_macros.hpp>
#include <cstdio>

#include "core/clearance.h"
#include "core/evaluate.h"
#include "core/json_read.h"
#include "core/progress.h"
#include "core/question_set.h"
#include "core/wind_report.h"
#include "tests/scenarios.h"

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
  for (int i = 0; i < 360; ++i) {
    const Scenario s = test::scenario_of_each(r, i);
    const std::string link = write_link(s);
    const long long steps = steps_of_link(link);
    if (steps > most) {
      most = steps;
      worst = link;
    }
  }
  INFO("the opening scene takes " << usual << " steps, the worst of 360 links " << most << ": "
                                  << worst);
  CHECK(most > usual);
  CHECK(most < 12 * usual);
  std::printf("work: the opening scene %lld steps, the worst of 360 links %.2f times that: %s\n",
              usual, static_cast<double>(most) / static_cast<double>(usual), worst.c_str());
}

TEST_CASE("work: a longer text than is read costs no more", "[work]") {
  struct Reader {
    const char* name;
    std::size_t most_bytes;
    long long (*steps)(const std::string&);
  };
  const Reader readers[] = {
      {"link", 8192, [](const std::string& t) { return steps_of([&] { (void)parse_link(t); }); }},
      {"clearance", 2000,
       [](const std::string& t) { return steps_of([&] { (void)read_clearance(t); }); }},
      {"wind report", 2000,
       [](const std::string& t) {
         return steps_of([&] { (void)read_wind_report("auto", t, 4000.0, 0.0); });
       }},
      {"question set", kMostJsonBytes,
       [](const std::string& t) { return steps_of([&] { (void)read_question_set(t); }); }},
      {"progress", kMostJsonBytes,
       [](const std::string& t) { return steps_of([&] { (void)read_progress(t); }); }},
  };
  for (const Reader& reader : readers) {
    double worst_a_byte = 0.0;
    for (const std::string_view part :
         {"&", "a", "wind=160/24&", "laps=x&", "%41", " ", "HOLD ", "ONE ", "265 ",
          "RADIAL 265 OF ABC ", "24018KT ", "TEMPO 24018KT ", "2414 ", "WIND 240 AT 18 ", "[",
          "[[],", "{\"a\":", "\"\\u00e9"}) {
      const std::string full = repeated(part, reader.most_bytes);
      const long long steps = reader.steps(full);
      const long long longer = reader.steps(repeated(part, 8 * reader.most_bytes));
      INFO(reader.name << ": " << part << ", " << steps << " and " << longer << " steps");
      CHECK(static_cast<double>(longer) < 1.5 * static_cast<double>(steps) + 20000.0);
      const double a_byte = static_cast<double>(steps) / static_cast<double>(full.size());
      worst_a_byte = a_byte > worst_a_byte ? a_byte : worst_a_byte;
    }
    INFO(reader.name);
    CHECK(worst_a_byte < 3000.0);
    std::printf("work: %s, at most %.0f steps a byte\n", reader.name, worst_a_byte);
  }
}
