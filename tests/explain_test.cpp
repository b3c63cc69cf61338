// Words and numbers say the same.
#include "core/explain.h"

#include <catch2/catch_approx.hpp>
#include <catch2/catch_test_macros.hpp>
#include <cstdlib>

#include "core/common_practice.h"
#include "core/station.h"
#include "core/text_number.h"
#include "core/trade_words.h"
#include "core/words.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

/// The text of a phrase up to its first placeholder and after its last one.
bool shaped_like(const std::string& text, std::string_view key) {
  const std::string_view pattern = word(key);
  const std::size_t open = pattern.find('{');
  const std::size_t close = pattern.rfind('}');
  if (open == std::string_view::npos) return text == pattern;
  const std::string_view head = pattern.substr(0, open);
  const std::string_view tail = pattern.substr(close + 1);
  return text.size() >= head.size() + tail.size() && text.substr(0, head.size()) == head &&
         text.substr(text.size() - tail.size()) == tail;
}

/// First decimal number in a text; 1e300 where there is none.
double number_in(const std::string& text) {
  const std::size_t at = text.find_first_of("0123456789");
  if (at == std::string::npos) return 1e300;
  std::size_t end = text.find_first_not_of("0123456789.", at);
  std::string digits = text.substr(at, end - at);
  if (!digits.empty() && digits.back() == '.') digits.pop_back();
  return read_number(digits).value_or(1e300);
}

}  // namespace

TEST_CASE("explain: the headline is chosen by the number that it states", "[explain][property]") {
  test::Random r(2101);
  test::Tally tally;
  int past = 0;
  int short_of = 0;
  int on = 0;
  int behind = 0;
  int none = 0;
  for (int i = 0; i < 10000; ++i) {
    const Scenario s = i % 2 ? test::calm_scenario(r) : test::random_scenario(r);
    WorkedCase c;  // what the words are about; the plans' table is not needed here
    c.setup = make_setup(s);
    fly_scenario(c.setup, c.flown);
    const Rollout& o = c.flown.rollout;
    const std::string head = headline(c);
    const std::string story = outcome(c);
    const auto say = [&] { return test::named(s) + " " + head + " | " + story; };
    const bool before_fix = o.exists && o.to_go_nm > 0.0;
    tally.check(shaped_like(head, "core.headline.past") == (before_fix && o.cross_nm < -0.1), say);
    tally.check(shaped_like(head, "core.headline.short") == (before_fix && o.cross_nm > 0.1), say);
    tally.check(
        shaped_like(head, "core.headline.on_course") == (before_fix && std::abs(o.cross_nm) <= 0.1),
        say);
    tally.check(shaped_like(head, "core.headline.past_fix") == (o.exists && o.to_go_nm <= 0.0),
                say);
    tally.check(shaped_like(head, "core.headline.none") == !o.exists, say);
    past += before_fix && o.cross_nm < -0.1 ? 1 : 0;
    short_of += before_fix && o.cross_nm > 0.1 ? 1 : 0;
    on += before_fix && std::abs(o.cross_nm) <= 0.1 ? 1 : 0;
    behind += o.exists && o.to_go_nm <= 0.0 ? 1 : 0;
    none += o.exists ? 0 : 1;
    if (before_fix && std::abs(o.cross_nm) > 0.1) {
      // The number is the miss, to its last digit shown.
      tally.check(std::abs(number_in(head) - std::abs(o.cross_nm)) <= 0.05 + 1e-9, say);
      tally.check(std::abs(number_in(story) - std::abs(o.cross_nm)) <= 0.05 + 1e-9, say);
    }
    if (o.exists) {
      const std::string_view side =
          word(o.cross_nm < 0.0 ? "core.side.nonholding" : "core.side.holding");
      tally.check(std::abs(o.cross_nm) <= 0.1 || has(story, side), say);
    } else {
      tally.check(story == reason(c.flown.stop) && !story.empty(), say);
    }
    tally.check(!has(head, "{") && !has(story, "{") && !has(story, "–") && !has(story, "core."),
                say);
  }
  for (const int count : {past, short_of, on, behind, none}) CHECK(count > 150);
  tally.settle(60000);
}

