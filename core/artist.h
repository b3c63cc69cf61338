// core/artist.h - draws a picture part by part. Private to picture*.cpp.
#pragma once

#include <array>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "core/apart.h"
#include "core/label_placer.h"
#include "core/picture.h"
#include "core/picture_parts.h"
#include "core/words.h"

namespace core {

inline constexpr double kSmallPx = 12.0;
inline constexpr double kTextPx = 13.0;
inline constexpr double kStrongPx = 15.0;

class Artist {
 public:
  Artist(const WorkedCase& c, const PictureOptions& o, Diagram& d)
      : c_(c), u_(c.setup), o_(o), d_(d), w_(d), labels_(o.view.width_px, o.view.height_px) {}

  void draw();

 private:
  void north();
  void streaks();
  void rings();
  void ring_labels();
  void pattern_outline(const Setup& setup, bool closed);
  void pattern();
  void course();
  void course_to(double far_nm);
  void plan_lines();
  void plan_labels();
  void flown_label();
  [[nodiscard]] static std::string plan_text(const char* word_key, const Flight& f);
  /// A label beside a flight's track, at that share of the entry where it fits best.
  void label_on_arc(Role role, const Flight& f, const std::string& text,
                    std::initializer_list<double> shares);
  void flown();
  void air_label();
  void ticks_and_events();
  void miss();
  /// The dimension line from a roll-out to the course, with its text.
  void miss_line(const Rollout& rollout, std::string_view text, double size_px);
  void fix();
  void wind();
  void keep_handles_clear();
  void handles();
  void aircraft();
  /// `drifts`: with its track over the ground.
  void aircraft_at(Vec2 at, double heading_deg, Vec2 velocity_kt, bool drifts);
  void probe();
  // A flight by hand: picture_hand.cpp.
  CORE_APART void hand();
  void hand_miss(const FlownRound& entry);
  void hand_labels(const HandPicture& hand, const FlownRound& entry);
  // Layers that are off at first: picture_sectors.cpp, picture_area.cpp, picture_limits.cpp.
  // Each is called where it is on.
  CORE_APART void area();
  CORE_APART void area_labels();
  CORE_APART void sectors();
  CORE_APART void sector_labels();
  CORE_APART void other_entry();
  CORE_APART void other_entry_label();
  CORE_APART void beside();
  CORE_APART void beside_label();
  CORE_APART void limits();
  CORE_APART void limit_labels();
  /// What must be read with the layers, at the foot of the picture.
  CORE_APART void captions();
  void caption(Role role, std::string_view text, double size_px);
  void lap_lines();
  void lap_labels();
  [[nodiscard]] std::optional<Vec2> leg_end(std::vector<Vec2>& line) const;

  /// A plan drawn beside the flown one; `flight` is null where it is not shown.
  struct Overlay {
    const Flight* flight;
    Role role;
    const char* word_key;
  };
  [[nodiscard]] std::array<Overlay, 3> overlays() const;
  /// Points of `track` from `from_s` to `to_s`, fine enough to look smooth, less the
  /// drift of the air when `in_air`.
  [[nodiscard]] double ring_step_nm() const;
  void trace(const Track& track, double from_s, double to_s, bool in_air) {
    trace(track.pieces(), from_s, to_s, in_air);
  }
  void trace(Pieces track, double from_s, double to_s, bool in_air);
  /// Keeps labels off the line just drawn, by points at least `apart_px` from each other.
  void avoid_last_line(double apart_px = 0.0);
  /// A place for a label and the direction on the screen in which it would stand best.
  struct Anchor {
    Vec2 at;
    Vec2 toward;
  };
  /// A label at whichever of the places has most room for it.
  Item& placed_best(Role role, const std::vector<Anchor>& anchors, std::string_view text,
                    double size, bool strong, double gap);
  /// Direction in which an aircraft stands from the fix that arrives with this delta of
  /// heading less outbound course, mirrored for left turns (core/hold.h).
  [[nodiscard]] double from_deg(double delta_deg) const {
    return u_.hold.inbound_course_deg + u_.turn_sign * delta_deg;
  }
  /// Two lines placed as one block, the first in the heavier weight.
  void two_lines(Role role, Vec2 at, std::string_view first, double first_px,
                 std::string_view second, double second_px, double gap, Vec2 toward);
  Item& placed(Role role, Vec2 at, std::string_view text, double size, bool strong, double gap,
               Vec2 toward);
  /// A phone's picture: only the labels that the lesson cannot do without.
  [[nodiscard]] bool small() const {
    return std::fmin(o_.view.width_px, o_.view.height_px) < 480.0;
  }
  /// So far off that the pattern is a speck in its area: its details are left out.
  [[nodiscard]] bool far() const { return too_far(o_, u_); }
  [[nodiscard]] Vec2 px(Vec2 nm) const { return o_.view.to_px(nm); }
  /// NM that make `px` pixels.
  [[nodiscard]] double nm(double pixels) const { return pixels / o_.view.px_per_nm; }
  [[nodiscard]] std::string_view turns_word() const {
    return word(u_.scenario.turns == Side::right ? "core.right" : "core.left");
  }
  /// Screen direction square to a velocity, to the outside of the pattern's turns.
  [[nodiscard]] Vec2 outward(Vec2 v) const {
    return screen({-v.y * u_.turn_sign, v.x * u_.turn_sign});
  }
  /// End of the entry: the roll-out, or as far as it could be flown.
  static double entry_end_s(const Flight& f) {
    return f.rollout.exists ? f.rollout.at_s : f.track.end_s();
  }
  /// Direction on the screen (y down) of a vector in the plane.
  static Vec2 screen(Vec2 v) {
    const double l = length(v);
    return l > 0.0 ? Vec2{v.x / l, -v.y / l} : Vec2{0.0, -1.0};
  }

  const WorkedCase& c_;
  const Setup& u_;
  const PictureOptions& o_;
  Diagram& d_;
  DiagramWriter w_;
  LabelPlacer labels_;
  double foot_px_ = 0.0;  ///< height of the captions so far
};

}  // namespace core
