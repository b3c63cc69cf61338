// Items of practice: what is asked can be answered, and what is said of an answer is true.
#include "core/item.h"

#include <algorithm>
#include <array>
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

#include "core/clearance.h"
#include "core/explain.h"
#include "core/flight.h"
#include "core/item_answer.h"
#include "core/item_parts.h"
#include "core/words.h"
#include "core/worked_case.h"
#include "tests/golden.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

QuestionSet built_in(std::string_view id) {
  for (const BuiltInSet& b : built_in_sets()) {
    if (b.id == id) return read_question_set(b.text).set;
  }
  FAIL("no set " << id);
  return {};
}

bool asks(const QuestionSet& set, Skill skill) {
  return ((set.skills >> static_cast<unsigned>(skill)) & 1U) != 0U;
}

bool within(const IntRange& r, double v) {
  const int n = static_cast<int>(v);
  return n == v && n >= r.from && n <= r.to && (n - r.from) % r.step == 0;
}

/// One line for an item: all that is asked and right.
std::string line_of(const DrillItem& item) {
  std::string out = std::string(name_of(item.skill)) + " | " + item.right_link;
  for (const Step& s : item.steps) out += " | " + s.id + " " + s.right_text;
  return out;
}

}  // namespace

TEST_CASE("item: 100,000 of them can be asked, and lie in their set's ranges", "[item][property]") {
  test::Tally tally;
  int made = 0;
  std::array<std::array<int, 2>, kSkills> turns{};
  std::array<int, kEntryKinds> entries{};
  std::array<int, 2> sides{};
  for (const BuiltInSet& b : built_in_sets()) {
    const QuestionSet set = read_question_set(b.text).set;
    for (int k = 0; k < 25000 && made < 100000; ++k) {
      const auto skill = static_cast<Skill>(k % kSkills);
      if (!asks(set, skill)) continue;
      const DrillItem item = make_item(set, 11U, k, skill);
      ++made;
      const auto say = [&] {
        return std::string(b.id) + " " + std::to_string(k) + " " + line_of(item);
      };
      const Scenario& s = item.scenario;
      const Setup u = make_setup(s);
      tally.check(u.arrival.exists && u.inbound.exists && u.outbound.exists, say);
      tally.check(within(set.inbound_deg, s.inbound_course_deg) && within(set.ias_kt, s.speed_kt) &&
                      within(set.altitude_ft, s.altitude_ft) && within(set.wind_kt, s.wind_kt) &&
                      within(set.wind_from_deg, s.wind_from_deg) &&
                      ((set.turns >> static_cast<unsigned>(s.turns)) & 1U) != 0U,
                  say);
      tally.check(!item.steps.empty() && !item.question.empty() && !item.right_link.empty(), say);
      if (skill == Skill::entry) {
        tally.check(((set.entries >> static_cast<unsigned>(u.sector->kind)) & 1U) != 0U &&
                        boundary_fits(set.boundary, u.sector->boundary_deg),
                    say);
        ++entries[static_cast<std::size_t>(u.sector->kind)];
      }
      ++turns[static_cast<std::size_t>(skill)][static_cast<std::size_t>(s.turns)];
      if (skill == Skill::wind) ++sides[u.inbound.wca_deg > 0.0 ? 1 : 0];
      for (const Step& step : item.steps) {
        tally.check(!step.ask.empty() && !step.worked.empty() && !step.right_text.empty() &&
                        std::isfinite(step.value),
                    say);
        // The right value, as it is written, is an answer, and a right one.
        std::string why;
        const std::optional<Answer> a = read_answer(step, step.right_text, why);
        tally.check(a && accepts(step, *a), say);
      }
    }
  }
  CHECK(made == 100000);
  tally.settle(100000L * 7);
  // Each entry, either turn and a wind from either side come up evenly enough to be met.
  const int all = entries[0] + entries[1] + entries[2];
  for (const int n : entries) CHECK(n > all / 4);
  for (const auto& t : turns) CHECK(std::min(t[0], t[1]) > (t[0] + t[1]) / 5);
  CHECK(std::min(sides[0], sides[1]) > (sides[0] + sides[1]) / 4);
}

