// The debrief: the plan's own numbers where the plan is flown, words that agree with their
// numbers, and an answer to whatever was flown.
#include "core/debrief.h"

#include <catch2/catch_test_macros.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <cmath>

#include "core/words.h"
#include "tests/json_check.h"
#include "tests/replay.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;
using Catch::Matchers::WithinAbs;

namespace {

Setup setup_of(const char* link) { return make_setup(parse_link(link).scenario); }

std::string text_about(const Debrief& d, std::string_view about) {
  for (const DebriefLine& line : d.lines) {
    if (line.about == about) return line.text;
  }
  return {};
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// A planned flight by hand, its stopwatch started where its plan does.
struct Replayed {
  Setup u;
  Flight flight;
  HandFlown hand;
  double until_s = 0.0;  ///< the two are the same up to here
  explicit Replayed(const Setup& setup) : u(setup), hand(setup) {
    fly_scenario(u, flight);
    until_s = test::replay(flight, hand);
    // The clock may be started among the turns: in order of time it comes first here.
    HandFlown again(setup);
    double clock = u.scenario.timer == Timer::fix ? 0.0 : flight.level_s;
    bool clocked = false;
    for (int i = 0; i < flight.track.size(); ++i) {
      const Segment& s = flight.track[i];
      if (!clocked && s.start_s >= clock - 1e-9) {
        again.clock(clock);
        clocked = true;
      }
      if (s.straight() || s.duration_s < 1e-9) continue;
      const double to = i + 1 < flight.track.size() ? flight.track[i + 1].heading_deg
                                                    : s.heading_at(s.duration_s);
      again.bug(s.start_s, to, s.rate_deg_s > 0.0 ? Way::right : Way::left);
    }
    hand = again;
  }
};

/// Event of a flight, the first of its kind in a lap.
const Event* event_of(const Flight& f, EventKind kind, int lap) {
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    if (e.kind == kind && e.lap == lap) return &e;
  }
  return nullptr;
}

/// Straight outbound, s: very short legs are not told from pauses in a turn.
double outbound_straight_s(const Flight& f, int lap) {
  const Event* level = event_of(f, EventKind::level, lap);
  const Event* up = event_of(f, EventKind::time_up, lap);
  return level && up ? up->at_s - level->at_s : 0.0;
}

}  // namespace

TEST_CASE("debrief: the opening scene's plan, flown by hand", "[debrief]") {
  const Replayed r(setup_of(""));
  const Debrief d = debrief(r.u, r.hand, r.flight.track.end_s() + 1.0);
  REQUIRE(d.kind == EntryKind::offset);
  CHECK(d.acceptable);
  const FlownRound* e = d.entry();
  REQUIRE(e);
  REQUIRE(e->outbound);
  CHECK_THAT(e->outbound->heading_deg, WithinAbs(r.flight.plan.heading_deg, 1e-9));
  CHECK_THAT(e->outbound->level_s, WithinAbs(r.flight.level_s, 1e-9));
  REQUIRE(e->inbound);
  CHECK_THAT(e->inbound->outbound_s, WithinAbs(r.flight.entry_time_s, 1e-9));
  CHECK_THAT(e->rollout.cross_nm, WithinAbs(r.flight.rollout.cross_nm, 1e-9));
  CHECK(e->clock_s == 0.0);
  CHECK(has(text_about(d, "clock"), "over the fix"));
  CHECK(has(text_about(d, "roll-out"), fixed(std::abs(r.flight.rollout.cross_nm), 1) + " NM past"));
  CHECK(has(text_about(d, "wind"), "160° at 24 kt"));
  CHECK(has(text_about(d, "heading"), degrees_3(d.exact.heading_deg)));
}

