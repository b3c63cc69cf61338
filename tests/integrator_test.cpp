// The flights against an integrator that knows nothing of their formulas.
//
// Boost.odeint (Dormand-Prince 5, tolerances 1e-12) flies x' = V sin h + wx,
// y' = V cos h + wy, h' = turn rate, from the arrival to the end of the last lap, with
// only the durations and turn rates taken from the track. Tests only; not shipped.
#if !defined(__EMSCRIPTEN__)  // native only; without the Boost headers it must not compile

#include <array>
#include <boost/numeric/odeint.hpp>
#include <catch2/catch_test_macros.hpp>

#include "core/flight.h"
#include "tests/scenarios.h"
#include "tests/tally.h"

using namespace core;

namespace {

namespace odeint = boost::numeric::odeint;

using State = std::array<double, 3>;  // x, y in NM; heading in radians

struct Motion {
  double speed_nm_s;
  double wind_x_nm_s;
  double wind_y_nm_s;
  double rate_rad_s;
  void operator()(const State& s, State& slope, double) const {
    slope[0] = speed_nm_s * std::sin(s[2]) + wind_x_nm_s;
    slope[1] = speed_nm_s * std::cos(s[2]) + wind_y_nm_s;
    slope[2] = rate_rad_s;
  }
};

/// The wind as motion, by the library's own sine: not by way of core.
Motion air_of(const Scenario& s, double tas_kt) {
  const double from_rad =
      (s.wind_from_deg - (s.wind_is_true ? s.variation_east_deg : 0.0)) * kPi / 180.0;
  return {tas_kt / 3600.0, -s.wind_kt / 3600.0 * std::sin(from_rad),
          -s.wind_kt / 3600.0 * std::cos(from_rad), 0.0};
}

}  // namespace

TEST_CASE("integrator: whole flights agree to 1e-9 NM", "[integrator][property]") {
  test::Random r(2001);
  test::Tally tally;
  static Flight f;
  double worst = 0.0;
  int turns = 0;
  for (int i = 0; i < 6000; ++i) {
    Scenario s = test::calm_scenario(r);
    if (i % 3 == 0) s.entry = static_cast<EntryKind>(r.below(kEntryKinds));
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    if (f.track.size() == 0) continue;
    Motion motion = air_of(s, u.tas_kt);
    const Segment& first = f.track[0];
    State state{first.start.x, first.start.y, first.heading_deg * kDegToRad};
    auto stepper = odeint::make_controlled(1e-12, 1e-12, odeint::runge_kutta_dopri5<State>());
    for (int k = 0; k < f.track.size(); ++k) {
      const Segment& g = f.track[k];
      if (!(g.duration_s > 0.0)) continue;
      motion.rate_rad_s = g.rate_deg_s * kDegToRad;
      turns += g.rate_deg_s != 0.0 ? 1 : 0;
      odeint::integrate_adaptive(stepper, motion, state, 0.0, g.duration_s,
                                 std::fmin(1.0, 0.5 * g.duration_s));
      const Vec2 end = g.position_at(g.duration_s);
      const double miss = std::hypot(state[0] - end.x, state[1] - end.y);
      worst = std::fmax(worst, miss);
      tally.check(miss < 1e-9, [&] {
        return test::named(s) + " piece " + std::to_string(k) + " off " +
               std::to_string(miss * 1e9) + "e-9 NM";
      });
      const double heading = wrap_180(state[2] * kRadToDeg - g.heading_at(g.duration_s));
      tally.check(std::abs(heading) < 1e-9, [&] { return test::named(s) + " heading"; });
    }
  }
  INFO("worst " << worst << " NM");
  CHECK(turns > 30000);
  tally.settle(100000);
}

