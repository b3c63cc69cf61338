// Common mistakes in answers to practice: each is named where its value was given, and only
// there. Nothing here is from a publication: the list is derived from the steps of the sums
// (docs/practice.md "Common mistakes").
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <map>
#include <string>

#include "core/item_answer.h"
#include "core/item_parts.h"
#include "core/practice_text.h"
#include "tests/tally.h"

using namespace core;

namespace {

QuestionSet set_of(std::string_view json) { return read_question_set(json).set; }

const Step& step_named(const DrillItem& item, std::string_view id) {
  for (const Step& s : item.steps) {
    if (s.id == id) return s;
  }
  FAIL("no step " << id);
  return item.steps.front();
}

/// What judging says after the verdict, for the step named.
std::string said(const DrillItem& item, std::string_view id, const std::string& answer) {
  for (int i = 0; i < static_cast<int>(item.steps.size()); ++i) {
    if (item.steps[static_cast<std::size_t>(i)].id != id) continue;
    const Judged j = judge(item, i, answer);
    REQUIRE(j.readable);
    REQUIRE(j.words.size() >= 2);
    return j.words[1];
  }
  FAIL("no step " << id);
  return {};
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// Inbound 238, left turns, wind 160/24, arriving 085, 105 kt at 4,000 ft. By the sum
/// outbound 058, 30° to the right 088; on course 085 the heading is 097 (12 held): 100.
DrillItem opening(Skill skill, const std::string& wind = "160/24") {
  const QuestionSet set = set_of(
      R"({"id": "one", "ranges": {"timing": ["groundspeed"]}, "cases": ["inbound=238&wind=)" +
      wind + R"(&turns=left&arrive=085&ias=105&altitude=4000"]})");
  return make_item(set, 1U, 0, skill);
}

}  // namespace

TEST_CASE("mistake: an entry heading tells what was left out", "[mistake]") {
  const DrillItem item = opening(Skill::heading);
  REQUIRE(step_named(item, "heading").right_text == "100°");
  struct Row {
    const char* answer;
    const char* part;
  };
  constexpr Row kRows[] = {
      {"088", "088° is 30° off the outbound course, but without the correction"},
      {"076", "the correction turned the wrong way"},
      {"040", "with left turns the pattern lies right of it"},
      {"028", "to the wrong side of the outbound course, and without the correction"},
      {"070", "the 30° is missing"},
      {"058", "the outbound course itself"},
      {"280", "reciprocal"},
      {"071", "the 30° is missing"},
  };
  for (const Row& row : kRows) {
    INFO(row.answer);
    CHECK(has(said(item, "heading", row.answer), row.part));
  }
  // No mistake's value: the sum follows the verdict at once.
  CHECK(said(item, "heading", "200") == step_named(item, "heading").worked);
  CHECK(said(item, "heading", "100") == step_named(item, "heading").worked);
  CHECK(has(said(item, "thirty", "028"), "wrong side"));
  CHECK(has(said(item, "outbound", "238"), "238° is the inbound course"));
}

TEST_CASE("mistake: the sectors of the other turns", "[mistake]") {
  const DrillItem item = opening(Skill::entry);
  // The heading 097 is 39° right of outbound: with right turns the side of the parallel entry.
  CHECK(has(said(item, "entry", "parallel"), "With right turns that would be right"));
  CHECK(said(item, "entry", "direct") == step_named(item, "entry").worked);
  CHECK(has(said(item, "off", "39 left"), "it is to the right"));
}

TEST_CASE("mistake: the side of a correction", "[mistake]") {
  const DrillItem item = opening(Skill::wind);
  const Step& last = step_named(item, "correction");
  REQUIRE(last.value < -kSidedFromDeg);
  CHECK(has(said(item, "correction", fixed(-last.value, 0) + " right"),
            "the wind comes from the left"));
  CHECK(said(item, "correction", "0") == last.worked);
}

TEST_CASE("mistake: times", "[mistake]") {
  const DrillItem item = opening(Skill::timing, "058/30");
  const Step& last = step_named(item, "time");
  const Setup u = make_setup(item.scenario);
  REQUIRE(std::abs(last.value - 60.0) > kAskedTimingS);
  CHECK(has(said(item, "time", "60"), "still air"));
  CHECK(has(said(item, "time", fixed(60.0 * u.outbound.groundspeed_kt / u.tas_kt, 0)),
            "upside down"));
  CHECK(said(item, "time", "300") == last.worked);
}

TEST_CASE("mistake: the reciprocal and the turns of a clearance", "[mistake]") {
  const DrillItem item = opening(Skill::clearance);
  CHECK(has(said(item, "hold", "058 left"), "reciprocal"));
  CHECK(has(said(item, "hold", "238 right"), "the turns are not"));
  CHECK(has(said(item, "line", "238"), "238° is the inbound course"));
  CHECK(said(item, "hold", "100 left") == step_named(item, "hold").worked);
}

TEST_CASE("mistake: a right answer is never one, and what is said names the answer",
          "[mistake][property]") {
  test::Tally tally;
  std::map<std::string, int> known;
  for (const BuiltInSet& b : built_in_sets()) {
    const QuestionSet set = read_question_set(b.text).set;
    for (int k = 0; k < 1500; ++k) {
      const auto skill = static_cast<Skill>(k % kSkills);
      if (((set.skills >> static_cast<unsigned>(skill)) & 1U) == 0U) continue;
      const DrillItem item = make_item(set, 9U, k, skill);
      for (int at = 0; at < static_cast<int>(item.steps.size()); ++at) {
        const Step& step = item.steps[static_cast<std::size_t>(at)];
        const auto say = [&] { return item.question + " " + step.right_text; };
        const Judged right = judge(item, at, step.right_text);
        tally.check(right.right && right.words[1] == step.worked, say);
        if (step.id != "next" || at == 0) continue;
        // The seconds on the wrong side of the last lap's time.
        const double last = *parse_link(item.link).scenario.time_s;
        const double other = 2.0 * last - step.value;
        if (other < 1.0 || std::abs(other - step.value) <= step.tolerance) continue;
        const Judged wrong = judge(item, at, fixed(other, 0));
        const std::string& words = wrong.words[1];
        tally.check(has(words, step.value > last ? "so add them" : "so take them away"), say);
        tally.check(words.rfind(minutes(other), 0) == 0, say);
        ++known[step.value > last ? "longer" : "shorter"];
      }
    }
  }
  CHECK(known["longer"] > 20);
  CHECK(known["shorter"] > 20);
  tally.settle(5000);
}
