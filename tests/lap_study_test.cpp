// Where triple the drift is right: the law of the exact multiple, laps flown, words.
#include "core/lap_study.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

#include "core/words.h"
#include "tests/json_check.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

LapStudy study_of(const Setup& u) { return study_laps(u, exact_lap(u)); }

/// The lap flown by the pilot: a direct entry along the inbound course is one.
Flight& flown_lap(const Setup& setup, double heading_deg, double outbound_s) {
  static Flight flight;
  Scenario s = setup.scenario;
  s.arrival_course_deg = s.inbound_course_deg;
  s.entry = EntryKind::direct;
  s.laps = 0;
  s.time_s = outbound_s;
  fly(make_setup(s), {EntryKind::direct, heading_deg, outbound_s}, flight);
  return flight;
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string joined(const std::vector<std::string>& sentences) {
  std::string all;
  for (const std::string& s : sentences) all += s + "\n";
  return all;
}

}  // namespace

TEST_CASE("lap study: sin(m wca) S = (S + 2 T180) sin(wca), for every multiple's miss",
          "[laps][study]") {
  test::Random r(3101);
  test::Tally tally;
  for (int i = 0; i < 3000; ++i) {
    const Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    if (!u.inbound.exists) continue;
    const LapStudy study = study_of(u);
    const auto say = [&] { return test::named(s); };
    const double both_s = 360.0 / u.turn.rate_deg_s;
    const double wind = sin_deg(u.inbound.wca_deg);
    const double speed = u.tas_kt / 3600.0;
    for (const LapRow& row : study.rows) {
      if (!row.fit.exists()) continue;
      const double off = u.hold.outbound_course_deg() - row.heading_deg;
      const double cross_nm =
          u.turn_sign * speed *
          (row.fit.straight_s * sin_deg(off) - (row.fit.straight_s + both_s) * wind);
      tally.check(test::near(row.fit.cross_nm, cross_nm, 1e-8), say);
      if (row.exact) {
        tally.check(std::abs(row.fit.cross_nm) < 1e-6, say);
        if (study.why == NoMultiple::none) {
          tally.check(std::abs(wrap_180(study.exact * u.inbound.wca_deg - off)) < 1e-9, say);
        }
      } else {
        tally.check(std::abs(wrap_180(row.multiple * u.inbound.wca_deg - off)) < 1e-9, say);
      }
    }
  }
  tally.settle(8000);
}

TEST_CASE("lap study: flown by the pilot, every row gives the wanted inbound leg and the miss said",
          "[laps][study]") {
  test::Random r(3102);
  test::Tally tally;
  for (int i = 0; i < 1500; ++i) {
    const Scenario s = test::calm_scenario(r);
    const Setup u = make_setup(s);
    const LapStudy study = study_of(u);
    const auto say = [&] { return test::named(s); };
    for (const LapRow& row : study.rows) {
      if (!row.fit.exists() || row.fit.outbound_s < 0.0) continue;
      const Flight& f = flown_lap(u, row.heading_deg, row.fit.outbound_s);
      if (!tally.check(f.rollout.exists, say)) continue;
      tally.check(test::near(f.rollout.cross_nm, row.fit.cross_nm, 1e-6), say);
      const double wanted_nm = u.leg.kind == Leg::Kind::distance
                                   ? u.leg.value
                                   : u.published_s * u.inbound.groundspeed_kt / 3600.0;
      tally.check(test::near(f.rollout.to_go_nm, wanted_nm, 1e-6), say);
    }
    // Any time, not only the fitting one.
    const double heading = wrap_360(u.hold.outbound_course_deg() + r.between(-40.0, 40.0));
    const double time_s = r.between(0.0, 300.0);
    const Rollout said = lap_rollout(u, heading, time_s);
    if (!said.exists) continue;
    const Flight& f = flown_lap(u, heading, time_s);
    tally.check(f.rollout.exists && test::near(f.rollout.cross_nm, said.cross_nm, 1e-9) &&
                    test::near(f.rollout.inbound_s, said.inbound_s, 1e-9) &&
                    test::near(f.rollout.at_s, said.at_s, 1e-9),
                say);
  }
  tally.settle(10000);
}

