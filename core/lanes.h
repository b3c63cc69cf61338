// core/lanes.h - one formula for one number or for several at once.
//
// A formula that is a template over its number type N runs with N = double, and with N = Lanes,
// two doubles that processors with SSE2 or WebAssembly's SIMD work on together. Every step rounds
// the same way in both, so both give the same bits. select() takes the place of branches on values;
// where any() finds that no lane needs a costly way, leaving it out changes nothing.
#pragma once

#include <cmath>
#include <limits>

#if defined(__wasm_simd128__)
#include <wasm_simd128.h>
#define CORE_HAS_LANES 1
#elif defined(__SSE2__)
#include <emmintrin.h>
#define CORE_HAS_LANES 1
#endif

#include "core/units.h"

namespace core {

/// `yes` where `condition` holds, else `no`.
inline double select(bool condition, double yes, double no) { return condition ? yes : no; }
inline bool any(bool condition) { return condition; }
inline double square_root(double x) { return std::sqrt(x); }
inline double magnitude(double x) { return std::fabs(x); }
/// `size`, which is not negative, with the sign of `of`.
inline double with_sign(double size, double of) { return std::copysign(size, of); }
template <class N>
inline constexpr int kLanes = 1;
/// Nothing where `condition` holds, and else what makes any sum NaN.
inline double nan_unless(bool condition) {
  return condition ? 0.0 : std::numeric_limits<double>::quiet_NaN();
}
/// The same number in every lane.
template <class N>
N splat(double x) {
  return N{} + x;
}
template <class N>
N load(const double* from) {
  N out;
  __builtin_memcpy(&out, from, sizeof out);
  return out;
}
template <class N>
void store(double* to, N x) {
  __builtin_memcpy(to, &x, sizeof x);
}

#if defined(CORE_HAS_LANES)
using Lanes = double __attribute__((vector_size(16)));
using LaneMask = decltype(Lanes{} < Lanes{});
template <>
inline constexpr int kLanes<Lanes> = 2;
inline Lanes select(LaneMask condition, Lanes yes, Lanes no) { return condition ? yes : no; }
/// Whether it holds in any lane.
inline bool any(LaneMask condition) {
#if defined(__wasm_simd128__)
  return wasm_v128_any_true(reinterpret_cast<v128_t>(condition));
#else
  return _mm_movemask_pd(reinterpret_cast<Lanes>(condition)) != 0;
#endif
}
inline Lanes square_root(Lanes x) {
#if defined(__wasm_simd128__)
  return reinterpret_cast<Lanes>(wasm_f64x2_sqrt(reinterpret_cast<v128_t>(x)));
#else
  return _mm_sqrt_pd(x);
#endif
}
inline Lanes magnitude(Lanes x) {
  const LaneMask sign = reinterpret_cast<LaneMask>(Lanes{-0.0, -0.0});
  return reinterpret_cast<Lanes>(reinterpret_cast<LaneMask>(x) & ~sign);
}
inline Lanes nan_unless(LaneMask condition) {
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  return condition ? Lanes{} : Lanes{kNan, kNan};
}
inline Lanes with_sign(Lanes size, Lanes of) {
  const LaneMask sign = reinterpret_cast<LaneMask>(Lanes{-0.0, -0.0});
  return reinterpret_cast<Lanes>(reinterpret_cast<LaneMask>(size) |
                                 (reinterpret_cast<LaneMask>(of) & sign));
}
#endif

/// `deg` less the whole circles that leave least of it: from -180 to 180, of half a circle either
/// end, give or take a rounding. Exact, for up to a million circles.
template <class N>
N within_half_circle(N deg) {
  // Adding this pushes the fraction out of the mantissa.
  constexpr double kPushOut = 6755399441055744.0;  // 1.5 * 2^52
  return deg - 360.0 * ((deg * (1.0 / 360.0) + kPushOut) - kPushOut);
}
/// As turn_angle() of core/units.h.
template <class N>
N turned_angle(N deg) {
  const N rest = within_half_circle(deg);
  const N r = select(rest < 0.0, rest + 360.0, rest);
  return select(r >= 360.0, splat<N>(0.0), r);
}

/// Arc sine in degrees.
/// Below a half by x + x R(x^2); above it through half the angle to 90 degrees. R is the
/// rational approximation of fdlibm's asin (Sun Microsystems, 1993; docs/third-party.md), within
/// 2^-58 of the true one. NaN where `sine` is beyond 1 either way.
template <class N>
N arc_sine_deg(N sine) {
  const N size = magnitude(sine);
  const auto steep = size > 0.5;
  const bool any_steep = any(steep);
  N z = size * size;
  N s = size;
  if (any_steep) {
    z = select(steep, (1.0 - size) * 0.5, z);
    s = select(steep, square_root(z), s);
  }
  const N p =
      z * (1.66666666666666657415e-01 +
           z * (-3.25565818622400915405e-01 +
                z * (2.01212532134862925881e-01 +
                     z * (-4.00555345006794114027e-02 +
                          z * (7.91534994289814532176e-04 + z * 3.47933107596021167570e-05)))));
  const N q = 1.0 + z * (-2.40339491173441421878e+00 +
                         z * (2.02094576023350569471e+00 +
                              z * (-6.88283971605453293030e-01 + z * 7.70381505559019352791e-02)));
  const N part_deg = (s + s * (p / q)) * kRadToDeg;
  const N deg = any_steep ? select(steep, 90.0 - 2.0 * part_deg, part_deg) : part_deg;
  return with_sign(deg, sine);
}

}  // namespace core
