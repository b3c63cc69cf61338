// Common practice beside the exact plan: values, misses flown again, verdicts in words.
#include "core/common_practice.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

#include "tests/json_check.h"
#include "tests/scenarios.h"
#include "tests/tables/check_rows.h"
#include "tests/tables/practice_checks.h"
#include "tests/tally.h"

using namespace core;

namespace {

struct Case {
  WorkedCase worked;
  LapStudy study;
  std::vector<PracticeItem> items;
};

Case case_of(const Scenario& s) {
  Case c;
  c.worked = work_out(s);
  c.study = study_laps(c.worked.setup, c.worked.lap);
  c.items = common_practice(c.worked, c.study);
  return c;
}

const PracticeItem* find(const std::vector<PracticeItem>& items, PracticeId id) {
  for (const PracticeItem& item : items) {
    if (item.id == id) return &item;
  }
  return nullptr;
}

bool contains(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

bool is_entry_heading(PracticeId id) {
  return id == PracticeId::round_thirty || id == PracticeId::arrival_once;
}
bool is_lap_heading(PracticeId id) {
  return id == PracticeId::triple || id == PracticeId::twice || id == PracticeId::plus_ten;
}
bool is_lap_time(PracticeId id) {
  return id == PracticeId::ratio_speeds || id == PracticeId::ratio_last ||
         id == PracticeId::half_second || id == PracticeId::one_second;
}

/// The first number after `mark` in `text`; -1 where there is none.
double number_after(const std::string& text, std::string_view mark) {
  const std::size_t at = text.find(mark);
  return at == std::string::npos ? -1.0 : std::strtod(text.c_str() + at + mark.size(), nullptr);
}

/// The roll-out of an offset entry by the clock, flown.
Rollout flown_entry(const Scenario& scenario, double heading_deg, double time_s) {
  static Flight flight;
  Scenario s = scenario;
  s.laps = 0;
  s.entry = EntryKind::offset;
  s.heading_deg = heading_deg;
  s.time_s = time_s;
  fly_scenario(make_setup(s), flight);
  return flight.rollout;
}

/// A lap of `outbound_s`: a direct entry along the inbound course.
Rollout flown_lap(const Scenario& scenario, double heading_deg, double outbound_s) {
  static Flight flight;
  Scenario s = scenario;
  s.laps = 0;
  s.entry = EntryKind::direct;
  s.arrival_course_deg = s.inbound_course_deg;
  s.heading_deg = heading_deg;
  s.time_s = outbound_s;
  fly_scenario(make_setup(s), flight);
  return flight.rollout;
}

}  // namespace

TEST_CASE("table: common practice and the exact multiple", "[table][practice]") {
  test::check_rows(test::kPracticeChecks);
}

TEST_CASE("practice: the round 30 beside the still-air angle and today's", "[practice]") {
  const Scenario calm = test::practice_scene(120, 0, 0);
  const PracticeItem still = test::practice_item(calm, PracticeId::round_thirty);
  CHECK(contains(still.today, "Outbound course 180°, right turns: 150°."));
  CHECK(contains(still.exactly, "In still air 35.3°, for 1:00 from wings level."));
  // The clock runs during the turn at the fix, too: more past than 0.19 NM.
  CHECK_FALSE(still.good);
  Scenario level = calm;
  level.timer = Timer::level;
  level.arrival_course_deg = 150.0;
  const PracticeItem by_level = test::practice_item(level, PracticeId::round_thirty);
  CHECK(by_level.good);
  REQUIRE(by_level.miss);
  CHECK(std::abs(*by_level.miss + 0.188) < 0.001);
  // The stated angle, flown, rolls out on course; arriving on it there is no turn before.
  const double angle = 2.0 * kRadToDeg * std::atan(1.0 / kPi);
  Scenario on_it = level;
  on_it.arrival_course_deg = 180.0 - angle;
  CHECK(std::abs(flown_entry(on_it, 180.0 - angle, 60.0).cross_nm) < 1e-12);
  Scenario faster = calm;
  faster.altitude_ft = 20000.0;  // a minute and a half
  CHECK(contains(test::practice_item(faster, PracticeId::round_thirty).exactly, "24.0°, for 1:30"));
}

TEST_CASE("practice: two to two and a half minutes is the exact lap without crosswind",
          "[practice]") {
  test::Random r(3201);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    // At standard rate with a minute's leg, three times what the ratio adds, from abeam.
    const double tas = r.between(80.0, 160.0);
    const double slow = r.between(1.0, 0.5 * tas);
    const Scenario s = test::practice_scene(tas, slow, 0.0);
    const PracticeItem item = test::practice_item(s, PracticeId::slow_outbound);
    const auto say = [&] { return test::named(s) + item.words; };
    if (!tally.check(item.value && item.exact && item.least, say)) continue;
    tally.check(std::abs(*item.value - *item.exact) < 1e-6, say);
    const double by_speed = 60.0 * tas / (tas - slow);
    tally.check(std::abs(*item.least - (60.0 + 2.0 * (by_speed - 60.0))) < 1e-6, say);
    tally.check(item.good, say);
  }
  tally.settle(1200);
  const PracticeItem fast =
      test::practice_item(test::practice_scene(120, -20, 0), PracticeId::slow_outbound);
  CHECK(contains(fast.today, "140 kt over the ground outbound at 120 kt: not slow, it stays 1:00"));
  CHECK(*fast.value == 60.0);
  CHECK_FALSE(fast.good);
  CHECK(contains(fast.words, "longer than 1:00"));
}

