// A cloud's flights against single flights and an integrator, its numbers against plain sums.
#include "core/cloud.h"

#include <algorithm>
#include <catch2/catch_test_macros.hpp>
#include <string>

#include "tests/json_check.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

Amounts random_amounts(test::Random& r, double scale) {
  Amounts off;
  for (double& amount : off.of) amount = r.between(-scale, scale);
  return off;
}

EntryPlan plan_of(const Setup& u) { return scenario_plan(u).value(); }

/// Offset entries that have a cloud.
Setup calm_setup(test::Random& r, double roll_share = 0.0) {
  for (;;) {
    Scenario s = test::calm_scenario(r);
    if (r.chance(roll_share)) s.roll_deg_s = r.between(2.0, 20.0);
    Setup u = make_setup(s);
    if (why_no_cloud(u) == NoCloud::none && scenario_plan(u)) return u;
  }
}

/// The pilot, step by step: knows the wind triangle and nothing of closed forms.
struct Stepped {
  Vec2 at{0.0, 0.0};
  double t_s = 0.0;
  double heading_deg = 0.0;
  Vec2 wind_nm_s{0.0, 0.0};
  double speed_nm_s = 0.0;

  void fly(double seconds, double rate_deg_s) {
    const int steps = 1 + static_cast<int>(std::abs(seconds) / 0.02);
    const double dt = seconds / steps;
    for (int i = 0; i < steps; ++i) {
      const double middle = (heading_deg + 0.5 * rate_deg_s * dt) * kDegToRad;
      at = at + Vec2{std::sin(middle), std::cos(middle)} * (speed_nm_s * dt) + wind_nm_s * dt;
      heading_deg += rate_deg_s * dt;
    }
    t_s += seconds;
  }
  void turn(double to_deg, double sign, double rate_deg_s) {
    double angle = std::fmod((to_deg - heading_deg) * sign, 360.0);
    if (angle < 0.0) angle += 360.0;
    fly(angle / rate_deg_s, sign * rate_deg_s);
  }
};

Stepped step_by_step(const Setup& u, const EntryPlan& plan, const Amounts& off, double& inbound_s) {
  const Scenario& s = u.scenario;
  const double tas = u.tas_kt + off[Unknown::speed];
  const double from = (u.wind.from_deg + off[Unknown::wind_from]) * kDegToRad;
  const double wind = u.wind.speed_kt + off[Unknown::wind_speed];
  const auto across = [&](double course) { return wind * std::sin(from - course * kDegToRad); };
  const auto wca = [&](double course) { return std::asin(across(course) / tas) * kRadToDeg; };
  const auto speed_along = [&](double course) {
    return tas * std::cos(wca(course) * kDegToRad) - wind * std::cos(from - course * kDegToRad);
  };
  const double bank_rate =
      9.80665 * std::tan(s.bank_limit_deg * kDegToRad) / (tas * 1852.0 / 3600.0) * kRadToDeg;
  const double rate = std::min(3.0, bank_rate);
  Stepped p;
  p.speed_nm_s = tas / 3600.0;
  p.wind_nm_s = Vec2{std::sin(from), std::cos(from)} * (-wind / 3600.0);
  p.heading_deg = s.arrival_course_deg + wca(s.arrival_course_deg);
  p.fly(off[Unknown::turn_start], 0.0);
  const double heading = plan.heading_deg + off[Unknown::heading];
  double way = std::fmod(heading - p.heading_deg, 360.0);
  if (way > 180.0) way -= 360.0;
  if (way < -180.0) way += 360.0;
  p.turn(heading, way < 0.0 ? -1.0 : 1.0, rate);
  const double clock_from = s.timer == Timer::fix ? 0.0 : p.t_s;
  const double left = plan.time_s + off[Unknown::clock] - (p.t_s - clock_from);
  if (left > 0.0) p.fly(left, 0.0);
  p.turn(u.inbound.heading_deg, u.turn_sign, rate);
  inbound_s = u.to_go_nm(p.at) / (speed_along(s.inbound_course_deg) / 3600.0);
  return p;
}

Cloud flown_cloud(const Setup& u, const Amounts& spread, std::uint32_t seed, int count) {
  Cloud cloud;
  cloud.set(u, spread, seed);
  cloud.fly_more(count);
  return cloud;
}

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool same_flights(const Cloud& a, const Cloud& b, int count) {
  for (std::size_t i = 0; i < static_cast<std::size_t>(count); ++i) {
    if (!same(a.cross_nm()[i], b.cross_nm()[i]) || !same(a.to_go_nm()[i], b.to_go_nm()[i]) ||
        !same(a.inbound_s()[i], b.inbound_s()[i])) {
      return false;
    }
  }
  return true;
}

}  // namespace

