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