TEST_CASE("debrief: of a plan flown by hand it has the plan's numbers", "[debrief][property]") {
  test::Random r(5301);
  test::Tally tally;
  int kinds[3] = {};
  int laps = 0;
  for (int i = 0; i < 900; ++i) {
    Scenario s = test::calm_scenario(r);
    s.entry.reset();
    s.wind_kt = r.decimal(0.0, 25.0);
    s.leg.reset();
    s.heading_deg.reset();
    s.time_s.reset();
    s.speed_is_tas = true;
    s.speed_kt = r.decimal(85.0, 220.0);
    s.multiple = r.stepped(0.0, 3.0, 0.5);
    if (i % 5 == 0) s.roll_deg_s = r.stepped(3.0, 20.0, 1.0);
    s.laps = r.below(4);
    const Setup u = make_setup(s);
    if (!u.arrival.exists || !u.inbound.exists || !u.outbound.exists) continue;
    const Replayed flown(u);
    const Flight& f = flown.flight;
    if (f.stop != Stop::none || outbound_straight_s(f, 0) < 10.0) continue;
    if (s.roll_deg_s > 0.0 && f.fix_missed) continue;
    const Debrief d = debrief(u, flown.hand, std::fmin(f.track.end_s() + 0.5, kMostHandFlownS));
    const std::string name = test::named(s);
    const auto same = [&](double a, double b, const char* what, double tolerance = 1e-8) {
      tally.check(test::near(a, b, tolerance), [&] {
        return name + " " + what + ": " + std::to_string(a) + " for " + std::to_string(b);
      });
    };
    if (!tally.check(d.kind == u.entry, [&] {
          return name + " kind " + (d.kind ? std::to_string(static_cast<int>(*d.kind)) : "none") +
                 " for " + std::to_string(static_cast<int>(u.entry));
        })) {
      continue;
    }
    ++kinds[static_cast<int>(u.entry)];
    const FlownRound& e = d.rounds[0];
    if (!tally.check(e.outbound && e.inbound && e.rollout.exists, [&] { return name + " parts"; }))
      continue;
    same(e.outbound->heading_deg, f.plan.heading_deg, "heading");
    same(e.outbound->level_s, f.level_s, "level");
    same(e.inbound->outbound_s, f.entry_time_s, "outbound time");
    same(e.rollout.at_s, f.rollout.at_s, "roll-out time");
    same(e.rollout.cross_nm, f.rollout.cross_nm, "cross");
    same(e.rollout.to_go_nm, f.rollout.to_go_nm, "to go");
    same(e.clock_s.value_or(-1.0), s.timer == Timer::fix ? 0.0 : f.level_s, "clock");
    same(d.rule ? d.rule->heading_deg : -1.0, f.plan.heading_deg, "rule");
    if (d.exact.exists() && u.entry != EntryKind::parallel) {
      same(d.exact_rollout.cross_nm, 0.0, "exact roll-out");
    }
    for (int k = 1; k <= f.lap_count && outbound_straight_s(f, k) >= 10.0; ++k) {
      const Lap& lap = f.laps[static_cast<unsigned>(k - 1)];
      // A fix passed in a turn, off course: the hand is still in it.
      if (f.fix_missed || lap.outbound_s < 5.0 || lap.rollout.at_s > flown.until_s) break;
      if (!tally.check(
              static_cast<int>(d.rounds.size()) > k && d.rounds[static_cast<unsigned>(k)].inbound,
              [&] { return name + " lap " + std::to_string(k) + " not found"; })) {
        break;
      }
      const FlownRound& round = d.rounds[static_cast<unsigned>(k)];
      same(round.outbound->heading_deg, lap.outbound_heading_deg, "lap heading");
      same(round.inbound->outbound_s, lap.outbound_s, "lap outbound time", 1e-7);
      same(round.rollout.cross_nm, lap.rollout.cross_nm, "lap cross", 1e-7);
      ++laps;
    }
  }
  tally.settle(3000);
  CHECK(kinds[0] > 50);
  CHECK(kinds[1] > 50);
  CHECK(kinds[2] > 100);
  CHECK(laps > 300);
}

