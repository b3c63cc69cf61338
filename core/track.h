// core/track.h - the ground track as closed-form pieces.
#pragma once

#include <array>
#include <cassert>

#include "core/units.h"

namespace core {

/// A piece of flight at constant true airspeed and constant turn rate in steady
/// wind. Exact at any time: nothing is stepped. Formula: docs/theory.md "Segment".
struct Segment {
  double start_s;      ///< on the flight's clock: 0 at the first passage of the fix
  double duration_s;   ///< >= 0
  Vec2 start;          ///< NM
  double heading_deg;  ///< at the start
  double rate_deg_s;   ///< + = right turn, 0 = straight
  double speed_nm_s;   ///< true airspeed
  Vec2 wind_nm_s;      ///< motion of the air

  [[nodiscard]] double end_s() const { return start_s + duration_s; }
  /// Heading `t_s` after the segment's start, in (0, 360].
  [[nodiscard]] double heading_at(double t_s) const {
    return wrap_360(heading_deg + rate_deg_s * t_s);
  }
  /// Motion through the air since the start, NM, wind left out.
  [[nodiscard]] Vec2 air_motion(double t_s) const;
  /// Position `t_s` after the segment's start, NM.
  [[nodiscard]] Vec2 position_at(double t_s) const {
    // Straight, air and wind are added as speeds: against a wind near the airspeed the
    // two motions are long and all but cancel.
    if (rate_deg_s == 0.0) return start + velocity_at(0.0) * t_s;
    return start + air_motion(t_s) + wind_nm_s * t_s;
  }
  /// Velocity over the ground, NM/s.
  [[nodiscard]] Vec2 velocity_at(double t_s) const {
    return along(heading_deg + rate_deg_s * t_s) * speed_nm_s + wind_nm_s;
  }
};

/// First time in (0, duration] at which `axis . position` reaches `level` from
/// below, or a negative number if it never does. Straight pieces are solved
/// directly, turns by a bracketed root between the extremes of the sinusoid.
[[nodiscard]] double first_rise_through(const Segment& segment, Vec2 axis, double level);

/// A flight's pieces in order, without gaps. Fixed room: nothing is allocated.
class Track {
 public:
  static constexpr int kCapacity = 176;

  // Deliberately leaves the room unset: only [0, size) is ever read.
  Track() : size_(0) {}  // NOLINT(cppcoreguidelines-pro-type-member-init)

  [[nodiscard]] int size() const { return size_; }
  [[nodiscard]] const Segment& operator[](int i) const {
    return segments_[static_cast<unsigned>(i)];
  }
  [[nodiscard]] const Segment* begin() const { return segments_.data(); }
  [[nodiscard]] const Segment* end() const { return segments_.data() + size_; }
  [[nodiscard]] double start_s() const { return size_ ? segments_[0].start_s : 0.0; }
  [[nodiscard]] double end_s() const {
    return size_ ? segments_[static_cast<unsigned>(size_ - 1)].end_s() : 0.0;
  }
  /// Index of the piece flown at `t_s`; times outside are taken to the nearest end.
  [[nodiscard]] int index_at(double t_s) const;
  [[nodiscard]] Vec2 position_at(double t_s) const;
  [[nodiscard]] double heading_at(double t_s) const;
  /// Knots over the ground, as a vector.
  [[nodiscard]] Vec2 velocity_kt_at(double t_s) const;
  /// Empty again; the room is left as it is.
  void clear() { size_ = 0; }
  void add(const Segment& segment) {
    assert(size_ < kCapacity);
    if (size_ < kCapacity) segments_[static_cast<unsigned>(size_++)] = segment;
  }

 private:
  std::array<Segment, kCapacity> segments_;
  int size_;
};

}  // namespace core
