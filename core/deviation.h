// core/deviation.h - an offset entry that turns out otherwise than planned, flown once.
//
// The pilot plans with the forecast: heading, time and the inbound heading to roll out on. What
// then differs is the wind, and how well he does it. Over the fix he holds the arrival course in
// the true wind, for the needle shows him that. docs/theory.md "The cloud".
#pragma once

#include <array>
#include <string_view>

#include "core/flight.h"

namespace core {

/// What cannot be known exactly, in the order of Amounts.
enum class Unknown {
  wind_from,   ///< direction of the wind, degrees, + clockwise
  wind_speed,  ///< kt; a wind below none blows the other way
  heading,     ///< first outbound heading as held, degrees, + right
  clock,       ///< outbound time, s, + longer
  speed,       ///< true airspeed, kt; rate and radius of turns follow
  turn_start,  ///< the turn at the fix, s, + late, - before the fix
};
inline constexpr int kUnknowns = 6;
[[nodiscard]] std::string_view name_of(Unknown unknown);

/// An amount of each unknown, in its unit: how far off it is, or how far off it may be.
struct Amounts {
  std::array<double, kUnknowns> of{};

  double& operator[](Unknown u) { return of[static_cast<std::size_t>(u)]; }
  double operator[](Unknown u) const { return of[static_cast<std::size_t>(u)]; }
  friend bool operator==(const Amounts&, const Amounts&) = default;
};

/// Why there is nothing to compare with.
enum class NoCloud {
  none,
  not_offset,    ///< another entry
  not_by_clock,  ///< the outbound leg ends at a distance or a radial
  wind_changes,  ///< by itself, with time
  no_arrival,    ///< the arrival course cannot be made good in the forecast wind
  no_inbound,    ///< nor the inbound course
  no_plan,       ///< the rule has no answer
};
[[nodiscard]] std::string_view name_of(NoCloud why);
[[nodiscard]] NoCloud why_no_cloud(const Setup& setup);

/// Roll-out of `plan` where everything is off by `off`; does not exist where the arrival or the
/// inbound course cannot be made good then. `inbound_s` is at the groundspeed that then holds the
/// inbound course. Needs why_no_cloud(setup) == none.
[[nodiscard]] Rollout deviated_rollout(const Setup& setup, const EntryPlan& plan,
                                       const Amounts& off);

/// The same as a track from the fix, or from where the turn begins if that is before, to the
/// roll-out.
class DeviatedTrack {
 public:
  static constexpr int kMost = 4;
  /// Empty where there is no roll-out.
  DeviatedTrack(const Setup& setup, const EntryPlan& plan, const Amounts& off);
  [[nodiscard]] Pieces pieces() const { return {pieces_.data(), count_}; }

 private:
  void add(const Setup& flown, double duration_s, double rate_deg_s, Roll roll);

  std::array<Segment, kMost> pieces_;  // NOLINT: only [0, count_) is read
  int count_ = 0;
};

}  // namespace core