TEST_CASE("debrief: it says what it could not find", "[debrief]") {
  const Setup u = setup_of("");
  SECTION("nothing was done") {
    // Arriving about outbound, it is an outbound leg; arriving about inbound, none.
    const Debrief out = debrief(u, HandFlown(u), 300.0);
    CHECK(has(text_about(out, "entry"), "not at all at the fix"));
    CHECK(has(text_about(out, "entry"), "did not turn inbound"));
    const Setup in = setup_of("arrive=230");
    const Debrief d = debrief(in, HandFlown(in), 300.0);
    CHECK(d.passage);
    CHECK(has(text_about(d, "entry"), "did not turn outbound"));
    CHECK(has(text_about(d, "next"), "turn outbound"));
    CHECK(d.rounds.size() == 1);
  }
  SECTION("turned away before the fix") {
    HandFlown hand(u);
    hand.bug(-58.0, 290.0);
    const Debrief d = debrief(u, hand, 300.0);
    CHECK_FALSE(d.passage);
    CHECK(d.rounds.empty());
    CHECK(has(text_about(d, "entry"), "within 1 NM of the fix"));
  }
  SECTION("circled for an hour") {
    HandFlown hand(u);
    hand.turn(0.0, Side::left);
    const Debrief d = debrief(u, hand, kMostHandFlownS);
    CHECK_FALSE(d.kind);
    CHECK(has(text_about(d, "entry"), "did not turn outbound"));
  }
  SECTION("outbound, and never back") {
    HandFlown hand(u);
    hand.bug(0.0, 118.0);
    const Debrief d = debrief(u, hand, 500.0);
    REQUIRE(d.entry()->outbound);
    CHECK_FALSE(d.entry()->inbound);
    CHECK_FALSE(d.kind);
    CHECK(has(text_about(d, "outbound"), "8:20"));
    CHECK(has(text_about(d, "clock"), "did not start"));
    CHECK(has(text_about(d, "next"), "turn inbound"));
  }
  SECTION("turned inbound, and not far enough") {
    HandFlown hand(u);
    hand.clock(0.0);
    hand.bug(0.0, 118.0);
    hand.bug(60.0, 320.0, Way::left);
    const Debrief d = debrief(u, hand, 400.0);
    REQUIRE(d.entry()->inbound);
    CHECK_FALSE(d.entry()->rollout.exists);
    CHECK(d.drift_s == 0.0);
    CHECK(has(text_about(d, "roll-out"), "did not come back to the inbound course"));
    CHECK(has(text_about(d, "next"), "turn on"));
  }
  SECTION("no flight at all") {
    const Setup none = setup_of("wind=320/120&arrive=230");
    const Debrief d = debrief(none, HandFlown(none), 300.0);
    CHECK_FALSE(d.passage);
    CHECK_FALSE(d.lines.empty());
  }
}

TEST_CASE("debrief: the entry is told by what was done", "[debrief]") {
  // Inbound 360, right turns: outbound 180, the holding side is east. Still air.
  const auto flown = [](double arrive, double first, Way first_way, double out_s, double second,
                        Way second_way, double late_s = 0.0) {
    Scenario s = parse_link("inbound=360&turns=right&wind=0/0").scenario;
    s.arrival_course_deg = arrive;
    const Setup u = make_setup(s);
    HandFlown hand(u);
    hand.clock(late_s);
    hand.bug(late_s, first, first_way);
    hand.bug(out_s, second, second_way);
    return debrief(u, hand, 400.0);
  };
  const Debrief offset = flown(150.0, 150.0, Way::shorter, 60.0, 360.0, Way::right);
  CHECK(offset.kind == EntryKind::offset);
  CHECK(offset.acceptable);
  CHECK(flown(120.0, 150.0, Way::right, 60.0, 360.0, Way::right).kind == EntryKind::offset);
  const Debrief parallel = flown(240.0, 180.0, Way::left, 70.0, 330.0, Way::left);
  CHECK(parallel.kind == EntryKind::parallel);
  CHECK(parallel.acceptable);
  const Debrief direct = flown(20.0, 180.0, Way::right, 110.0, 360.0, Way::right);
  CHECK(direct.kind == EntryKind::direct);
  CHECK(direct.acceptable);
  // The wrong one for the arrival.
  const Debrief wrong = flown(240.0, 150.0, Way::left, 70.0, 360.0, Way::right);
  CHECK(wrong.kind == EntryKind::offset);
  CHECK_FALSE(wrong.acceptable);
  CHECK(has(text_about(wrong, "entry"), "calls for another: parallel"));
  CHECK(has(text_about(wrong, "next"), "parallel"));
  // A few seconds late, a few corrections on the way: the same.
  const Debrief late = flown(120.0, 150.0, Way::right, 60.0, 360.0, Way::right, 6.0);
  CHECK(late.kind == EntryKind::offset);
  CHECK(has(text_about(late, "entry"), "6 seconds after the fix"));
  CHECK(has(text_about(late, "clock"), "6 seconds after the fix"));
}

TEST_CASE("debrief: small corrections and short pauses do not hide a leg", "[debrief]") {
  const Setup u = setup_of("wind=0/0");
  HandFlown hand(u);
  hand.clock(2.0);
  hand.bug(0.0, 95.0);
  hand.bug(5.0, 105.0);
  hand.bug(10.0, 115.0);
  hand.bug(30.0, 118.0);  // 118 is held longest
  hand.bug(80.0, 60.0, Way::left);
  hand.bug(102.0, 350.0, Way::left);  // a pause of two seconds or so in the turn
  hand.bug(128.0, 238.0, Way::left);
  const Debrief d = debrief(u, hand, 400.0);
  REQUIRE(d.kind == EntryKind::offset);
  const FlownRound& e = d.rounds[0];
  CHECK(e.outbound->heading_deg == 118.0);
  CHECK_THAT(e.inbound->begun_s, WithinAbs(80.0, 1e-9));
  CHECK_THAT(e.inbound->turned_deg, WithinAbs(-240.0, 1e-9));
  CHECK_THAT(e.rollout_heading_deg, WithinAbs(238.0, 1e-9));
}