TEST_CASE("explain: why it missed adds up", "[explain][property]") {
  // wind + through the air = distance off course at the roll-out, each with its side.
  test::Random r(2102);
  test::Tally tally;
  int windy = 0;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::calm_scenario(r);
    WorkedCase c;
    c.setup = make_setup(s);
    fly_scenario(c.setup, c.flown);
    const Rollout& o = c.flown.rollout;
    if (!o.exists) continue;
    // Independently: where the aircraft would be in air that stands still.
    Vec2 air{0.0, 0.0};
    for (const Segment& g : c.flown.track) {
      if (g.start_s >= 0.0 && g.end_s() <= o.at_s + 1e-9) air = air + g.air_motion(g.duration_s);
    }
    const double through_air = c.setup.hold.cross_nm(air);
    const double wind = o.cross_nm - through_air;
    const std::string story = outcome(c);
    const auto say = [&] { return test::named(s) + " " + story; };
    const std::string_view pattern = word("core.because.wind");
    const std::string_view start = pattern.substr(0, pattern.find('{'));
    const std::string_view calm = word("core.because.calm");
    tally.check(has(story, calm) == (std::abs(wind) < 0.05), say);
    if (std::abs(wind) < 0.05 || !has(story, std::string(start) + minutes(o.at_s))) continue;
    ++windy;
    const std::string expected = phrase(
        "core.because.wind",
        {{"time", minutes(o.at_s)},
         {"wind", fixed(std::abs(wind), 1)},
         {"wind_side",
          std::string(word(wind >= 0.0 ? "core.side.holding" : "core.side.nonholding"))},
         {"air", fixed(std::abs(through_air), 1)},
         {"air_side",
          std::string(word(through_air >= 0.0 ? "core.side.holding" : "core.side.nonholding"))}});
    tally.check(has(story, expected), [&] { return say() + " wanted " + expected; });
  }
  CHECK(windy > 10000);
  tally.settle(20000);
}

TEST_CASE("explain: a wind that changes has carried the aircraft too", "[explain]") {
  // Calm over the fix, then rising evenly to 60 kt after ten minutes: until t seconds the air has
  // moved 60 t^2 / (2 * 600 * 3600) NM, here square to the course, toward the holding side.
  WorkedCase c;
  c.setup = make_setup(parse_link("inbound=360&turns=right&wind=270/0&later=270/60&arrive=360"
                                  "&entry=direct&heading=180&time=2:00")
                           .scenario);
  fly_scenario(c.setup, c.flown);
  REQUIRE(c.flown.rollout.exists);
  const double t = c.flown.rollout.at_s;
  const double carried_nm = 60.0 * t * t / (2.0 * 600.0 * 3600.0);
  REQUIRE(carried_nm > 0.5);
  const std::string story = outcome(c);
  INFO(story);
  CHECK(has(story, fixed(carried_nm, 1) + " NM toward " + text_of("core.side.holding")));
  CHECK_FALSE(has(story, word("core.because.calm")));
  CHECK_FALSE(has(picture_summary(c), "No wind"));
}

TEST_CASE("explain: the advice for the next minute is true", "[explain][property]") {
  test::Random r(2103);
  test::Tally tally;
  int advised = 0;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::calm_scenario(r);
    WorkedCase c;
    c.setup = make_setup(s);
    fly_scenario(c.setup, c.flown);
    const Rollout& o = c.flown.rollout;
    if (!o.exists) continue;
    const std::string story = outcome(c);
    const auto say = [&] { return test::named(s) + " " + story; };
    tally.check(has(story, word("core.next.past_fix")) == (o.to_go_nm <= 0.0), say);
    const std::string_view pattern = word("core.next.intercept");
    const std::string_view start = pattern.substr(0, pattern.find('{'));
    const bool off = std::abs(o.cross_nm) > kOnCourseNm && o.to_go_nm > 0.0;
    const std::optional<double> angle = intercept_angle_within(c.setup, o.cross_nm, 60.0);
    if (has(story, start)) {
      ++advised;
      tally.check(off && angle.has_value(), say);
      if (angle)
        tally.check(has(story, phrase("core.next.intercept", {{"angle", fixed(*angle, 0)}})), say);
    }
    if (has(story, word("core.next.beyond"))) tally.check(off && !angle, say);
  }
  CHECK(advised > 1000);
  tally.settle(20000);
}

