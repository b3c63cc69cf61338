#include "core/hold.h"

namespace core {

SectorChoice choose_sector(const Hold& hold, double heading_deg) {
  double delta = wrap_180(heading_deg - hold.outbound_course_deg());
  if (hold.turns == Side::left && delta != 180.0) delta = -delta;
  const EntryKind kind = delta >= -70.0 && delta <= 0.0  ? EntryKind::offset
                         : delta > 0.0 && delta <= 110.0 ? EntryKind::parallel
                                                         : EntryKind::direct;
  struct Boundary {
    double at_deg;
    EntryKind below;
    EntryKind above;
  };
  constexpr Boundary kBoundaries[] = {{-70.0, EntryKind::direct, EntryKind::offset},
                                      {0.0, EntryKind::offset, EntryKind::parallel},
                                      {110.0, EntryKind::parallel, EntryKind::direct}};
  SectorChoice choice{kind, kind, delta, 360.0};
  for (const Boundary& b : kBoundaries) {
    const double distance = std::abs(wrap_180(delta - b.at_deg));
    if (distance >= choice.boundary_deg) continue;
    choice.boundary_deg = distance;
    if (distance <= kSectorZoneDeg) choice.also = kind == b.below ? b.above : b.below;
  }
  return choice;
}

}  // namespace core