TEST_CASE("item: right up to the tolerance, wrong beyond it", "[item][property]") {
  test::Tally tally;
  const QuestionSet set = built_in("mixed");
  for (int k = 0; k < 5000; ++k) {
    const DrillItem item = make_item(set, 3U, k, static_cast<Skill>(k % kSkills));
    for (const Step& step : item.steps) {
      const auto say = [&] { return line_of(item) + " at " + step.id; };
      if (step.kind == StepKind::choice) {
        int right = 0;
        for (int c = 0; c < static_cast<int>(step.choices.size()); ++c) {
          right += accepts(step, {0.0, {}, c}) ? 1 : 0;
        }
        tally.check(right == 1 || right == 2, say);
        continue;
      }
      const bool round = step.kind == StepKind::direction || step.kind == StepKind::hold ||
                         step.kind == StepKind::correction;
      for (const double sign : {-1.0, 1.0}) {
        const auto at = [&](double off) {
          const double v = step.value + sign * off;
          return accepts(step, {round ? v : std::fmax(v, -1e9), step.turns, -1});
        };
        const bool crosses = step.kind == StepKind::correction &&
                             std::abs(step.value) >= kSidedFromDeg &&
                             (step.value + sign * step.tolerance) * step.value <= 0.0;
        tally.check(crosses || at(step.tolerance), say);
        tally.check(!at(step.tolerance + 1.0), say);
      }
      if (step.kind == StepKind::hold) {
        tally.check(!accepts(step, {step.value, opposite(step.turns), -1}), say);
      }
      if (step.kind == StepKind::correction && std::abs(step.value) >= kSidedFromDeg &&
          std::abs(step.value) <= 177.0) {
        tally.check(!accepts(step, {-step.value, {}, -1}), say);
      }
    }
  }
  tally.settle(40000);
}

TEST_CASE("item: the steps' values are those of the core's own functions", "[item][property]") {
  test::Tally tally;
  const QuestionSet set = built_in("mixed");
  for (int k = 0; k < 4000; ++k) {
    const auto skill = static_cast<Skill>(k % kSkills);
    const DrillItem item = make_item(set, 5U, k, skill);
    const Step& last = item.steps.back();
    const Setup u = make_setup(item.scenario);
    const auto say = [&] { return line_of(item); };
    switch (skill) {
      case Skill::entry: {
        const SectorChoice c = choose_sector(u.hold, u.arrival.heading_deg);
        tally.check(accepts(last, {0.0, {}, static_cast<int>(c.kind)}) &&
                        accepts(last, {0.0, {}, static_cast<int>(c.also)}),
                    say);
        break;
      }
      case Skill::heading: {
        const double rule = *rule_heading(u, HeadingRule::drift_once);
        tally.check(std::abs(wrap_180(last.value - rule)) <= 0.5 + 1e-9, say);
        tally.check(u.entry == EntryKind::offset && u.sector->kind == EntryKind::offset, say);
        break;
      }
      case Skill::wind:
        tally.check(std::abs(last.value - u.inbound.wca_deg) <= 0.5 + 1e-9, say);
        break;
      case Skill::timing: {
        // The lap that the question tells of was flown so.
        const Setup flown_setup = make_setup(parse_link(item.link).scenario);
        Flight f;
        fly_scenario(flown_setup, f);
        if (last.id == "next") {
          const double inbound = std::floor(f.rollout.inbound_s + 0.5);
          tally.check(item.question.find(minutes(inbound)) != std::string::npos, say);
          tally.check(last.value == *flown_setup.scenario.time_s + u.published_s - inbound, say);
          tally.check(last.value >= kLeastNextS && last.value <= kMostNextS, say);
        } else {
          const double rule =
              *rule_time(make_setup(parse_link(item.right_link).scenario), TimingRule::groundspeed);
          tally.check(std::abs(last.value - rule) <= 0.5 + 1e-9, say);
        }
        break;
      }
      case Skill::clearance: {
        const ReadClearance r = read_clearance(item.question);
        tally.check(r.inbound_deg && *r.inbound_deg == last.value && r.turns &&
                        *r.turns == last.turns && r.contradictions.empty(),
                    [&] { return item.question; });
        break;
      }
    }
  }
  tally.settle(4000);
}