TEST_CASE("lap study: triple is right for small corrections where the straight is half a circle",
          "[laps][study]") {
  test::Random r(3103);
  test::Tally tally;
  for (int i = 0; i < 500; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.3);
    s.turns = r.chance(0.5) ? Side::left : Side::right;
    s.speed_is_tas = true;
    s.speed_kt = r.between(80.0, 170.0);
    s.wind_from_deg = wrap_360(s.inbound_course_deg + (r.chance(0.5) ? 90.0 : -90.0));
    s.wind_kt = s.speed_kt * sin_deg(r.between(0.6, 3.0));
    const Setup u = make_setup(s);
    const LapStudy study = study_of(u);
    const auto say = [&] { return test::named(s); };
    if (!tally.check(study.why == NoMultiple::none, say)) continue;
    tally.check(std::abs(study.exact - 3.0) < 0.04, say);
    tally.check(std::abs(study.rows[3].fit.cross_nm) < 0.01, say);
    // Once leaves the drift of the two turns: 120 s of the crosswind.
    tally.check(std::abs(std::abs(study.rows[0].fit.cross_nm) - s.wind_kt / 30.0) < 0.01, say);
    // Wind from the right pushes left: toward the holding side of left turns.
    const bool to_holding = (u.inbound.wca_deg > 0.0) == (s.turns == Side::left);
    tally.check((study.rows[0].fit.cross_nm > 0.0) == to_holding, say);
  }
  tally.settle(2000);
}

TEST_CASE("lap study: no multiple, and why", "[laps][study]") {
  Scenario s;
  s.inbound_course_deg = 360.0;
  s.speed_is_tas = true;
  s.speed_kt = 100.0;
  s.wind_from_deg = 360.0;
  s.wind_kt = 20.0;
  const Setup along = make_setup(s);
  const LapStudy no_drift = study_of(along);
  CHECK(no_drift.why == NoMultiple::no_drift);
  CHECK(no_drift.rows[3].fit.exists());
  CHECK(std::abs(no_drift.rows[3].fit.cross_nm) < 1e-9);

  s.wind_from_deg = 90.0;
  s.wind_kt = 120.0;
  const Setup storm = make_setup(s);
  const LapStudy no_inbound = study_of(storm);
  CHECK(no_inbound.why == NoMultiple::no_inbound);
  CHECK(lap_study_words(storm, no_inbound).empty());
  Json j;
  write_multiples(j, storm, no_inbound);
  CHECK(j.str() == "null");
  CHECK(fit_lap(storm, 180.0).why == NoPlan::no_inbound);
  CHECK_FALSE(lap_rollout(storm, 180.0, 60.0).exists);

  // A strong headwind inbound: the turns alone carry the aircraft too far out.
  s.wind_from_deg = 20.0;
  s.wind_kt = 60.0;
  const Setup carried = make_setup(s);
  const LapStudy no_lap = study_of(carried);
  CHECK(no_lap.why == NoMultiple::no_lap);
  CHECK(no_lap.lap.why == NoPlan::too_short);
  CHECK(no_lap.rows[0].fit.why == NoPlan::too_short);

  // Square to the course no way is made outbound.
  s.wind_kt = 0.0;
  CHECK(fit_lap(make_setup(s), 90.0).why == NoPlan::misses);
  for (int i = 0; i < 4; ++i) CHECK(!name_of(static_cast<NoMultiple>(i)).empty());
}

TEST_CASE("lap study: from twelve winds, each as if it were today's", "[laps][study]") {
  test::Random r(3104);
  test::Tally tally;
  for (int i = 0; i < 4000; ++i) {
    Scenario s = test::random_scenario(r);
    const Setup u = make_setup(s);
    const LapStudy study = study_of(u);
    const StudiedWind& w = study.by_wind[static_cast<unsigned>(r.below(kStudiedWinds))];
    s.wind_is_true = false;
    s.wind_kt = u.wind.speed_kt;
    s.wind_from_deg = w.from_deg;
    const Setup v = make_setup(s);
    const LapStudy other = study_of(v);
    const auto say = [&] { return test::named(s); };
    tally.check(w.why == other.why, say);
    if (w.why == NoMultiple::none) tally.check(test::near(w.exact, other.exact, 1e-6), say);
    tally.check(w.triple.why == other.rows[3].fit.why, say);
    tally.check(w.triple.cross_nm == other.rows[3].fit.cross_nm, say);
    tally.check(w.once.cross_nm == other.rows[0].fit.cross_nm, say);
  }
  tally.settle(15000);
}

