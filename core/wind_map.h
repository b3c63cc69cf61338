// core/wind_map.h - where an offset entry rolls out in every wind at once.
//
// Each value is what offset_rollout() (core/flight.h) gives in that wind, by the same formula
// (core/offset_path.h): several winds at a time where the processor can. A wind costs two arc
// sines and no sine or cosine, since a correction's sine is a ratio of speeds (docs/theory.md "All
// winds at once").
#pragma once

#include <vector>

#include "core/flight.h"

namespace core {

/// Winds from every direction at every speed: `directions` winds `360 / directions` degrees apart
/// from north on, at each of `speeds` speeds from 0 to `most_kt`.
struct WindGrid {
  int directions = 360;
  int speeds = 61;
  double most_kt = 60.0;

  /// Most of either, so that nobody asks for more than a page can hold.
  static constexpr int kMost = 1440;
  [[nodiscard]] bool is_usable() const {
    return directions >= 4 && directions <= kMost && speeds >= 2 && speeds <= kMost &&
           most_kt > 0.0 && most_kt <= 150.0;
  }
  [[nodiscard]] int size() const { return directions * speeds; }
  /// Place of a wind's value: speed by speed, each with its directions.
  [[nodiscard]] std::size_t index(int direction, int speed) const {
    return static_cast<std::size_t>(speed) * static_cast<std::size_t>(directions) +
           static_cast<std::size_t>(direction);
  }
  /// Magnetic, in (0, 360]: number 0 is north.
  [[nodiscard]] double from_deg(int direction) const {
    return wrap_360(360.0 * direction / directions);
  }
  [[nodiscard]] double speed_kt(int speed) const { return most_kt * speed / (speeds - 1); }
  friend bool operator==(const WindGrid&, const WindGrid&) = default;
};

/// Whose roll-outs a map shows: a rule of thumb, or one heading and time whatever the wind.
struct MappedPlan {
  std::optional<HeadingRule> rule = HeadingRule::drift_once;
  TimingRule timing = TimingRule::fixed;
  double heading_deg = 360.0;    ///< where there is no rule
  std::optional<double> time_s;  ///< instead of `timing`
};

/// Whether the clock ends the entry's outbound leg, not a distance or a radial.
[[nodiscard]] bool ends_by_clock(const Setup& setup);

/// Whether the entry's roll-outs have the closed form: turns begin at once and the clock ends the
/// outbound leg. Else each is a single flight.
[[nodiscard]] bool has_closed_form(const Setup& setup);

/// The setup in another wind, met by the offset entry, without laps, whatever its own; the wind is
/// magnetic and steady. `setup` is one that was passed through here or came from make_setup().
void set_wind(Setup& setup, Wind wind);

/// The plan in the setup's wind; absent where a rule has no answer in it.
[[nodiscard]] std::optional<EntryPlan> plan_in(const Setup& setup, const MappedPlan& plan);

/// Roll-out of the plan in the setup's wind, by a single flight; does not exist where the plan, the
/// arrival or the inbound course cannot be flown.
[[nodiscard]] Rollout mapped_rollout(const Setup& setup, const MappedPlan& plan);

/// Roll-outs on the grid, NaN where there is none. As Rollout (core/flight.h).
struct RolloutMap {
  WindGrid grid;
  std::vector<double> cross_nm;
  std::vector<double> inbound_s;
};

/// Fills the speeds [first, end) of `out`, which is given its room here. Where `out` had another
/// grid all else in it is NaN. Leaves `out` alone where the grid is not usable.
void map_rollouts(const Setup& setup, const MappedPlan& plan, const WindGrid& grid, int first,
                  int end, RolloutMap& out);

}  // namespace core
