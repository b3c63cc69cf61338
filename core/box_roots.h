// core/box_roots.h - every root of two equations in two unknowns in a rectangle.
//
// Branch and prune with ranges (core/interval.h): a rectangle is dropped only where its
// ranges show that it holds no root; else it is narrowed (Krawczyk's operator) or halved,
// and Newton's method starts in what is left at the finest size. So no root is missed but
// for rounding, unless the work allowed runs out, which the answer says. R. Krawczyk,
// Computing 4 (1969) 187-201 (from memory); derivation in docs/theory.md "Wind inferred".
#pragma once

#include "core/interval.h"

namespace core {

struct Box {
  Interval x;
  Interval y;
};

/// Values of two equations and their slopes: slope[i][0] along x, slope[i][1] along y.
template <class N>
struct TwoEquations {
  N value[2];
  N slope[2][2];
  bool possible;  ///< false: no root that is wanted lies here; the rest means nothing
  bool smooth;    ///< false: `slope` means nothing
};

/// What the search may spend.
struct BoxBudget {
  double finest;   ///< rectangles with both sides this short are not halved again
  int most_boxes;  ///< rectangles looked at
};

/// `System` gives `TwoEquations<Interval> over(const Box&)` and
/// `TwoEquations<double> at(double x, double y)`. `found(x, y)` gets each root, some of them
/// more than once, in no useful order, and now and then one outside the rectangle.
template <class System, class Found>
class BoxSearch {
 public:
  BoxSearch(const System& system, BoxBudget budget, const Found& found)
      : system_(system), budget_(budget), found_(found) {}

  void search(const Box& box);
  /// False: the budget ran out, and roots may be missing.
  [[nodiscard]] bool complete() const { return boxes_ <= budget_.most_boxes; }
  [[nodiscard]] int boxes() const { return boxes_; }

 private:
  /// Newton's steps from a point.
  void settle(double x, double y);
  /// Cuts off what the slopes show to hold no root; false where nothing is left.
  bool narrow(const TwoEquations<Interval>& over, Box& box) const;

  const System& system_;
  BoxBudget budget_;
  const Found& found_;
  int boxes_ = 0;
};

template <class System, class Found>
void BoxSearch<System, Found>::settle(double x, double y) {
  // Quadratic from a good start, halving at a double root: 40 halvings leave nothing.
  for (int i = 0; i < 40; ++i) {
    const TwoEquations<double> e = system_.at(x, y);
    if (!e.smooth) return;
    const double det = e.slope[0][0] * e.slope[1][1] - e.slope[0][1] * e.slope[1][0];
    const double dx = (e.value[0] * e.slope[1][1] - e.value[1] * e.slope[0][1]) / det;
    const double dy = (e.value[1] * e.slope[0][0] - e.value[0] * e.slope[1][0]) / det;
    if (!std::isfinite(dx) || !std::isfinite(dy)) break;
    x -= dx;
    y -= dy;
    if (std::abs(dx) + std::abs(dy) <= 1e-14 * (1.0 + std::abs(x) + std::abs(y))) break;
  }
  // Going to and fro in the last digits, or slopes that vanish: the finder checks.
  found_(x, y);
}

template <class System, class Found>
bool BoxSearch<System, Found>::narrow(const TwoEquations<Interval>& over, Box& box) const {
  // Roots are not lost to rounding at a rectangle's edge.
  constexpr Interval kSlack{-1e-12, 1e-12};
  const double x = box.x.mid();
  const double y = box.y.mid();
  const Interval dx = box.x - x;
  const Interval dy = box.y - y;
  const TwoEquations<double> here = system_.at(x, y);
  if (!here.smooth) return true;
  for (int i = 0; i < 2; ++i) {
    const Interval* s = over.slope[i];
    if (!(s[0] * dx + s[1] * dy + here.value[i] + kSlack).holds(0.0)) return false;
  }
  // With Y the inverse of the slopes here, a root in the box lies in
  // here - Y value + (1 - Y slopes) (box - here).
  const double(*j)[2] = here.slope;
  const double det = j[0][0] * j[1][1] - j[0][1] * j[1][0];
  const double y00 = j[1][1] / det;
  const double y01 = -j[0][1] / det;
  const double y10 = -j[1][0] / det;
  const double y11 = j[0][0] / det;
  if (!(std::abs(y00) + std::abs(y01) + std::abs(y10) + std::abs(y11) < 1e9)) return true;
  const Interval(*s)[2] = over.slope;
  const Interval rest_x = (1.0 - (y00 * s[0][0] + y01 * s[1][0])) * dx -
                          (y00 * s[0][1] + y01 * s[1][1]) * dy +
                          (x - y00 * here.value[0] - y01 * here.value[1]);
  const Interval rest_y = (1.0 - (y10 * s[0][1] + y11 * s[1][1])) * dy -
                          (y10 * s[0][0] + y11 * s[1][0]) * dx +
                          (y - y10 * here.value[0] - y11 * here.value[1]);
  box.x = common(box.x, rest_x + kSlack);
  box.y = common(box.y, rest_y + kSlack);
  return box.x.lo <= box.x.hi && box.y.lo <= box.y.hi;
}

template <class System, class Found>
void BoxSearch<System, Found>::search(const Box& box) {
  if (++boxes_ > budget_.most_boxes) return;
  const TwoEquations<Interval> over = system_.over(box);
  if (!over.possible) return;
  for (const Interval& value : over.value) {
    if (value.lo > 1e-12 || value.hi < -1e-12) return;
  }
  const double widest = std::fmax(box.x.width(), box.y.width());
  if (widest <= budget_.finest) return settle(box.x.mid(), box.y.mid());
  Box rest = box;
  if (over.smooth && !narrow(over, rest)) return;
  // Each step at least halves the longer side: the depth is bounded.
  if (std::fmax(rest.x.width(), rest.y.width()) <= 0.5 * widest) return search(rest);
  if (rest.x.width() >= rest.y.width()) {
    search({{rest.x.lo, rest.x.mid()}, rest.y});
    search({{rest.x.mid(), rest.x.hi}, rest.y});
  } else {
    search({rest.x, {rest.y.lo, rest.y.mid()}});
    search({rest.x, {rest.y.mid(), rest.y.hi}});
  }
}

}  // namespace core
