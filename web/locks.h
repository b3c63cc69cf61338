// web/locks.h - keys of the scene that an instructor has fixed: the one place where a change is
// held back, however it is made.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/picture.h"
#include "core/scenario.h"

namespace web {

class Locks {
 public:
  /// Fixes the link keys named in `keys` (a space between; names that no link has are passed
  /// by) at the values that `link` gives them. Takes the place of what was fixed before.
  void set(std::string_view keys, std::string_view link);
  /// `wanted` with every fixed key at its value; all of the fixed scene where a value cannot
  /// stand beside the rest.
  [[nodiscard]] core::Scenario held(const core::Scenario& wanted) const;
  [[nodiscard]] bool has(core::Handle handle) const;

 private:
  std::vector<std::string> keys_;
  core::Scenario fixed_;
};

}  // namespace web
