#include "core/explain.h"

#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

std::string whole(double v) { return fixed(std::abs(v), 0); }

/// A direction rounded as it is written.
double shown_direction(double deg) { return std::floor(deg + 0.5); }

/// Distance in NM with one decimal, two where one would hide it.
std::string distance(double nm) { return fixed(std::abs(nm), std::abs(nm) < 0.095 ? 2 : 1); }

/// "12° right", "0°".
std::string correction(double wca_deg, int decimals = 0) {
  const std::string degrees = fixed(std::abs(wca_deg), decimals);
  if (degrees.find_first_not_of("0.") == std::string::npos) return "0°";
  return degrees + "° " + side_text(wca_deg);
}

void heading_steps(const WorkedCase& c, std::vector<std::string>& steps) {
  const Setup& u = c.setup;
  const Scenario& s = u.scenario;
  const double outbound = u.hold.outbound_course_deg();
  steps.push_back(outbound_text(u.hold));
  if (u.entry == EntryKind::direct) {
    if (!u.inbound.exists) return;
    steps.push_back(
        phrase("core.sum.direct", {{"wca", correction(u.inbound.wca_deg)},
                                   {"multiple", write_number(s.multiple)},
                                   {"heading", degrees_3(lap_heading(u, s.multiple))}}));
    return;
  }
  double base = outbound;
  if (u.entry == EntryKind::offset) {
    base = wrap_360(outbound - 30.0 * u.turn_sign);
    steps.push_back(phrase(s.turns == Side::left ? "core.sum.left" : "core.sum.right",
                           {{"base", degrees_3(base)}}));
  }
  const std::optional<double> heading = rule_heading(u, s.rule);
  if (!heading) {
    steps.push_back(std::string(word("core.sum.no_rule")));
    return;
  }
  switch (s.rule) {
    case HeadingRule::still_air:
      steps.push_back(phrase("core.sum.still_air", {{"heading", degrees_3(*heading)}}));
      break;
    case HeadingRule::drift_once:
      steps.push_back(
          phrase(whole(u.arrival.wca_deg) == "0" ? "core.sum.once_none" : "core.sum.once",
                 {{"wca", correction(u.arrival.wca_deg)}, {"step", sum_text(base, *heading)}}));
      break;
    case HeadingRule::track_30: {
      const double wca = wrap_180(*heading - base);
      steps.push_back(phrase("core.sum.track", {{"track", degrees_3(base)},
                                                {"wca", correction(wca)},
                                                {"step", sum_text(base, *heading)}}));
      break;
    }
    case HeadingRule::drift_triple:
      steps.push_back(phrase("core.sum.triple", {{"wca", correction(u.inbound.wca_deg)},
                                                 {"three", correction(-3.0 * u.inbound.wca_deg)},
                                                 {"step", sum_text(base, *heading)}}));
      break;
  }
}

bool own_plan(const Scenario& s) { return s.heading_deg || s.time_s; }

/// Motion of the air across the course from the fix to the roll-out, NM, + toward
/// the holding side; with the change of a wind that changes.
double wind_cross_nm(const WorkedCase& c) {
  const double t = c.flown.rollout.at_s;
  return c.setup.cross_nm(c.setup.wind_nm_s * t + c.setup.wind_change_nm_s2 * (0.5 * t * t));
}

std::string side_phrase(double cross_nm) {
  return std::string(word(cross_nm >= 0.0 ? "core.side.holding" : "core.side.nonholding"));
}

std::string because(const WorkedCase& c) {
  const double wind = wind_cross_nm(c);
  const Rollout& r = c.flown.rollout;
  if (std::abs(wind) < 0.05) {
    const bool thirty = c.setup.entry == EntryKind::offset && !own_plan(c.setup.scenario);
    return std::string(word(thirty ? "core.because.calm_rule" : "core.because.calm"));
  }
  const double air = r.cross_nm - wind;
  return phrase("core.because.wind", {{"time", minutes(r.at_s)},
                                      {"wind", fixed(std::abs(wind), 1)},
                                      {"wind_side", side_phrase(wind)},
                                      {"air", fixed(std::abs(air), 1)},
                                      {"air_side", side_phrase(air)}});
}

std::string next_step(const WorkedCase& c) {
  const Rollout& r = c.flown.rollout;
  if (r.to_go_nm <= 0.0) return std::string(word("core.next.past_fix"));
  if (miss_of(r) == Miss::on_course) {
    const double late = r.inbound_s - c.setup.published_s;
    if (c.setup.leg.kind == Leg::Kind::distance) return {};
    if (std::abs(late) < 2.0) return std::string(word("core.next.on_time"));
    return phrase(late > 0.0 ? "core.next.long" : "core.next.short", {{"seconds", whole(late)}});
  }
  const std::optional<double> angle = intercept_angle_within(c.setup, r.cross_nm, 60.0);
  if (!angle) return std::string(word("core.next.beyond"));
  return phrase("core.next.intercept", {{"angle", whole(*angle)}});
}

}  // namespace

