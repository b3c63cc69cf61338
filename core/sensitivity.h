// core/sensitivity.h - what one thing at a time does to the roll-out: the sensitivity card.
//
// Single flights of the scenario's own plan with one unknown (core/deviation.h) off by a round
// amount, one way and the other. docs/theory.md "Sensitivity".
#pragma once

#include <array>
#include <string>

#include "core/deviation.h"

namespace core {

/// One flight less the flight as planned. Where it cannot be flown the numbers are NaN.
struct Effect {
  double cross_nm;   ///< + toward the holding side
  double inbound_s;  ///< + longer
};
struct SensitivityRow {
  Unknown unknown;
  double amount;  ///< in the unknown's unit
  Effect more;    ///< off by + amount
  Effect less;    ///< off by - amount
};
struct Sensitivity {
  /// The steps on the card.
  static constexpr Amounts kSteps{{10.0, 5.0, 5.0, 5.0, 5.0, 2.0}};

  NoCloud why = NoCloud::none;  ///< where not none the rest means nothing
  Rollout planned;
  std::array<SensitivityRow, kUnknowns> rows{};
};
[[nodiscard]] Sensitivity study_sensitivity(const Setup& setup);

/// As a JSON object; where there is none `why` is its name and the rest null.
[[nodiscard]] std::string sensitivity_json(const Setup& setup);

}  // namespace core
