// core/flight.h - the plan flown: entry, roll-out, intercept and laps.
//
// The clock is zero over the fix; the arrival is flown before it. Every piece is
// closed form (core/track.h). Positive `cross_nm` is on the holding side.
#pragma once

#include <array>

#include "core/motion.h"
#include "core/track.h"

namespace core {

/// Off course by no more than this, the pilot just flies the inbound heading.
inline constexpr double kOnCourseNm = 0.1;
/// Seconds of arrival shown before the fix.
inline constexpr double kArrivalShownS = 30.0;

enum class EventKind {
  arrival,     ///< start of the picture
  fix,         ///< over the fix, established inbound (or arriving)
  level,       ///< wings level on an outbound heading
  abeam,       ///< abeam the fix outbound: the laps' clock starts here if it is later than `level`
  time_up,     ///< outbound leg over, turn inbound
  roll_out,    ///< wings level on the inbound heading (parallel: on the intercept heading)
  intercept,   ///< wings level on the intercept heading
  on_course,   ///< rolled out on the inbound course
  fix_missed,  ///< abeam the fix without being on course
};
[[nodiscard]] std::string_view name_of(EventKind kind);

struct Event {
  EventKind kind;
  int lap;  ///< 0 entry, 1.. laps
  double at_s;
  Vec2 at;
  double heading_deg;
};

/// What the roll-out says. Where `exists` is false the rest means nothing.
struct Rollout {
  bool exists = false;
  double cross_nm = 0.0;
  double to_go_nm = 0.0;
  double inbound_s = 0.0;  ///< to_go at the inbound groundspeed
  double at_s = 0.0;
  Vec2 at{0.0, 0.0};
};

/// What ended an outbound leg.
enum class LegEnd { time, track, dme, radial };
[[nodiscard]] std::string_view name_of(LegEnd end);

struct Lap {
  double start_s;
  double outbound_heading_deg;
  double outbound_s;  ///< from the later of abeam and wings level
  LegEnd ended_by;
  double wca_deg;  ///< inbound correction that the pilot knows when the lap begins, + right
  Rollout rollout;
};

/// Why a flight ends before what was asked for.
enum class Stop {
  none,
  no_plan,      ///< the rule has no answer in this wind
  no_arrival,   ///< the arrival course cannot be made good
  no_inbound,   ///< the inbound course cannot be made good
  no_outbound,  ///< the outbound leg never gets abeam the fix, or to its distance
  no_reading,   ///< the DME reading that ends the outbound leg is never shown
  no_exact,     ///< laps by the exact plan were asked for and there is none
};

struct Flight {
  static constexpr int kMostLaps = 10;
  static constexpr int kMostEvents = 128;

  Track track;
  EntryPlan plan;
  Stop stop = Stop::none;
  double entry_time_s = 0.0;  ///< outbound time as flown, from the timer
  LegEnd ended_by = LegEnd::time;
  Rollout rollout;
  double level_s = 0.0;              ///< wings level on the first heading
  double intercept_flown_deg = 0.0;  ///< angle used after the entry's roll-out; 0: none needed
  bool fix_missed = false;           ///< the fix came before the course, after the entry
  int lap_count = 0;
  int event_count = 0;
  std::array<Lap, kMostLaps> laps;        // NOLINT: only [0, lap_count) is read
  std::array<Event, kMostEvents> events;  // NOLINT: only [0, event_count) is read

  Flight() {}  // NOLINT: leaves the two arrays unset on purpose
};

/// Flies `plan`, then `setup.scenario.laps` laps. Fills `out` as far as it can be
/// flown; `out.stop` says why not further.
void fly(const Setup& setup, const EntryPlan& plan, Flight& out);

/// The plan of the scenario, flown.
void fly_scenario(const Setup& setup, Flight& out);

/// Heading on which the entry rolls out; absent where it does not.
[[nodiscard]] std::optional<double> rollout_heading_deg(const Flight& flight);

/// Seconds from `from`, at `velocity_nm_s`, to where the outbound leg ends: the along-track
/// or DME distance of the setup's leg; negative where it never does. 0 where it is passed.
[[nodiscard]] double seconds_to_leg_end(const Setup& setup, Vec2 from, Vec2 velocity_nm_s);
/// DME reading at which a distance leg ends: AIM FIG 5-3-5 and 5-3-6.
[[nodiscard]] double leg_end_dme_nm(const Setup& setup);
/// Outbound seconds of the next lap by the scenario's policy, from the last lap's: may be
/// negative or too long, the pilot clamps it. (Ratio: common practice, no source; second
/// for second: US Navy P-871.)
[[nodiscard]] double next_outbound_s(const Setup& setup, double outbound_s, double inbound_s);
/// The same as seconds_to_leg_end to the setup's limiting radial; absent without one, or where it
/// is not met.
[[nodiscard]] std::optional<double> seconds_to_radial(const Setup& setup, Vec2 from,
                                                      Vec2 velocity_nm_s);

/// Roll-out of the offset entry for a heading and an outbound time, without a track:
/// what solvers, maps and clouds call. Needs arrival and inbound triangles.
[[nodiscard]] Rollout offset_rollout(const Setup& setup, double heading_deg, double time_s);

/// Smallest angle to the inbound heading, at most 90 degrees, with which the aircraft,
/// at wings level on the inbound heading `cross_nm` off course, is back on course after
/// `within_s` seconds, both turns included; absent where every angle takes longer.
[[nodiscard]] std::optional<double> intercept_angle_within(const Setup& setup, double cross_nm,
                                                           double within_s);

}  // namespace core