TEST_CASE("item: what the feedback says of a flight is what the links fly", "[item][property]") {
  test::Random r(5401);
  test::Tally tally;
  const QuestionSet set = built_in("mixed");
  for (int k = 0; k < 600; ++k) {
    const auto skill = static_cast<Skill>(k % kSkills);
    const DrillItem item = make_item(set, 9U, k, skill);
    const int last = static_cast<int>(item.steps.size()) - 1;
    const Step& step = item.steps.back();
    constexpr const char* kEntries[] = {"offset", "parallel", "direct"};
    const std::string answer =
        skill == Skill::entry ? kEntries[r.below(3)]
        : skill == Skill::wind
            ? std::to_string(1 + r.below(30)) + (r.chance(0.5) ? " left" : " right")
        : skill == Skill::timing ? std::to_string(20 + r.below(100))
        : skill == Skill::clearance
            ? std::to_string(1 + r.below(360)) + (r.chance(0.5) ? " L" : " R")
            : std::to_string(1 + r.below(360));
    const Judged j = judge(item, last, answer);
    const auto say = [&] { return line_of(item) + " answered " + answer + ": " + j.words.back(); };
    if (!tally.check(j.readable && !j.words.empty(), say)) continue;
    std::string why;
    const Answer a = *read_answer(step, answer, why);
    tally.check(j.right == accepts(step, a), say);
    tally.check(j.words.front().find(step.right_text) != std::string::npos, say);
    const Scenario flown = parse_link(j.student_link).scenario;
    const WorkedCase yours = work_out(flown);
    const WorkedCase right = work_out(parse_link(j.right_link).scenario);
    const auto told = [&](const std::string& text) {
      return j.words.back().find(text) != std::string::npos;
    };
    const bool same = answer_text(step, a) == step.right_text;
    switch (skill) {
      case Skill::entry:
        tally.check(flown.entry == static_cast<EntryKind>(a.choice), say);
        break;
      case Skill::heading:
        tally.check(yours.flown.plan.heading_deg == a.number, say);
        tally.check(same || (told(headline(yours)) && told(headline(right))), say);
        break;
      case Skill::wind:
        tally.check(same || !yours.flown.rollout.exists || told(headline(yours)), say);
        tally.check(std::abs(wrap_180(*flown.heading_deg -
                                      (flown.inbound_course_deg + 180.0 - 3.0 * a.number))) < 1e-9,
                    say);
        break;
      case Skill::timing:
        tally.check(yours.flown.plan.time_s == a.number, say);
        tally.check(
            same || !yours.flown.rollout.exists || told(minutes(yours.flown.rollout.inbound_s)),
            say);
        break;
      case Skill::clearance:
        tally.check(flown.inbound_course_deg == a.number && flown.turns == *a.side, say);
        break;
    }
  }
  tally.settle(2000);
}

TEST_CASE("item: the right time of a lap, flown, comes nearer to the leg than the last", "[item]") {
  // Second for second mends most of the miss; the wind along the course leaves the rest.
  test::Tally tally;
  const QuestionSet set = built_in("mixed");
  int laps = 0;
  for (int k = 0; laps < 300; ++k) {
    const DrillItem item = make_item(set, 21U, k, Skill::timing);
    if (item.steps.back().id != "next") continue;
    ++laps;
    const WorkedCase last = work_out(parse_link(item.link).scenario);
    const WorkedCase next = work_out(parse_link(item.right_link).scenario);
    const double before = std::abs(last.flown.rollout.inbound_s - last.setup.published_s);
    const double after = std::abs(next.flown.rollout.inbound_s - next.setup.published_s);
    tally.check(after <= before + 0.5, [&] { return line_of(item); });
  }
  tally.settle(300);
}

