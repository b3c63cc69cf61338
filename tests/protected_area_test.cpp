// The indicative protected area: its table and its shape.
#include "core/protected_area.h"

#include <catch2/catch_test_macros.hpp>
#include <cstring>
#include <string>

#include "tests/areas.h"
#include "tests/tables/check_rows.h"
#include "tests/tables/protected_area_checks.h"
#include "tests/tally.h"

using namespace core;
using test::corner;
using test::kCutNm;
using test::named;
using test::random_inputs;
using test::reach;

namespace {

/// Distance inside by brute force: crossing count for the side, nearest side for the size.
double inside_by_force(const Outline& o, Vec2 at) {
  bool in = false;
  double nearest = 1e300;
  for (int i = 0; i < Outline::kPoints; ++i) {
    const Vec2 a = corner(o, i);
    const Vec2 b = corner(o, i + 1);
    if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x)) {
      in = !in;
    }
    const int n = 1 + static_cast<int>(length(b - a) / 0.02);
    for (int k = 0; k < n; ++k) {
      nearest = std::fmin(nearest, length(a + (b - a) * (static_cast<double>(k) / n) - at));
    }
  }
  return in ? nearest : -nearest;
}

}  // namespace

TEST_CASE("table: the template's calculation", "[table][area]") {
  test::check_rows(test::kProtectedAreaChecks);
}

TEST_CASE("area: the FAA design wind has a foot and a ceiling", "[area]") {
  CHECK_FALSE(faa_design_wind_kt(3999.0));
  CHECK_FALSE(faa_design_wind_kt(std::nan("")));
  CHECK(faa_design_wind_kt(60000.0) == 120.0);
  CHECK(faa_wind_words(3000.0).empty());
  CHECK(faa_wind_words(10000.0).find("59 kt") != std::string::npos);
}

TEST_CASE("area: the two forms of the design wind are the same within 1.2 kt", "[area]") {
  for (double ft = 0.0; ft <= 45000.0; ft += 500.0) {
    const double km_h = pans_ops_wind_km_h(ft * kMetresPerFoot);
    CHECK(std::abs(km_h * 1000.0 / kMetresPerNm - pans_ops_wind_kt(ft)) < 1.2);
  }
}

TEST_CASE("area: bad inputs have no area, and say why", "[area]") {
  const auto why = [](auto change) {
    AreaInputs in;
    change(in);
    return protected_area(in).why;
  };
  const double nan = std::nan("");
  CHECK(why([](AreaInputs&) {}) == NoArea::none);
  CHECK(why([](AreaInputs& in) { in.altitude_ft = 45001.0; }) == NoArea::bad_altitude);
  CHECK(why([&](AreaInputs& in) { in.altitude_ft = nan; }) == NoArea::bad_altitude);
  CHECK(why([](AreaInputs& in) { in.ias_kt = 39.0; }) == NoArea::bad_speed);
  CHECK(why([&](AreaInputs& in) { in.ias_kt = nan; }) == NoArea::bad_speed);
  CHECK(why([](AreaInputs& in) { in.outbound_s = 4.0; }) == NoArea::bad_time);
  CHECK(why([&](AreaInputs& in) { in.outbound_s = nan; }) == NoArea::bad_time);
  CHECK(why([](AreaInputs& in) { in.bank_deg = 0.0; }) == NoArea::bad_turn);
  CHECK(why([](AreaInputs& in) { in.fix_tolerance_nm = -0.1; }) == NoArea::bad_tolerance);
  // No speed limit, no area; and the measure of it says the same.
  const Setup u = make_setup(Scenario{});
  const AreaInputs in = area_inputs(u, greatest_holding_speed(SpeedRule::faa_charted, 4000.0));
  const ProtectedArea none = protected_area(in);
  CHECK(none.why == NoArea::bad_speed);
  static Flight f;
  fly_scenario(u, f);
  CHECK(inside_by_nm(none, f).why == NoArea::bad_speed);
  CHECK(std::isnan(inside_by_nm(none, f).basic_nm));
  f = Flight();
  CHECK(inside_by_nm(protected_area(AreaInputs{}), f).why == NoArea::nothing_flown);
  for (int i = 1; i <= static_cast<int>(NoArea::nothing_flown); ++i) {
    const std::string text = reason(static_cast<NoArea>(i));
    CHECK(text.substr(0, 5) != "core.");
    CHECK_FALSE(text.empty());
    CHECK(name_of(static_cast<NoArea>(i)) != "none");
  }
}