TEST_CASE("cloud: a flight off in everything is the pilot's, step by step", "[cloud]") {
  test::Random r(6201);
  test::Tally tally;
  for (int i = 0; i < 150; ++i) {
    const Setup u = calm_setup(r);
    const EntryPlan plan = plan_of(u);
    const Amounts off = random_amounts(r, 9.0);
    const Rollout got = deviated_rollout(u, plan, off);
    if (!got.exists) continue;
    double inbound_s = 0.0;
    const Stepped want = step_by_step(u, plan, off, inbound_s);
    const auto say = [&] {
      return test::named(u.scenario) + " " + std::to_string(got.cross_nm) + " for " +
             std::to_string(u.cross_nm(want.at));
    };
    const double far = 1.0 + length(want.at);
    tally.check(length(got.at - want.at) < 2e-6 * far, say);
    tally.check(test::near(got.at_s, want.t_s, 1e-9), say);
    tally.check(std::abs(got.cross_nm - u.cross_nm(want.at)) < 2e-6 * far, say);
    tally.check(test::near(got.inbound_s, inbound_s, 1e-5 * far), say);
  }
  tally.settle(450);
}

TEST_CASE("cloud: with nothing off it is the plan's own roll-out", "[cloud]") {
  test::Random r(6202);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    const Setup u = calm_setup(r, 0.2);
    const EntryPlan plan = plan_of(u);
    const Rollout want = offset_rollout(u, plan.heading_deg, plan.time_s);
    const Cloud cloud = flown_cloud(u, {}, 1, 3);
    const auto say = [&] { return test::named(u.scenario); };
    for (std::size_t k = 0; k < 3; ++k) {
      tally.check(test::near(cloud.cross_nm()[k], want.cross_nm, 1e-9), say);
      tally.check(test::near(cloud.to_go_nm()[k], want.to_go_nm, 1e-9), say);
      tally.check(test::near(cloud.inbound_s()[k], want.inbound_s, 1e-8), say);
    }
    // Another heading and time is another plan.
    Amounts off;
    off[Unknown::heading] = 7.0;
    off[Unknown::clock] = -4.0;
    const Rollout other = deviated_rollout(u, plan, off);
    const Rollout as_plan = offset_rollout(u, wrap_360(plan.heading_deg + 7.0), plan.time_s - 4.0);
    tally.check(test::near(other.cross_nm, as_plan.cross_nm, 1e-12), say);
    tally.check(test::near(other.inbound_s, as_plan.inbound_s, 1e-12), say);
  }
  tally.settle(3300);
}

TEST_CASE("cloud: every flight is the single flight's, strong winds and rolling too",
          "[cloud][property]") {
  test::Random r(6203);
  test::Tally tally;
  int unflown = 0;
  for (int i = 0; i < 400; ++i) {
    Scenario s = test::random_scenario(r);
    s.entry = EntryKind::offset;
    if (r.chance(0.15)) s.roll_deg_s = r.between(1.0, 30.0);
    const Setup u = make_setup(s);
    const Amounts spread{{r.between(0.0, 60.0), r.between(0.0, 30.0), r.between(0.0, 20.0),
                          r.between(0.0, 20.0), r.between(0.0, 20.0), r.between(0.0, 10.0)}};
    const Cloud cloud = flown_cloud(u, spread, static_cast<std::uint32_t>(i), 40);
    for (int k = 0; k < cloud.drawn(); ++k) {
      const Rollout want = deviated_rollout(u, cloud.plan(), cloud.off(k));
      const auto at = static_cast<std::size_t>(k);
      const auto say = [&] {
        return test::named(s) + " flight " + std::to_string(k) + ": " +
               std::to_string(cloud.cross_nm()[at]) + " for " + std::to_string(want.cross_nm);
      };
      if (!want.exists) {
        ++unflown;
        tally.check(std::isnan(cloud.cross_nm()[at]) && std::isnan(cloud.inbound_s()[at]), say);
        continue;
      }
      const double far = 1.0 + length(want.at);
      tally.check(std::abs(cloud.cross_nm()[at] - want.cross_nm) < 1e-9 * far, say);
      tally.check(std::abs(cloud.to_go_nm()[at] - want.to_go_nm) < 1e-9 * far, say);
      tally.check(test::near(cloud.inbound_s()[at], want.inbound_s, 1e-7), say);
      tally.check(length(cloud.rollout(k) - want.at) < 1e-9 * far, say);
    }
  }
  CHECK(unflown > 60);
  tally.settle(15000);
}

