#include "core/exact.h"

#include "core/roots.h"

namespace core {
namespace {

/// Samples around the circle, half a degree each: between two samples the miss is
/// smooth, and every_root also searches dips (docs/theory.md "Exact plans").
constexpr int kSteps = 720;

/// Roll-outs as close to abeam the fix as this do not count as inbound.
constexpr double kLeastToGoNm = 1e-9;

/// The two turns of a leg flown on `heading`, and the straight between them.
struct LegMotion {
  TurnMotion out;
  TurnMotion in;
  Vec2 ground_nm_s;
  /// Where the leg rolls out when the straight takes no time.
  [[nodiscard]] Vec2 turns_nm() const { return out.motion_nm + in.motion_nm; }
};

LegMotion leg_motion(const Setup& u, double from_deg, Side first, double heading_deg) {
  return {turn_motion(u, from_deg, heading_deg, first),
          turn_motion(u, heading_deg, u.inbound.heading_deg, u.scenario.turns),
          ground_velocity(u, heading_deg)};
}

LegMotion entry_motion(const Setup& u, double heading_deg) {
  const double arrival = u.arrival.heading_deg;
  return leg_motion(u, arrival, short_way(u, arrival, heading_deg), heading_deg);
}

LegMotion lap_motion(const Setup& u, double heading_deg) {
  return leg_motion(u, u.inbound.heading_deg, u.scenario.turns, heading_deg);
}

NoPlan missing(const Setup& u, bool entry) {
  if (!u.inbound.exists) return NoPlan::no_inbound;
  if (!entry) return NoPlan::none;
  if (!u.arrival.exists) return NoPlan::no_arrival;
  if (u.entry != EntryKind::offset) return NoPlan::wrong_entry;
  return NoPlan::none;
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

template <class Found>
void headings_for_time(const Setup& u, double time_s, const Found& found) {
  const auto cross = [&](double h) { return offset_rollout(u, h, time_s).cross_nm; };
  over_smooth_arcs(u.inbound.heading_deg, u.arrival.heading_deg + 180.0,
                   [&](double low, double high, int steps) {
                     every_root(cross, low, high, steps, [&](double h) {
                       if (offset_rollout(u, h, time_s).to_go_nm > kLeastToGoNm) found(h);
                     });
                   });
}

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

double target_nm(const Setup& u) {
  return u.leg.kind == Leg::Kind::distance
             ? u.leg.value
             : u.inbound.groundspeed_kt * kNmPerSecondPerKnot * u.published_s;
}

}  // namespace

std::string_view name_of(NoPlan why) {
  constexpr std::string_view kNames[] = {"none",     "no-arrival", "no-inbound", "misses",
                                         "too-long", "too-short",  "no-rule",    "wrong-entry"};
  return kNames[static_cast<int>(why)];
}

ExactPlan exact_heading_for_time(const Setup& u) {
  if (const NoPlan why = missing(u, true); why != NoPlan::none) return {why};
  const std::optional<double> rule = rule_heading(u, u.scenario.rule);
  if (!rule) return {NoPlan::no_rule};
  Nearest nearest(*rule);
  headings_for_time(u, u.published_s, [&](double h) {
    const LegMotion m = entry_motion(u, h);
    const double begun = u.scenario.timer == Timer::fix ? m.out.duration_s : 0.0;
    const double straight_s = u.published_s > begun ? u.published_s - begun : 0.0;
    nearest.offer(h, u.published_s, straight_s);
  });
  return nearest.best();
}

ExactPlan exact_heading_and_time(const Setup& u) {
  if (const NoPlan why = missing(u, true); why != NoPlan::none) return {why};
  const std::optional<double> rule = rule_heading(u, u.scenario.rule);
  if (!rule) return {NoPlan::no_rule};
  Nearest nearest(*rule);
  headings_to_target(u, target_nm(u), u.inbound.heading_deg, u.arrival.heading_deg + 180.0,
                     entry_motion, [&](double h, const LegMotion& m, double straight_s) {
                       if (!(straight_s >= 0.0)) return nearest.refuse(h, NoPlan::too_short);
                       const double begun = u.scenario.timer == Timer::fix ? m.out.duration_s : 0.0;
                       const double time_s = straight_s + begun;
                       if (time_s > kMostOutboundS) return nearest.refuse(h, NoPlan::too_long);
                       nearest.offer(h, time_s, straight_s);
                     });
  return nearest.best();
}

ExactPlan exact_time_for_heading(const Setup& u) {
  if (const NoPlan why = missing(u, true); why != NoPlan::none) return {why};
  const std::optional<double> rule = rule_heading(u, u.scenario.rule);
  if (!rule) return {NoPlan::no_rule};
  const LegMotion m = entry_motion(u, *rule);
  const double across = u.cross_nm(m.ground_nm_s);
  const double straight_s = -u.cross_nm(m.turns_nm()) / across;
  if (!std::isfinite(straight_s)) return {NoPlan::misses};
  if (straight_s < 0.0) return {NoPlan::too_short};
  const double begun = u.scenario.timer == Timer::fix ? m.out.duration_s : 0.0;
  const double time_s = straight_s + begun;
  if (time_s > kMostOutboundS) return {NoPlan::too_long};
  const Vec2 end = m.turns_nm() + m.ground_nm_s * straight_s;
  if (u.to_go_nm(end) <= kLeastToGoNm) return {NoPlan::misses};
  return {NoPlan::none, wrap_360(*rule), time_s, straight_s};
}

ExactPlan exact_lap(const Setup& u) {
  if (const NoPlan why = missing(u, false); why != NoPlan::none) return {why};
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

int all_headings_for_time(const Setup& u, double* headings_deg, int room) {
  if (missing(u, true) != NoPlan::none) return 0;
  int count = 0;
  headings_for_time(u, u.published_s, [&](double h) {
    if (count < room) headings_deg[count++] = wrap_360(h);
  });
  return count;
}

}  // namespace core
