#include "core/map_study.h"

#include <limits>

#include "core/lap_study.h"
#include "core/quantile.h"

namespace core {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr std::string_view kMappedNames[] = {"miss", "inbound", "intercept", "multiple", "laps"};
constexpr std::string_view kPlanNames[] = {"still-air",    "drift-once", "track-30",
                                           "drift-triple", "own",        "best"};
/// The next minute, as the debrief asks for it.
constexpr double kInterceptWithinS = 60.0;

MappedPlan mapped_plan(const Setup& u, MapPlan plan) {
  MappedPlan out;
  out.timing = u.scenario.timing;
  out.time_s = u.scenario.time_s;
  if (plan != MapPlan::own) {
    out.rule = static_cast<HeadingRule>(plan);
    return out;
  }
  out.rule.reset();
  Setup offset = u;
  offset.entry = EntryKind::offset;
  // Where today's wind leaves no plan there is none in any other.
  const EntryPlan own = scenario_plan(offset).value_or(EntryPlan{EntryKind::offset, kNan, kNan});
  out.heading_deg = own.heading_deg;
  out.time_s = own.time_s;
  return out;
}

bool is_nearer(double cross_nm, double than_nm) {
  return std::abs(cross_nm) < std::abs(than_nm) || (than_nm != than_nm && cross_nm == cross_nm);
}

double miss_of(const Rollout& at) { return at.exists ? at.cross_nm : kNan; }

/// A plan's roll-out in the setup's wind, and the plan: for `best` the rule that is nearest.
struct Flown {
  Rollout at;
  MapPlan plan = MapPlan::still_air;
};
Flown flown_in(const Setup& u, const Setup& today, MapPlan plan) {
  if (plan != MapPlan::best) return {mapped_rollout(u, mapped_plan(today, plan)), plan};
  Flown best;
  for (int rule = 0; rule < kHeadingRules; ++rule) {
    const auto id = static_cast<MapPlan>(rule);
    const Rollout at = mapped_rollout(u, mapped_plan(today, id));
    if (is_nearer(miss_of(at), miss_of(best.at))) best = {at, id};
  }
  return best;
}

double intercept_in(const Setup& u, double cross_nm) {
  if (!(std::abs(cross_nm) > kOnCourseNm)) return cross_nm == cross_nm ? 0.0 : kNan;
  return intercept_angle_within(u, cross_nm, kInterceptWithinS).value_or(kNan);
}

bool is_settled(const Setup& u, const Rollout& at, double tolerance_nm) {
  if (!at.exists || std::abs(at.cross_nm) > tolerance_nm) return false;
  return u.leg.kind == Leg::Kind::distance ||
         std::abs(at.inbound_s - u.published_s) <= kGoodInboundS;
}

double laps_in(const Setup& u, const MappedPlan& plan, double tolerance_nm, Flight& flight) {
  const std::optional<EntryPlan> flown = plan_in(u, plan);
  if (!flown || flown->heading_deg != flown->heading_deg) return kNan;
  fly(u, *flown, flight);
  if (is_settled(u, flight.rollout, tolerance_nm)) return 0.0;
  for (int lap = 0; lap < flight.lap_count; ++lap) {
    if (is_settled(u, flight.laps[static_cast<unsigned>(lap)].rollout, tolerance_nm)) {
      return lap + 1.0;
    }
  }
  return kNan;
}

/// The value in the wind that `u` has; `today` has the scenario's own.
double value_in(Setup& u, const Setup& today, const MapChoice& c, std::uint8_t* rule) {
  if (c.mapped == Mapped::multiple) return exact_multiple(u).value_or(kNan);
  const Flown flown = flown_in(u, today, c.plan);
  const double miss_nm = miss_of(flown.at);
  if (rule) *rule = static_cast<std::uint8_t>(flown.plan);
  switch (c.mapped) {
    case Mapped::intercept:
      return intercept_in(u, miss_nm);
    case Mapped::inbound:
      return flown.at.exists ? flown.at.inbound_s : kNan;
    case Mapped::laps: {
      Flight flight;
      u.scenario.laps = kMostCountedLaps;
      return laps_in(u, mapped_plan(today, flown.plan), c.tolerance_nm, flight);
    }
    default:
      break;
  }
  if (!c.less) return miss_nm;
  return std::abs(miss_nm) - std::abs(miss_of(flown_in(u, today, *c.less).at));
}

template <class Has>
double share(const MapField& field, const Has& has) {
  if (field.empty()) return 0.0;
  double inside = 0.0;
  double all = 0.0;
  for (int speed = 0; speed < field.grid.speeds; ++speed) {
    // The slowest and the fastest stand for half a step of speed.
    const double weight = speed == 0 || speed == field.grid.speeds - 1 ? 0.5 : 1.0;
    all += weight * field.grid.directions;
    for (int i = 0; i < field.grid.directions; ++i) {
      if (has(field.grid.index(i, speed))) inside += weight;
    }
  }
  return inside / all;
}

}  // namespace