TEST_CASE("cloud: several flights at a time and one by one give the same bits", "[cloud]") {
  test::Random r(6204);
  for (int i = 0; i < 60; ++i) {
    Scenario s = test::random_scenario(r);
    s.entry = EntryKind::offset;
    const Setup u = make_setup(s);
    if (why_no_cloud(u) != NoCloud::none) continue;
    Draws draws(1);
    draws.aim(7, 10.0, 3.0);
    draws.reach(33);
    const CloudFrame frame =
        cloud_frame(u, {EntryKind::offset, 100.0, 70.0}, {{10.0, 5.0, 3.0, 2.0, 8.0, 2.0}});
    std::array<std::vector<double>, 6> out;
    for (std::vector<double>& v : out) v.assign(33, 0.0);
    fly_cloud(frame, draws.columns(), 0, 33, out[0].data(), out[1].data(), out[2].data());
    fly_cloud(frame, draws.columns(), 0, 33, out[3].data(), out[4].data(), out[5].data(), true);
    for (std::size_t k = 0; k < 33; ++k) {
      for (std::size_t j = 0; j < 3; ++j) REQUIRE(same(out[j][k], out[j + 3][k]));
    }
  }
}

TEST_CASE("cloud: the first flights are the same however many follow", "[cloud][seeded]") {
  const Setup u = make_setup(Scenario{});
  const Cloud whole = flown_cloud(u, Cloud::kUsual, 11, 1001);
  REQUIRE(whole.drawn() == 1001);
  CHECK(same_flights(flown_cloud(u, Cloud::kUsual, 11, 17), whole, 17));
  Cloud slices;
  slices.set(u, Cloud::kUsual, 11);
  for (const int count : {1, 300, 7, 0, -3, 693}) slices.fly_more(count);
  REQUIRE(slices.drawn() == 1001);
  CHECK(same_flights(slices, whole, 1001));
  CHECK_FALSE(same_flights(flown_cloud(u, Cloud::kUsual, 12, 17), whole, 17));

  // Moved there and back, by way of another spread and seed.
  Scenario other;
  other.wind_kt = 10.0;
  Amounts wide = Cloud::kUsual;
  wide[Unknown::wind_from] = 40.0;
  wide[Unknown::heading] = 1.0;
  const Amounts before = slices.off(5);
  slices.set(make_setup(other), Cloud::kUsual, 11);
  slices.fly_more(10);
  CHECK(slices.off(5) == before);
  slices.set(u, wide, 11);
  slices.fly_more(50);
  CHECK(slices.off(5)[Unknown::wind_from] == 2.0 * before[Unknown::wind_from]);
  CHECK(same_flights(flown_cloud(u, wide, 11, 50), slices, 50));
  slices.set(u, Cloud::kUsual, 3);
  slices.fly_more(2000);
  slices.set(u, Cloud::kUsual, 11);
  slices.fly_more(1001);
  CHECK(same_flights(slices, whole, 1001));

  Cloud full = flown_cloud(u, Cloud::kUsual, 1, Cloud::kMost - 5);
  full.fly_more(100);
  CHECK(full.drawn() == Cloud::kMost);
}

TEST_CASE("cloud: what is off is normal, and a +- holds 19 of 20", "[cloud][seeded]") {
  const int n = 20000;
  const Cloud cloud = flown_cloud(make_setup(Scenario{}), Cloud::kUsual, 5, n);
  std::array<std::array<double, kUnknowns>, kUnknowns> product{};
  std::array<double, kUnknowns> mean{};
  std::array<int, kUnknowns> within{};
  std::array<int, kUnknowns> far{};
  for (int i = 0; i < n; ++i) {
    const Amounts off = cloud.off(i);
    for (std::size_t a = 0; a < kUnknowns; ++a) {
      const double z = off.of[a] / Cloud::kUsual.of[a] * 1.96;
      mean[a] += z / n;
      within[a] += std::abs(z) <= 1.96;
      far[a] += std::abs(z) > 3.0;
      for (std::size_t b = 0; b <= a; ++b) {
        product[a][b] += z * (off.of[b] / Cloud::kUsual.of[b] * 1.96) / n;
      }
    }
  }
  // Five standard errors each: 1/sqrt(n), sqrt(2/n), sqrt(0.95 0.05 / n), sqrt(0.0027 / n).
  const double error = 1.0 / std::sqrt(static_cast<double>(n));
  for (std::size_t a = 0; a < kUnknowns; ++a) {
    CHECK(std::abs(mean[a]) < 5.0 * error);
    CHECK(std::abs(within[a] / static_cast<double>(n) - 0.95) < 5.0 * 0.218 * error);
    CHECK(std::abs(far[a] / static_cast<double>(n) - 0.0027) < 5.0 * 0.052 * error);
    CHECK(std::abs(product[a][a] - 1.0) < 5.0 * 1.415 * error);
    for (std::size_t b = 0; b < a; ++b) CHECK(std::abs(product[a][b]) < 5.0 * error);
  }
}

