// core/contour.h - lines of equal value on a map over all winds.
#pragma once

#include "core/level_lines.h"
#include "core/map_study.h"

namespace core {

/// Each point is a wind, as the direction that it blows from and its speed: x east and y north,
/// knots.
[[nodiscard]] std::vector<LevelLine> contour(const MapField& field, double level);

}  // namespace core
