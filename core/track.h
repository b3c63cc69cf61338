// core/track.h - the ground track as closed-form pieces.
#pragma once

#include <array>
#include <cassert>

#include "core/roll.h"
#include "core/units.h"

namespace core {

/// A piece of flight at constant true airspeed and constant turn rate in steady wind,
/// or in one that changes evenly; the turn may be rolled into and out of. Exact at any
/// time: nothing is stepped. Formula: docs/theory.md "Segment".
struct Segment {
  double start_s;      ///< on the flight's clock: 0 at the first passage of the fix
  double duration_s;   ///< >= 0
  Vec2 start;          ///< NM
  double heading_deg;  ///< at the start
  double rate_deg_s;   ///< + = right turn, 0 = straight; rolled: the greatest
  double speed_nm_s;   ///< true airspeed
  Vec2 wind_nm_s;      ///< motion of the air at the start
  // Trivial, so that a track's room costs nothing until it is used.
  Vec2 wind_change_nm_s2;
  Roll roll;

  [[nodiscard]] double end_s() const { return start_s + duration_s; }
  [[nodiscard]] bool straight() const { return rate_deg_s == 0.0; }
  /// Flown at one turn rate in one wind: what closed forms for crossings need.
  [[nodiscard]] bool even() const {
    return roll.each_s == 0.0 && wind_change_nm_s2.x == 0.0 && wind_change_nm_s2.y == 0.0;
  }
  /// Degrees turned `t_s` after the segment's start, + right.
  [[nodiscard]] double turned_deg(double t_s) const {
    return roll.each_s == 0.0 ? rate_deg_s * t_s : rolled_deg(t_s);
  }
  /// Heading `t_s` after the segment's start, in (0, 360].
  [[nodiscard]] double heading_at(double t_s) const {
    return wrap_360(heading_deg + turned_deg(t_s));
  }
  /// Turn rate, deg/s, + right.
  [[nodiscard]] double rate_at(double t_s) const;
  /// Bank of a turn that is rolled into, + right; 0 where turns begin at once.
  [[nodiscard]] double bank_rad_at(double t_s) const;
  /// Motion through the air since the start, NM, wind left out.
  [[nodiscard]] Vec2 air_motion(double t_s) const;
  /// Position `t_s` after the segment's start, NM.
  [[nodiscard]] Vec2 position_at(double t_s) const {
    const Vec2 change = wind_change_nm_s2 * (0.5 * t_s * t_s);
    // Straight, air and wind are added as speeds: against a wind near the airspeed the
    // two motions are long and all but cancel.
    if (rate_deg_s == 0.0) return start + velocity_at(0.0) * t_s + change;
    return start + air_motion(t_s) + wind_nm_s * t_s + change;
  }
  /// Velocity over the ground, NM/s.
  [[nodiscard]] Vec2 velocity_at(double t_s) const {
    return along(heading_deg + turned_deg(t_s)) * speed_nm_s + wind_nm_s + wind_change_nm_s2 * t_s;
  }

 private:
  [[nodiscard]] double rolled_deg(double t_s) const;
};

/// Smallest t >= 0 with rate t + change t^2 / 2 = gap, for gap >= 0; negative where there
/// is none.
[[nodiscard]] double first_time(double gap, double rate, double change);

/// First time in (0, duration] at which `axis . position` reaches `level` from
/// below, or a negative number if it never does. Straight pieces are solved
/// directly, turns by a bracketed root between the extremes of the sinusoid; rolled
/// turns and turns in a changing wind between extremes looked for every 5 degrees.
[[nodiscard]] double first_rise_through(const Segment& segment, Vec2 axis, double level);

/// Pieces of flight in order, without gaps, kept elsewhere.
struct Pieces {
  const Segment* first = nullptr;
  int count = 0;

  [[nodiscard]] int size() const { return count; }
  [[nodiscard]] const Segment& operator[](int i) const { return first[i]; }
  [[nodiscard]] const Segment* begin() const { return first; }
  [[nodiscard]] const Segment* end() const { return first + count; }
  [[nodiscard]] double start_s() const { return count ? first[0].start_s : 0.0; }
  [[nodiscard]] double end_s() const { return count ? first[count - 1].end_s() : 0.0; }
  /// Index of the piece flown at `t_s`; times outside are taken to the nearest end.
  [[nodiscard]] int index_at(double t_s) const;
  [[nodiscard]] Vec2 position_at(double t_s) const;
  [[nodiscard]] double heading_at(double t_s) const;
  /// Knots over the ground, as a vector.
  [[nodiscard]] Vec2 velocity_kt_at(double t_s) const;
};

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
  [[nodiscard]] Pieces pieces() const { return {segments_.data(), size_}; }
  /// As those of Pieces.
  [[nodiscard]] int index_at(double t_s) const { return pieces().index_at(t_s); }
  [[nodiscard]] Vec2 position_at(double t_s) const { return pieces().position_at(t_s); }
  [[nodiscard]] double heading_at(double t_s) const { return pieces().heading_at(t_s); }
  [[nodiscard]] Vec2 velocity_kt_at(double t_s) const { return pieces().velocity_kt_at(t_s); }
  /// Empty again; the room is left as it is.
  void clear() { size_ = 0; }
  void add(const Segment& segment) { next() = segment; }
  /// One more piece, to be filled in where it stays. Without room it is the last one anew.
  [[nodiscard]] Segment& next() {
    assert(size_ < kCapacity);
    if (size_ < kCapacity) ++size_;
    return segments_[static_cast<unsigned>(size_ - 1)];
  }

 private:
  std::array<Segment, kCapacity> segments_;
  int size_;
};

}  // namespace core