std::string sum_text(double base_deg, double result_deg) {
  const double step = wrap_180(shown_direction(result_deg) - shown_direction(base_deg));
  return phrase(
      step >= 0.0 ? "core.sum.add" : "core.sum.take",
      {{"base", degrees_3(base_deg)}, {"step", whole(step)}, {"result", degrees_3(result_deg)}});
}

std::string outbound_text(const Hold& hold) {
  const double inbound = hold.inbound_course_deg;
  return phrase(
      inbound > 180.0 ? "core.sum.outbound_minus" : "core.sum.outbound_plus",
      {{"inbound", digits_3(inbound)}, {"outbound", degrees_3(hold.outbound_course_deg())}});
}

std::string_view label_of(PlanId id) {
  constexpr std::string_view kKeys[] = {"core.plan.still_air",  "core.plan.drift_once",
                                        "core.plan.track_30",   "core.plan.drift_triple",
                                        "core.plan.exact",      "core.plan.exact_heading",
                                        "core.plan.exact_time", "core.plan.own"};
  return word(kKeys[static_cast<int>(id)]);
}

std::string_view label_of(EventKind kind) {
  constexpr std::string_view kKeys[] = {
      "core.event.arrival",   "core.event.fix",       "core.event.level",
      "core.event.abeam",     "core.event.time_up",   "core.event.roll_out",
      "core.event.intercept", "core.event.on_course", "core.event.fix_missed"};
  return word(kKeys[static_cast<int>(kind)]);
}

std::string_view mark_of(EventKind kind) {
  constexpr std::string_view kKeys[] = {
      "core.mark.arrival",   "core.mark.fix",       "core.mark.level",
      "core.mark.abeam",     "core.mark.time_up",   "core.mark.roll_out",
      "core.mark.intercept", "core.mark.on_course", "core.mark.fix_missed"};
  return word(kKeys[static_cast<int>(kind)]);
}

std::string reason(NoPlan why) {
  constexpr std::string_view kKeys[] = {
      "core.none.none",    "core.none.no_arrival",  "core.none.no_inbound",
      "core.none.misses",  "core.none.too_long",    "core.none.too_short",
      "core.none.no_rule", "core.none.no_outbound", "core.none.to_the_fix"};
  return std::string(word(kKeys[static_cast<int>(why)]));
}

std::string reason(Stop why) {
  constexpr std::string_view kKeys[] = {"core.stop.none",        "core.stop.no_plan",
                                        "core.stop.no_arrival",  "core.stop.no_inbound",
                                        "core.stop.no_outbound", "core.stop.no_reading",
                                        "core.stop.no_exact"};
  return std::string(word(kKeys[static_cast<int>(why)]));
}

Miss miss_of(const Rollout& rollout) {
  if (std::abs(rollout.cross_nm) <= kOnCourseNm) return Miss::on_course;
  return rollout.cross_nm < 0.0 ? Miss::past : Miss::short_of;
}

std::vector<std::string> sum_steps(const WorkedCase& c) {
  const Setup& u = c.setup;
  const Scenario& s = u.scenario;
  std::vector<std::string> steps;
  heading_steps(c, steps);
  const std::optional<double> time = rule_time(u, s.timing);
  if (time && s.timing == TimingRule::groundspeed) {
    steps.push_back(
        phrase("core.sum.groundspeed", {{"published", minutes(u.published_s)},
                                        {"tas", fixed(u.tas_kt, 0)},
                                        {"groundspeed", fixed(u.outbound.groundspeed_kt, 0)},
                                        {"time", minutes(*time)}}));
  }
  const bool by_distance = u.leg.kind == Leg::Kind::distance && !s.time_s;
  if (own_plan(s) && u.entry != EntryKind::direct) {
    const std::optional<EntryPlan> plan = scenario_plan(u);
    if (plan) {
      steps.push_back(
          phrase(by_distance ? "core.sum.own_heading" : "core.sum.own",
                 {{"heading", degrees_3(plan->heading_deg)}, {"time", minutes(plan->time_s)}}));
    }
  }
  if (!time || !u.inbound.exists) return steps;
  const bool parallel = u.entry == EntryKind::parallel;
  const Side way = parallel ? opposite(s.turns) : s.turns;
  // Past the inbound heading: to an intercept of the course, or straight to the fix.
  const std::optional<double> out_on = parallel ? rollout_heading_deg(c.flown) : std::nullopt;
  steps.push_back(phrase(!by_distance                ? "core.sum.fly"
                         : s.measure == Measure::dme ? "core.sum.fly_dme"
                                                     : "core.sum.fly_distance",
                         {{"reading", fixed(leg_end_dme_nm(u), 1)},
                          {"time", minutes(s.time_s.value_or(*time))},
                          {"distance", write_number(u.leg.value)},
                          {"side", side_text(sign_of(way))},
                          {"inbound", degrees_3(out_on.value_or(u.inbound.heading_deg))}}));
  return steps;
}

