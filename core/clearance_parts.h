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
/// The sentence "core.clearance." + key, every placeholder filled from what was read.
/// {pattern} and {side} are `pattern_deg` and its eighth, {back} and {back_side} those of
/// its reciprocal; {said} is `said`. One list of fillings for all sentences keeps the
/// module small.
[[nodiscard]] std::string say(const ReadClearance& r, std::string_view key,
                              double pattern_deg = 0.0, std::string_view said = {});

/// Adds the sentence contradiction.<name of the kind><variant>, or problem.<...>.
void add(ReadClearance& r, Contradiction kind, double pattern_deg = 0.0,
         std::string_view variant = {});
void add(ReadClearance& r, Doubt kind, double pattern_deg = 0.0, std::string_view said = {},
         std::string_view variant = {});

/// Fills `heard`, `unread` and the problems of reading.
void hear_clearance(std::string_view text, ReadClearance& r);
/// Fills everything else from `heard`.
void conclude(ReadClearance& r);

}  // namespace core
