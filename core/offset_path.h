// core/offset_path.h - where the offset entry ends: one formula for single flights, for maps and
// for clouds, over one number or several (core/lanes.h).
//
// Out of the arrival heading the short way, straight until the time is up, round in the direction
// of the hold to the inbound heading. Turns begin at once, the wind is steady. Derivation:
// docs/theory.md "Roll-out of the offset entry". Frame of core/units.h.
#pragma once

#include "core/lanes.h"

namespace core {

/// A direction with its sine and cosine, or an angle to be added to one.
template <class N>
struct Bearing {
  N deg;
  N sin;
  N cos;
};
[[nodiscard]] inline Bearing<double> bearing(double deg) {
  const SinCos s = sincos_deg(deg);
  return {deg, s.sin, s.cos};
}
template <class N>
Bearing<N> splat(const Bearing<double>& b) {
  return {splat<N>(b.deg), splat<N>(b.sin), splat<N>(b.cos)};
}
/// `b` turned to the right by `by`: the degrees are not reduced.
template <class N>
Bearing<N> turned(const Bearing<N>& b, const Bearing<N>& by) {
  return {b.deg + by.deg, b.sin * by.cos + b.cos * by.sin, b.cos * by.cos - b.sin * by.sin};
}

/// What holds a course in a wind, as WindTriangle (core/wind.h): the course can be made good
/// where the groundspeed is positive; it is NaN where the crosswind is too strong.
template <class N>
struct Correction {
  Bearing<N> wca;  ///< + right
  N groundspeed_kt;
};
/// The wind as the direction that it blows from and its share of the airspeed.
template <class N>
Correction<N> hold_course(const Bearing<N>& course, N tas_kt, const Bearing<N>& from,
                          N wind_share) {
  const N sine = wind_share * (from.sin * course.cos - from.cos * course.sin);
  const N cosine = square_root((1.0 - sine) * (1.0 + sine));
  return {{arc_sine_deg(sine), sine, cosine},
          tas_kt * (cosine - wind_share * (from.cos * course.cos + from.sin * course.sin))};
}

/// How the aircraft moves through the air.
template <class N>
struct Mover {
  N speed_nm_s;
  N radius_nm;
  N s_per_deg;  ///< of a turn
};

/// What the entry is flown by.
template <class N>
struct OffsetPlan {
  Bearing<N> at_fix;  ///< arrival heading over the fix
  Bearing<N> out;     ///< first outbound heading
  Bearing<N> home;    ///< inbound heading
  N time_s;           ///< outbound, from the fix or from wings level
};

/// The roll-out, from where the first turn begins.
template <class N>
struct OffsetEnd {
  N x_nm;
  N y_nm;
  N at_s;
};

/// `way_back` is +1 where the hold turns right, -1 left; `from_fix`: the plan's time runs from the
/// start of the first turn, which is always completed. The wind as the motion of the air.
template <class N>
OffsetEnd<N> fly_offset(const OffsetPlan<N>& plan, const Mover<N>& mover, double way_back,
                        bool from_fix, N wind_x_nm_s, N wind_y_nm_s) {
  const Bearing<N>& at_fix = plan.at_fix;
  const Bearing<N>& out = plan.out;
  const Bearing<N>& home = plan.home;
  const N turn_deg = within_half_circle(out.deg - at_fix.deg);
  const N size_deg = magnitude(turn_deg);
  const N short_way = with_sign(splat<N>(1.0), turn_deg);
  const N way = select(size_deg > 180.0 - kOppositeDeg, splat<N>(way_back), short_way);
  const N out_s = size_deg * mover.s_per_deg;
  const N back_s = turned_angle((home.deg - out.deg) * way_back) * mover.s_per_deg;
  const N left_s = from_fix ? plan.time_s - out_s : plan.time_s;
  const N straight_s = select(left_s > 0.0, left_s, splat<N>(0.0));
  const N all_s = out_s + straight_s + back_s;
  const N straight_nm = mover.speed_nm_s * straight_s;
  const N first = way * mover.radius_nm;
  const N second = way_back * mover.radius_nm;
  return {first * (at_fix.cos - out.cos) + straight_nm * out.sin + second * (out.cos - home.cos) +
              wind_x_nm_s * all_s,
          first * (out.sin - at_fix.sin) + straight_nm * out.cos + second * (home.sin - out.sin) +
              wind_y_nm_s * all_s,
          all_s};
}

}  // namespace core