TEST_CASE("explain: the fix behind is not called ahead", "[explain][property]") {
  test::Random r(2105);
  test::Tally tally;
  int behind = 0;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::calm_scenario(r);
    WorkedCase c;
    c.setup = make_setup(s);
    fly_scenario(c.setup, c.flown);
    const Rollout& o = c.flown.rollout;
    if (!o.exists) continue;
    const std::string story = outcome(c);
    const auto say = [&] { return test::named(s) + " " + story; };
    // A time to the fix has no minus sign, and nothing is within nothing of the course.
    tally.check(!has(story, "−"), say);
    tally.check(std::abs(o.cross_nm) > kOnCourseNm || !has(story, "0.00"), say);
    behind += o.to_go_nm < 0.0 ? 1 : 0;
  }
  CHECK(behind > 300);
  tally.settle(30000);
}

TEST_CASE("explain: sums add up as they are shown", "[explain][property]") {
  // On whole-degree courses; between them each number is rounded for itself.
  test::Random r(2106);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    Scenario s = test::random_scenario(r);
    s.inbound_course_deg = r.stepped(1.0, 360.0, 1.0);
    WorkedCase c;
    c.setup = make_setup(s);
    for (const std::string& step : sum_steps(c)) {
      for (const char* sign : {"° + ", "° − "}) {
        const std::size_t at = step.find(sign);
        if (at == std::string::npos || at < 3) continue;
        const std::size_t equals = step.find(" = ", at);
        if (equals == std::string::npos) continue;
        const int base = std::atoi(step.substr(at - 3, 3).c_str());
        const int by = std::atoi(step.substr(at + std::string(sign).size()).c_str());
        const int sum = std::atoi(step.substr(equals + 3, 3).c_str());
        const int shown = base + (sign[3] == '+' ? by : -by);
        tally.check((shown - sum) % 360 == 0, [&] { return test::named(s) + " " + step; });
      }
    }
  }
  tally.settle(8000);
}

TEST_CASE("explain: the sum of the opening scene, line by line", "[explain]") {
  const WorkedCase c = work_out(Scenario{});
  const std::vector<std::string> steps = sum_steps(c);
  REQUIRE(steps.size() == 4);
  CHECK(steps[0] == phrase("core.sum.outbound_minus", {{"inbound", "238"}, {"outbound", "058°"}}));
  CHECK(steps[1] == phrase("core.sum.left", {{"base", "088°"}}));
  const std::string wca = fixed(c.setup.arrival.wca_deg, 0);
  const std::string heading = degrees_3(*rule_heading(c.setup, HeadingRule::drift_once));
  CHECK(has(steps[2], wca + "° " + std::string(word("core.right"))));
  CHECK(has(steps[2], heading));
  CHECK(has(steps[3], "1:00"));
  CHECK(has(steps[3], word("core.left")));
  CHECK(has(steps[3], degrees_3(c.setup.inbound.heading_deg)));
}

TEST_CASE("explain: the sum of a parallel entry ends on the heading of its roll-out", "[explain]") {
  for (const auto& [link, side] :
       {std::pair("inbound=360&turns=left&arrive=120&wind=200/25&parallel=fix", "right"),
        std::pair("inbound=360&turns=right&arrive=250&wind=270/20&parallel=course", "left")}) {
    const WorkedCase c = work_out(parse_link(link).scenario);
    REQUIRE(c.setup.entry == EntryKind::parallel);
    const std::optional<double> heading = rollout_heading_deg(c.flown);
    REQUIRE(heading);
    CHECK(std::abs(wrap_180(*heading - c.setup.inbound.heading_deg)) > 20.0);
    CHECK(has(sum_steps(c).back(), std::string(side) + " to " + degrees_3(*heading)));
  }
}

