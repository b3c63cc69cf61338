// core/leg_search.h - what the exact solvers share: the motion of an outbound leg and its
// turn inbound, and the search around the circle for headings that end where wanted.
#pragma once

#include "core/exact_plan.h"
#include "core/roots.h"

namespace core {

/// Samples around the circle, half a degree each: between two samples the miss is
/// smooth, and every_root also searches dips (docs/theory.md "Exact plans").
inline constexpr int kSteps = 720;

/// Roll-outs as close to abeam the fix as this do not count as inbound.
inline constexpr double kLeastToGoNm = 1e-9;

/// The two turns of a leg flown on `heading`, and the straight between them.
struct LegMotion {
  TurnMotion out;
  TurnMotion in;
  Vec2 ground_nm_s;
  /// Where the leg rolls out when the straight takes no time.
  [[nodiscard]] Vec2 turns_nm() const { return out.motion_nm + in.motion_nm; }
};

inline LegMotion leg_motion(const Setup& u, double from_deg, Side first, double heading_deg) {
  return {turn_motion(u, from_deg, heading_deg, first),
          turn_motion(u, heading_deg, u.inbound.heading_deg, u.scenario.turns),
          ground_velocity(u, heading_deg)};
}

inline LegMotion entry_motion(const Setup& u, double heading_deg) {
  const double arrival = u.arrival.heading_deg;
  const Side first =
      u.entry == EntryKind::direct ? u.scenario.turns : short_way(u, arrival, heading_deg);
  return leg_motion(u, arrival, first, heading_deg);
}

inline LegMotion lap_motion(const Setup& u, double heading_deg) {
  return leg_motion(u, u.inbound.heading_deg, u.scenario.turns, heading_deg);
}

/// Runs `search(low, high)` over the pieces of the circle between the headings where
/// one of the two turns jumps by a whole circle.
template <class Search>
void over_smooth_arcs(double jump_a_deg, double jump_b_deg, const Search& search) {
  constexpr double kGap = 1e-9;  // stay off the jump itself
  const double span = turn_angle(jump_b_deg - jump_a_deg);
  const auto steps = [](double arc) { return 2 + static_cast<int>(kSteps * arc / 360.0); };
  if (span > 1e-6) search(jump_a_deg + kGap, jump_a_deg + span - kGap, steps(span));
  if (span < 360.0 - 1e-6) {
    search(jump_a_deg + span + kGap, jump_a_deg + 360.0 - kGap, steps(360.0 - span));
  }
}

/// Keeps, of the plans offered, the one nearest to a wanted heading.
class Nearest {
 public:
  explicit Nearest(double wanted_deg) : wanted_deg_(wanted_deg) {}
  void offer(double heading_deg, double time_s, double straight_s) {
    const double distance = std::abs(wrap_180(heading_deg - wanted_deg_));
    if (best_.exists() && distance >= distance_) return;
    distance_ = distance;
    best_ = {NoPlan::none, wrap_360(heading_deg), time_s, straight_s};
  }
  /// Where nothing can be offered, the reason is that of the nearest that was refused.
  void refuse(double heading_deg, NoPlan why) {
    const double distance = std::abs(wrap_180(heading_deg - wanted_deg_));
    if (best_.exists() || (best_.why != NoPlan::misses && distance >= distance_)) return;
    distance_ = distance;
    best_.why = why;
  }
  [[nodiscard]] const ExactPlan& best() const { return best_; }

 private:
  double wanted_deg_;
  double distance_ = 0.0;
  ExactPlan best_;
};

/// Headings whose leg, with a fitting straight, ends on course with `target_nm` to
/// go. The straight's length follows from the along-course part; multiplied out so
/// that headings square to the course do no harm.
template <class Motion, class Found>
void headings_to_target(const Setup& u, double target_nm, double jump_a_deg, double jump_b_deg,
                        const Motion& motion, const Found& found) {
  const auto miss = [&](double h) {
    const LegMotion m = motion(u, h);
    const Vec2 turns = m.turns_nm();
    return u.cross_nm(turns) * u.to_go_nm(m.ground_nm_s) +
           (target_nm - u.to_go_nm(turns)) * u.cross_nm(m.ground_nm_s);
  };
  over_smooth_arcs(jump_a_deg, jump_b_deg, [&](double low, double high, int steps) {
    every_root(miss, low, high, steps, [&](double h) {
      const LegMotion m = motion(u, h);
      const double along = u.to_go_nm(m.ground_nm_s);
      const double across = u.cross_nm(m.ground_nm_s);
      const double gap = target_nm - u.to_go_nm(m.turns_nm());
      // The better conditioned of the two equations gives the time.
      const double straight_s =
          std::abs(along) >= std::abs(across) ? gap / along : -u.cross_nm(m.turns_nm()) / across;
      found(h, m, straight_s);
    });
  });
}

inline double target_nm(const Setup& u) {
  return u.leg.kind == Leg::Kind::distance
             ? u.leg.value
             : u.inbound.groundspeed_kt * kNmPerSecondPerKnot * u.published_s;
}

}  // namespace core
