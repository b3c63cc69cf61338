// core/variance_shares.h - how much of an outcome's variance each unknown makes by itself.
//
// First-order indices of Sobol', by the estimator of Saltelli and others (2010), Comput. Phys.
// Commun. 181:259, table 2 (b): docs/theory.md "Which uncertainty matters most".
#pragma once

#include <array>

#include "core/deviation.h"

namespace core {

/// Shares of one, NaN where nothing varies. An estimate may lie a little below none.
struct VarianceShares {
  struct Share {
    double share;
    double give_or_take;  ///< holds 19 of 20
  };
  int used = 0;
  std::array<Share, kUnknowns> of{};
  Share together{};  ///< what is left: what they do only with each other
};

class ShareSums {
 public:
  /// `centre`: about the mean of the outcomes; any is right, a good one is exact sooner.
  explicit ShareSums(double centre) : centre_(centre) {}
  /// Outcomes with the first numbers, with the second, and with the first where each unknown in
  /// turn has the second. Left out where one is NaN.
  void add(double first, double second, const std::array<double, kUnknowns>& mixed);
  [[nodiscard]] VarianceShares shares() const;

 private:
  struct Sum {
    double value = 0.0;
    double square = 0.0;
    void add(double x) {
      value += x;
      square += x * x;
    }
  };
  [[nodiscard]] VarianceShares::Share share_of(const Sum& sum, double variance) const;

  double centre_;
  int used_ = 0;
  Sum outcome_;  ///< of both sets
  std::array<Sum, kUnknowns> product_{};
  Sum all_products_;
};

}  // namespace core