TEST_CASE("debrief: words agree with their numbers, whatever was flown", "[debrief][property]") {
  test::Random r(5302);
  test::Tally tally;
  int past = 0;
  int laps = 0;
  for (int i = 0; i < 700; ++i) {
    Scenario s = i % 2 ? test::any_scenario(r) : test::calm_scenario(r);
    const Setup u = make_setup(s);
    HandFlown hand(u);
    double t = r.between(-20.0, 10.0);
    // Half of them fly something like holds, the others anything.
    const bool likely = r.chance(0.5);
    for (int k = 0; k < 14; ++k) {
      const double base = k % 2 ? u.scenario.inbound_course_deg : u.hold.outbound_course_deg();
      const double heading = likely ? base + r.between(-40.0, 40.0) : r.between(0.0, 360.0);
      hand.bug(t, heading, static_cast<Way>(r.below(3)));
      if (r.chance(0.4)) hand.clock(t + r.between(0.0, 10.0));
      if (r.chance(0.1)) hand.turn(t + 10.0, r.chance(0.5) ? Side::left : Side::right);
      t += r.between(5.0, 150.0);
    }
    const double end = r.chance(0.1) ? std::nan("") : r.between(-80.0, 3700.0);
    const Debrief d = debrief(u, hand, end);
    const std::string name = test::named(s);
    const auto check = [&](bool good, const char* what) {
      tally.check(good, [&] { return name + " " + what; });
    };
    check(!d.lines.empty() && d.lines.back().about == "next", "ends with what is next");
    check(static_cast<int>(d.rounds.size()) <= Debrief::kMostRounds, "rounds");
    for (const DebriefLine& line : d.lines) {
      const bool whole = !line.text.empty() && !has(line.text, "core.") && !has(line.text, "{") &&
                         !has(line.text, "–") && !has(line.text, "nan");
      tally.check(whole, [&] { return name + " “" + line.text + "”"; });
    }
    Json json;
    write_debrief(json, u, d);
    check(test::JsonCheck(json.str()).fault().empty(), "json");
    const FlownRound* e = d.entry();
    check((e != nullptr) == d.passage.has_value(), "a round for a passage");
    if (!e) continue;
    if (e->outbound) {
      check(has(text_about(d, "heading"), degrees_3(e->outbound->heading_deg)), "heading said");
      check(has(text_about(d, "clock"), "did not start") == !e->clock_s, "clock said");
      check(e->outbound->level_s >= e->start_s && e->outbound->begun_s >= e->start_s, "order");
    }
    if (e->inbound) {
      check(has(text_about(d, "outbound"), minutes(e->inbound->outbound_s)), "outbound said");
      check(e->inbound->begun_s <= d.end_s + 1e-9, "in time");
    }
    if (e->rollout.exists) {
      const std::string& text = text_about(d, "roll-out");
      const double cross = e->rollout.cross_nm;
      const bool on = std::abs(cross) < 0.05;
      check(has(text, "past the inbound course") == (!on && cross < 0.0), "past");
      check(has(text, "short of the inbound course") == (!on && cross > 0.0), "short");
      if (!on) check(has(text, fixed(std::abs(cross), 1) + " NM"), "miss said");
      check(has(text, "NM past the fix") == !(e->rollout.to_go_nm > 0.0), "behind");
      const double inbound = u.inbound.exists ? u.inbound.heading_deg : s.inbound_course_deg;
      // Within the intercept, and small corrections after it.
      check(std::abs(wrap_180(e->rollout_heading_deg - inbound)) <=
                std::fmax(60.0, s.intercept_deg + 5.0) + 24.0,
            "rolls out inbound");
      past += !on && cross < 0.0 ? 1 : 0;
    }
    if (e->fix) {
      check(has(text_about(d, "inbound"), minutes(e->fix->inbound_s)), "inbound said");
      check(std::abs(u.to_go_nm(hand.pose(e->fix->at_s).at)) < 1e-6, "abeam the fix");
    }
    laps += static_cast<int>(d.rounds.size()) - 1;
    const Scenario own = own_scenario(u, d);
    check(parse_link(write_link(own)).problems.empty(), "own scene is a link");
    for (std::size_t k = 1; k < d.rounds.size(); ++k) {
      check(d.rounds[k].start_s > d.rounds[k - 1].start_s, "laps in order");
    }
  }
  tally.settle(5000);
  CHECK(past > 40);
  CHECK(laps > 40);
}
