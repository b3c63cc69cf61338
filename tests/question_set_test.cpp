// Question sets: the built-in ones, and files with every kind of fault.
#include "core/question_set.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// Reads {"id": "x", MORE} and gives the message about `field`, or "".
std::string fault(const std::string& more, std::string_view field) {
  const ReadQuestionSet r = read_question_set("{\"id\":\"x\"," + more + "}");
  CHECK(r.usable);
  for (const Problem& p : r.problems) {
    if (p.key == field) return p.message;
  }
  return {};
}

}  // namespace

TEST_CASE("sets: the built-in ones read without a fault", "[sets]") {
  REQUIRE(built_in_sets().size() == 6);
  for (const BuiltInSet& b : built_in_sets()) {
    const ReadQuestionSet r = read_question_set(b.text);
    CAPTURE(b.id);
    CHECK(r.usable);
    CHECK(r.problems.empty());
    CHECK(r.set.id == b.id);
    CHECK_FALSE(r.set.title.empty());
    CHECK_FALSE(r.set.about.empty());
  }
}

TEST_CASE("sets: what a file says is what is drawn from", "[sets]") {
  const ReadQuestionSet r = read_question_set(
      R"({"format":1,"id":"my-set","version":3,"title":"T","about":"A","skills":["wind","timing"],
          "ranges":{"inbound":{"from":10,"to":350,"step":10},"ias":100,"turns":["left"],
                    "entries":["direct"],"boundary":"any","timing":["lap"]},
          "cases":["wind=160/24&inbound=238","inbound=90"]})");
  CHECK(r.problems.empty());
  const QuestionSet& s = r.set;
  CHECK(s.version == 3);
  CHECK(s.skills == ((1U << 2U) | (1U << 3U)));
  CHECK((s.inbound_deg.from == 10 && s.inbound_deg.to == 350 && s.inbound_deg.step == 10));
  CHECK((s.ias_kt.from == 100 && s.ias_kt.to == 100));
  CHECK(s.turns == 1U);
  CHECK(s.entries == 4U);
  CHECK(s.boundary == Boundary::any);
  CHECK(s.timing == kTimingLap);
  REQUIRE(s.cases.size() == 2);
  CHECK(s.cases[1].inbound_course_deg == 90.0);
}

TEST_CASE("sets: each fault names field, value, what is allowed and what was used", "[sets]") {
  struct Row {
    const char* json;
    const char* field;
    const char* value;
    const char* allowed;
  };
  const Row rows[] = {
      {R"("ranges":{"ias":300})", "ranges.ias", "300", "80–200"},
      {R"("ranges":{"wind_kt":{"from":0,"to":41}})", "ranges.wind_kt", "{…}", "0–40"},
      {R"("ranges":{"inbound":{"from":20,"to":10}})", "ranges.inbound", "{…}", "1–360"},
      {R"("ranges":{"inbound":{"from":1,"to":360,"step":0}})", "ranges.inbound", "{…}", "1–360"},
      {R"("ranges":{"altitude":"high"})", "ranges.altitude", "high", "0–14000"},
      {R"("ranges":{"turns":["up"]})", "ranges.turns", "up", "left, right"},
      {R"("ranges":{"turns":[]})", "ranges.turns", "[…]", "left, right"},
      {R"("ranges":{"entries":"offset"})", "ranges.entries", "offset", "parallel"},
      {R"("ranges":{"boundary":"close"})", "ranges.boundary", "close", "away, near, any"},
      {R"("ranges":7)", "ranges", "7", "{…}"},
      {R"("skills":["luck"])", "skills", "luck", "clearance"},
      {R"("version":0)", "version", "0", "1–9999"},
      {R"("version":1.5)", "version", "1.5", "1–9999"},
      {R"("format":2)", "format", "2", "1"},
      {R"("title":5)", "title", "5", "200 bytes"},
      {R"("cases":{})", "cases", "{…}", "[…]"},
      {R"("cases":[3])", "cases[0]", "3", "link"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.json);
    const std::string message = fault(row.json, row.field);
    CHECK(message.find(row.field) != std::string::npos);
    CHECK(message.find(row.value) != std::string::npos);
    CHECK(message.find(row.allowed) != std::string::npos);
    CHECK(message.find("Used instead: ") != std::string::npos);
  }
  CHECK_FALSE(fault(R"("colour":"red")", "colour").empty());
  CHECK_FALSE(fault(R"("ranges":{"tas":100})", "ranges.tas").empty());
  CHECK_FALSE(fault(R"("cases":["inbound=500"])", "cases[0]").empty());
  CHECK_FALSE(fault(R"("cases":["wind=90/150&tas=60"])", "cases[0]").empty());
}

TEST_CASE("sets: a bad field costs nothing but itself", "[sets]") {
  const ReadQuestionSet r = read_question_set(
      R"({"id":"x","ranges":{"ias":9999,"wind_kt":5,"turns":["left","sideways"]}})");
  CHECK(r.usable);
  CHECK(r.problems.size() == 2);
  CHECK(r.set.ias_kt.from == QuestionSet{}.ias_kt.from);
  CHECK(r.set.wind_kt.to == 5);
  CHECK(r.set.turns == 1U);
}

TEST_CASE("sets: what is no set at all is refused, with a reason", "[sets]") {
  for (const char* text : {"", "7", "[]", "{}", "{\"id\":7}", "{\"id\":\"\"}", "{\"id\":\"A B\"}",
                           "{\"id\":\"x\"", "mixed"}) {
    CAPTURE(text);
    const ReadQuestionSet r = read_question_set(text);
    CHECK_FALSE(r.usable);
    REQUIRE(r.problems.size() == 1);
    CHECK_FALSE(r.problems[0].message.empty());
  }
}

TEST_CASE("sets: hostile files are bounded", "[sets][property]") {
  test::Random r(5301);
  test::Tally tally;
  const std::string good(built_in_sets().back().text);
  for (int i = 0; i < 3000; ++i) {
    std::string text = good;
    for (int k = 1 + r.below(4); k > 0; --k) {
      const auto at = static_cast<std::size_t>(r.below(static_cast<int>(text.size())));
      text[at] = static_cast<char>(r.below(256));
    }
    const ReadQuestionSet read = read_question_set(text);
    tally.check(read.set.skills != 0U && read.set.turns != 0U && read.set.entries != 0U &&
                    read.set.timing != 0U && read.set.wind_kt.count() > 0 &&
                    read.problems.size() <= 50,
                [&] { return text; });
  }
  std::string many = "{\"id\":\"x\",\"cases\":[\"\"";
  for (int i = 0; i < 2 * kMostCases; ++i) many += ",\"\"";
  const ReadQuestionSet read = read_question_set(many + "]}");
  tally.check(read.set.cases.size() == static_cast<std::size_t>(kMostCases), [&] { return many; });
  tally.settle(3001);
}
