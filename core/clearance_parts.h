// core/clearance_parts.h - what the files of core/clearance.h share.
#pragma once

#include <string>
#include <string_view>

#include "core/clearance.h"

namespace core {

/// Phraseology, in capitals, by eighth.
extern const std::string_view kEighthWords[kEighths];

inline constexpr double kLeastLegS = 15.0;
inline constexpr double kMostLegS = 600.0;
inline constexpr double kLeastLegNm = 0.5;
inline constexpr double kMostLegNm = 50.0;
inline constexpr double kMostDmeNm = 199.0;
inline constexpr double kLeastSpeedKt = 40.0;
inline constexpr double kMostSpeedKt = 400.0;

[[nodiscard]] bool in_range(const Leg& leg);
/// "18:45"
[[nodiscard]] std::string clock_text(int minutes);
/// The fix in a sentence: its name, "the 16 DME fix", or "the fix".
[[nodiscard]] std::string fix_words(const HeardClearance& heard);
/// "the 265 radial", "the bearing 265 from the station", "the course 085".
[[nodiscard]] std::string line_words(const HeardClearance& heard);
/// WEST, in capitals; empty where none was said.
[[nodiscard]] std::string direction_words(const HeardClearance& heard);

void add(ReadClearance& r, Contradiction kind, std::string text);
void add(ReadClearance& r, Doubt kind, std::string text);

/// Fills `heard`, `unread` and the problems of reading.
void hear_clearance(std::string_view text, ReadClearance& r);
/// Fills everything else from `heard`.
void conclude(ReadClearance& r);

}  // namespace core