TEST_CASE("area: the named points drift as the table's W lines say", "[area]") {
  for (const Side turns : {Side::right, Side::left}) {
    AreaInputs in;
    in.hold = {238.0, turns};
    in.ias_kt = 220.0;
    in.altitude_ft = 10000.0;
    const ProtectedArea a = protected_area(in);
    const TemplateTerms& t = a.terms;
    const struct {
      const char* name;
      double drift;
    } wanted[] = {{"a", 0.0},           {"b", t.wb_nm},        {"c", t.wc_nm},
                  {"d", t.wd_nm},       {"e", t.we_nm},        {"f", t.wf_nm},
                  {"g", t.wg_nm},       {"h", t.wh_nm},        {"i1", t.wi_short_nm},
                  {"i2", t.wi_long_nm}, {"i3", t.wi_short_nm}, {"i4", t.wi_long_nm},
                  {"j", t.wj_nm},       {"k", t.wk_nm},        {"l", t.wl_nm},
                  {"m", t.wm_nm},       {"n3", t.wn3_nm},      {"n4", t.wn4_nm}};
    for (std::size_t i = 0; i < a.points.size(); ++i) {
      INFO(wanted[i].name);
      CHECK(std::strcmp(a.points[i].name, wanted[i].name) == 0);
      CHECK(std::abs(a.points[i].drift_nm - wanted[i].drift) < 1e-12);
      // The wrap holds each circle, up to the sagitta between two corners.
      CHECK(inside_nm(a.basic, a.points[i].at) >= a.points[i].drift_nm - kCutNm);
    }
    const auto to_go = [&](int i) {
      return in.hold.to_go_nm(a.points[static_cast<std::size_t>(i)].at);
    };
    const auto cross = [&](int i) {
      return in.hold.cross_nm(a.points[static_cast<std::size_t>(i)].at);
    };
    const double r = t.radius_nm;
    CHECK(std::abs(to_go(1) + t.ab_nm) < 1e-12);
    CHECK(std::abs(to_go(2) + t.ac_nm) < 1e-12);
    CHECK(std::abs(to_go(6) + t.ac_nm) < 1e-12);  // g abeam c, a diameter across
    CHECK(std::abs(cross(6) - 2.0 * r) < 1e-12);
    CHECK(std::abs(to_go(7) + t.ab_nm - r) < 1e-12);  // h: 270 degrees from b
    CHECK(std::abs(cross(7) - r) < 1e-12);
    for (int i = 8; i < 12; ++i) {  // the outbound legs
      const double leg = i % 2 == 0 ? t.gi_short_nm : t.gi_long_nm;
      const double side = i < 10 ? 1.0 : -1.0;
      CHECK(std::abs(to_go(i) - to_go(6) - leg * cos_deg(5.0)) < 1e-12);
      CHECK(std::abs(cross(i) - cross(6) - side * leg * sin_deg(5.0)) < 1e-12);
    }
    CHECK(std::abs(cross(16) - cross(10) + 2.0 * r) < 1e-12);  // n3: 2 r square to the leg
    CHECK(std::abs(to_go(16) - to_go(10)) < 1e-12);
  }
}

TEST_CASE("area: outlines are convex, clockwise, and lie in each other", "[area][property]") {
  test::Random r(2201);
  test::Tally tally;
  for (int i = 0; i < 100; ++i) {
    const AreaInputs in = random_inputs(r);
    const ProtectedArea a = protected_area(in);
    const auto say = [&] { return named(in); };
    if (!tally.check(a.exists(), say)) continue;
    for (const Outline* o : {&a.basic, &a.entry, &a.buffer}) {
      tally.check(enclosed_nm2(*o) > 0.0, say);
      for (int k = 0; k < Outline::kPoints; ++k) {
        const Vec2 u = corner(*o, k + 1) - corner(*o, k);
        const Vec2 v = corner(*o, k + 2) - corner(*o, k + 1);
        tally.check(u.y * v.x - u.x * v.y >= -1e-9, say);  // bends right or not at all
      }
    }
    for (int k = 0; k < Outline::kPoints; ++k) {
      tally.check(inside_nm(a.entry, corner(a.basic, k)) >= -kCutNm,
                  [&] { return say() + " basic in entry"; });
      tally.check(std::abs(inside_nm(a.buffer, corner(a.entry, k)) - kBufferNm) < kCutNm,
                  [&] { return say() + " entry in buffer"; });
      tally.check(std::abs(inside_nm(a.entry, corner(a.buffer, k)) + kBufferNm) < kCutNm,
                  [&] { return say() + " buffer about entry"; });
    }
    tally.check(inside_nm(a.basic, {0.0, 0.0}) >= in.fix_tolerance_nm - kCutNm, say);
    // Steps of the buffer: so many miles out.
    const Outline step = buffer_edge(a, 2.0);
    tally.check(std::abs(inside_nm(a.entry, corner(step, 77)) + 2.0) < kCutNm, say);
  }
  tally.settle(100 * 360 * 6);
}

