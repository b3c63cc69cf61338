// core/spoken_wind.h - the wind as it is said on ATIS, by the tower and on the telephone.
//
// "wind two four zero at one eight gust two five", "240 at 18", "240/18", "24018G25KT",
// "wind calm", "wind variable at five", "240 degrees 18 knots maximum 25".
#pragma once

#include "core/reported_wind.h"

namespace core {

/// The first wind behind the word "wind" (behind "wind shear" there is none); without that word, a
/// wind of three-figure direction that stands first in the text. Never fails.
[[nodiscard]] ReportedWind read_spoken_wind(std::string_view text);

}  // namespace core
