// core/cloud.h - thousands of flights of one plan, each a little otherwise than planned.
//
// Every unknown (core/deviation.h) is off by a number of its own, normally distributed about
// nothing; a "+-" holds 19 of 20. The numbers come from a seed, flight by flight, and are kept
// while the scene is moved: the same flights fly again, so a cloud moves smoothly and costs the
// formula alone. docs/theory.md "The cloud", "Which uncertainty matters most".
#pragma once

#include <cstdint>
#include <vector>

#include "core/cloud_draws.h"
#include "core/cloud_flights.h"
#include "core/deviation.h"
#include "core/variance_shares.h"

namespace core {

/// What a cloud comes to. With no flight flown every mean is NaN.
struct CloudSummary {
  int drawn = 0;
  int flown = 0;  ///< the others cannot hold a course in their wind
  int inside = 0;
  double inside_share = 0.0;  ///< of those drawn: |cross| within the tolerance
  struct Spread {
    double mean;
    double sd;
    double low;  ///< 19 of 20 lie from low to high, as many beyond each
    double middle;
    double high;
  };
  Spread cross_nm{};
  Spread inbound_s{};
};

class Cloud {
 public:
  static constexpr int kMost = 100000;
  /// Usual spreads: our own choice (docs/theory.md).
  static constexpr Amounts kUsual{{20.0, 5.0, 5.0, 5.0, 5.0, 3.0}};
  /// The widest that is flown: where a spread is wider, negative or not a number it is brought
  /// within.
  static constexpr Amounts kWidest{{90.0, 60.0, 45.0, 60.0, 60.0, 60.0}};

  /// A new scene: nothing is flown yet. The numbers of a seed are kept from scene to scene.
  void set(const Setup& setup, const Amounts& spread, std::uint32_t seed);
  /// The same with another plan than the scenario's own.
  void set(const Setup& setup, const EntryPlan& plan, const Amounts& spread, std::uint32_t seed);
  /// Where not none there are no flights.
  [[nodiscard]] NoCloud why() const { return why_; }

  /// Flies `count` more, to kMost in all.
  void fly_more(int count);
  [[nodiscard]] int drawn() const { return static_cast<int>(cross_nm_.size()); }
  /// Flight by flight; NaN where one cannot be flown.
  [[nodiscard]] const std::vector<double>& cross_nm() const { return cross_nm_; }
  [[nodiscard]] const std::vector<double>& to_go_nm() const { return to_go_nm_; }
  [[nodiscard]] const std::vector<double>& inbound_s() const { return inbound_s_; }
  [[nodiscard]] Vec2 rollout(int flight) const;
  /// By how much that flight is off; flight < drawn().
  [[nodiscard]] Amounts off(int flight) const;
  [[nodiscard]] CloudSummary summary(double tolerance_nm) const;

  /// Flies what the variance shares of the next `count` flights need, seven more for each; flights
  /// that are not flown yet are flown. To kMost in all.
  void share_more(int count);
  [[nodiscard]] VarianceShares cross_shares() const { return cross_sums_.shares(); }
  [[nodiscard]] VarianceShares inbound_shares() const { return inbound_sums_.shares(); }

  [[nodiscard]] const Setup& setup() const { return setup_; }
  [[nodiscard]] const EntryPlan& plan() const { return plan_; }
  [[nodiscard]] const Amounts& spread() const { return spread_; }

 private:
  void fly(const Columns& columns, std::size_t first, std::size_t end, double* cross_nm,
           double* to_go_nm, double* inbound_s) const;

  Setup setup_;
  EntryPlan plan_;
  Amounts spread_{};
  NoCloud why_ = NoCloud::no_plan;
  CloudFrame frame_{};
  Draws first_{1};
  Draws second_{2};  ///< for the shares
  std::vector<double> cross_nm_;
  std::vector<double> to_go_nm_;
  std::vector<double> inbound_s_;
  ShareSums cross_sums_{0.0};
  ShareSums inbound_sums_{0.0};
  int shared_ = 0;
};

/// The cloud's numbers as a JSON object; with no cloud `why` is its name.
[[nodiscard]] std::string cloud_json(const Cloud& cloud, double tolerance_nm);

}  // namespace core
