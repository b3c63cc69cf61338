// Questions of practice with all their words: what is asked, how it is worked out, and what is said
// to right, wrong and unreadable answers, as they were when they were last read. Written anew as
// the other golden files: tests/golden_test.cpp.
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/item.h"
#include "core/question_set.h"
#include "tests/golden.h"

using namespace core;

namespace {

constexpr char kGolden[] =
#include "tests/golden/drills.inc"
    ;

void add_judged(std::string& out, const DrillItem& item, int step, const std::string& answer) {
  const Judged j = judge(item, step, answer);
  out += "  to " + answer + ": " +
         (j.right      ? "right"
          : j.readable ? "wrong"
                       : "unreadable") +
         ", " + j.why_unreadable + " | " + j.right_text + " | " + j.student_link + "\n";
  for (const std::string& words : j.words) out += "    " + words + "\n";
}

std::string drills() {
  std::string out;
  for (const BuiltInSet& b : built_in_sets()) {
    const QuestionSet set = read_question_set(b.text).set;
    for (int k = 0; k < 3 * kSkills; ++k) {
      const auto skill = static_cast<Skill>(k % kSkills);
      if ((set.skills & (1U << static_cast<unsigned>(skill))) == 0U) continue;
      const DrillItem item = make_item(set, 7U, k, skill);
      out += "== " + std::string(b.id) + " " + std::to_string(k) + " " +
             std::string(name_of(skill)) + "\n" + item.question + "\n" + item.link + "\n" +
             item.right_link + "\n";
      for (int i = 0; i < static_cast<int>(item.steps.size()); ++i) {
        const Step& step = item.steps[static_cast<std::size_t>(i)];
        out += "- " + step.id + " " + std::string(name_of(step.kind)) + ": " + step.ask + " | " +
               step.tolerance_text + " | " + step.worked + " | " + step.right_text + "\n";
        add_judged(out, item, i, step.right_text);
        for (const Choice& choice : step.choices) {
          out += "  " + choice.value + ": " + choice.label + "\n";
          add_judged(out, item, i, choice.value);
        }
        if (step.choices.empty()) {
          for (const char* answer : {"100", "12 right", "3 left", "1:10", "085 left", "what"}) {
            add_judged(out, item, i, answer);
          }
        }
      }
    }
  }
  return out;
}

}  // namespace

TEST_CASE("golden drills: every word is as it was when it was last read", "[item][golden]") {
  test::must_be_golden(drills(), kGolden, 500, "== ");
}

TEST_CASE("write the golden drills", "[.golden-write]") {
  test::write_golden("drills.inc", drills());
}