TEST_CASE("item: fixed cases are asked as they stand", "[item]") {
  const ReadQuestionSet read = read_question_set(
      R"({"id":"two","cases":["inbound=238&turns=left&arrive=85&wind=160/24","inbound=90&turns=right&arrive=90&wind=360/10"]})");
  REQUIRE(read.set.cases.size() == 2);
  for (int k = 0; k < 200; ++k) {
    for (int skill = 0; skill < kSkills; ++skill) {
      const DrillItem item = make_item(read.set, 1U, k, static_cast<Skill>(skill));
      const double inbound = item.scenario.inbound_course_deg;
      CHECK((inbound == 238.0 || inbound == 90.0));
      if (static_cast<Skill>(skill) == Skill::heading) CHECK(inbound == 238.0);
    }
  }
}

TEST_CASE("item: a case with a leg in miles is timed by the clock where time is asked for",
          "[item]") {
  const ReadQuestionSet read =
      read_question_set(R"({"id":"dme","cases":["inbound=90&leg=4nm&wind=150/20&arrive=280"]})");
  REQUIRE(read.set.cases.size() == 1);
  for (int k = 0; k < 20; ++k) {
    const DrillItem item = make_item(read.set, 2U, k, Skill::timing);
    const WorkedCase right = work_out(parse_link(item.right_link).scenario);
    CHECK(right.flown.ended_by == LegEnd::time);
    CHECK(std::abs(right.flown.entry_time_s - item.steps.back().value) <= 0.5);
  }
  const DrillItem heading = make_item(read.set, 2U, 1, Skill::heading);
  CHECK(heading.scenario.leg.has_value());
  CHECK(heading.question.find("4 NM legs") != std::string::npos);
}

TEST_CASE("item: the next leg of a fixed case is asked second for second", "[item]") {
  // docs/practice.md; whatever the case's own policy and leg in minutes.
  for (const char* adjust : {"keep", "ratio", "seconds", "exact"}) {
    const ReadQuestionSet read = read_question_set(
        std::string(R"({"id":"own","skills":["timing"],"ranges":{"timing":["lap"]},"cases":[)") +
        R"("inbound=90&turns=right&wind=270/10&arrive=90&leg=1:30&adjust=)" + adjust + R"("]})");
    REQUIRE(read.set.cases.size() == 1);
    for (int k = 0; k < 8; ++k) {
      const DrillItem item = make_item(read.set, 3U, k, Skill::timing);
      REQUIRE(item.steps.size() == 2);
      CHECK(item.question.find("1:30 legs") != std::string::npos);
      const WorkedCase last = work_out(parse_link(item.link).scenario);
      const double inbound_s = std::floor(last.flown.rollout.inbound_s + 0.5);
      const double outbound_s = last.setup.scenario.time_s.value_or(0.0);
      CHECK(item.steps.back().value == outbound_s + 90.0 - inbound_s);
    }
  }
}

TEST_CASE("item: any number, seed and answer is taken", "[item][property]") {
  test::Random r(5402);
  test::Tally tally;
  const QuestionSet set = built_in("mixed");
  for (int i = 0; i < 3000; ++i) {
    const int k = static_cast<int>(r.bits() & 0x7FFFFFFFU) - (i % 7 == 0 ? 0x7FFFFFFF : 0);
    const DrillItem item = make_item(set, static_cast<std::uint32_t>(r.bits()), k,
                                     static_cast<Skill>(r.below(kSkills)));
    std::string answer;
    constexpr std::string_view kLikely = "0123456789:.,LRlr -°leftrightkns";
    for (int n = r.below(9); n > 0; --n) {
      answer += r.chance(0.8)
                    ? kLikely[static_cast<std::size_t>(r.below(static_cast<int>(kLikely.size())))]
                    : static_cast<char>(r.below(256));
    }
    const Judged j = judge(item, r.below(5) - 1, answer);
    tally.check(j.readable != !j.why_unreadable.empty() && j.readable == !j.words.empty(),
                [&] { return answer + ": " + j.why_unreadable; });
  }
  tally.settle(3000);
}

