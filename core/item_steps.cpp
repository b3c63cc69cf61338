// Questions and steps of the skills. Every number comes from the core's own functions.
#include <cmath>

#include "core/clearance.h"
#include "core/explain.h"
#include "core/flight.h"
#include "core/item_answer.h"
#include "core/item_parts.h"
#include "core/practice_text.h"
#include "core/text_number.h"
#include "core/trade_words.h"

namespace core {
namespace {

double whole(double v) { return std::floor(v + 0.5); }

std::string name_of_fix(const Scenario& s) {
  const std::string_view name = s.fix_name.data();
  return name.empty() ? text_of("core.item.fix") : std::string(name);
}

std::string leg_text(const Setup& u) {
  if (u.leg.kind == Leg::Kind::time) return minutes(u.published_s);
  return phrase("core.item.leg_nm", {{"nm", write_number(u.leg.value)}});
}

std::string hold_text(const Setup& u) {
  const Scenario& s = u.scenario;
  return phrase("core.item.hold", {{"fix", name_of_fix(s)},
                                   {"inbound", degrees_3(s.inbound_course_deg)},
                                   {"turns", side_text(sign_of(s.turns))},
                                   {"leg", leg_text(u)}});
}

std::string aircraft_text(const Setup& u) {
  const Scenario& s = u.scenario;
  return phrase("core.item.aircraft", {{"ias", fixed(s.speed_kt, 0)},
                                       {"altitude", fixed(s.altitude_ft, 0)},
                                       {"tas", fixed(u.tas_kt, 0)}});
}

std::string wind_text(const Setup& u) {
  if (u.wind.speed_kt < 0.5) return text_of("core.item.calm");
  return phrase("core.item.wind",
                {{"from", degrees_3(u.wind.from_deg)}, {"speed", fixed(u.wind.speed_kt, 0)}});
}

std::string arrival_text(const Setup& u) {
  return phrase("core.item.arrive", {{"course", degrees_3(u.scenario.arrival_course_deg)},
                                     {"heading", degrees_3(u.arrival.heading_deg)}});
}

std::string joined(std::initializer_list<std::string> sentences) {
  std::string out;
  for (const std::string& s : sentences) {
    if (!out.empty()) out += ' ';
    out += s;
  }
  return out;
}

std::string tolerance_text(const Step& step) {
  if (step.kind == StepKind::choice) return {};
  if (step.tolerance == 0.0) return text_of("core.item.tolerance.exact");
  const char* unit = step.kind == StepKind::seconds ? "core.item.tolerance.seconds"
                     : step.kind == StepKind::knots ? "core.item.tolerance.knots"
                                                    : "core.item.tolerance.degrees";
  return phrase(unit, {{"n", fixed(step.tolerance, 0)}});
}

void add(DrillItem& item, Step step) {
  step.tolerance_text = tolerance_text(step);
  if (step.right_text.empty()) step.right_text = right_text(step);
  item.steps.push_back(std::move(step));
}

Step step_of(const char* id, StepKind kind, double value, double tolerance, std::string ask,
             std::string worked) {
  Step s;
  s.id = id;
  s.kind = kind;
  s.value = value;
  s.tolerance = tolerance;
  s.ask = std::move(ask);
  s.worked = std::move(worked);
  return s;
}

Step outbound_step(const Setup& u) {
  return step_of("outbound", StepKind::direction, whole(u.hold.outbound_course_deg()), 0.0,
                 text_of("core.item.ask.outbound"), outbound_text(u.hold));
}

}  // namespace

void ask_entry(DrillItem& item) {
  Scenario& s = item.scenario;
  s.entry.reset();
  const Setup u = make_setup(s);
  const SectorChoice& sector = *u.sector;
  item.question = joined({hold_text(u), arrival_text(u), wind_text(u), aircraft_text(u)});
  item.link = write_link(s);
  Scenario right = s;
  right.entry = sector.kind;
  item.right_link = write_link(right);

  add(item, outbound_step(u));
  const double outbound = whole(u.hold.outbound_course_deg());
  const double heading = wrap_360(whole(u.arrival.heading_deg));
  const double off = wrap_180(heading - outbound);
  const bool half = std::abs(off) > 179.0;
  const std::string side = half ? std::string() : side_text(off);
  add(item, step_of("off", StepKind::correction, off, 2.0,
                    phrase("core.item.ask.off",
                           {{"heading", degrees_3(heading)}, {"outbound", degrees_3(outbound)}}),
                    off == 0.0 ? text_of("core.item.worked.same")
                               : phrase(half ? "core.item.worked.behind" : "core.item.worked.off",
                                        {{"heading", degrees_3(heading)},
                                         {"outbound", degrees_3(outbound)},
                                         {"degrees", fixed(std::abs(off), 0)},
                                         {"side", side}})));

  Step entry = step_of("entry", StepKind::choice, 0.0, 0.0, text_of("core.item.ask.entry"), {});
  for (const EntryKind kind : {EntryKind::offset, EntryKind::parallel, EntryKind::direct}) {
    entry.choices.push_back({std::string(name_of(kind)), std::string(label_of(kind, s.book))});
  }
  const auto bit = [](EntryKind kind) { return 1U << static_cast<unsigned>(kind); };
  entry.acceptable = bit(sector.kind) | bit(sector.also);
  entry.right_text = label_of(sector.kind, s.book);
  constexpr const char* kWorked[] = {"core.item.worked.offset", "core.item.worked.parallel",
                                     "core.item.worked.direct"};
  // With right turns the offset sector lies to the left of the outbound course.
  entry.worked = phrase(kWorked[static_cast<int>(sector.kind)], {{"turns", side_text(u.turn_sign)},
                                                                 {"near", side_text(-u.turn_sign)},
                                                                 {"far", side_text(u.turn_sign)}});
  if (sector.also != sector.kind) {
    entry.worked += " " + phrase("core.item.worked.also",
                                 {{"degrees", fixed(std::fmax(1.0, sector.boundary_deg), 0)},
                                  {"zone", fixed(kSectorZoneDeg, 0)},
                                  {"also", std::string(label_of(sector.also, s.book))}});
  }
  add(item, std::move(entry));
}

void ask_heading(DrillItem& item) {
  Scenario& s = item.scenario;
  s.entry = EntryKind::offset;
  s.rule = HeadingRule::drift_once;
  const Setup u = make_setup(s);
  item.question = joined({hold_text(u), arrival_text(u), wind_text(u), aircraft_text(u),
                          text_of("core.item.teardrop")});
  item.link = write_link(s);
  item.right_link = item.link;

  add(item, outbound_step(u));
  const double outbound = whole(u.hold.outbound_course_deg());
  const double base = wrap_360(outbound - 30.0 * u.turn_sign);
  add(item, step_of("thirty", StepKind::direction, base, 0.0,
                    phrase("core.item.ask.thirty", {{"turns", side_text(u.turn_sign)}}),
                    phrase("core.item.worked.thirty", {{"turns", side_text(u.turn_sign)},
                                                       {"side", side_text(-u.turn_sign)},
                                                       {"sum", sum_text(outbound, base)}})));
  const double held =
      wrap_180(wrap_360(whole(u.arrival.heading_deg)) - whole(s.arrival_course_deg));
  const double heading = wrap_360(whole(rule_heading(u, HeadingRule::drift_once).value_or(base)));
  add(item, step_of("heading", StepKind::direction, heading, kAskedHeadingDeg,
                    text_of("core.item.ask.heading"),
                    held == 0.0
                        ? phrase("core.item.worked.heading_bare", {{"heading", degrees_3(heading)}})
                        : phrase("core.item.worked.heading", {{"held", correction_text(held)},
                                                              {"sum", sum_text(base, heading)}})));
}

void ask_wind(DrillItem& item) {
  const Scenario& s = item.scenario;
  Scenario scene = s;
  scene.entry = EntryKind::direct;
  scene.arrival_course_deg = s.inbound_course_deg;
  const Setup u = make_setup(s);
  item.question =
      joined({hold_text(u), wind_text(u), aircraft_text(u), text_of("core.item.inbound")});
  item.link = write_link(scene);
  const double wca = whole(u.inbound.wca_deg);
  item.right_link = write_link(lap_of(s, lap_heading_for(s, wca), u.published_s));

  const double angle = whole(std::abs(wrap_180(u.wind.from_deg - s.inbound_course_deg)));
  add(item, step_of("angle", StepKind::degrees, angle, 2.0, text_of("core.item.ask.angle"),
                    phrase("core.item.worked.angle", {{"from", degrees_3(u.wind.from_deg)},
                                                      {"inbound", degrees_3(s.inbound_course_deg)},
                                                      {"angle", fixed(angle, 0)}})));
  const double cross = whole(std::abs(u.inbound.crosswind_kt));
  const std::string side = side_text(u.inbound.crosswind_kt);
  add(item, step_of("crosswind", StepKind::knots, cross, 3.0, text_of("core.item.ask.crosswind"),
                    phrase(cross == 0.0 ? "core.item.worked.no_cross" : "core.item.worked.cross",
                           {{"speed", fixed(u.wind.speed_kt, 0)},
                            {"angle", fixed(angle, 0)},
                            {"cross", fixed(cross, 0)},
                            {"side", side}})));
  const double rough = whole(60.0 * cross / u.tas_kt);
  add(item, step_of("correction", StepKind::correction, wca, kAskedCorrectionDeg,
                    text_of("core.item.ask.correction"),
                    phrase(cross == 0.0 ? "core.item.worked.no_correction"
                                        : "core.item.worked.correction",
                           {{"cross", fixed(cross, 0)},
                            {"tas", fixed(u.tas_kt, 0)},
                            {"rough", fixed(rough, 0)},
                            {"exact", correction_text(wca)}})));
}

bool ask_lap(DrillItem& item, Seeded& random) {
  Scenario& s = item.scenario;
  s.entry = EntryKind::direct;
  s.arrival_course_deg = s.inbound_course_deg;
  const Setup u = make_setup(s);
  const double heading = whole(lap_heading(u, s.multiple));
  const double leg = whole(u.published_s);
  const double outbound = leg + 5.0 * random.between(-2, 2);
  const Setup flown_setup = make_setup(lap_of(s, heading, outbound));
  Flight flown;
  fly_scenario(flown_setup, flown);
  if (!flown.rollout.exists) return false;
  const double inbound = whole(flown.rollout.inbound_s);
  const double right = next_outbound_s(u, outbound, inbound);
  if (inbound <= 0.0 || right < kLeastNextS || right > kMostNextS) return false;
  item.question = joined({hold_text(u), wind_text(u), aircraft_text(u),
                          phrase("core.item.last_lap", {{"outbound", minutes(outbound)},
                                                        {"inbound", minutes(inbound)},
                                                        {"leg", minutes(leg)}})});
  item.link = write_link(lap_of(s, heading, outbound));
  item.right_link = write_link(lap_of(s, heading, right));

  const double miss = inbound - leg;
  const std::string size = fixed(std::abs(miss), 0);
  add(item, step_of("miss", StepKind::seconds, std::abs(miss), 2.0,
                    phrase("core.item.ask.miss", {{"leg", minutes(leg)}}),
                    phrase(miss < 0.0   ? "core.item.worked.too_short"
                           : miss > 0.0 ? "core.item.worked.too_long"
                                        : "core.item.worked.in_time",
                           {{"inbound", minutes(inbound)}, {"leg", minutes(leg)}, {"n", size}})));
  add(item,
      step_of("next", StepKind::seconds, right, kAskedTimingS, text_of("core.item.ask.next"),
              phrase(miss < 0.0   ? "core.item.worked.longer"
                     : miss > 0.0 ? "core.item.worked.shorter"
                                  : "core.item.worked.again",
                     {{"outbound", minutes(outbound)}, {"n", size}, {"right", minutes(right)}})));
  return true;
}

void ask_groundspeed(DrillItem& item) {
  Scenario& s = item.scenario;
  s.entry = EntryKind::offset;
  s.timing = TimingRule::groundspeed;
  const Setup u = make_setup(s);
  const double gs = whole(u.outbound.groundspeed_kt);
  const double right = whole(rule_time(u, TimingRule::groundspeed).value_or(u.published_s));
  item.question = joined({hold_text(u), arrival_text(u), wind_text(u), aircraft_text(u),
                          text_of("core.item.by_groundspeed")});
  Scenario scene = s;
  scene.timing = TimingRule::fixed;
  item.link = write_link(scene);
  item.right_link = write_link(s);

  const double along = u.tas_kt - u.outbound.groundspeed_kt;
  add(item, step_of("groundspeed", StepKind::knots, gs, 5.0, text_of("core.item.ask.groundspeed"),
                    phrase(std::abs(along) < 0.5 ? "core.item.worked.no_along"
                           : along > 0.0         ? "core.item.worked.headwind"
                                                 : "core.item.worked.tailwind",
                           {{"tas", fixed(u.tas_kt, 0)},
                            {"along", fixed(std::abs(along), 0)},
                            {"gs", fixed(gs, 0)}})));
  add(item, step_of("time", StepKind::seconds, right, kAskedTimingS, text_of("core.item.ask.time"),
                    phrase("core.item.worked.time", {{"leg", minutes(u.published_s)},
                                                     {"tas", fixed(u.tas_kt, 0)},
                                                     {"gs", fixed(gs, 0)},
                                                     {"right", minutes(right)}})));
}

void ask_clearance(DrillItem& item, Seeded& random) {
  Scenario& s = item.scenario;
  s.entry.reset();
  ClearanceSpec spec;
  spec.inbound_deg = s.inbound_course_deg;
  spec.turns = s.turns;
  spec.fix = name_of_fix(s);
  constexpr const char* kLines[] = {"core.item.worked.line.station", "core.item.worked.line.beyond",
                                    "core.item.worked.line.between", "core.item.worked.line.ndb",
                                    "core.item.worked.line.course"};
  const int form = random.below(5);
  if (form == 1 || form == 2) {
    spec.station = form == 1 ? Station::Place::ahead : Station::Place::behind;
    spec.dme_nm = random.between(8, 30);
    spec.station_name = word("core.item.station");
  } else if (form == 3) {
    spec.aid = Aid::ndb;
  } else if (form == 4) {
    spec.aid = Aid::satellite;
  }
  s.station = {spec.station, spec.dme_nm};
  s.aid = spec.aid;
  spec.efc_min = 5 * random.between(108, 264);
  s.further_clearance_min = spec.efc_min;
  const std::string clearance = compose_clearance(spec);
  const Setup u = make_setup(s);
  item.question = phrase("core.item.clearance", {{"text", clearance}});
  item.right_link = write_link(s);

  const double outbound = whole(u.hold.outbound_course_deg());
  const double inbound = whole(s.inbound_course_deg);
  add(item, step_of("line", StepKind::direction, outbound, 0.0, text_of("core.item.ask.line"),
                    phrase(kLines[form],
                           {{"inbound", digits_3(inbound)}, {"outbound", degrees_3(outbound)}})));
  Step hold = step_of("hold", StepKind::hold, inbound, 0.0, text_of("core.item.ask.hold"), {});
  hold.turns = s.turns;
  hold.worked = phrase(s.turns == Side::left ? "core.item.worked.left" : "core.item.worked.right",
                       {{"outbound", digits_3(outbound)}, {"inbound", degrees_3(inbound)}});
  add(item, std::move(hold));
}

namespace {

/// A timing question in one of the set's forms. Where the wind leaves no lap to be timed second
/// for second, other cases are looked at; where there is none, the groundspeed is asked for.
void ask_timing(const QuestionSet& set, DrillItem& item, Seeded& random) {
  constexpr int kMostLooks = 60;
  constexpr unsigned kBoth = kTimingLap | kTimingGroundspeed;
  const bool lap =
      (set.timing & kBoth) == kBoth ? random.below(2) == 0 : (set.timing & kTimingLap) != 0U;
  for (int look = 0; lap && look < kMostLooks; ++look) {
    if (ask_lap(item, random)) return;
    item.scenario = draw_case(set, Skill::timing, random);
  }
  ask_groundspeed(item);
}

}  // namespace

DrillItem make_item(const QuestionSet& set, std::uint32_t seed, int k, Skill skill) {
  Seeded random(stream_of(set.id, set.version, seed, k < 0 ? 0 : k));
  DrillItem item;
  item.skill = skill;
  item.scenario = draw_case(set, skill, random);
  switch (skill) {
    case Skill::entry:
      ask_entry(item);
      break;
    case Skill::heading:
      ask_heading(item);
      break;
    case Skill::wind:
      ask_wind(item);
      break;
    case Skill::timing:
      ask_timing(set, item, random);
      break;
    case Skill::clearance:
      ask_clearance(item, random);
      break;
  }
  return item;
}

}  // namespace core
