#include "core/variance_shares.h"

#include <cmath>
#include <limits>

#include "core/cloud_draws.h"

namespace core {

void ShareSums::add(double first, double second, const std::array<double, kUnknowns>& mixed) {
  std::array<double, kUnknowns> product{};
  double all = 0.0;
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    product[k] = (second - centre_) * (mixed[k] - first);
    all += product[k];
  }
  if (!std::isfinite(all)) return;
  ++used_;
  outcome_.add(first - centre_);
  outcome_.add(second - centre_);
  for (std::size_t k = 0; k < kUnknowns; ++k) product_[k].add(product[k]);
  all_products_.add(all);
}

VarianceShares::Share ShareSums::share_of(const Sum& sum, double variance) const {
  const double n = used_;
  const double mean = sum.value / n;
  const double spread = (sum.square / n - mean * mean) / n;
  return {mean / variance, kSdsIn19Of20 * std::sqrt(spread > 0.0 ? spread : 0.0) / variance};
}

VarianceShares ShareSums::shares() const {
  VarianceShares out;
  out.used = used_;
  const double nan = std::numeric_limits<double>::quiet_NaN();
  out.of.fill({nan, nan});
  out.together = {nan, nan};
  if (used_ < 2) return out;
  const double outcomes = 2.0 * used_;
  const double mean = outcome_.value / outcomes;
  const double variance = outcome_.square / outcomes - mean * mean;
  // Rounding alone varies, too.
  if (!(variance > 1e-18 * (1.0 + centre_ * centre_))) return out;
  for (std::size_t k = 0; k < kUnknowns; ++k) out.of[k] = share_of(product_[k], variance);
  const VarianceShares::Share all = share_of(all_products_, variance);
  out.together = {1.0 - all.share, all.give_or_take};
  return out;
}

}  // namespace core
