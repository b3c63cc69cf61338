// core/debrief.h - a hand-flown flight against what would have been exact.
//
// Nothing is known of what the student meant: it is found in what was flown, so everything
// may be missing. docs/hand-flying.md has the rules by which it is found. Times are on
// the flight's clock, zero over the fix as the arrival course leads there.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/exact.h"
#include "core/hand_flown.h"
#include "core/json.h"

namespace core {

/// One round as it was flown: from a passage of the fix to the next. What could not be found
/// is absent, and then what follows from it is, too.
struct FlownRound {
  double start_s = 0.0;  ///< passage of the fix
  /// The outbound leg.
  struct Outbound {
    double turned_deg;   ///< from the passage on, + right
    double begun_s;      ///< when the first turn was begun
    double heading_deg;  ///< the one held longest
    double level_s;      ///< wings level
    double track_deg;    ///< over the ground, at wings level
  };
  std::optional<Outbound> outbound;
  std::optional<double> abeam_s;  ///< the later of abeam the fix and wings level
  /// The turn inbound.
  struct Inbound {
    double begun_s;
    double turned_deg;  ///< + right
    /// Outbound time as plans count it: from the scenario's timer; direct entries and laps
    /// from the later of abeam and wings level.
    double outbound_s;
  };
  std::optional<Inbound> inbound;
  std::optional<double> clock_s;  ///< last start of the stopwatch before the turn inbound
  Rollout rollout;                ///< wings level again, within 60 degrees of the inbound heading
  double rollout_heading_deg = 360.0;
  double intercept_deg = 0.0;         ///< greatest angle to the inbound heading held after that
  std::optional<double> on_course_s;  ///< within kOnCourseNm and 10 degrees, after the roll-out
  /// Over or abeam the fix again.
  struct Fix {
    double at_s;
    double cross_nm;
    double inbound_s;  ///< from the roll-out
  };
  std::optional<Fix> fix;
};

/// A sentence of the debrief and what it is about: "entry", "heading", "clock", "outbound",
/// "roll-out", "intercept", "inbound", "lap", "wind", "next".
struct DebriefLine {
  std::string_view about;
  std::string text;
};

struct Debrief {
  static constexpr int kMostRounds = 1 + Flight::kMostLaps;

  double end_s = 0.0;
  std::optional<Passage> passage;  ///< the first within kPassageNm of the fix
  /// The entry that was flown, by its turns and headings; absent where it is none of the three.
  std::optional<EntryKind> kind;
  bool acceptable = false;  ///< by the sector of the arrival heading, or its neighbour's
  EntryKind compared = EntryKind::offset;  ///< `kind`, or else the one that was called for
  std::optional<EntryPlan> rule;           ///< by the scenario's rule, for `compared`
  ExactPlan exact;                         ///< heading and time, likewise
  Rollout exact_rollout;
  std::vector<FlownRound> rounds;  ///< the entry, then laps; empty without a passage
  Wind wind;                       ///< at the fix
  Vec2 drift_nm{0.0, 0.0};         ///< motion of the air from the fix to the entry's roll-out
  double drift_s = 0.0;            ///< for how long; 0 where there is no roll-out
  std::vector<DebriefLine> lines;

  [[nodiscard]] const FlownRound* entry() const { return rounds.empty() ? nullptr : &rounds[0]; }
};

/// Differences that are worth words: common practice, no source, but for the heading, which is
/// the certification standard's (ACS FAA-S-ACS-8C III.B, memory).
inline constexpr double kHeadingWorthDeg = 10.0;
inline constexpr double kClockWorthS = 5.0;
inline constexpr double kInboundWorthS = 10.0;
inline constexpr double kMissWorthNm = 0.3;

/// What was done until `end_s`. Any commands and any end: nothing is assumed.
[[nodiscard]] Debrief debrief(const Setup& setup, const HandFlown& flown, double end_s);
/// The exact plan of `debrief.compared`, flown; false where there is none.
bool fly_exact(const Setup& setup, const Debrief& debrief, Flight& out);
/// The scenario in which the entry is flown with the student's own heading and time, as far as
/// they were found: heading to 0.01 degrees, time to 0.1 s.
[[nodiscard]] Scenario own_scenario(const Setup& setup, const Debrief& debrief);

/// debrief_words.cpp: the sentences, from the numbers alone.
[[nodiscard]] std::vector<DebriefLine> debrief_lines(const Setup& setup, const Debrief& debrief);
void write_debrief(Json& json, const Setup& setup, const Debrief& debrief);

}  // namespace core
