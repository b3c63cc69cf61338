// core/label_placer.h - finds room for a label beside its anchor.
//
// Works in CSS pixels of the picture, y down. Text widths are estimated from the
// count of letters: good enough to keep labels apart, never used to draw.
#pragma once

#include <string_view>
#include <vector>

#include "core/diagram.h"

namespace core {

struct Box {
  double left;
  double top;
  double right;
  double bottom;
  [[nodiscard]] bool overlaps(const Box& o) const {
    return left < o.right && o.left < right && top < o.bottom && o.top < bottom;
  }
  [[nodiscard]] bool contains(Vec2 p) const {
    return p.x >= left && p.x <= right && p.y >= top && p.y <= bottom;
  }
};

/// Width of `text` in px at `size_px`, roughly.
[[nodiscard]] double text_width_px(std::string_view text, double size_px, bool strong);

/// Where a label went: its alignment and the offset from the anchor to the middle of
/// its side (left, centre or right, vertically the middle).
struct Placement {
  Align align = Align::left;
  Vec2 offset_px{0.0, 0.0};
  double cost = 0.0;  ///< how bad the place is; a place over another label costs 120
  Box box{};          ///< what the label covers, px
};

class LabelPlacer {
 public:
  LabelPlacer(double width_px, double height_px) : width_px_(width_px), height_px_(height_px) {}

  /// A point that labels should not cover, such as a place on a track.
  void avoid(Vec2 at_px) { points_.push_back(at_px); }
  /// A box that labels must not cover.
  void block(const Box& box) { boxes_.push_back(box); }

  /// Whether nothing was put there so far.
  [[nodiscard]] bool is_free(const Box& box) const;

  /// Chooses a side for a label of `width` by `height` px about `anchor_px`, at `gap`
  /// px from it, preferring the direction `toward` (y down), and keeps its box.
  Placement place(Vec2 anchor_px, double width, double height, double gap, Vec2 toward);
  /// The same without keeping the box. Where every place costs `most` or more, the answer's
  /// cost is `most` and the rest means nothing; that is found out sooner.
  [[nodiscard]] Placement propose(Vec2 anchor_px, double width, double height, double gap,
                                  Vec2 toward, double most = 1e300) const;

 private:
  double width_px_;
  double height_px_;
  std::vector<Vec2> points_;
  std::vector<Box> boxes_;
};

}  // namespace core
