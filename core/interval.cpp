#include "core/interval.h"

namespace core {

Interval operator+(const Interval& a, const Interval& b) { return {a.lo + b.lo, a.hi + b.hi}; }
Interval operator-(const Interval& a, const Interval& b) { return {a.lo - b.hi, a.hi - b.lo}; }
Interval operator+(const Interval& a, double b) { return {a.lo + b, a.hi + b}; }

Interval operator*(double k, const Interval& a) {
  return k >= 0.0 ? Interval{a.lo * k, a.hi * k} : Interval{a.hi * k, a.lo * k};
}

Interval operator*(const Interval& a, const Interval& b) {
  const double p = a.lo * b.lo;
  const double q = a.lo * b.hi;
  const double r = a.hi * b.lo;
  const double s = a.hi * b.hi;
  return {std::fmin(std::fmin(p, q), std::fmin(r, s)), std::fmax(std::fmax(p, q), std::fmax(r, s))};
}

double inverse_sine(double sine) { return std::asin(std::fmax(-1.0, std::fmin(1.0, sine))); }
Interval inverse_sine(Interval sine) { return {inverse_sine(sine.lo), inverse_sine(sine.hi)}; }

double cosine_of_sine(double sine) {
  const double square = (1.0 - sine) * (1.0 + sine);
  return square > 0.0 ? std::sqrt(square) : 0.0;
}
Interval cosine_of_sine(Interval sine) {
  return {cosine_of_sine(sine.greatest()), cosine_of_sine(sine.least())};
}

double reciprocal(double x) { return 1.0 / std::fmax(x, 1e-6); }
Interval reciprocal(Interval x) { return {reciprocal(x.hi), reciprocal(x.lo)}; }

}  // namespace core