TEST_CASE("practice: what a roll-out is read as", "[practice]") {
  // + from the holding side.
  CHECK(read_rollout(-0.5, 20.0) == WindReading::stronger);
  CHECK(read_rollout(0.5, 20.0) == WindReading::weaker);
  CHECK(read_rollout(-0.5, -20.0) == WindReading::weaker);
  CHECK(read_rollout(0.5, -20.0) == WindReading::stronger);
  CHECK(read_rollout(-0.25, 20.0) == WindReading::as_allowed);
  CHECK(read_rollout(-0.5, 0.9) == WindReading::nothing);

  // Flown in more wind from the holding side than planned for, an exact plan rolls out
  // beyond the course; in less, inside: there the practice is right.
  for (const double sign : {1.0, -1.0}) {
    for (const double more : {8.0, -8.0}) {
      Scenario planned = test::practice_scene(120, 0, -15.0 * sign);
      const ExactPlan plan = exact_heading_for_time(make_setup(planned));
      REQUIRE(plan.exists());
      Scenario flown = planned;
      flown.wind_kt += more;
      const Rollout out = flown_entry(flown, plan.heading_deg, plan.time_s);
      const double from_holding = 15.0 * -sign + more * -sign;  // right turns: from the right
      CHECK(read_rollout(out.cross_nm, from_holding) ==
            (more > 0.0 ? WindReading::stronger : WindReading::weaker));
    }
  }
}

TEST_CASE("practice: when the first minute tells the truth", "[practice][words]") {
  // The opening scene rolls out past the course in just the wind that was allowed for.
  const PracticeItem misled = test::practice_item(Scenario{}, PracticeId::first_minute);
  CHECK_FALSE(misled.good);
  CHECK(contains(misled.today, "stronger than allowed for"));
  CHECK(contains(misled.words, "Not true today"));
  CHECK(contains(misled.exactly, "With 5 kt more"));

  // The exact heading in the same wind does not mislead.
  Scenario exact;
  exact.heading_deg = exact_heading_for_time(make_setup(exact)).heading_deg;
  const PracticeItem honest = test::practice_item(exact, PracticeId::first_minute);
  CHECK(honest.good);
  CHECK(contains(honest.words, "True today"));

  // No wind allowed for, and some blowing from the holding side: past the course, it says so.
  Scenario none = test::practice_scene(120, 0, 25.0);
  none.rule = HeadingRule::still_air;
  const PracticeItem unplanned = test::practice_item(none, PracticeId::first_minute);
  CHECK(unplanned.good);
  CHECK(contains(unplanned.today, "With the wind from the holding side, that reads: stronger"));
  CHECK(contains(unplanned.words, "nobody allowed for"));

  Scenario calm = test::practice_scene(120, 20, 0);
  const PracticeItem nothing = test::practice_item(calm, PracticeId::first_minute);
  CHECK_FALSE(nothing.good);
  CHECK(contains(nothing.words, "less than a knot"));
}