TEST_CASE("explain: every sum ends at the heading that is flown", "[explain][property]") {
  test::Random r(2104);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const Scenario s = test::random_scenario(r);
    WorkedCase c;
    c.setup = make_setup(s);
    fly_scenario(c.setup, c.flown);
    const std::vector<std::string> steps = sum_steps(c);
    std::string all;
    for (const std::string& step : steps) all += step + "\n";
    const auto say = [&] { return test::named(s) + "\n" + all; };
    tally.check(!steps.empty() && !has(all, "{") && !has(all, "–") && !has(all, "core."), say);
    const std::optional<double> rule = chosen_heading(c.setup);
    if (rule) tally.check(has(all, degrees_3(*rule)), say);
    const std::optional<EntryPlan> plan = scenario_plan(c.setup);
    if (plan && c.setup.entry != EntryKind::direct) {
      tally.check(has(all, degrees_3(plan->heading_deg)), say);
    }
    tally.check(has(sector_reason(c), "°") || !c.setup.sector, say);
    tally.check(!picture_summary(c).empty() && !has(picture_summary(c), "{"), say);
  }
  tally.settle(60000);
}

TEST_CASE("explain: where the station stands, in words that are its numbers", "[explain]") {
  Scenario s;
  s.altitude_ft = 12152.2;  // 2 NM: 1 NM is 6,076.1 ft
  s.elevation_ft = 0.0;
  s.station = {Station::Place::ahead, 10.0};
  std::vector<std::string> words = station_words(work_out(s));
  REQUIRE(words.size() >= 2);
  CHECK(words[0] == phrase("core.station.ahead", {{"dme", "10.0"}}));
  // Derived: 10 NM on the slant from 2 NM above is sqrt(100 - 4) = 9.80 NM over the ground.
  CHECK(words[1] ==
        phrase("core.station.slant", {{"dme", "10.0"}, {"height", "12152"}, {"ground", "9.80"}}));
  s.station.place = Station::Place::behind;
  CHECK(station_words(work_out(s))[0] == phrase("core.station.behind", {{"dme", "10.0"}}));
  s.station.dme_nm = 1.5;  // nearer than the station is below
  CHECK(station_words(work_out(s))[1] ==
        phrase("core.station.too_near", {{"height", "12152"}, {"least", "2.0"}, {"dme", "1.5"}}));
  s.station.place = Station::Place::at_fix;
  CHECK(station_words(work_out(s))[0] == text_of("core.station.fix"));
}

TEST_CASE("explain: a leg that ends by DME says the reading, or that there is none", "[explain]") {
  Scenario s;
  s.altitude_ft = 12152.2;
  s.elevation_ft = 0.0;
  s.leg = {Leg::Kind::distance, 5.0};
  s.measure = Measure::dme;
  s.station = {Station::Place::ahead, 10.0};
  const WorkedCase beyond = work_out(s);
  const double reading = leg_end_dme_nm(beyond.setup);
  CHECK(reading == 15.0);  // the pattern lies beyond the fix
  bool said = false;
  for (const std::string& line : station_words(beyond)) {
    said = said || line == phrase("core.station.end_dme",
                                  {{"reading", fixed(reading, 1)},
                                   {"ground", fixed(std::sqrt(15.0 * 15.0 - 4.0), 2)}});
  }
  CHECK(said);
  s.entry = EntryKind::direct;
  said = false;
  const WorkedCase direct = work_out(s);
  REQUIRE(direct.flown.ended_by == LegEnd::dme);
  for (const EntryCase& entry : direct.entries) {
    if (!entry.exists || entry.kind != EntryKind::direct) continue;
    for (const std::string& line : entry_steps(direct.setup, entry)) {
      said = said || has(line, phrase("core.leg.dme", {{"reading", "15.0"}}));
    }
  }
  CHECK(said);
}

