// Who stays inside the indicative protected area, and by how much.
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/protected_area.h"
#include "tests/areas.h"
#include "tests/tally.h"

using namespace core;
using test::kCutNm;
using test::named;
using test::random_inputs;

namespace {

/// Flies one piece and takes the least distance inside on the way.
void fly_piece(Vec2& at, double& heading_deg, double rate_deg_s, double seconds,
               const TemplateTerms& t, Vec2 wind_nm_s, const Outline& o, double& least) {
  const Segment s{0.0,      seconds,   at,         heading_deg, rate_deg_s,
                  t.v_nm_s, wind_nm_s, {0.0, 0.0}, kNoRoll};
  const int steps = rate_deg_s == 0.0 ? 1 : 12;
  for (int k = 1; k <= steps; ++k) {
    least = std::fmin(least, inside_nm(o, s.position_at(seconds * k / steps)));
  }
  at = s.position_at(seconds);
  heading_deg = s.heading_at(seconds);
}

Vec2 random_wind(test::Random& r, const TemplateTerms& t) {
  const double from = r.between(0.0, 360.0);
  const double share = r.chance(0.6) ? 1.0 : r.unit();
  return along(from) * (t.w_nm_s * share);
}

}  // namespace

TEST_CASE("area: the still-air pattern lies well inside", "[area][property]") {
  test::Random r(2205);
  test::Tally tally;
  static Flight f;
  for (int i = 0; i < 80; ++i) {
    Scenario s;
    s.inbound_course_deg = test::random_direction(r, 0.3);
    s.turns = r.chance(0.5) ? Side::right : Side::left;
    s.arrival_course_deg = s.inbound_course_deg;
    s.entry = EntryKind::direct;
    s.altitude_ft = r.between(0.0, 18000.0);
    s.isa_deviation_c = 15.0;
    s.bank_limit_deg = 25.0;
    s.wind_kt = 0.0;
    s.laps = 2;
    const SpeedLimit limit = greatest_holding_speed(SpeedRule::icao, s.altitude_ft);
    s.speed_is_tas = true;
    s.speed_kt = pans_ops_tas_factor(s.altitude_ft, 15.0) * limit.ias_kt;
    const Setup u = make_setup(s);
    const ProtectedArea a = protected_area(area_inputs(u, limit));
    fly_scenario(u, f);
    const InsideBy by = inside_by_nm(a, f);
    const auto say = [&] { return test::named(s) + " by " + std::to_string(by.basic_nm); };
    tally.check(by.exists(), say);
    // At the fix the area reaches past by what 11 s and the wind carry.
    tally.check(by.basic_nm > a.terms.ac_nm + a.terms.wc_nm - 0.01, say);
  }
  tally.settle(160);
}

TEST_CASE("area: whoever flies within the tolerances and the design wind stays in the basic area",
          "[area][property]") {
  test::Random r(2206);
  test::Tally tally;
  double tightest = 1e300;
  for (int i = 0; i < 100; ++i) {
    const AreaInputs in = random_inputs(r);
    const ProtectedArea a = protected_area(in);
    const TemplateTerms& t = a.terms;
    const double rate = t.rate_deg_s * sign_of(in.hold.turns);
    for (int k = 0; k < 60; ++k) {
      const Vec2 wind = random_wind(r, t);
      // Late by 5 to 11 s, timed from abeam with 10 s either way, 5 degrees of heading.
      const double late = r.chance(0.3) ? 11.0 : r.between(5.0, 11.0);
      const double timing = r.chance(0.3) ? 10.0 : r.between(-10.0, 10.0);
      const double error = r.chance(0.5) ? r.stepped(-5.0, 5.0, 5.0) : r.between(-5.0, 5.0);
      const double off = r.between(0.0, in.fix_tolerance_nm);
      const double which_way = r.between(0.0, 360.0);
      Vec2 at = along(which_way) * off;
      double heading = in.hold.inbound_course_deg;
      double least = 1e300;
      fly_piece(at, heading, 0.0, late, t, wind, a.basic, least);
      fly_piece(at, heading, rate, 180.0 / t.rate_deg_s, t, wind, a.basic, least);
      heading += error;
      const double out = t.t_s + timing + late;
      fly_piece(at, heading, 0.0, out > 0.0 ? out : 0.0, t, wind, a.basic, least);
      heading -= error;
      fly_piece(at, heading, rate, 180.0 / t.rate_deg_s, t, wind, a.basic, least);
      // Wrap and outline cut the curves by a few thousandths of a mile.
      tally.check(least >= -kCutNm, [&] { return named(in) + " by " + std::to_string(least); });
      tightest = std::fmin(tightest, least);
    }
  }
  // Some come close to the edge: the area is not wider than its tolerances ask for.
  CHECK(tightest < 0.05);
  tally.settle(6000);
}