std::string_view name_of(Mapped mapped) { return kMappedNames[static_cast<int>(mapped)]; }
std::string_view name_of(MapPlan plan) { return kPlanNames[static_cast<int>(plan)]; }

double map_value(const Setup& setup, const MapChoice& choice, Wind wind) {
  Setup u = setup;
  set_wind(u, wind);
  return value_in(u, setup, choice, nullptr);
}

double share_in(const MapField& field, Range range) {
  return share(field, [&](std::size_t i) {
    return field.value[i] >= range.low && field.value[i] <= range.high;
  });
}

double share_of(const MapField& field, HeadingRule rule) {
  if (field.rule.empty()) return 0.0;
  return share(field, [&](std::size_t i) {
    return field.value[i] == field.value[i] && field.rule[i] == static_cast<std::uint8_t>(rule);
  });
}

Distances distances(const MapField& field, double middle) {
  std::vector<double> all;
  double sum = 0.0;
  for (const double value : field.value) {
    if (value != value) continue;
    all.push_back(std::abs(value - middle));
    sum += all.back();
  }
  if (all.empty()) return {kNan, kNan, kNan, kNan};
  const double mean = sum / static_cast<double>(all.size());
  return {mean, at_share(all, 0.5), at_share(all, 0.95), at_share(all, 1.0)};
}

bool MapStudy::is_quick() const {
  return (choice_.mapped == Mapped::miss || choice_.mapped == Mapped::inbound) &&
         has_closed_form(setup_);
}

void MapStudy::begin(const Setup& setup, const MapChoice& choice, int finest) {
  setup_ = setup;
  choice_ = choice;
  if (choice_.mapped != Mapped::miss) choice_.less.reset();
  whole_ = {};
  const auto grid = [&](int directions, int steps) {
    return WindGrid{directions, steps + 1, choice.most_kt};
  };
  levels_.clear();
  for (int i = finest < 1 ? 1 : finest > 4 ? 4 : finest; i >= 1; --i) {
    levels_.push_back(grid(360 * i, 60 * i));
  }
  if (!is_quick()) {
    levels_.push_back(grid(120, 30));
    levels_.push_back(grid(60, 15));
  }
  start_level();
}

void MapStudy::start_level() {
  next_ = 0;
  if (levels_.empty() || !levels_.back().is_usable()) {
    levels_.clear();
    return;
  }
  making_.grid = levels_.back();
  const auto room = static_cast<std::size_t>(making_.grid.size());
  making_.value.assign(room, kNan);
  making_.rule.assign(choice_.plan == MapPlan::best ? room : 0, 0);
}

