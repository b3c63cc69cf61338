#include "core/leg_search.h"

namespace core {

std::string_view name_of(NoPlan why) {
  constexpr std::string_view kNames[] = {"none",    "no-arrival",  "no-inbound",
                                         "misses",  "too-long",    "too-short",
                                         "no-rule", "no-outbound", "to-the-fix"};
  return kNames[static_cast<int>(why)];
}

ExactPlan exact_lap(const Setup& u) {
  if (!u.inbound.exists) return {NoPlan::no_inbound};
  Nearest nearest(lap_heading(u, 3.0));
  const double jump = u.inbound.heading_deg;
  headings_to_target(u, target_nm(u), jump, jump, lap_motion,
                     [&](double h, const LegMotion& m, double straight_s) {
                       if (!(straight_s >= 0.0)) return nearest.refuse(h, NoPlan::too_short);
                       if (straight_s > kMostOutboundS) return nearest.refuse(h, NoPlan::too_long);
                       const double along = u.to_go_nm(m.ground_nm_s);
                       const double at_level = u.to_go_nm(m.out.motion_nm);
                       // Never abeam: there is nothing to start the clock with.
                       if (at_level < -kLeastToGoNm && !(along > 0.0)) return;
                       const double abeam_s =
                           at_level < 0.0 && along > 0.0 ? -at_level / along : 0.0;
                       nearest.offer(h, straight_s - abeam_s, straight_s);
                     });
  return nearest.best();
}

}  // namespace core
