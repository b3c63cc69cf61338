#include "core/debrief.h"

#include <algorithm>

#include "core/roots.h"

namespace core {
namespace {

/// A correction of the heading no larger than this does not end a leg.
constexpr double kSmallTurnDeg = 12.0;
/// Wings level for less than this on the way round a turn does not interrupt it.
constexpr double kShortS = 5.0;
/// So near to the inbound heading wings level is the roll-out, however short.
constexpr double kInboundNearDeg = 10.0;
/// The roll-out is within this of the inbound heading, or within the scenario's intercept.
constexpr double kRollOutWithinDeg = 60.0;
/// The stopwatch may be started this early for the leg that follows.
constexpr double kClockEarlyS = 15.0;
/// A track this far to the other side of the outbound course is no offset leg's.
constexpr double kOffsetTrackDeg = 15.0;
constexpr double kSampleS = 2.0;
constexpr double kSameTimeS = 1e-9;

/// Wings level for a while, small corrections included.
struct Level {
  double start_s;
  double end_s;
  double heading_deg;  ///< the one held longest
  double held_s;       ///< how long that one
  double turned_deg;   ///< + right, since the end of the one before, or the beginning
};

struct Levels {
  std::vector<Level> list;
  double tail_deg = 0.0;  ///< turned after the last one
  double begun_s = 0.0;   ///< when the first turn was begun
};

bool is_level_time(const HandFlown& flown, double t_s) {
  const std::vector<double>& times = flown.level_times_s();
  const auto at = std::lower_bound(times.begin(), times.end(), t_s - kSameTimeS);
  return at != times.end() && *at <= t_s + kSameTimeS;
}

/// Every time with wings level from `from_s` to `until_s`, as it was flown.
Levels raw_levels(const HandFlown& flown, double from_s, double until_s) {
  Levels out;
  out.begun_s = until_s;
  double turned = 0.0;
  bool turned_before = false;
  const Pieces track = flown.track();
  for (const Segment& s : track) {
    const double a = std::fmax(s.start_s, from_s);
    const double b = std::fmin(s.end_s(), until_s);
    if (b < a || s.start_s >= until_s || s.end_s() <= from_s) continue;
    const double heading = s.heading_at(a - s.start_s);
    if (s.straight()) {
      const bool goes_on = !out.list.empty() && !turned_before;
      if (goes_on) {
        out.list.back().end_s = b;
        out.list.back().held_s = b - out.list.back().start_s;
      } else {
        out.list.push_back({a, b, heading, b - a, turned});
      }
      turned = 0.0;
      turned_before = false;
      continue;
    }
    // Two turns, and between them a moment with wings level.
    if (turned_before && is_level_time(flown, a)) {
      out.list.push_back({a, a, heading, 0.0, turned});
      turned = 0.0;
    }
    if (a < out.begun_s) out.begun_s = a;
    turned += s.turned_deg(b - s.start_s) - s.turned_deg(a - s.start_s);
    turned_before = true;
  }
  // The end of the flight may be the very end of a turn.
  if (turned_before && is_level_time(flown, until_s)) {
    out.list.push_back({until_s, until_s, flown.pose(until_s).heading_deg, 0.0, turned});
    turned = 0.0;
  }
  out.tail_deg = turned;
  return out;
}

/// Small corrections belong to a leg, short pauses to a turn.
Levels levels(const HandFlown& flown, double from_s, double until_s, double inbound_deg) {
  Levels raw = raw_levels(flown, from_s, until_s);
  std::vector<Level> legs;
  for (const Level& next : raw.list) {
    const bool joins =
        !legs.empty() && std::abs(next.turned_deg) <= kSmallTurnDeg &&
        std::abs(wrap_180(next.heading_deg - legs.back().heading_deg)) <= kSmallTurnDeg;
    if (!joins) {
      legs.push_back(next);
      continue;
    }
    Level& leg = legs.back();
    if (next.held_s > leg.held_s) {
      leg.heading_deg = next.heading_deg;
      leg.held_s = next.held_s;
    }
    leg.end_s = next.end_s;
  }
  std::vector<Level> kept;
  double carried = 0.0;
  for (std::size_t i = 0; i < legs.size(); ++i) {
    Level leg = legs[i];
    leg.turned_deg += carried;
    carried = 0.0;
    const bool inside = leg.turned_deg != 0.0 && i + 1 < legs.size() &&
                        (leg.turned_deg > 0.0) == (legs[i + 1].turned_deg > 0.0);
    const bool roll_out = std::abs(wrap_180(leg.heading_deg - inbound_deg)) <= kInboundNearDeg;
    if (inside && !roll_out && leg.end_s - leg.start_s < kShortS) {
      carried = leg.turned_deg;
    } else {
      kept.push_back(leg);
    }
  }
  raw.list = std::move(kept);
  return raw;
}

/// First time in (from, until] at which `value` of a position goes from below zero to zero or
/// above. It may begin at zero.
template <class Value>
std::optional<double> first_rise(const HandFlown& flown, double from_s, double until_s,
                                 const Value& value) {
  const Pieces track = flown.track();
  double f0 = 1.0;
  bool first = true;
  for (int k = track.index_at(from_s); k < track.size(); ++k) {
    const Segment& s = track[k];
    if (s.start_s >= until_s) break;
    const double a = std::fmax(from_s - s.start_s, 0.0);
    const double b = std::fmin(until_s - s.start_s, s.duration_s);
    if (!(b > a)) continue;
    const auto f = [&](double t) { return value(s.position_at(t)); };
    const int steps = std::max(1, static_cast<int>((b - a) / kSampleS) + 1);
    double t0 = a;
    if (first) f0 = f(a);
    first = false;
    for (int i = 1; i <= steps; ++i) {
      const double t1 = a + (b - a) * i / steps;
      const double f1 = f(t1);
      if (f0 < 0.0 && f1 >= 0.0) return s.start_s + bracketed_root(f, t0, t1, f0, f1);
      t0 = t1;
      f0 = f1;
    }
  }
  return std::nullopt;
}

/// Index of the outbound leg, and of the roll-out; -1: not found.
struct Found {
  int outbound = -1;
  int rollout = -1;
};
Found find_legs(const Setup& u, const std::vector<Level>& legs, double from_s, double inbound_deg) {
  const double outbound_deg = u.hold.outbound_course_deg();
  const auto is_outbound = [&](const Level& l) {
    return std::abs(wrap_180(l.heading_deg - outbound_deg)) < 90.0;
  };
  const int count = static_cast<int>(legs.size());
  const auto leg = [&](int i) -> const Level& { return legs[static_cast<unsigned>(i)]; };
  Found found;
  int first = 0;
  while (first < count && !is_outbound(leg(first))) ++first;
  if (first == count) return found;
  found.rollout = first + 1;
  // A parallel entry rolls out on its intercept heading.
  const double within = std::fmax(kRollOutWithinDeg, u.scenario.intercept_deg + 5.0);
  const auto is_inbound = [&](const Level& l) {
    return std::abs(wrap_180(l.heading_deg - inbound_deg)) <= within;
  };
  while (found.rollout < count && !is_inbound(leg(found.rollout))) ++found.rollout;
  const int end = found.rollout;
  if (found.rollout == count) found.rollout = -1;
  // The longest, but not what is left of the arrival where something follows.
  double longest = -1.0;
  for (int i = first; i < end; ++i) {
    const bool arrival = leg(i).start_s == from_s && leg(i).turned_deg == 0.0;
    const double length = arrival ? 0.0 : leg(i).end_s - leg(i).start_s;
    if (!is_outbound(leg(i)) || length <= longest) continue;
    longest = length;
    found.outbound = i;
  }
  return found;
}

FlownRound round_from(const Setup& u, const HandFlown& flown, double from_s, double until_s,
                      bool entry) {
  FlownRound r;
  r.start_s = from_s;
  const double inbound_deg =
      u.inbound.exists ? u.inbound.heading_deg : u.scenario.inbound_course_deg;
  const Levels all = levels(flown, from_s, until_s, inbound_deg);
  const Found found = find_legs(u, all.list, from_s, inbound_deg);
  if (found.outbound < 0) return r;
  const Level& out = all.list[static_cast<unsigned>(found.outbound)];

  FlownRound::Outbound o{};
  for (int i = 0; i <= found.outbound; ++i) {
    o.turned_deg += all.list[static_cast<unsigned>(i)].turned_deg;
  }
  o.begun_s = std::fmin(all.begun_s, out.start_s);
  o.heading_deg = out.heading_deg;
  o.level_s = out.start_s;
  const HandFlown::Pose level = flown.pose(out.start_s);
  o.track_deg =
      direction_of(along(out.heading_deg) * (u.tas_kt * kNmPerSecondPerKnot) + level.velocity_nm_s -
                   along(level.heading_deg) * (u.tas_kt * kNmPerSecondPerKnot));
  r.outbound = o;

  const bool turned = out.end_s < until_s - kSameTimeS;
  const double leg_end = out.end_s;
  constexpr double kThereNm = 1e-9;
  if (u.to_go_nm(level.at) >= -kThereNm) {
    r.abeam_s = out.start_s;
  } else {
    r.abeam_s = first_rise(flown, out.start_s, leg_end, [&](Vec2 p) { return u.to_go_nm(p); });
  }
  for (const double t : flown.clock_times_s()) {
    if (t >= from_s - kClockEarlyS && t <= (turned ? leg_end : until_s)) r.clock_s = t;
  }
  if (!turned) return r;

  const bool by_lap = !entry || u.entry == EntryKind::direct;
  FlownRound::Inbound in{};
  in.begun_s = leg_end;
  const double timer = by_lap                           ? r.abeam_s.value_or(leg_end)
                       : u.scenario.timer == Timer::fix ? from_s
                                                        : out.start_s;
  in.outbound_s = leg_end - timer;
  const int last = found.rollout < 0 ? static_cast<int>(all.list.size()) - 1 : found.rollout;
  for (int i = found.outbound + 1; i <= last; ++i) {
    in.turned_deg += all.list[static_cast<unsigned>(i)].turned_deg;
  }
  if (found.rollout < 0) in.turned_deg += all.tail_deg;
  r.inbound = in;
  if (found.rollout < 0) return r;

  const Level& back = all.list[static_cast<unsigned>(found.rollout)];
  const Vec2 at = flown.pose(back.start_s).at;
  const double to_go = u.to_go_nm(at);
  r.rollout = {true, u.cross_nm(at), to_go, 0.0, back.start_s, at};
  if (u.inbound.exists) {
    r.rollout.inbound_s = to_go / (u.inbound.groundspeed_kt * kNmPerSecondPerKnot);
  }
  r.rollout_heading_deg = flown.pose(back.start_s).heading_deg;
  if (const std::optional<double> again =
          first_rise(flown, back.start_s, until_s, [&](Vec2 p) { return -u.to_go_nm(p); })) {
    r.fix = FlownRound::Fix{*again, u.cross_nm(flown.pose(*again).at), *again - back.start_s};
  }
  const double leg_until = r.fix ? r.fix->at_s : until_s;
  for (std::size_t i = static_cast<std::size_t>(found.rollout); i < all.list.size(); ++i) {
    const Level& l = all.list[i];
    if (l.start_s >= leg_until) break;
    const double off = std::abs(wrap_180(l.heading_deg - inbound_deg));
    if (off < 90.0) r.intercept_deg = std::fmax(r.intercept_deg, off);
  }
  for (double t = back.start_s; t <= leg_until; t += 1.0) {
    const HandFlown::Pose p = flown.pose(t);
    if (std::abs(u.cross_nm(p.at)) > kOnCourseNm ||
        std::abs(wrap_180(p.heading_deg - inbound_deg)) > kInboundNearDeg) {
      continue;
    }
    r.on_course_s = t;
    break;
  }
  return r;
}

/// Which of the three entries these turns and this leg are.
std::optional<EntryKind> kind_of(const Setup& u, const FlownRound& r) {
  if (!r.outbound || !r.inbound || r.inbound->turned_deg == 0.0) return std::nullopt;
  const FlownRound::Outbound& o = *r.outbound;
  const bool with_hold = r.inbound->turned_deg * u.turn_sign > 0.0;
  // To the holding side of the outbound course, by the track made good.
  const double toward = -u.turn_sign * wrap_180(o.track_deg - u.hold.outbound_course_deg());
  if (!with_hold) {
    // Turned out to the far side or along the course, then toward the holding side.
    return toward < 45.0 ? std::optional<EntryKind>(EntryKind::parallel) : std::nullopt;
  }
  const double with_turns = o.turned_deg * u.turn_sign;
  if (with_turns >= 180.0) return EntryKind::direct;
  if (with_turns < 45.0) {
    // Out along the course and back by the hold's turns: an offset entry with a small angle.
    return toward > -kOffsetTrackDeg ? std::optional<EntryKind>(EntryKind::offset) : std::nullopt;
  }
  // Turned out by the hold's turns, it may be either: the one whose own track is nearer.
  const auto off = [&](EntryKind kind) {
    Setup v = u;
    v.entry = kind;
    const double heading = chosen_heading(v).value_or(u.hold.outbound_course_deg());
    return std::abs(wrap_180(o.track_deg - direction_of(ground_velocity(u, heading))));
  };
  const double by_offset = off(EntryKind::offset);
  const double by_direct = off(EntryKind::direct);
  const bool direct = u.entry == EntryKind::direct ? by_direct <= by_offset : by_direct < by_offset;
  return direct ? EntryKind::direct : EntryKind::offset;
}

Setup setup_for(const Setup& setup, EntryKind kind) {
  Setup u = setup;
  u.entry = kind;
  u.scenario.laps = 0;
  u.scenario.heading_deg.reset();
  u.scenario.time_s.reset();
  return u;
}

}  // namespace

Debrief debrief(const Setup& setup, const HandFlown& flown, double end_s) {
  Debrief d;
  d.end_s = std::isfinite(end_s) ? std::fmin(std::fmax(end_s, flown.start_s()), flown.end_s())
                                 : flown.end_s();
  d.wind = setup.wind;
  d.compared = setup.entry;
  if (flown.exists()) {
    const std::vector<Passage> near = passages(flown, d.end_s, 1);
    if (!near.empty()) d.passage = near.front();
  }
  if (d.passage) {
    double from_s = d.passage->at_s;
    // The first round's times go by its own kind, which is known only once it is found.
    Setup u = setup;
    FlownRound r = round_from(u, flown, from_s, d.end_s, true);
    d.kind = kind_of(setup, r);
    if (d.kind && *d.kind != u.entry) {
      u.entry = *d.kind;
      r = round_from(u, flown, from_s, d.end_s, true);
    }
    d.compared = d.kind.value_or(setup.entry);
    d.rounds.push_back(r);
    while (d.rounds.back().fix && static_cast<int>(d.rounds.size()) < Debrief::kMostRounds) {
      from_s = d.rounds.back().fix->at_s;
      FlownRound lap = round_from(setup, flown, from_s, d.end_s, false);
      if (!lap.outbound) break;
      d.rounds.push_back(lap);
    }
  }
  if (d.kind && setup.sector) {
    d.acceptable = setup.sector->kind == *d.kind || setup.sector->also == *d.kind;
  }
  const Setup u = setup_for(setup, d.compared);
  d.rule = scenario_plan(u);
  d.exact = exact_heading_and_time(u);
  if (Flight flight; fly_exact(setup, d, flight)) d.exact_rollout = flight.rollout;
  if (const FlownRound* e = d.entry(); e && e->rollout.exists) {
    d.drift_s = e->rollout.at_s - e->start_s;
    const auto drifted = [&](double t) {
      return setup.wind_nm_s * t + setup.wind_change_nm_s2 * (t > 0.0 ? 0.5 * t * t : 0.0);
    };
    d.drift_nm = drifted(e->rollout.at_s) - drifted(e->start_s);
  }
  d.lines = debrief_lines(setup, d);
  return d;
}

bool fly_exact(const Setup& setup, const Debrief& d, Flight& out) {
  if (!d.exact.exists()) return false;
  Setup u = setup_for(setup, d.compared);
  u.scenario.time_s = d.exact.time_s;
  u.scenario.radial_deg.reset();
  fly(u, {d.compared, d.exact.heading_deg, d.exact.time_s}, out);
  return out.rollout.exists;
}

Scenario own_scenario(const Setup& setup, const Debrief& d) {
  Scenario s = setup.scenario;
  if (d.kind) s.entry = *d.kind;
  const FlownRound* e = d.entry();
  if (!d.kind || !e || !e->outbound) return s;
  s.heading_deg = wrap_360(std::floor(e->outbound->heading_deg * 100.0 + 0.5) / 100.0);
  if (e->inbound) {
    const double time_s = std::floor(e->inbound->outbound_s * 10.0 + 0.5) / 10.0;
    s.time_s = std::fmin(std::fmax(time_s, 0.0), kMostOutboundS);
  }
  return s;
}

}  // namespace core
