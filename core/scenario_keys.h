// core/scenario_keys.h - the link's keys: how each is read from text and written.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "core/scenario.h"

namespace core {

/// One key of the link. The allowed range in words is catalogue text "core.allowed.<key>".
struct ScenarioKey {
  std::string_view name;
  bool (*read)(std::string_view, Scenario&);  ///< false: cannot be used; may leave a mess
  std::string (*write)(const Scenario&);      ///< empty: absent
};

inline constexpr std::size_t kKeyCount = 38;
/// In canonical order.
[[nodiscard]] const std::array<ScenarioKey, kKeyCount>& scenario_keys();

}  // namespace core
