// tests/random.h - the tests' own random numbers: the same natively and as WebAssembly.
//
// std distributions differ between libraries, so nothing of <random> is used. Never
// draw twice in one expression: compilers choose the order.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>

namespace test {

/// splitmix64 (Steele, Lea, Flood 2014; public domain form by Vigna): 64 good bits a step.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}

  std::uint64_t bits() {
    state_ += 0x9e3779b97f4a7c15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
  }
  /// In [0, 1).
  double unit() { return static_cast<double>(bits() >> 11) * 0x1p-53; }
  double between(double low, double high) { return low + (high - low) * unit(); }
  /// In [0, count).
  int below(int count) { return static_cast<int>(bits() % static_cast<std::uint64_t>(count)); }
  bool chance(double probability) { return unit() < probability; }
  /// A multiple of 1e-6, as a link can say it.
  double decimal(double low, double high) {
    return std::floor(between(low, high) * 1e6 + 0.5) / 1e6;
  }
  /// A multiple of `step`.
  double stepped(double low, double high, double step) {
    const int count = static_cast<int>((high - low) / step + 0.5) + 1;
    return low + step * below(count);
  }

 private:
  std::uint64_t state_;
};

}  // namespace test
