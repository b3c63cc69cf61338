// tests/bench/trig.h - the trigonometric calls that a flight's formulas need, bare.
#pragma once

#include <cmath>
#include <vector>

#include "tests/bench/flights.h"

namespace bench {

/// Arguments, radians, of every call that the closed forms of the flown pieces need
/// (docs/theory.md "Segment"): of a turn sine and cosine of its mean heading and the sine
/// of half its angle; of a straight piece sine and cosine of its heading; and once for the
/// flight the wind's direction and the inbound course. What a program repeats, searches or
/// reduces besides is its own affair and not counted.
struct TrigCalls {
  std::vector<double> both;  ///< sine and cosine
  std::vector<double> sine;

  void add(const Case& c, const core::Flight& f) {
    both.push_back(c.setup.wind.from_deg * core::kDegToRad);
    both.push_back(c.setup.hold.inbound_course_deg * core::kDegToRad);
    for (const core::Segment& s : f.track) {
      const double half_deg = 0.5 * s.rate_deg_s * s.duration_s;
      both.push_back(core::wrap_180(s.heading_deg + half_deg) * core::kDegToRad);
      if (half_deg != 0.0) sine.push_back(half_deg * core::kDegToRad);
    }
  }

  [[nodiscard]] double run() const {
    double sum = 0.0;
    for (const double a : both) sum += std::sin(a) + std::cos(a);
    for (const double a : sine) sum += std::sin(a);
    return sum;
  }
};

}  // namespace bench
