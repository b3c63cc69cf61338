// core/contour.h - lines of equal value on a map over all winds.
#pragma once

#include "core/map_study.h"

namespace core {

/// A line along which the value is the same; each point is a wind, as the direction that it blows
/// from and its speed: x east and y north, knots. `closed` where the last meets the first.
struct ContourLine {
  std::vector<Vec2> points;
  bool closed = false;
};

/// Marching squares over the grid's cells, values in between along straight edges; where a cell's
/// corners leave two ways, the mean of the four decides. Cells with a corner without a value have
/// no line, and so a line ends there.
[[nodiscard]] std::vector<ContourLine> contour(const MapField& field, double level);

}  // namespace core
