// core/picture_parts.h - measures that the picture's layout and drawing share.
#pragma once

#include "core/picture.h"

namespace core {

/// Straight part of the still-air pattern, NM.
[[nodiscard]] double pattern_leg_nm(const Setup& setup);
/// Whether the protected area's layer shows the pattern so small that its handles would lie
/// on each other; they then have no place.
[[nodiscard]] bool too_far(const PictureOptions& options, const Setup& setup);
/// Radius of the sectors' arcs.
[[nodiscard]] double sector_radius_nm(const Setup& setup);
/// Whether `entry` is one of two acceptable ones, and not the one that is flown.
[[nodiscard]] bool shown_beside(const WorkedCase& worked, const EntryCase& entry);
/// Until when a flight beside another is drawn: its roll-out, or the end of its laps.
[[nodiscard]] double beside_end_s(const Flight& flight);
/// Up to where it is drawn: established on the inbound course, or as far as it was flown.
[[nodiscard]] double other_entry_end_s(const EntryCase& entry);
/// A station within this of the fix is brought into the picture.
inline constexpr double kStationInViewNm = 12.0;
/// Where the inbound course is taken hold of: beyond the far end of the pattern.
[[nodiscard]] Vec2 inbound_handle_nm(const Setup& setup);
/// Where the turn direction is flipped: the crown of the turn at the fix.
[[nodiscard]] Vec2 turns_handle_nm(const Setup& setup);
/// Middle of the wind's arrow, px.
[[nodiscard]] Vec2 dial_centre_px(const PictureOptions& options);
/// Length of the wind's arrow, px: grows with the wind, ever more slowly.
[[nodiscard]] double dial_length_px(const PictureOptions& options, double wind_kt);

/// The viewport that shows all between two corners, with a margin, and below it a foot.
[[nodiscard]] Viewport viewport_around(Vec2 low, Vec2 high, double width_px, double height_px,
                                       double margin_px, double foot_px = 0.0);

}  // namespace core
