// tests/bench/odeint_flight.h - the same pieces of flight by a general integrator.
#pragma once

#include <array>
#include <boost/numeric/odeint/integrate/integrate_adaptive.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include "core/track.h"

namespace bench {

/// Dormand-Prince 5 with step control, absolute and relative error 1e-9 a step. Only x and
/// y are integrated, and the pieces' times and turn rates are given to it: less than the
/// flight itself has to find out.
class OdeintFlight {
 public:
  using State = std::array<double, 2>;

  /// Position at the end of `s`, flown from `from`.
  static core::Vec2 fly(const core::Segment& s, core::Vec2 from) {
    namespace odeint = boost::numeric::odeint;
    const double heading = s.heading_deg * core::kDegToRad;
    const double rate = s.rate_deg_s * core::kDegToRad;
    const auto velocity = [&](const State&, State& out, double t) {
      const double psi = heading + rate * t;
      out[0] = s.speed_nm_s * std::sin(psi) + s.wind_nm_s.x;
      out[1] = s.speed_nm_s * std::cos(psi) + s.wind_nm_s.y;
    };
    State at{from.x, from.y};
    if (s.duration_s > 0.0) {
      // A first step that suits each kind: one for a straight piece, and for a turn about
      // what the step control arrives at.
      const double first = s.rate_deg_s == 0.0 ? s.duration_s : std::fmin(kTurnStepS, s.duration_s);
      odeint::integrate_adaptive(
          odeint::make_controlled<odeint::runge_kutta_dopri5<State>>(1e-9, 1e-9), velocity, at, 0.0,
          s.duration_s, first);
    }
    return {at[0], at[1]};
  }

 private:
  static constexpr double kTurnStepS = 6.0;
};

}  // namespace bench
