// core/map_study.h - what a map over all winds shows, worked out coarse first, piece by piece.
//
// A map belongs to the hold, the aircraft and the pilot's way, not to today's wind: every wind is
// steady and is met by the offset entry. docs/theory.md "Maps over all winds".
#pragma once

#include <cstdint>

#include "core/wind_map.h"

namespace core {

/// What is mapped.
enum class Mapped {
  miss,       ///< cross_nm at the roll-out, NM
  inbound,    ///< time from the roll-out to abeam the fix, seconds
  intercept,  ///< intercept that is on course within a minute of the roll-out, degrees
  multiple,   ///< the exact lap's outbound correction as a multiple of the inbound one
  laps,       ///< laps until one rolls out on course with the wanted inbound time
};
inline constexpr int kMappedKinds = 5;
[[nodiscard]] std::string_view name_of(Mapped mapped);

/// By whose plan. The rules have the order of HeadingRule.
enum class MapPlan {
  still_air,
  drift_once,
  track_30,
  drift_triple,
  own,   ///< the heading and time that the scenario flies in its own wind, in every wind
  best,  ///< in each wind the rule that misses least
};
inline constexpr int kMapPlans = 6;
[[nodiscard]] std::string_view name_of(MapPlan plan);

/// Nobody counts more laps than this.
inline constexpr int kMostCountedLaps = 6;
/// A lap's inbound time is as wanted within this, seconds. Our own choice, no source.
inline constexpr double kGoodInboundS = 5.0;

struct MapChoice {
  Mapped mapped = Mapped::miss;
  MapPlan plan = MapPlan::drift_once;
  /// With `miss`: how much farther `plan` misses than this one, |miss| less |miss|, NM.
  std::optional<MapPlan> less;
  double most_kt = 60.0;
  /// What counts as on course, NM.
  double tolerance_nm = 0.25;
};

/// Values on a grid of winds, NaN where there is none.
struct MapField {
  WindGrid grid;
  std::vector<double> value;
  std::vector<std::uint8_t> rule;  ///< with MapPlan::best, the HeadingRule; else empty

  [[nodiscard]] bool empty() const { return value.empty(); }
};

/// The value in one wind, by single flights; NaN where there is none.
[[nodiscard]] double map_value(const Setup& setup, const MapChoice& choice, Wind wind);

/// Values from `low` to `high`.
struct Range {
  double low;
  double high;
};
/// Share of the winds, every direction and speed being equally likely, whose value lies in the
/// range; a wind without a value does not. 0 for an empty field.
[[nodiscard]] double share_in(const MapField& field, Range range);
/// Share of the winds in which a rule is the best; 0 unless the field has rules.
[[nodiscard]] double share_of(const MapField& field, HeadingRule rule);

/// How far the values lie from `middle`, of the winds that have one; NaN where none has.
struct Distances {
  double mean;
  double median;
  double ninety_five;  ///< 19 of 20 are no farther
  double most;
};
[[nodiscard]] Distances distances(const MapField& field, double middle);

class MapStudy {
 public:
  /// Starts anew. The finest grid has `finest` times 360 directions and 60 steps of speed
  /// (1 to 4).
  void begin(const Setup& setup, const MapChoice& choice, int finest = 1);
  /// Works out about `winds` more of them; whether there is nothing left to do.
  bool work(int winds);
  /// The finest map that is whole; empty until the first is.
  [[nodiscard]] const MapField& field() const { return whole_; }
  [[nodiscard]] const MapChoice& choice() const { return choice_; }
  [[nodiscard]] const Setup& setup() const { return setup_; }
  /// What the values are looked at from, and how far from it the scale goes: on course and 1 NM,
  /// the wanted inbound time and a minute, no intercept and 90 degrees, triple and 2, no laps
  /// and kMostCountedLaps.
  [[nodiscard]] double middle() const;
  [[nodiscard]] double reach() const;
  /// What is good enough: off course by no more than the tolerance (of a difference: nearer than
  /// the other), within kGoodInboundS of the wanted time, an intercept of at most 30 degrees, a
  /// multiple within a half of triple, one lap at most. Our own choices, no source.
  [[nodiscard]] Range good() const;
  /// Values worth a contour line.
  [[nodiscard]] std::vector<double> contour_levels() const;

 private:
  void start_level();
  void work_speed(int speed);
  void work_wind(int direction, int speed);
  /// Whether whole speeds come from closed forms.
  [[nodiscard]] bool is_quick() const;

  Setup setup_;
  MapChoice choice_;
  std::vector<WindGrid> levels_;  ///< still to do, the finest first
  MapField whole_;
  MapField making_;
  int next_ = 0;  ///< wind of `making_`
  RolloutMap rollouts_;
};

}  // namespace core
