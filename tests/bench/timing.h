// tests/bench/timing.h - times small pieces of work side by side.
#pragma once

#include <algorithm>
#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace bench {

/// The optimiser may not leave out what ends here.
inline volatile double sink;

/// A piece of work: one call does it once for each flight and returns something that
/// depends on all of it.
struct Work {
  std::string name;
  std::function<double()> once;
  double median_ns = 0.0;  ///< of one call
};

/// Fills in the medians. The pieces take turns, batch by batch, so that whatever else the
/// machine does falls on all of them alike; a batch is long against the clock's tick and
/// short against the scheduler's slice.
inline void take_turns(std::vector<Work>& works, double seconds) {
  using Clock = std::chrono::steady_clock;
  constexpr double kBatchNs = 4e5;
  const auto batch_ns = [](const Work& w, int calls) {
    const Clock::time_point start = Clock::now();
    double sum = 0.0;
    for (int i = 0; i < calls; ++i) sum += w.once();
    sink = sum;
    return std::chrono::duration<double, std::nano>(Clock::now() - start).count();
  };
  std::vector<int> calls(works.size(), 1);
  std::vector<std::vector<double>> samples(works.size());
  for (std::size_t i = 0; i < works.size(); ++i) {
    // Warm-up: caches, and in a JavaScript engine the optimising compiler.
    const Clock::time_point start = Clock::now();
    while (Clock::now() - start < std::chrono::milliseconds(200)) {
      const double ns = batch_ns(works[i], calls[i]);
      calls[i] =
          std::clamp(static_cast<int>(calls[i] * kBatchNs / std::max(ns, 1.0)), 1, calls[i] * 10);
    }
  }
  const Clock::time_point start = Clock::now();
  while (std::chrono::duration<double>(Clock::now() - start).count() < seconds) {
    for (std::size_t i = 0; i < works.size(); ++i) {
      samples[i].push_back(batch_ns(works[i], calls[i]) / calls[i]);
    }
  }
  for (std::size_t i = 0; i < works.size(); ++i) {
    const auto middle = samples[i].begin() + static_cast<std::ptrdiff_t>(samples[i].size() / 2);
    std::nth_element(samples[i].begin(), middle, samples[i].end());
    works[i].median_ns = *middle;
  }
}

}  // namespace bench
