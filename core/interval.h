// core/interval.h - arithmetic with ranges of numbers.
//
// An operation's result holds every result that its operands' members can have. Rounding
// is not directed outward: a range may be a rounding error too narrow, for which a search
// must leave room. Ends must not be NaN.
#pragma once

#include <cmath>

namespace core {

struct Interval {
  double lo;
  double hi;

  [[nodiscard]] constexpr double mid() const { return 0.5 * (lo + hi); }
  [[nodiscard]] constexpr double width() const { return hi - lo; }
  [[nodiscard]] constexpr bool holds(double x) const { return lo <= x && x <= hi; }
  /// Greatest magnitude of a member.
  [[nodiscard]] double greatest() const { return std::fmax(std::abs(lo), std::abs(hi)); }
  /// Least magnitude of a member.
  [[nodiscard]] constexpr double least() const { return lo > 0.0 ? lo : hi < 0.0 ? -hi : 0.0; }
};

// By reference and not inline: a long formula by value is nearly three times as large in
// WebAssembly.
[[nodiscard]] Interval operator+(const Interval& a, const Interval& b);
[[nodiscard]] Interval operator-(const Interval& a, const Interval& b);
[[nodiscard]] Interval operator*(const Interval& a, const Interval& b);
[[nodiscard]] Interval operator+(const Interval& a, double b);
[[nodiscard]] Interval operator*(double k, const Interval& a);
[[nodiscard]] inline Interval operator+(double a, const Interval& b) { return b + a; }
[[nodiscard]] inline Interval operator-(const Interval& a, double b) { return a + -b; }
[[nodiscard]] inline Interval operator-(double a, const Interval& b) { return -1.0 * b + a; }
[[nodiscard]] inline Interval operator*(const Interval& a, double k) { return k * a; }

/// Common part; empty (lo > hi) where there is none.
[[nodiscard]] constexpr Interval common(Interval a, Interval b) {
  return {a.lo > b.lo ? a.lo : b.lo, a.hi < b.hi ? a.hi : b.hi};
}

/// asin; a sine beyond one is taken for one.
[[nodiscard]] double inverse_sine(double sine);
[[nodiscard]] Interval inverse_sine(Interval sine);

/// cos(asin(sine)), >= 0; 0 for a sine beyond one.
[[nodiscard]] double cosine_of_sine(double sine);
[[nodiscard]] Interval cosine_of_sine(Interval sine);

/// 1 / x for x > 0; an x below a millionth is taken for a millionth.
[[nodiscard]] double reciprocal(double x);
[[nodiscard]] Interval reciprocal(Interval x);

}  // namespace core
