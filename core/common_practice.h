// core/common_practice.h - what is commonly practised, beside the exact plan of today.
//
// Practices of the trade have no authority behind them, except where an item says so.
// Each is flown in today's wind by the core and judged by the miss that results. Angles
// are degrees magnetic, times seconds, misses NM at the roll-out (+ on the holding side)
// or seconds of inbound leg (+ too long).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/json.h"
#include "core/lap_study.h"
#include "core/worked_case.h"

namespace core {

enum class PracticeId {
  round_thirty,   ///< 30 degrees off the outbound course
  arrival_once,   ///< and the correction held on arrival, applied once
  first_minute,   ///< the first minute whatever the wind, then read where it put you
  slow_outbound,  ///< two minutes to two and a half where it is slow outbound
  triple,         ///< triple the inbound correction on the laps (AIM)
  twice,          ///< double it where it is over 10 degrees
  plus_ten,       ///< or 10 degrees more than it
  ratio_speeds,   ///< outbound time in the ratio of the groundspeeds
  ratio_last,     ///< or of the wanted to the last inbound time
  half_second,    ///< half a second a knot
  one_second,     ///< a second a knot
};
inline constexpr int kPractices = 11;
[[nodiscard]] std::string_view name_of(PracticeId id);

/// Good enough: kGoodRolloutNm at the roll-out (our choice), this far from the exact
/// heading (the ACS tolerance on headings, III.B, seen), and this far from the wanted
/// inbound time (our choice).
inline constexpr double kGoodHeadingDeg = 10.0;
inline constexpr double kGoodInboundS = 10.0;
/// Inbound corrections beyond this are doubled, or 10 added, instead of tripled.
inline constexpr double kTripledUpToDeg = 10.0;

struct PracticeItem {
  PracticeId id = PracticeId::round_thirty;
  std::optional<double> value;  ///< heading, or outbound time; slow_outbound: the longest
  std::optional<double> least;  ///< slow_outbound: the shortest
  std::optional<double> exact;  ///< heading or time likewise; absent: there is none
  std::optional<double> miss;   ///< NM, or seconds for the four times
  bool good = false;
  std::string title;
  std::string says;   ///< the practice, and who says so
  std::string today;  ///< its value today
  std::string exactly;
  std::string words;  ///< the verdict, chosen by the numbers
};

/// What a roll-out is read as, by the practice `first_minute`.
enum class WindReading { as_allowed, stronger, weaker, nothing };

/// The side of the roll-out read as a wind. `crosswind_kt` is + from the holding side;
/// under a knot tells nothing. Within kGoodRolloutNm the wind was as allowed for.
[[nodiscard]] WindReading read_rollout(double cross_nm, double crosswind_kt);

/// Every practice that speaks of today's entry and laps, in the order of PracticeId.
/// Those of the offset entry are left out where another is flown, those of timing where
/// the leg is a distance, all where arrival or inbound course cannot be made good.
[[nodiscard]] std::vector<PracticeItem> common_practice(const WorkedCase& worked,
                                                        const LapStudy& study);

/// The value of `practice` in evaluate()'s answer: an array.
void write_practice(Json& json, const std::vector<PracticeItem>& items);

}  // namespace core
