// core/quantile.h - the number below which a share of many lies.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

namespace core {

/// The one at `share` of the way from the least to the greatest in their order, the nearest where
/// it falls between two. `values` (not empty, no NaN) change their order.
[[nodiscard]] inline double at_share(std::vector<double>& values, double share) {
  const long k = std::lround(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + k, values.end());
  return values[static_cast<std::size_t>(k)];
}

}  // namespace core
