// tests/tally.h - checks inside loops of many thousand rounds.
//
// Catch2's macros cost more than the code under test. A Tally counts, keeps the first
// few failures in words, and is settled once, at the end of the loop.
#pragma once

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

namespace test {

class Tally {
 public:
  /// Counts one check; `describe()` makes the words and is called for failures only.
  template <class Describe>
  bool check(bool good, const Describe& describe) {
    ++checks_;
    if (good) return true;
    if (++failures_ <= 6) report_ += "\n  " + describe();
    return false;
  }

  /// Fails the test case where any check failed, or where fewer checks were made than
  /// the loop was meant to make (a loop that skips everything proves nothing).
  void settle(long long at_least) const {
    INFO(failures_ << " of " << checks_ << " checks failed:" << report_);
    CHECK(failures_ == 0);
    CHECK(checks_ >= at_least);
  }
  [[nodiscard]] long long checks() const { return checks_; }

 private:
  long long checks_ = 0;
  long long failures_ = 0;
  std::string report_;
};

/// |a - b| within `tolerance` times the larger of 1 and the numbers' own size. False
/// for NaN.
inline bool near(double a, double b, double tolerance) {
  const double size = std::fmax(1.0, std::fmax(std::abs(a), std::abs(b)));
  return std::abs(a - b) <= tolerance * size;
}

}  // namespace test
