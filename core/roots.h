// core/roots.h - every root of a smooth function on an interval, with bounded work.
#pragma once

#include <cmath>

namespace core {

/// Root of `f` between `a` and `b`, whose values `fa` and `fb` differ in sign.
/// Chandrupatla's method: inverse quadratic steps, bisection whenever they would
/// not be safe; at most 64 evaluations. Source: T. R. Chandrupatla, Advances in
/// Engineering Software 28 (1997) 145-149 (from memory).
template <class F>
[[nodiscard]] double bracketed_root(const F& f, double a, double b, double fa, double fb) {
  if (fa == 0.0) return a;
  if (fb == 0.0) return b;
  double c = a;
  double fc = fa;
  double t = 0.5;
  for (int i = 0; i < 64; ++i) {
    const double x = a + t * (b - a);
    const double fx = f(x);
    if (fx == 0.0) return x;
    if ((fx > 0.0) == (fa > 0.0)) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const double best = std::abs(fa) < std::abs(fb) ? a : b;
    // Stop at the resolution of the abscissa itself.
    const double tolerance = 4e-16 * std::abs(best) + 1e-15;
    const double limit = tolerance / std::abs(b - a);
    if (!(limit < 0.5)) return best;
    const double xi = (a - b) / (c - b);
    const double phi = (fa - fb) / (fc - fb);
    t = 0.5;
    if (phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi) {
      t = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
    }
    if (t < limit) t = limit;
    if (t > 1.0 - limit) t = 1.0 - limit;
  }
  return std::abs(fa) < std::abs(fb) ? a : b;
}

/// A function's value and its slope there.
struct ValueSlope {
  double value;
  double slope;
};

/// The same for an `f` that knows its slope: Newton's method from `start` between the two, a
/// bisection whenever a step would leave the bracket or not be half the last one. Three
/// evaluations where `start` is within a hundredth.
template <class F>
[[nodiscard]] double newton_root(const F& f, double a, double b, double fa, double fb,
                                 double start) {
  if (fa == 0.0) return a;
  if (fb == 0.0) return b;
  double below = fa < 0.0 ? a : b;
  double above = fa < 0.0 ? b : a;
  double x = start;
  double last = std::abs(b - a);
  for (int i = 0; i < 64; ++i) {
    const ValueSlope at = f(x);
    if (at.value == 0.0) return x;
    (at.value < 0.0 ? below : above) = x;
    double next = x - at.value / at.slope;
    const bool inside = (next - below) * (next - above) < 0.0;
    if (!inside || !(std::abs(next - x) < 0.5 * last)) next = 0.5 * (below + above);
    const double step = std::abs(next - x);
    x = next;
    // Once the steps shrink by leaps the error is squared each time, and what is left is
    // below the last digit; near a double root they only halve, and go on.
    if (step <= (step < 0.01 * last ? 1e-9 : 1e-15) * std::abs(x)) return x;
    last = step;
  }
  return x;
}

/// Abscissa in (a, b) where |f| is least, by golden section; `f` keeps its sign
/// there. Stops early at a change of sign and returns that point.
template <class F>
[[nodiscard]] double least_magnitude(const F& f, double a, double b, double sign) {
  constexpr double kGolden = 0.6180339887498949;
  double x1 = b - kGolden * (b - a);
  double x2 = a + kGolden * (b - a);
  double f1 = f(x1) * sign;
  double f2 = f(x2) * sign;
  for (int i = 0; i < 60; ++i) {
    if (f1 <= 0.0) return x1;
    if (f2 <= 0.0) return x2;
    if (f1 < f2) {
      b = x2;
      x2 = x1;
      f2 = f1;
      x1 = b - kGolden * (b - a);
      f1 = f(x1) * sign;
    } else {
      a = x1;
      x1 = x2;
      f1 = f2;
      x2 = a + kGolden * (b - a);
      f2 = f(x2) * sign;
    }
  }
  return f1 < f2 ? x1 : x2;
}

/// Calls `found(x)` for every root of `f` on [low, high]: sampled in `steps` equal
/// steps, each change of sign refined, and each dip of |f| toward zero searched, so
/// that a pair of roots inside one step is not missed. `f` must be smooth there.
template <class F, class Found>
void every_root(const F& f, double low, double high, int steps, const Found& found) {
  const double h = (high - low) / steps;
  double x0 = low;
  double f0 = f(x0);
  double x1 = low + h;
  double f1 = f(x1);
  if (f0 == 0.0) found(x0);
  for (int i = 1; i <= steps; ++i) {
    if (f1 == 0.0) {
      found(x1);
    } else if (f0 != 0.0 && (f0 > 0.0) != (f1 > 0.0)) {
      found(bracketed_root(f, x0, x1, f0, f1));
    }
    if (i == steps) break;
    const double x2 = low + h * (i + 1);
    const double f2 = f(x2);
    const bool one_side = (f0 > 0.0) == (f1 > 0.0) && (f1 > 0.0) == (f2 > 0.0);
    const bool dip = std::abs(f1) <= std::abs(f0) && std::abs(f1) <= std::abs(f2);
    if (f1 != 0.0 && one_side && dip) {
      const double sign = f1 > 0.0 ? 1.0 : -1.0;
      const double x = least_magnitude(f, x0, x2, sign);
      const double fx = f(x);
      if (fx * sign <= 0.0) {
        found(bracketed_root(f, x0, x, f0, fx));
        if (fx != 0.0) found(bracketed_root(f, x, x2, fx, f2));
      }
    }
    x0 = x1;
    f0 = f1;
    x1 = x2;
    f1 = f2;
  }
}

}  // namespace core