void MapStudy::work_speed(int speed) {
  const int end = speed + 1;
  const std::size_t at = making_.grid.index(0, speed);
  const auto count = static_cast<std::size_t>(making_.grid.directions);
  const auto rollouts = [&](MapPlan plan) {
    map_rollouts(setup_, mapped_plan(setup_, plan), making_.grid, speed, end, rollouts_);
  };
  const auto take = [&](MapPlan plan, const auto& each) {
    const int first = plan == MapPlan::best ? 0 : static_cast<int>(plan);
    const int last = plan == MapPlan::best ? kHeadingRules - 1 : first;
    for (int id = first; id <= last; ++id) {
      rollouts(static_cast<MapPlan>(id));
      for (std::size_t i = at; i < at + count; ++i) each(i, id, id == first);
    }
  };
  std::vector<double> miss_nm(count, kNan);
  take(choice_.plan, [&](std::size_t i, int id, bool is_first) {
    const double cross_nm = rollouts_.cross_nm[i];
    if (!is_first && !is_nearer(cross_nm, miss_nm[i - at])) return;
    miss_nm[i - at] = cross_nm;
    making_.value[i] = choice_.mapped == Mapped::inbound ? rollouts_.inbound_s[i] : cross_nm;
    if (!making_.rule.empty()) making_.rule[i] = static_cast<std::uint8_t>(id);
  });
  if (!choice_.less) return;
  std::vector<double> other_nm(count, kNan);
  take(*choice_.less, [&](std::size_t i, int, bool is_first) {
    const double cross_nm = rollouts_.cross_nm[i];
    if (is_first || is_nearer(cross_nm, other_nm[i - at])) other_nm[i - at] = cross_nm;
  });
  for (std::size_t i = 0; i < count; ++i) {
    making_.value[at + i] = std::abs(miss_nm[i]) - std::abs(other_nm[i]);
  }
}

void MapStudy::work_wind(int direction, int speed) {
  const std::size_t at = making_.grid.index(direction, speed);
  Setup u = setup_;
  set_wind(u, {making_.grid.from_deg(direction), making_.grid.speed_kt(speed)});
  making_.value[at] =
      value_in(u, setup_, choice_, making_.rule.empty() ? nullptr : &making_.rule[at]);
}

bool MapStudy::work(int winds) {
  while (!levels_.empty() && winds > 0) {
    const WindGrid& grid = making_.grid;
    const int speed = next_ / grid.directions;
    if (is_quick()) {
      work_speed(speed);
      next_ += grid.directions;
      winds -= grid.directions;
    } else {
      work_wind(next_ % grid.directions, speed);
      ++next_;
      --winds;
    }
    if (next_ < grid.size()) continue;
    std::swap(whole_, making_);
    levels_.pop_back();
    start_level();
  }
  return levels_.empty();
}

double MapStudy::middle() const {
  if (choice_.mapped == Mapped::inbound) return setup_.published_s;
  return choice_.mapped == Mapped::multiple ? 3.0 : 0.0;
}

double MapStudy::reach() const {
  switch (choice_.mapped) {
    case Mapped::miss:
      return 1.0;
    case Mapped::inbound:
      return 60.0;
    case Mapped::intercept:
      return 90.0;
    case Mapped::multiple:
      return 2.0;
    case Mapped::laps:
      return kMostCountedLaps;
  }
  return 1.0;
}

Range MapStudy::good() const {
  switch (choice_.mapped) {
    case Mapped::miss:
      if (choice_.less) return {-1e9, -1e-9};
      return {-choice_.tolerance_nm, choice_.tolerance_nm};
    case Mapped::inbound:
      return {setup_.published_s - kGoodInboundS, setup_.published_s + kGoodInboundS};
    case Mapped::intercept:
      return {0.0, 30.0};
    case Mapped::multiple:
      return {2.5, 3.5};
    case Mapped::laps:
      return {0.0, 1.0};
  }
  return {0.0, 0.0};
}

std::vector<double> MapStudy::contour_levels() const {
  const double p = setup_.published_s;
  switch (choice_.mapped) {
    case Mapped::miss:
      return {-1.0, -0.5, -0.25, -0.1, 0.1, 0.25, 0.5, 1.0};
    case Mapped::inbound:
      return {p - 30.0, p - 20.0, p - 10.0, p, p + 10.0, p + 20.0, p + 30.0};
    case Mapped::intercept:
      return {10.0, 20.0, 30.0, 45.0, 60.0};
    case Mapped::multiple:
      return {2.0, 2.5, 3.0, 3.5, 4.0};
    case Mapped::laps:
      return {0.5, 1.5, 2.5, 3.5, 4.5, 5.5};
  }
  return {};
}

}  // namespace core