TEST_CASE("item: answers as people write them", "[item]") {
  std::string why;
  const auto number = [&](StepKind kind, const char* text) {
    Step s;
    s.kind = kind;
    const std::optional<Answer> a = read_answer(s, text, why);
    return a ? a->number : std::nan("");
  };
  CHECK(number(StepKind::direction, "94") == 94.0);
  CHECK(number(StepKind::direction, " 094° ") == 94.0);
  CHECK(number(StepKind::direction, "0") == 360.0);
  CHECK(std::isnan(number(StepKind::direction, "361")));
  CHECK(std::isnan(number(StepKind::direction, "5 left")));
  CHECK(number(StepKind::correction, "5 L") == -5.0);
  CHECK(number(StepKind::correction, "L5") == -5.0);
  CHECK(number(StepKind::correction, "5 left") == -5.0);
  CHECK(number(StepKind::correction, "right 12°") == 12.0);
  CHECK(number(StepKind::correction, "0") == 0.0);
  CHECK(std::isnan(number(StepKind::correction, "5")));
  CHECK(why.find("left or right") != std::string::npos);
  CHECK(number(StepKind::seconds, "1:05") == 65.0);
  CHECK(number(StepKind::seconds, "65") == 65.0);
  CHECK(number(StepKind::seconds, "65 s") == 65.0);
  CHECK(std::isnan(number(StepKind::seconds, "1:75")));
  CHECK(number(StepKind::knots, "12 kt") == 12.0);
  CHECK(number(StepKind::hold, "85 left turns") == 85.0);
  CHECK(std::isnan(number(StepKind::hold, "85")));
  CHECK(std::isnan(number(StepKind::direction, "")));
  CHECK(std::isnan(number(StepKind::direction, "about 90")));
  CHECK(std::isnan(number(StepKind::direction, "90 90")));
  CHECK(std::isnan(number(StepKind::direction, "1e5")));
}

namespace {

constexpr std::uint32_t kGoldenSeeds[] = {1U, 4711U, 65535U};

std::string golden_text() {
  std::string out;
  for (const BuiltInSet& b : built_in_sets()) {
    const QuestionSet set = read_question_set(b.text).set;
    std::vector<Skill> skills;
    for (int s = 0; s < kSkills; ++s) {
      if (asks(set, static_cast<Skill>(s))) skills.push_back(static_cast<Skill>(s));
    }
    for (const std::uint32_t seed : kGoldenSeeds) {
      for (int k = 0; k < 50; ++k) {
        const Skill skill = skills[static_cast<std::size_t>(k) % skills.size()];
        out += std::string(b.id) + " " + std::to_string(seed) + " " + std::to_string(k) + " " +
               line_of(make_item(set, seed, k, skill)) + "\n";
      }
    }
  }
  return out;
}

constexpr char kGolden[] =
#include "tests/golden/items.inc"
    ;

}  // namespace

TEST_CASE("item: the first fifty of every set are those of the golden file", "[item][golden]") {
  // A class with a code gets these questions, natively and in every browser. A change of them
  // needs a new set version or generator; DEVELOPERS.md says how the file is written anew.
  const std::string now = golden_text();
  constexpr int kLines = 6 * 3 * 50;
  CHECK(std::count(now.begin(), now.end(), '\n') == kLines);
  test::must_be_golden(now, kGolden, kLines - 1, "");
}

TEST_CASE("write the golden items to items.inc", "[.golden-write]") {
  test::write_golden("items.inc", golden_text());
}