TEST_CASE("area: entries from every side stay in the entry area", "[area][property]") {
  test::Random r(2207);
  test::Tally tally;
  double outside_basic = 1e300;
  for (int i = 0; i < 100; ++i) {
    const AreaInputs in = random_inputs(r);
    const ProtectedArea a = protected_area(in);
    const TemplateTerms& t = a.terms;
    const double way = sign_of(in.hold.turns);
    for (int k = 0; k < 60; ++k) {
      const Vec2 wind = random_wind(r, t);
      double heading = r.between(0.0, 360.0);
      const EntryKind kind = choose_sector(in.hold, heading).kind;
      const double late = r.between(0.0, 11.0);
      const double more = r.between(-10.0, 15.0);
      const double error = r.between(-5.0, 5.0);
      Vec2 at{0.0, 0.0};
      double least = 1e300;
      fly_piece(at, heading, 0.0, late, t, wind, a.entry, least);
      const double outbound = in.hold.outbound_course_deg();
      const double target = kind == EntryKind::offset ? outbound - 30.0 * way : outbound;
      double turn = wrap_180(target - heading);
      if (kind == EntryKind::direct) turn = way * turn_angle(way * (target - heading));
      fly_piece(at, heading, turn >= 0.0 ? t.rate_deg_s : -t.rate_deg_s,
                std::abs(turn) / t.rate_deg_s, t, wind, a.entry, least);
      heading = target + error;
      fly_piece(at, heading, 0.0, t.t_s + more, t, wind, a.entry, least);
      heading = target;
      outside_basic = std::fmin(outside_basic, inside_nm(a.basic, at));
      const double back = kind == EntryKind::parallel ? -210.0 * way
                          : kind == EntryKind::offset ? 135.0 * way
                                                      : 105.0 * way;
      fly_piece(at, heading, back > 0.0 ? t.rate_deg_s : -t.rate_deg_s,
                std::abs(back) / t.rate_deg_s, t, wind, a.entry, least);
      // Coarser lines than the template's: r (1 - cos 7.5) in the turns.
      tally.check(least >= -0.01 * (t.radius_nm + 1.0),
                  [&] { return named(in) + " by " + std::to_string(least); });
    }
  }
  CHECK(outside_basic < 0.0);  // and some of them leave the basic area
  tally.settle(6000);
}

TEST_CASE("area: a flight's least distance inside is found", "[area][property]") {
  test::Random r(2209);
  test::Tally tally;
  static Flight f;
  int left = 0;
  int beyond = 0;
  for (int i = 0; i < 150; ++i) {
    Scenario s = test::random_scenario(r);
    s.laps = r.below(3);
    const Setup u = make_setup(s);
    const SpeedLimit limit = greatest_holding_speed(
        r.chance(0.5) ? SpeedRule::faa : SpeedRule::icao_cat_ab, s.altitude_ft);
    const ProtectedArea a = protected_area(area_inputs(u, limit, r.chance(0.3) ? 1.0 : 0.0));
    fly_scenario(u, f);
    const InsideBy by = inside_by_nm(a, f);
    const auto say = [&] { return test::named(s) + " " + std::string(name_of(by.why)); };
    if (f.track.size() == 0) {
      tally.check(by.why == NoArea::nothing_flown || by.why == a.why, say);
      continue;
    }
    if (!tally.check(by.exists(), say)) continue;
    double basic = 1e300;
    double buffer = 1e300;
    for (const Segment& p : f.track) {
      if (p.end_s() < 0.0) continue;
      for (int k = 0; k <= 60; ++k) {
        const double t = p.duration_s * k / 60.0;
        if (p.start_s + t < 0.0) continue;  // the arrival has airspace of its own
        basic = std::fmin(basic, inside_nm(a.basic, p.position_at(t)));
        buffer = std::fmin(buffer, inside_nm(a.buffer, p.position_at(t)));
      }
    }
    tally.check(by.basic_nm <= basic + 1e-9 && by.basic_nm > basic - 0.05, say);
    tally.check(by.buffer_nm <= buffer + 1e-9 && by.buffer_nm > buffer - 0.05, say);
    tally.check(by.basic_nm <= by.entry_nm + kCutNm && by.entry_nm < by.buffer_nm, say);
    tally.check(by.basic_at_s >= 0.0, say);
    tally.check(
        std::abs(inside_nm(a.basic, f.track.position_at(by.basic_at_s)) - by.basic_nm) < 1e-6, say);
    const std::string words = inside_words(by);
    tally.check(words.find('{') == std::string::npos && words.substr(0, 5) != "core.", say);
    tally.check((words.find("stays inside the basic") != std::string::npos) == (by.basic_nm >= 0.0),
                say);
    tally.check((words.find("in the buffer") != std::string::npos) ==
                    (by.entry_nm < 0.0 && by.buffer_nm >= 0.0),
                say);
    tally.check((words.find("beyond the outer edge") != std::string::npos) == (by.buffer_nm < 0.0),
                say);
    if (by.basic_nm < 0.0) ++left;
    if (by.buffer_nm < 0.0) ++beyond;
  }
  CHECK(left > 10);
  CHECK(beyond > 2);
  tally.settle(1000);
}