TEST_CASE("practice: what is left out", "[practice]") {
  Scenario s = test::practice_scene(120, 10, 10);
  CHECK(case_of(s).items.size() == kPractices);
  s.entry = EntryKind::direct;
  CHECK(find(case_of(s).items, PracticeId::round_thirty) == nullptr);
  CHECK(find(case_of(s).items, PracticeId::arrival_once) == nullptr);
  CHECK(find(case_of(s).items, PracticeId::first_minute) != nullptr);
  s.entry = EntryKind::parallel;
  CHECK(find(case_of(s).items, PracticeId::first_minute) == nullptr);
  CHECK(find(case_of(s).items, PracticeId::triple) != nullptr);
  s.leg = Leg{Leg::Kind::distance, 4.0};
  for (const PracticeItem& item : case_of(s).items) CHECK(is_lap_heading(item.id));
  s.wind_from_deg = 90.0;
  s.wind_kt = 140.0;
  CHECK(case_of(s).items.empty());
}

TEST_CASE("practice: every miss is flown again, every verdict follows from it",
          "[practice][words]") {
  test::Random r(3202);
  test::Tally tally;
  int good[kPractices] = {};
  int bad[kPractices] = {};
  for (int i = 0; i < 1500; ++i) {
    const Scenario s = test::calm_scenario(r);
    const Case c = case_of(s);
    const Setup& u = c.worked.setup;
    int last = -1;
    for (const PracticeItem& item : c.items) {
      const auto say = [&] {
        return test::named(s) + " " + std::string(name_of(item.id)) + ": " + item.today + " / " +
               item.exactly + " / " + item.words;
      };
      const int id = static_cast<int>(item.id);
      tally.check(id > last, say);
      last = id;
      ++(item.good ? good : bad)[id];
      const bool says_good =
          contains(item.words, "Good enough today") || contains(item.words, "True today");
      tally.check(says_good == item.good, say);
      if (item.id == PracticeId::first_minute) {
        const Rollout out = flown_entry(s, scenario_plan(u)->heading_deg, u.published_s);
        tally.check(item.miss && test::near(*item.miss, out.cross_nm, 1e-9), say);
      } else if (is_entry_heading(item.id)) {
        const Rollout out = flown_entry(s, *item.value, u.published_s);
        tally.check(test::near(*item.miss, out.cross_nm, 1e-9), say);
        const bool near_exact =
            !item.exact || std::abs(wrap_180(*item.exact - *item.value)) <= kGoodHeadingDeg;
        const bool close = std::abs(out.cross_nm) <= kGoodRolloutNm && out.to_go_nm > 0.0;
        tally.check(item.good == (close && near_exact), say);
        if (item.exact) {
          tally.check(std::abs(flown_entry(s, *item.exact, u.published_s).cross_nm) < 1e-6, say);
        }
      } else if (is_lap_heading(item.id)) {
        if (!tally.check(item.value.has_value(), say)) continue;
        const LapFit fit = fit_lap(u, *item.value);
        tally.check(item.miss.has_value() == fit.exists(), say);
        if (!fit.exists() || fit.outbound_s < 0.0) continue;
        const Rollout out = flown_lap(s, *item.value, fit.outbound_s);
        tally.check(test::near(*item.miss, out.cross_nm, 1e-6), say);
      } else if (is_lap_time(item.id)) {
        const double heading = c.study.lap.exists() ? c.study.lap.heading_deg : lap_heading(u, 3.0);
        const bool too_long = *item.value > kMostOutboundS;
        tally.check(item.miss.has_value() == !too_long && !(too_long && item.good), say);
        if (too_long) continue;
        const Rollout out = flown_lap(s, heading, *item.value);
        tally.check(test::near(u.published_s + *item.miss, out.inbound_s, 1e-6), say);
        tally.check(item.good == (std::abs(*item.miss) <= kGoodInboundS), say);
        if (item.exact && *item.exact >= 0.0) {
          const Rollout exact = flown_lap(s, heading, *item.exact);
          tally.check(test::near(exact.inbound_s, u.published_s, 1e-6), say);
        }
      } else {
        tally.check(item.id == PracticeId::slow_outbound && item.least <= item.value, say);
        const bool between =
            item.exact && *item.least - 1e-9 <= *item.exact && *item.exact <= *item.value + 1e-9;
        if (between && *item.value > u.published_s) tally.check(item.good, say);
        tally.check(item.miss.has_value() || contains(item.words, "ten minutes"), say);
        if (!item.good && item.miss) tally.check(std::abs(*item.miss) > kGoodInboundS, say);
      }
      // The numbers in the verdict are those of the item, and never contradict it.
      if (contains(item.words, "rolls out past the fix")) continue;
      const double nm = number_after(item.words, "it rolls out ");
      if (nm >= 0.0 && contains(item.words, " NM ") && item.id != PracticeId::first_minute) {
        tally.check(std::abs(nm - std::abs(*item.miss)) <= 0.011, say);
        tally.check((nm <= 0.25) == (std::abs(*item.miss) <= kGoodRolloutNm), say);
        if (nm > 0.0) {
          tally.check(contains(item.words, "past the course") == (*item.miss < 0.0), say);
        }
      }
      const double inbound = number_after(item.words, "the inbound leg takes ");
      if (inbound >= 0.0 && contains(item.words, " s, ")) {
        tally.check(std::abs(inbound - (u.published_s + *item.miss)) <= 0.051, say);
        tally.check(contains(item.words, "longer than") == (*item.miss > 0.0), say);
      }
    }
  }
  tally.settle(30000);
  for (int i = 0; i < kPractices; ++i) {
    INFO(name_of(static_cast<PracticeId>(i)));
    CHECK(good[i] >= 10);
    CHECK(bad[i] >= 10);
  }
}

