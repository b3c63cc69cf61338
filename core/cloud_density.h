// core/cloud_density.h - where a cloud's flights roll out, as a density and its outlines.
#pragma once

#include <vector>

#include "core/cloud.h"

namespace core {

/// Share of the roll-outs about each node of a grid, x east, y north; between nodes it changes
/// evenly. The shares add up to `covered`. Empty where no flight was flown.
struct CloudDensity {
  static constexpr int kMostNodes = 161;  ///< either way

  Vec2 corner_nm{0.0, 0.0};  ///< the south-west node
  double cell_nm = 1.0;
  int columns = 0;
  int rows = 0;
  double covered = 0.0;  ///< of the flown; far stragglers are left out
  double peak = 0.0;
  std::vector<double> share;  ///< row by row from the south

  [[nodiscard]] std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }
  [[nodiscard]] double node(int column, int row) const { return share[index(column, row)]; }
  /// 0 outside.
  [[nodiscard]] double at(Vec2 nm) const;
};
[[nodiscard]] CloudDensity density_of(const Cloud& cloud);

/// A closed line; the last point is joined to the first.
using Ring = std::vector<Vec2>;
/// The lines about the smallest area that holds `share` of the flown roll-outs: the density is
/// greater inside. Holes are rings, too.
[[nodiscard]] std::vector<Ring> outlines_holding(const Cloud& cloud, const CloudDensity& density,
                                                 double share);

}  // namespace core
