// core/practice_text.h - how practices and laps say corrections and misses.
#pragma once

#include <string>

#include "core/hold.h"
#include "core/words.h"

namespace core {

/// "22° right", "0°".
[[nodiscard]] inline std::string correction_text(double right_deg) {
  const std::string degrees = fixed(std::abs(right_deg), 0);
  return degrees == "0" ? "0°" : degrees + "° " + side_text(right_deg);
}

/// The size of a miss; one beyond `limit` is never rounded back to it.
[[nodiscard]] inline std::string size_text(double miss, double limit, int decimals) {
  const double size = std::abs(miss);
  const double step = decimals == 2 ? 0.01 : decimals == 1 ? 0.1 : 1.0;
  return fixed(size > limit && size < limit + step ? limit + step : size, decimals);
}

/// "0.31 NM past the course", "on the course".
[[nodiscard]] inline std::string cross_text(double cross_nm, double limit_nm) {
  const std::string nm = size_text(cross_nm, limit_nm, 2);
  if (nm == "0.00") return std::string(word("core.practice.on_course"));
  return phrase(cross_nm < 0.0 ? "core.practice.past" : "core.practice.short", {{"nm", nm}});
}

}  // namespace core
