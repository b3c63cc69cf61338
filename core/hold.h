// core/hold.h - the holding pattern: its axes, its sectors, its nominal shape.
#pragma once

#include "core/units.h"

namespace core {

enum class Side { left, right };
[[nodiscard]] constexpr double sign_of(Side side) { return side == Side::right ? 1.0 : -1.0; }
[[nodiscard]] constexpr Side opposite(Side side) {
  return side == Side::right ? Side::left : Side::right;
}

enum class EntryKind { offset, parallel, direct };
inline constexpr int kEntryKinds = 3;

/// The inbound course ends at the fix (the origin); the pattern lies on the side
/// of the turns, which is the holding side.
struct Hold {
  double inbound_course_deg = 360.0;  ///< magnetic
  Side turns = Side::right;

  [[nodiscard]] double outbound_course_deg() const { return wrap_360(inbound_course_deg + 180.0); }
  /// Unit vector from the fix back along the inbound course: `to_go` grows this way.
  [[nodiscard]] Vec2 outbound_axis() const { return along(inbound_course_deg + 180.0); }
  /// Unit vector square to the course, toward the holding side.
  [[nodiscard]] Vec2 holding_axis() const {
    return along(inbound_course_deg + 90.0 * sign_of(turns));
  }
  /// Distance off the inbound course, NM; + = on the holding side.
  [[nodiscard]] double cross_nm(Vec2 at) const { return dot(at, holding_axis()); }
  /// Distance still to fly to abeam the fix, NM; negative when past it.
  [[nodiscard]] double to_go_nm(Vec2 at) const { return dot(at, outbound_axis()); }
};

/// Which entry a heading over the fix calls for. Near a sector boundary both
/// neighbours are acceptable.
struct SectorChoice {
  EntryKind kind;       ///< the sector the heading lies in
  EntryKind also;       ///< the other acceptable entry; equals `kind` away from boundaries
  double delta_deg;     ///< heading - outbound course in (-180, 180], mirrored for left turns
  double boundary_deg;  ///< distance to the nearest sector boundary, degrees
};

/// Degrees either side of a boundary in which both entries are acceptable
/// (AIM 5-3-8 j8; Doc 8168 Vol I 1.4.1-1.4.2).
inline constexpr double kSectorZoneDeg = 5.0;

/// Right turns, delta = heading - outbound course: -70..0 offset, 0..110 parallel,
/// otherwise direct; mirrored for left turns. Source: AIM 5-3-8 j3 and Doc 8168
/// Vol I 1.4, sizes 70/110/180; signs worked in docs/theory.md "Sectors".
[[nodiscard]] SectorChoice choose_sector(const Hold& hold, double heading_deg);

}  // namespace core