std::string headline(const WorkedCase& c) {
  const Rollout& r = c.flown.rollout;
  if (!r.exists) return std::string(word("core.headline.none"));
  if (r.to_go_nm <= 0.0) return std::string(word("core.headline.past_fix"));
  switch (miss_of(r)) {
    case Miss::on_course:
      return std::string(word("core.headline.on_course"));
    case Miss::past:
      return phrase("core.headline.past", {{"nm", distance(r.cross_nm)}});
    case Miss::short_of:
      return phrase("core.headline.short", {{"nm", distance(r.cross_nm)}});
  }
  return {};
}

std::string outcome(const WorkedCase& c) {
  const Rollout& r = c.flown.rollout;
  if (!r.exists) return reason(c.flown.stop);
  const bool behind = r.to_go_nm <= 0.0;
  const char* key = miss_of(r) == Miss::on_course
                        ? (behind ? "core.outcome.on_course_behind" : "core.outcome.on_course")
                    : r.cross_nm < 0.0
                        ? (behind ? "core.outcome.past_behind" : "core.outcome.past")
                        : (behind ? "core.outcome.short_behind" : "core.outcome.short");
  // "Within" so much: rounded up.
  const double nm = miss_of(r) == Miss::on_course
                        ? std::fmax(0.01, std::ceil(std::abs(r.cross_nm) * 100.0) / 100.0)
                        : r.cross_nm;
  std::string text = phrase(
      key,
      {{"nm", distance(nm)}, {"to_go", distance(r.to_go_nm)}, {"inbound", minutes(r.inbound_s)}});
  for (const std::string& more : {because(c), next_step(c)}) {
    if (!more.empty()) text += " " + more;
  }
  if (c.flown.stop != Stop::none) text += " " + reason(c.flown.stop);
  return text;
}

std::string sector_reason(const WorkedCase& c) {
  const Setup& u = c.setup;
  if (!u.sector) return reason(Stop::no_arrival);
  const auto entry_word = [](EntryKind kind) {
    constexpr std::string_view kKeys[] = {"core.entry.offset", "core.entry.parallel",
                                          "core.entry.direct"};
    return std::string(word(kKeys[static_cast<int>(kind)]));
  };
  const double off = wrap_180(u.arrival.heading_deg - u.hold.outbound_course_deg());
  std::string text =
      phrase("core.sector", {{"heading", degrees_3(u.arrival.heading_deg)},
                             {"off", whole(off)},
                             {"side", std::string(word(off >= 0.0 ? "core.right" : "core.left"))},
                             {"outbound", degrees_3(u.hold.outbound_course_deg())},
                             {"entry", entry_word(u.sector->kind)}});
  if (u.sector->also != u.sector->kind) {
    text += " " + phrase("core.sector.also", {{"entry", entry_word(u.sector->also)},
                                              {"zone", fixed(kSectorZoneDeg, 0)}});
  }
  if (u.entry != u.sector->kind) {
    text += " " + phrase("core.sector.flown", {{"entry", entry_word(u.entry)}});
  }
  return text;
}

std::string picture_summary(const WorkedCase& c, bool flight) {
  const Setup& u = c.setup;
  const Scenario& s = u.scenario;
  const bool calm = fixed(u.wind.speed_kt, 0) == "0" && !s.later_wind;
  std::string text = phrase(calm ? "core.summary.calm" : "core.summary",
                            {{"inbound", degrees_3(s.inbound_course_deg)},
                             {"turns", side_text(sign_of(s.turns))},
                             {"wind", degrees_3(u.wind.from_deg)},
                             {"speed", fixed(u.wind.speed_kt, 0)},
                             {"arrive", degrees_3(s.arrival_course_deg)},
                             {"tas", fixed(u.tas_kt, 0)}});
  if (!flight) return text;
  if (c.flown.rollout.exists) {
    text += " " + phrase("core.summary.flown", {{"heading", degrees_3(c.flown.plan.heading_deg)},
                                                {"time", minutes(c.flown.entry_time_s)},
                                                {"headline", headline(c)}});
  } else {
    text += " " + reason(c.flown.stop);
  }
  return text;
}

}  // namespace core