TEST_CASE("area: left turns are the mirror image, and every course the same shape",
          "[area][symmetry][property]") {
  test::Random r(2202);
  test::Tally tally;
  for (int i = 0; i < 60; ++i) {
    const AreaInputs in = random_inputs(r);
    AreaInputs mirror = in;
    mirror.hold.turns = opposite(in.hold.turns);
    mirror.hold.inbound_course_deg = wrap_360(-in.hold.inbound_course_deg);
    AreaInputs turned = in;
    turned.hold.inbound_course_deg = wrap_360(in.hold.inbound_course_deg + 77.0);
    const ProtectedArea a = protected_area(in);
    const ProtectedArea b = protected_area(mirror);
    const ProtectedArea c = protected_area(turned);
    const SinCos by = sincos_deg(77.0);
    const Outline* of_a[] = {&a.basic, &a.entry, &a.buffer};
    const Outline* of_b[] = {&b.basic, &b.entry, &b.buffer};
    const Outline* of_c[] = {&c.basic, &c.entry, &c.buffer};
    for (int o = 0; o < 3; ++o) {
      for (int k = 0; k < Outline::kPoints; ++k) {
        const Vec2 p = corner(*of_a[o], k);
        const Vec2 q = corner(*of_b[o], -k);
        const Vec2 t = corner(*of_c[o], k);
        tally.check(length(q - Vec2{-p.x, p.y}) < 1e-9, [&] { return named(in) + " mirror"; });
        tally.check(
            length(t - Vec2{p.x * by.cos + p.y * by.sin, p.y * by.cos - p.x * by.sin}) < 1e-9,
            [&] { return named(in) + " turned"; });
      }
    }
  }
  tally.settle(60 * 3 * 360 * 2);
}

TEST_CASE("area: it grows with altitude, tolerance and speed", "[area][property]") {
  test::Random r(2203);
  test::Tally tally;
  for (int i = 0; i < 100; ++i) {
    AreaInputs in = random_inputs(r);
    in.outbound_s = r.chance(0.5) ? 60.0 : 90.0;
    const ProtectedArea a = protected_area(in);
    for (int what = 0; what < 3; ++what) {
      AreaInputs more = in;
      const double by = r.between(0.01, 1.0);
      if (what == 0) more.altitude_ft += 4000.0 * by;
      if (what == 1) more.fix_tolerance_nm += by;
      if (what == 2) more.ias_kt += 40.0 * by;
      const ProtectedArea b = protected_area(more);
      const auto say = [&] { return named(in) + " to " + named(more); };
      tally.check(enclosed_nm2(b.basic) > enclosed_nm2(a.basic), say);
      tally.check(enclosed_nm2(b.entry) > enclosed_nm2(a.entry), say);
      tally.check(enclosed_nm2(b.buffer) > enclosed_nm2(a.buffer), say);
      for (int k = 0; k < Outline::kPoints; ++k) {
        // With more speed an early inbound turn ends farther from the fix, and so reaches
        // less far beyond it.
        if (what == 2 && k > 90 && k < 270) continue;
        const Vec2 u = along(in.hold.outbound_course_deg() + k);
        tally.check(dot(corner(b.basic, k) - corner(a.basic, k), u) >= -1e-9, say);
        tally.check(dot(corner(b.entry, k) - corner(a.entry, k), u) >= -1e-9, say);
      }
    }
  }
  tally.settle(100 * 1800);
}

TEST_CASE("area: a longer outbound leg makes it longer and wider", "[area][property]") {
  // Not in every direction: an early inbound turn then ends farther from the fix.
  test::Random r(2210);
  test::Tally tally;
  for (int i = 0; i < 80; ++i) {
    const AreaInputs in = random_inputs(r);
    AreaInputs more = in;
    more.outbound_s += r.between(1.0, 30.0);
    const ProtectedArea a = protected_area(in);
    const ProtectedArea b = protected_area(more);
    const Vec2 out = in.hold.outbound_axis();
    const Vec2 side = in.hold.holding_axis();
    const auto say = [&] { return named(in) + " to " + named(more); };
    tally.check(enclosed_nm2(b.basic) > enclosed_nm2(a.basic), say);
    tally.check(enclosed_nm2(b.entry) > enclosed_nm2(a.entry), say);
    tally.check(reach(b.basic, out) > reach(a.basic, out), say);
    tally.check(reach(b.basic, side) > reach(a.basic, side), say);
    tally.check(reach(b.basic, side * -1.0) > reach(a.basic, side * -1.0), say);
  }
  tally.settle(400);
}

