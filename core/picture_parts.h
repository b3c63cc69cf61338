// core/picture_parts.h - measures that the picture's layout and drawing share.
#pragma once

#include "core/picture.h"

namespace core {

/// Straight part of the still-air pattern, NM.
[[nodiscard]] double pattern_leg_nm(const Setup& setup);
/// Where the inbound course is taken hold of: beyond the far end of the pattern.
[[nodiscard]] Vec2 inbound_handle_nm(const Setup& setup);
/// Where the turn direction is flipped: the crown of the turn at the fix.
[[nodiscard]] Vec2 turns_handle_nm(const Setup& setup);
/// Middle of the wind's arrow, px.
[[nodiscard]] Vec2 dial_centre_px(const PictureOptions& options);
/// Length of the wind's arrow, px: grows with the wind, ever more slowly.
[[nodiscard]] double dial_length_px(const PictureOptions& options, double wind_kt);

}  // namespace core