TEST_CASE("practice: a mirror changes sides and nothing else", "[practice][symmetry]") {
  test::Random r(3203);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    const Scenario s = test::calm_scenario(r);
    const Case a = case_of(s);
    const Case b = case_of(test::mirrored(s));
    const auto say = [&] { return test::named(s); };
    if (!tally.check(a.items.size() == b.items.size(), say)) continue;
    for (std::size_t k = 0; k < a.items.size(); ++k) {
      const PracticeItem& p = a.items[k];
      const PracticeItem& q = b.items[k];
      tally.check(p.id == q.id && p.good == q.good, say);
      tally.check(p.miss.has_value() == q.miss.has_value(), say);
      if (p.miss && q.miss) tally.check(test::near(*p.miss, *q.miss, 1e-6), say);
    }
  }
  tally.settle(5000);
}

TEST_CASE("practice: any link gives sound text and JSON", "[practice][json]") {
  test::Random r(3204);
  test::Tally tally;
  for (int i = 0; i < 1500; ++i) {
    const Scenario s = test::any_scenario(r);
    const Case c = case_of(s);
    Json j;
    write_practice(j, c.items);
    const std::string& text = j.str();
    const auto say = [&] { return test::named(s) + "\n" + text; };
    tally.check(test::JsonCheck(text).fault().empty(), say);
    // An en dash stands for what is no number, a key for a word that is missing.
    tally.check(!contains(text, "–") && !contains(text, "core.") && !contains(text, "{time"), say);
    for (const PracticeItem& item : c.items) {
      for (const std::string* part :
           {&item.title, &item.says, &item.today, &item.exactly, &item.words}) {
        tally.check(!part->empty() && part->find('{') == std::string::npos, say);
      }
      tally.check(contains(item.says, item.id == PracticeId::triple ? "(AIM 5-3-8 j8.)"
                                                                    : "Common practice, no source"),
                  say);
    }
  }
  tally.settle(30000);
}