TEST_CASE("area: the entries reach as far as XE and YE say", "[area][property]") {
  // The two lines are recalled; the drawn entries are our own. That they agree is the
  // check on both. XE takes a whole radius where the last turn has sin 105 of one.
  test::Random r(2204);
  test::Tally tally;
  for (int i = 0; i < 150; ++i) {
    AreaInputs in = random_inputs(r);
    in.fix_tolerance_nm = 0.0;
    in.ias_kt = r.between(90.0, 280.0);
    in.outbound_s = r.between(60.0, 90.0);
    const ProtectedArea a = protected_area(in);
    const double out = reach(a.entry, in.hold.outbound_axis());
    const double off = reach(a.entry, in.hold.holding_axis() * -1.0);
    const auto say = [&] {
      return named(in) + " out " + std::to_string(out) + " of " + std::to_string(a.terms.xe_nm) +
             ", off " + std::to_string(off) + " of " + std::to_string(a.terms.ye_nm);
    };
    tally.check(std::abs(out - a.terms.xe_nm) < 0.01 * a.terms.xe_nm, say);
    // In a wind that is much for the airspeed, a direct entry from the edge of its sector
    // drifts farther in its long turn than YE, a parallel entry's, allows for.
    const TemplateTerms& t = a.terms;
    const double direct =
        11.0 * t.v_nm_s * sin_deg(110.0) - t.radius_nm * (cos_deg(105.0) - cos_deg(110.0)) +
        (t.t_s + 15.0) * t.v_nm_s * sin_deg(5.0) + (t.t_s + 26.0) * t.w_nm_s + 355.0 * t.e_nm_deg;
    const double want = std::fmax(t.ye_nm, direct);
    tally.check(std::abs(off - want) < 0.015 * want, say);
  }
  tally.settle(300);
}

TEST_CASE("area: the distance inside is what brute force says", "[area][property]") {
  test::Random r(2208);
  test::Tally tally;
  for (int i = 0; i < 100; ++i) {
    const ProtectedArea a = protected_area(random_inputs(r));
    for (int k = 0; k < 60; ++k) {
      const double x = r.between(-25.0, 25.0);
      const double y = r.between(-25.0, 25.0);
      const double want = inside_by_force(a.entry, {x, y});
      const double got = inside_nm(a.entry, {x, y});
      // The force samples the sides at every 0.02 NM.
      tally.check((want > 0.0) == (got > 0.0) && std::abs(want - got) < 0.01, [&] {
        return std::to_string(x) + " " + std::to_string(y) + ": " + std::to_string(got) + " for " +
               std::to_string(want);
      });
    }
  }
  tally.settle(6000);
}

TEST_CASE("area: inputs for a setup", "[area]") {
  Scenario s;
  s.altitude_ft = 15000.0;
  s.bank_limit_deg = 30.0;
  const SpeedLimit limit = greatest_holding_speed(SpeedRule::icao, s.altitude_ft);
  AreaInputs in = area_inputs(make_setup(s), limit, 0.7);
  CHECK(in.ias_kt == 240.0);
  CHECK(in.outbound_s == 90.0);
  CHECK(in.altitude_ft == 15000.0);
  CHECK(in.bank_deg == 25.0);
  CHECK(in.isa_deviation_c == 15.0);
  CHECK(in.fix_tolerance_nm == 0.7);
  CHECK(in.hold.turns == s.turns);
  s.leg = Leg{Leg::Kind::distance, 5.0};
  in = area_inputs(make_setup(s), limit);
  CHECK(std::abs(template_terms(240.0, 15000.0, in.outbound_s).length_nm - 5.0) < 1e-12);
  const ProtectedArea a = protected_area(in);
  CHECK(area_words(a).find("240 kt indicated at 15000 ft") != std::string::npos);
  CHECK(area_words(a).find("77 kt") != std::string::npos);
  CHECK(caption_of_area() == "indicative, not for navigation or procedure design");
}