TEST_CASE("cloud: its numbers are plain sums and counts", "[cloud]") {
  test::Random r(6205);
  int with_unflown = 0;
  for (int i = 0; i < 30; ++i) {
    Scenario s = test::random_scenario(r);
    s.entry = EntryKind::offset;
    const Cloud cloud = flown_cloud(make_setup(s), {{60.0, 30.0, 5.0, 5.0, 20.0, 3.0}}, 9, 2000);
    const CloudSummary got = cloud.summary(0.4);
    std::vector<double> cross;
    int inside = 0;
    for (const double v : cloud.cross_nm()) {
      if (!std::isnan(v)) cross.push_back(v);
      inside += std::abs(v) <= 0.4;
    }
    CHECK(got.drawn == cloud.drawn());
    REQUIRE(got.flown == static_cast<int>(cross.size()));
    CHECK(got.inside == inside);
    if (cross.size() < 100) continue;
    with_unflown += got.flown < got.drawn;
    CHECK(got.inside_share == inside / 2000.0);
    long double sum = 0.0L;
    for (const double v : cross) sum += static_cast<long double>(v);
    const long double mean = sum / static_cast<long double>(cross.size());
    long double squares = 0.0L;
    for (const double v : cross) {
      squares += (static_cast<long double>(v) - mean) * (static_cast<long double>(v) - mean);
    }
    const auto n = static_cast<long double>(cross.size());
    CHECK(test::near(got.cross_nm.mean, static_cast<double>(mean), 1e-11));
    CHECK(test::near(got.cross_nm.sd, static_cast<double>(std::sqrt(squares / (n - 1.0L))), 1e-11));
    const auto below = [&](double level) {
      return static_cast<double>(
                 std::count_if(cross.begin(), cross.end(), [&](double v) { return v < level; })) /
             static_cast<double>(cross.size());
    };
    CHECK(std::abs(below(got.cross_nm.low) - 0.025) < 0.01);
    CHECK(std::abs(below(got.cross_nm.middle) - 0.5) < 0.01);
    CHECK(std::abs(below(got.cross_nm.high) - 0.975) < 0.01);
  }
  CHECK(with_unflown > 0);
  const CloudSummary none = Cloud().summary(0.25);
  CHECK(none.drawn == 0);
  CHECK(std::isnan(none.inside_share));
  CHECK(std::isnan(none.cross_nm.mean));
}

TEST_CASE("cloud: a spread that cannot be is brought within", "[cloud]") {
  Cloud cloud;
  cloud.set(make_setup(Scenario{}), {{-1.0, std::nan(""), 1e9, 2.0, 1e300, 3.0}}, 1);
  CHECK(cloud.spread() ==
        Amounts{{0.0, 0.0, Cloud::kWidest.of[2], 2.0, Cloud::kWidest.of[4], 3.0}});
}

TEST_CASE("cloud: where there is none it says why", "[cloud]") {
  const auto why = [](const Scenario& s) {
    Cloud cloud = flown_cloud(make_setup(s), Cloud::kUsual, 1, 10);
    cloud.share_more(10);
    CHECK(cloud.drawn() == 0);
    const std::string json = cloud_json(cloud, 0.25);
    CHECK(json.find("\"why\":\"" + std::string(name_of(cloud.why()))) != std::string::npos);
    return cloud.why();
  };
  Scenario s;
  s.entry = EntryKind::offset;
  Scenario other = s;
  other.entry = EntryKind::direct;
  CHECK(why(other) == NoCloud::not_offset);
  other = s;
  other.leg = Leg{Leg::Kind::distance, 4.0};
  CHECK(why(other) == NoCloud::not_by_clock);
  other.time_s = 60.0;
  CHECK(flown_cloud(make_setup(other), Cloud::kUsual, 1, 10).drawn() == 10);
  other = s;
  other.radial_deg = 90.0;
  CHECK(why(other) == NoCloud::not_by_clock);
  other = s;
  other.later_wind = LaterWind{200.0, 40.0};
  CHECK(why(other) == NoCloud::wind_changes);
  other = s;
  other.wind_kt = 149.0;
  other.wind_from_deg = other.arrival_course_deg;
  CHECK(why(other) == NoCloud::no_arrival);
  other.wind_from_deg = other.inbound_course_deg;
  other.arrival_course_deg = wrap_360(other.inbound_course_deg + 180.0);
  CHECK(why(other) == NoCloud::no_inbound);
  other.arrival_course_deg = s.arrival_course_deg;
  other = s;
  other.timing = TimingRule::groundspeed;
  other.leg = Leg{Leg::Kind::time, 590.0};
  other.wind_kt = 60.0;
  other.wind_from_deg = wrap_360(other.inbound_course_deg + 180.0);
  CHECK(why(other) == NoCloud::no_plan);
  for (int k = 0; k < 7; ++k) {
    CHECK_FALSE(name_of(static_cast<NoCloud>(k)).empty());
  }
}

