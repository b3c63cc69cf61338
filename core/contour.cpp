#include "core/contour.h"

namespace core {
namespace {

/// Columns are directions, rows speeds.
class WindNodes {
 public:
  explicit WindNodes(const MapField& field) : field_(field) {
    for (int i = 0; i < field.grid.directions; ++i) axes_.push_back(along(field.grid.from_deg(i)));
  }
  [[nodiscard]] int columns() const { return field_.grid.directions; }
  [[nodiscard]] int rows() const { return field_.grid.speeds; }
  [[nodiscard]] bool wraps() const { return true; }
  [[nodiscard]] double value(int direction, int speed) const {
    return field_.value[field_.grid.index(direction, speed)];
  }
  [[nodiscard]] Vec2 place(int direction, int speed) const {
    return axes_[static_cast<std::size_t>(direction)] * field_.grid.speed_kt(speed);
  }

 private:
  const MapField& field_;
  std::vector<Vec2> axes_;
};

}  // namespace

std::vector<LevelLine> contour(const MapField& field, double level) {
  if (field.empty() || !(level == level)) return {};
  const WindNodes nodes(field);
  return LevelLines(nodes, level).lines();
}

}  // namespace core