TEST_CASE("lap study: the words agree with the numbers", "[laps][study][words]") {
  test::Random r(3105);
  test::Tally tally;
  int said[5] = {};
  for (int i = 0; i < 2000; ++i) {
    const Scenario s = r.chance(0.5) ? test::calm_scenario(r) : test::any_scenario(r);
    const Setup u = make_setup(s);
    const LapStudy study = study_of(u);
    const std::string text = joined(lap_study_words(u, study));
    const auto say = [&] { return test::named(s) + "\n" + text; };
    tally.check(!contains(text, "–") && !contains(text, "core.") && !contains(text, "{"), say);
    tally.check(text.empty() == (study.why == NoMultiple::no_inbound), say);
    if (study.why == NoMultiple::none) {
      tally.check(contains(text, ": " + fixed(study.exact, 1) + " times as much"), say);
      tally.check(contains(text, "heading " + degrees_3(study.lap.heading_deg)), say);
      const bool less = contains(text, "Less than triple");
      const bool more = contains(text, "More than triple");
      const bool same = contains(text, "about right");
      tally.check(less + more + same == (study.lap.straight_s >= 1.0 ? 1 : 0), say);
      if (less) tally.check(study.exact < 2.9 + 1e-9, say);
      if (more) tally.check(study.exact > 3.1 - 1e-9, say);
      if (same) tally.check(std::abs(study.exact - 3.0) < 0.1 + 1e-9, say);
      // Less than triple is never asked for by a straight shorter than half a circle.
      const double half_s = 180.0 / u.turn.rate_deg_s;
      if (less) tally.check(study.lap.straight_s > half_s, say);
      said[0] += less;
      said[1] += more;
      said[2] += same;
    }
    const LapFit& triple = study.rows[3].fit;
    if (study.why != NoMultiple::no_inbound && study.why != NoMultiple::no_drift &&
        triple.exists()) {
      const std::size_t at = text.find("Triple the correction rolls out");
      if (!tally.check(at != std::string::npos, say)) continue;
      const std::string sentence = text.substr(at, text.find('\n', at) - at);
      const bool good = std::abs(triple.cross_nm) <= kGoodRolloutNm;
      tally.check(contains(sentence, "not good enough") == !good, say);
      tally.check(contains(sentence, "past the course") ==
                      (triple.cross_nm < 0.0 && std::abs(triple.cross_nm) >= 0.005),
                  say);
      ++said[good ? 3 : 4];
    }
  }
  tally.settle(6000);
  for (const int count : said) CHECK(count >= 20);
}

TEST_CASE("lap study: as JSON", "[laps][study][json]") {
  test::Random r(3106);
  test::Tally tally;
  for (int i = 0; i < 500; ++i) {
    const Scenario s = test::any_scenario(r);
    const Setup u = make_setup(s);
    const LapStudy study = study_of(u);
    Json j;
    write_multiples(j, u, study);
    const std::string& text = j.str();
    const auto say = [&] { return test::named(s) + "\n" + text; };
    tally.check(test::JsonCheck(text).fault().empty(), say);
    if (study.why == NoMultiple::no_inbound) continue;
    tally.check((study.why == NoMultiple::none) == contains(text, "\"why\":null,\"rows\""), say);
    for (const char* key : {"\"inbound_wca_deg\":", "\"rows\":[{\"multiple\":1,", "\"words\":[",
                            "\"by_wind\":[{\"from_deg\":", "\"triple_cross_nm\":"}) {
      tally.check(contains(text, key), say);
    }
  }
  tally.settle(1500);
}
