// The root finder, on functions whose roots are known.
#include "core/roots.h"

#include <catch2/catch_test_macros.hpp>
#include <vector>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {
template <class F>
std::vector<double> roots_of(const F& f, double low, double high, int steps) {
  std::vector<double> out;
  every_root(f, low, high, steps, [&](double x) { out.push_back(x); });
  return out;
}
}  // namespace

TEST_CASE("roots: bracketed root to the last digits, in bounded work", "[roots][property]") {
  test::Random r(501);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const double root = r.between(-10.0, 10.0);
    const double low = root - r.between(1e-6, 20.0);
    const double high = root + r.between(1e-6, 20.0);
    const int shape = r.below(5);
    int calls = 0;
    const auto f = [&](double x) {
      ++calls;
      const double d = x - root;
      switch (shape) {
        case 0:
          return d;
        case 1:
          return std::sin(0.1 * d);
        case 2:
          return std::exp(d) - 1.0;
        case 3:
          return std::atan(50.0 * d);
        default:
          return d * d * d + 1e-3 * d;
      }
    };
    const double found = bracketed_root(f, low, high, f(low), f(high));
    const auto say = [&] {
      return "shape " + std::to_string(shape) + " root " + std::to_string(root) + " error " +
             std::to_string((found - root) * 1e15) + "e-15 calls " + std::to_string(calls);
    };
    tally.check(std::abs(found - root) < 1e-13, say);
    tally.check(calls <= 66, say);
  }
  tally.settle(40000);
}

TEST_CASE("roots: an end that is already a root is returned", "[roots][seam]") {
  const auto f = [](double x) { return x - 2.0; };
  CHECK(bracketed_root(f, 2.0, 5.0, f(2.0), f(5.0)) == 2.0);
  CHECK(bracketed_root(f, 0.0, 2.0, f(0.0), f(2.0)) == 2.0);
}

TEST_CASE("roots: all roots of a wave", "[roots]") {
  const auto wave = [](double x) { return std::sin(x); };
  const std::vector<double> found = roots_of(wave, 0.5, 31.0, 100);
  REQUIRE(found.size() == 9);
  for (std::size_t i = 0; i < found.size(); ++i) {
    CHECK(std::abs(found[i] - 3.14159265358979323846 * static_cast<double>(i + 1)) < 1e-13);
  }
}

TEST_CASE("roots: a pair inside one step is not missed", "[roots][property]") {
  // cos(x) - level near its top: two roots closer together than the step.
  test::Random r(502);
  test::Tally tally;
  for (int i = 0; i < 3000; ++i) {
    const double apart = std::pow(10.0, r.between(-6.0, -1.0));
    const double top = r.between(2.0, 8.0);
    const double level = std::cos(0.5 * apart);
    const double sign = r.chance(0.5) ? 1.0 : -1.0;
    const auto f = [&](double x) { return sign * (std::cos(x - top) - level); };
    const std::vector<double> found = roots_of(f, top - 2.0, top + 2.0, 40);  // step 0.1
    // The slope at the roots is apart / 2: the function's own rounding, 2e-16, moves
    // them by so much.
    const double blur = 1e-9 * apart + 4.0 * 2e-16 / (0.5 * apart);
    const bool good = found.size() == 2 && std::abs(found[0] - top + 0.5 * apart) < blur &&
                      std::abs(found[1] - top - 0.5 * apart) < blur;
    tally.check(good, [&] {
      return "apart " + std::to_string(apart) + " found " + std::to_string(found.size());
    });
  }
  tally.settle(3000);
}

TEST_CASE("roots: none where there is none, one report of one at a sample", "[roots][seam]") {
  CHECK(roots_of([](double x) { return x * x + 1.0; }, -1.0, 1.0, 10).empty());
  CHECK(roots_of([](double x) { return x; }, -1.0, 1.0, 10).size() == 1);
  CHECK(roots_of([](double x) { return x - 1.0; }, -1.0, 1.0, 10).size() == 1);
  CHECK(roots_of([](double x) { return x + 1.0; }, -1.0, 1.0, 10).size() == 1);
  // Touches zero at a sample, without a change of sign.
  CHECK(roots_of([](double x) { return x * x; }, -1.0, 1.0, 10).size() == 1);
}