TEST_CASE("cloud: a track ends where the flight rolls out, without a gap", "[cloud]") {
  test::Random r(6206);
  test::Tally tally;
  for (int i = 0; i < 300; ++i) {
    const Setup u = calm_setup(r, 0.3);
    const EntryPlan plan = plan_of(u);
    const Amounts off = random_amounts(r, 8.0);
    const Rollout want = deviated_rollout(u, plan, off);
    const DeviatedTrack track(u, plan, off);
    const Pieces pieces = track.pieces();
    const auto say = [&] { return test::named(u.scenario); };
    if (!want.exists) {
      tally.check(pieces.count == 0, say);
      continue;
    }
    const double far = 1.0 + length(want.at);
    tally.check(length(pieces.position_at(pieces.end_s()) - want.at) < 1e-9 * far, say);
    tally.check(test::near(pieces.end_s(), want.at_s, 1e-9), say);
    for (int k = 1; k < pieces.size(); ++k) {
      const Segment& a = pieces[k - 1];
      tally.check(length(a.position_at(a.duration_s) - pieces[k].start) < 1e-9 * far, say);
    }
    // Over the fix at 0, but where the turn began before it.
    const double late = off[Unknown::turn_start];
    tally.check(test::near(pieces.start_s(), std::min(0.0, late), 1e-12), say);
    if (late >= 0.0) tally.check(length(pieces[0].start) == 0.0, say);
  }
  tally.settle(1500);
}

TEST_CASE("cloud: what matters most stands first", "[cloud]") {
  test::Random r(6208);
  test::Tally tally;
  for (int i = 0; i < 60; ++i) {
    const Setup u = calm_setup(r);
    Cloud cloud = flown_cloud(u, Cloud::kUsual, 4, 500);
    cloud.share_more(500);
    const std::string json = cloud_json(cloud, 0.3);
    const auto say = [&] { return test::named(u.scenario) + "\n" + json; };
    const VarianceShares shares = cloud.cross_shares();
    double most = shares.of[0].share;
    for (const VarianceShares::Share& share : shares.of) most = std::max(most, share.share);
    // Sorted: the greatest stands first.
    const std::size_t rows = json.find("\"cross_shares\"");
    const std::size_t first = json.find("\"unknown\":\"", rows) + 11;
    const std::string name = json.substr(first, json.find('"', first) - first);
    for (std::size_t k = 0; k < kUnknowns; ++k) {
      if (shares.of[k].share == most) tally.check(name == name_of(static_cast<Unknown>(k)), say);
    }
  }
  tally.settle(60);
}

TEST_CASE("cloud: as JSON, whatever the scenario", "[cloud][json][property]") {
  test::Random r(6207);
  test::Tally tally;
  int clouds = 0;
  for (int i = 0; i < 500; ++i) {
    const Scenario s = test::any_scenario(r);
    Cloud cloud = flown_cloud(make_setup(s), Cloud::kUsual, 4, 60);
    cloud.share_more(r.chance(0.5) ? 50 : 0);
    const std::string json = cloud_json(cloud, 0.25);
    const auto say = [&] { return test::named(s) + "\n" + json; };
    const auto has = [&](const char* part) { return json.find(part) != std::string::npos; };
    tally.check(test::JsonCheck(json).fault().empty(), say);
    tally.check(!has("–") && !has("core.") && !has("{n") && !has("nan"), say);
    tally.check((cloud.why() == NoCloud::none) == has("\"why\":null"), say);
    tally.check((cloud.why() == NoCloud::none) == (cloud.drawn() == 60), say);
    const CloudSummary sum = cloud.summary(0.25);
    tally.check((sum.flown > 0) == std::isfinite(sum.cross_nm.mean), say);
    tally.check((sum.flown > 0) == std::isfinite(sum.inbound_s.sd), say);
    clouds += sum.flown > 0;
  }
  CHECK(clouds > 30);
  tally.settle(2000);
}
