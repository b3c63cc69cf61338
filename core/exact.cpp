#include "core/exact.h"

#include "core/leg_search.h"

namespace core {
namespace {

NoPlan missing(const Setup& u) {
  if (!u.inbound.exists) return NoPlan::no_inbound;
  if (!u.arrival.exists) return NoPlan::no_arrival;
  if (u.entry == EntryKind::parallel && u.scenario.parallel_end == ParallelEnd::fix)
    return NoPlan::to_the_fix;
  return NoPlan::none;
}

/// What the entry's clock shows at wings level on the outbound heading: negative where it
/// starts only later, abeam the fix. Absent where it never starts.
std::optional<double> clock_at_level(const Setup& u, const LegMotion& m) {
  if (u.entry != EntryKind::direct) return u.scenario.timer == Timer::fix ? m.out.duration_s : 0.0;
  const double at_level = u.to_go_nm(m.out.motion_nm);
  if (at_level >= -kLeastToGoNm) return 0.0;
  const double along = u.to_go_nm(m.ground_nm_s);
  if (!(along > 0.0)) return std::nullopt;
  return at_level / along;
}

/// Straight seconds of a leg of `time_s` by the clock; the turn is always completed.
double straight_for(double time_s, double clock_s) {
  return time_s > clock_s ? time_s - clock_s : 0.0;
}

/// The parallel entry from the outbound heading on: a turn toward the holding side to the
/// intercept heading, straight, and the turn on course.
struct ParallelMotion {
  TurnMotion out;
  Vec2 ground_nm_s;  ///< outbound
  Vec2 to_level_nm;  ///< the first two turns: to wings level on the intercept heading
  Vec2 turns_nm;     ///< all three
  Vec2 closing_nm_s;
};
ParallelMotion parallel_motion(const Setup& u, double h) {
  const double arrival = u.arrival.heading_deg;
  const double inbound = u.inbound.heading_deg;
  const double intercept = wrap_360(inbound - u.turn_sign * u.scenario.intercept_deg);
  const TurnMotion out = turn_motion(u, arrival, h, short_way(u, arrival, h));
  const TurnMotion back = turn_motion(u, h, intercept, opposite(u.scenario.turns));
  const TurnMotion on = turn_motion(u, intercept, inbound, u.scenario.turns);
  const Vec2 to_level = out.motion_nm + back.motion_nm;
  return {out, ground_velocity(u, h), to_level, to_level + on.motion_nm,
          ground_velocity(u, intercept)};
}

/// The intercept is flown from the holding side, where the fix is still ahead: elsewhere
/// the pilot would turn another way, or not at all.
bool from_holding_side(const Setup& u, const ParallelMotion& m, double straight_s) {
  const Vec2 level = m.to_level_nm + m.ground_nm_s * straight_s;
  return u.cross_nm(level) > 0.0 && u.to_go_nm(level) > kLeastToGoNm;
}

/// Straight seconds outbound and on the intercept heading that end on course with
/// `target_nm` to go.
struct ParallelStraights {
  double outbound_s;
  double closing_s;
};
ParallelStraights parallel_straights(const Setup& u, const ParallelMotion& m, double target_nm) {
  const double a = u.cross_nm(m.ground_nm_s);
  const double b = u.cross_nm(m.closing_nm_s);
  const double c = u.to_go_nm(m.ground_nm_s);
  const double d = u.to_go_nm(m.closing_nm_s);
  const double cross = -u.cross_nm(m.turns_nm);
  const double along = target_nm - u.to_go_nm(m.turns_nm);
  const double det = a * d - b * c;
  return {(cross * d - b * along) / det, (a * along - c * cross) / det};
}

ExactPlan parallel_on_heading(const Setup& u, double h) {
  const ParallelMotion m = parallel_motion(u, h);
  const ParallelStraights s = parallel_straights(u, m, target_nm(u));
  if (!std::isfinite(s.outbound_s) || !std::isfinite(s.closing_s)) return {NoPlan::misses};
  if (s.outbound_s < 0.0) return {NoPlan::too_short};
  if (s.closing_s < 0.0 || !from_holding_side(u, m, s.outbound_s)) return {NoPlan::misses};
  const double clock = u.scenario.timer == Timer::fix ? m.out.duration_s : 0.0;
  if (s.outbound_s + clock > kMostOutboundS) return {NoPlan::too_long};
  return {NoPlan::none, wrap_360(h), s.outbound_s + clock, s.outbound_s};
}

ExactPlan parallel_heading_for_time(const Setup& u, double rule_deg) {
  const double target = target_nm(u);
  const double time_s = u.published_s;
  const auto straight_s = [&](const ParallelMotion& m) {
    return straight_for(time_s, u.scenario.timer == Timer::fix ? m.out.duration_s : 0.0);
  };
  // Across the course the closing leg makes up what is left; along it the rest must be
  // the wanted inbound leg. Multiplied out by the closing speed.
  const auto end = [&](const ParallelMotion& m) {
    return m.turns_nm + m.ground_nm_s * straight_s(m);
  };
  const auto miss = [&](double h) {
    const ParallelMotion m = parallel_motion(u, h);
    const Vec2 at = end(m);
    return (u.to_go_nm(at) - target) * u.cross_nm(m.closing_nm_s) -
           u.cross_nm(at) * u.to_go_nm(m.closing_nm_s);
  };
  Nearest nearest(rule_deg);
  const double intercept = wrap_360(u.inbound.heading_deg - u.turn_sign * u.scenario.intercept_deg);
  over_smooth_arcs(intercept, u.arrival.heading_deg + 180.0, [&](double low, double high, int n) {
    every_root(miss, low, high, n, [&](double h) {
      const ParallelMotion m = parallel_motion(u, h);
      const double closing_s = -u.cross_nm(end(m)) / u.cross_nm(m.closing_nm_s);
      if (closing_s >= 0.0 && from_holding_side(u, m, straight_s(m)))
        nearest.offer(h, time_s, straight_s(m));
    });
  });
  return nearest.best();
}

/// Offset and direct: calls found(heading, straight seconds) for each heading that rolls
/// out on course before the fix after `time_s` by the clock.
template <class Found>
void headings_for_time(const Setup& u, double time_s, const Found& found) {
  const auto end = [&](double h, double& straight_s) {
    const LegMotion m = entry_motion(u, h);
    straight_s = straight_for(time_s, clock_at_level(u, m).value_or(0.0));
    return m.turns_nm() + m.ground_nm_s * straight_s;
  };
  const auto cross = [&](double h) {
    double straight_s = 0.0;
    return u.cross_nm(end(h, straight_s));
  };
  const bool direct = u.entry == EntryKind::direct;
  const double jump = direct ? u.arrival.heading_deg : u.arrival.heading_deg + 180.0;
  over_smooth_arcs(u.inbound.heading_deg, jump, [&](double low, double high, int steps) {
    every_root(cross, low, high, steps, [&](double h) {
      double straight_s = 0.0;
      const Vec2 at = end(h, straight_s);
      // Where the clock ceases to start, the miss jumps: that is no root.
      constexpr double kRootNm = 1e-6;
      if (direct && (!clock_at_level(u, entry_motion(u, h)) || std::abs(u.cross_nm(at)) > kRootNm))
        return;
      if (u.to_go_nm(at) > kLeastToGoNm) found(h, straight_s);
    });
  });
}

}  // namespace

ExactPlan exact_heading_for_time(const Setup& u) {
  if (const NoPlan why = missing(u); why != NoPlan::none) return {why};
  const std::optional<double> rule = chosen_heading(u);
  if (!rule) return {NoPlan::no_rule};
  if (u.entry == EntryKind::parallel) return parallel_heading_for_time(u, *rule);
  Nearest nearest(*rule);
  headings_for_time(u, u.published_s, [&](double h, double straight_s) {
    nearest.offer(h, u.published_s, straight_s);
  });
  return nearest.best();
}

ExactPlan exact_heading_and_time(const Setup& u) {
  if (const NoPlan why = missing(u); why != NoPlan::none) return {why};
  const std::optional<double> rule = chosen_heading(u);
  if (!rule) return {NoPlan::no_rule};
  if (u.entry == EntryKind::parallel) {
    if (!u.outbound.exists) return {NoPlan::no_outbound};
    return parallel_on_heading(u, u.outbound.heading_deg);
  }
  Nearest nearest(*rule);
  const bool direct = u.entry == EntryKind::direct;
  const double jump = direct ? u.arrival.heading_deg : u.arrival.heading_deg + 180.0;
  headings_to_target(u, target_nm(u), u.inbound.heading_deg, jump, entry_motion,
                     [&](double h, const LegMotion& m, double straight_s) {
                       if (!(straight_s >= 0.0)) return nearest.refuse(h, NoPlan::too_short);
                       const std::optional<double> clock = clock_at_level(u, m);
                       if (!clock) return;
                       const double time_s = straight_s + *clock;
                       if (time_s > kMostOutboundS) return nearest.refuse(h, NoPlan::too_long);
                       // The clock has to start before the turn inbound does.
                       if (time_s < 0.0) return nearest.refuse(h, NoPlan::too_short);
                       nearest.offer(h, time_s, straight_s);
                     });
  return nearest.best();
}

ExactPlan exact_time_for_heading(const Setup& u) {
  if (const NoPlan why = missing(u); why != NoPlan::none) return {why};
  const std::optional<double> rule = chosen_heading(u);
  if (!rule) return {NoPlan::no_rule};
  if (u.entry == EntryKind::parallel) return parallel_on_heading(u, *rule);
  const LegMotion m = entry_motion(u, *rule);
  const double across = u.cross_nm(m.ground_nm_s);
  const double straight_s = -u.cross_nm(m.turns_nm()) / across;
  if (!std::isfinite(straight_s)) return {NoPlan::misses};
  if (straight_s < 0.0) return {NoPlan::too_short};
  const std::optional<double> clock = clock_at_level(u, m);
  if (!clock) return {NoPlan::misses};
  const double time_s = straight_s + *clock;
  if (time_s > kMostOutboundS) return {NoPlan::too_long};
  if (time_s < 0.0) return {NoPlan::too_short};
  const Vec2 end = m.turns_nm() + m.ground_nm_s * straight_s;
  if (u.to_go_nm(end) <= kLeastToGoNm) return {NoPlan::misses};
  return {NoPlan::none, wrap_360(*rule), time_s, straight_s};
}

int all_headings_for_time(const Setup& u, double* headings_deg, int room) {
  if (missing(u) != NoPlan::none || u.entry == EntryKind::parallel) return 0;
  int count = 0;
  headings_for_time(u, u.published_s, [&](double h, double) {
    if (count < room) headings_deg[count++] = wrap_360(h);
  });
  return count;
}

}  // namespace core
