// Question sets: any text is a set with problems, or said to be none; what is taken can be asked.
#include "core/question_set.h"

#include "tests/fuzz/must.h"
#include "web/tutor.h"

using namespace core;
using fuzz::must;

namespace {

void must_be_range(const IntRange& r, int low, int high) {
  must(r.step > 0 && r.from <= r.to, "a range has a first and a last");
  must(r.from >= low && r.to <= high && r.count() >= 1, "a range lies within what is allowed");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const ReadQuestionSet r = read_question_set(text);
  fuzz::must_be_problems(r.problems, 2000, text);
  must(r.usable || !r.problems.empty(), "what is no set is said to be none");
  if (!r.usable) return 0;
  const QuestionSet& s = r.set;
  must(is_set_id(s.id), "a set has a name", s.id);
  must(s.title.size() <= kMostSetText && s.about.size() <= kMostSetText, "texts are short");
  must_be_range(s.inbound_deg, 1, 360);
  must_be_range(s.altitude_ft, 0, 14000);
  must_be_range(s.ias_kt, 80, 200);
  must_be_range(s.wind_from_deg, 1, 360);
  must_be_range(s.wind_kt, 0, 40);
  must(s.skills != 0 && s.skills < (1U << kSkills), "it asks something");
  must(s.turns != 0 && s.entries != 0 && s.timing != 0, "it leaves something to draw");
  must(s.cases.size() <= static_cast<std::size_t>(kMostCases), "cases are bounded");
  for (const Scenario& c : s.cases) must(parse_link(write_link(c)).scenario == c, "a case");

  web::Tutor tutor;
  fuzz::must_be_json(tutor.use_set(text), text, 2000000);
  // One text in eight is asked too: an item costs as much as a hundred readings.
  if (size % 8 == 0) {
    fuzz::must_be_json(tutor.begin("practice", "", ""), text, 100000);
    fuzz::must_be_json(tutor.answer("90"), text, 100000);
    fuzz::must_be_json(tutor.next(), text, 100000);
  }
  return 0;
}