TEST_CASE("integrator: rolled turns in a wind that changes", "[integrator][property]") {
  // Here the state has the bank, too: it grows and shrinks at the rate of roll, and the
  // heading turns at g tan(bank) / V. Only the moments are taken from the track.
  using Banked = std::array<double, 4>;  // x, y; heading and bank in radians
  test::Random r(2003);
  test::Tally tally;
  static Flight f;
  int rolled = 0;
  int partial = 0;
  for (int i = 0; i < 1500; ++i) {
    Scenario s = test::calm_scenario(r);
    s.entry = static_cast<EntryKind>(r.below(kEntryKinds));
    if (r.chance(0.8)) s.roll_deg_s = r.between(1.0, 30.0);
    if (r.chance(0.7)) s.later_wind = {r.between(0.0, 360.0), r.between(0.0, 60.0)};
    const Setup u = make_setup(s);
    fly_scenario(u, f);
    if (f.track.size() == 0) continue;
    const Motion air = air_of(s, u.tas_kt);
    double change_x = 0.0;
    double change_y = 0.0;
    if (s.later_wind) {
      Scenario later = s;
      later.wind_from_deg = s.later_wind->from_deg;
      later.wind_kt = s.later_wind->speed_kt;
      const Motion then = air_of(later, u.tas_kt);
      change_x = (then.wind_x_nm_s - air.wind_x_nm_s) / 600.0;
      change_y = (then.wind_y_nm_s - air.wind_y_nm_s) / 600.0;
    }
    const double g_over_v = kGravity / (u.tas_kt * 1852.0 / 3600.0);
    double steady_rate = 0.0;
    double roll_rad_s = 0.0;
    const auto slope = [&](const Banked& b, Banked& d, double t) {
      const double since = t > 0.0 ? t : 0.0;
      d[0] = air.speed_nm_s * std::sin(b[2]) + air.wind_x_nm_s + change_x * since;
      d[1] = air.speed_nm_s * std::cos(b[2]) + air.wind_y_nm_s + change_y * since;
      d[2] = s.roll_deg_s > 0.0 ? g_over_v * std::tan(b[3]) : steady_rate;
      d[3] = roll_rad_s;
    };
    const Segment& first = f.track[0];
    Banked state{first.start.x, first.start.y, first.heading_deg * kDegToRad, 0.0};
    auto stepper = odeint::make_controlled(1e-12, 1e-12, odeint::runge_kutta_dopri5<Banked>());
    for (const Segment& g : f.track) {
      if (!(g.duration_s > 0.0)) continue;
      const double way = g.rate_deg_s < 0.0 ? -1.0 : 1.0;
      steady_rate = g.rate_deg_s * kDegToRad;
      state[3] = 0.0;
      const double each = g.roll.each_s;
      const double out_from = each > 0.0 ? g.roll.whole_s - each : g.duration_s;
      const auto until = [&](double from, double to, double bank_way) {
        if (!(to > from)) return;
        roll_rad_s = bank_way * way * s.roll_deg_s * kDegToRad;
        odeint::integrate_adaptive(stepper, slope, state, g.start_s + from, g.start_s + to,
                                   0.25 * (to - from));
      };
      const double end_s = g.duration_s;
      until(0.0, std::fmin(each, end_s), 1.0);
      until(std::fmin(each, end_s), std::fmin(out_from, end_s), 0.0);
      until(out_from, end_s, -1.0);
      if (each > 0.0) ++rolled;
      if (each > 0.0 && end_s < g.roll.whole_s) ++partial;
      const Vec2 end = g.position_at(end_s);
      // Some laps drift hundreds of miles: the integrator's own error grows with them.
      const double most = 1e-9 + 1e-10 * length(end);
      tally.check(std::hypot(state[0] - end.x, state[1] - end.y) < most,
                  [&] { return test::named(s) + " at " + std::to_string(g.start_s); });
      const double heading = wrap_180(state[2] * kRadToDeg - g.heading_at(end_s));
      tally.check(std::abs(heading) < 1e-7, [&] { return test::named(s) + " heading"; });
    }
  }
  CHECK(rolled > 5000);
  CHECK(partial > 20);
  tally.settle(20000);
}

TEST_CASE("integrator: what the roll-out says is where it ends", "[integrator]") {
  // The entry alone, in one go, on headings rather than on the track's own rates.
  test::Random r(2002);
  test::Tally tally;
  for (int i = 0; i < 400; ++i) {
    Scenario s = test::calm_scenario(r);
    s.timer = Timer::level;
    const Setup u = make_setup(s);
    const double heading = r.between(0.0, 360.0);
    const double time_s = r.between(1.0, 300.0);
    Motion motion = air_of(s, u.tas_kt);
    const double rate = u.turn.rate_deg_s * kDegToRad;
    State state{0.0, 0.0, u.arrival.heading_deg * kDegToRad};
    auto stepper = odeint::make_controlled(1e-12, 1e-12, odeint::runge_kutta_dopri5<State>());
    const auto fly_for = [&](double seconds, double turn_rate) {
      if (!(seconds > 0.0)) return;
      motion.rate_rad_s = turn_rate;
      odeint::integrate_adaptive(stepper, motion, state, 0.0, seconds, 0.5 * seconds);
    };
    const double first = wrap_180(heading - u.arrival.heading_deg) * kDegToRad;
    fly_for(std::abs(first) / rate, first < 0.0 ? -rate : rate);
    fly_for(time_s, 0.0);
    const double side = s.turns == Side::right ? 1.0 : -1.0;
    double last = std::fmod((u.inbound.heading_deg - heading) * side + 720.0, 360.0) * kDegToRad;
    fly_for(last / rate, side * rate);
    const Rollout o = offset_rollout(u, heading, time_s);
    tally.check(std::hypot(o.at.x - state[0], o.at.y - state[1]) < 1e-9,
                [&] { return test::named(s) + " heading " + std::to_string(heading); });
  }
  tally.settle(400);
}

#endif  // native
