// core/trade_words.h - books, entries, stations, laps and rolling in words.
//
// As in core/explain.h: every sentence is chosen by the numbers that it states.
#pragma once

#include <string>
#include <vector>

#include "core/apart.h"
#include "core/worked_case.h"

namespace core {

[[nodiscard]] std::string_view label_of(Rulebook book);
/// What a book asks for, a sentence each. Sources in docs/theory.md "Two books".
[[nodiscard]] std::vector<std::string> book_words(Rulebook book);
/// An entry's name by the book: teardrop, or Sector 2 (offset).
[[nodiscard]] std::string_view label_of(EntryKind kind, Rulebook book);

/// A turn that an entry has at the fix and after its leg: which way, and by how much.
struct EntryTurn {
  Side side;
  double angle_deg;
};
/// The turn at the fix and the one after the outbound leg, as flown. Needs `entry.exists`
/// and, for the second, a roll-out.
[[nodiscard]] EntryTurn first_turn(const Setup& setup, const EntryCase& entry);
[[nodiscard]] EntryTurn second_turn(const Setup& setup, const EntryCase& entry);
/// What the pilot does, a step a sentence, with the numbers of this flight.
[[nodiscard]] std::vector<std::string> entry_steps(const Setup& setup, const EntryCase& entry);

/// Seconds from wings level on `outbound_heading_deg` to abeam the fix, for a lap begun
/// over the fix: 0 where wings level comes later; negative where it never gets there.
[[nodiscard]] double abeam_after_level_s(const Setup& setup, double outbound_heading_deg);
/// When the clock of an outbound leg starts today.
[[nodiscard]] std::string timing_words(const WorkedCase& worked);

/// Where the station stands, what its DME shows at the fix and at the end of the leg, what
/// the limiting radial does.
CORE_APART [[nodiscard]] std::vector<std::string> station_words(const WorkedCase& worked);

/// What lap `index` tells and what to do on the next.
[[nodiscard]] std::string lap_advice(const WorkedCase& worked, int index);

/// What rolling at a rate does to the roll-out.
struct RollEffect {
  bool exists = false;     ///< both roll out
  double roll_deg_s;       ///< the scenario's, or 5 deg/s where that rolls at once
  double roll_s;           ///< to the full bank
  double cross_change_nm;  ///< rolled less at once
  double to_go_change_nm;
};
[[nodiscard]] RollEffect roll_effect(const WorkedCase& worked);
[[nodiscard]] std::string roll_words(const WorkedCase& worked, const RollEffect& effect);

/// What the wind of the model leaves out, and how it changes where it does.
[[nodiscard]] std::vector<std::string> wind_model_words(const Setup& setup);

}  // namespace core