TEST_CASE("explain: the wind's words say true from magnetic, and what it becomes", "[explain]") {
  Scenario s;
  CHECK(wind_model_words(make_setup(s)).size() == 1);
  s.wind_is_true = true;
  s.variation_east_deg = 10.0;
  s.wind_from_deg = 240.0;
  s.later_wind = LaterWind{300.0, 35.0};
  const std::vector<std::string> words = wind_model_words(make_setup(s));
  REQUIRE(words.size() == 3);
  CHECK(has(words[1], "240"));
  CHECK(has(words[1], degrees_3(make_setup(s).wind.from_deg)));
  CHECK(words[2] == phrase("core.wind.later", {{"from", degrees_3(290.0)}, {"speed", "35"}}));
}

TEST_CASE("explain: winds referred to magnetic north are the same winds", "[explain]") {
  Scenario s = parse_link("wind=160/24&windref=true&variation=30E&later=250/40&laps=2").scenario;
  const Setup as_true = make_setup(s);
  refer_winds_to_magnetic(s);
  const Setup magnetic = make_setup(s);
  CHECK_FALSE(s.wind_is_true);
  CHECK(length(magnetic.wind_nm_s - as_true.wind_nm_s) < 1e-15);
  CHECK(length(magnetic.wind_change_nm_s2 - as_true.wind_change_nm_s2) < 1e-18);
  // What is told of "a little more wind" is of the wind that changes as this one does.
  const auto practice = [](const char* link) {
    const WorkedCase c = work_out(parse_link(link).scenario);
    std::string all;
    for (const PracticeItem& item : common_practice(c, study_laps(c.setup, c.lap))) {
      all += item.exactly + "\n" + item.words + "\n";
    }
    return all;
  };
  CHECK(practice("wind=160/24&windref=true&variation=30E&later=250/40") ==
        practice("wind=130/24&later=220/40"));
}

TEST_CASE("explain: the clock of an exact lap is told of the heading that is flown", "[explain]") {
  // Three times the correction is 34 degrees there; the exact lap flies 44.
  const WorkedCase c = work_out(
      parse_link("inbound=360&turns=right&arrive=150&wind=60/25&laps=1&multiple=exact").scenario);
  REQUIRE(c.lap.exists());
  REQUIRE(c.flown.lap_count == 1);
  CHECK(flown_lap_heading(c) == c.flown.laps[0].outbound_heading_deg);
  const double seconds = abeam_after_level_s(c.setup, c.flown.laps[0].outbound_heading_deg);
  CHECK(timing_words(c) == phrase("core.timing.abeam", {{"seconds", fixed(seconds, 0)}}));
  CHECK(timing_words(c) !=
        timing_words(
            work_out(parse_link("inbound=360&turns=right&arrive=150&wind=60/25&laps=1").scenario)));
}

TEST_CASE("explain: a direct entry says more or less than half a circle, or neither", "[explain]") {
  struct Row {
    double off_deg;  ///< of the arrival, from the inbound course
    const char* key;
  };
  for (const Row& row : {Row{0.0, "core.step.direct"}, Row{30.0, "core.step.direct_less"},
                         Row{-30.0, "core.step.direct_more"}}) {
    Scenario s;
    s.entry = EntryKind::direct;
    s.turns = Side::right;
    s.wind_kt = 0.0;
    s.arrival_course_deg = wrap_360(s.inbound_course_deg + row.off_deg);
    const WorkedCase c = work_out(s);
    for (const EntryCase& entry : c.entries) {
      if (entry.kind != EntryKind::direct) continue;
      REQUIRE(entry.exists);
      const EntryTurn turn = first_turn(c.setup, entry);
      CHECK(entry_steps(c.setup, entry)[0] ==
            phrase(row.key, {{"side", "right"},
                             {"angle", fixed(turn.angle_deg, 0)},
                             {"heading", degrees_3(entry.flight.plan.heading_deg)}}));
      CHECK(turn.angle_deg == Catch::Approx(180.0 - row.off_deg).margin(1e-6));
    }
  }
}
