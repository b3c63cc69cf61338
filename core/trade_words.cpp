#include "core/trade_words.h"

#include "core/explain.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

/// Rate of roll that stands for all where the scenario rolls at once.
constexpr double kUsualRollDegS = 5.0;

std::string nm(double value) { return fixed(std::abs(value), std::abs(value) < 0.095 ? 2 : 1); }

/// "for 1:00", "to 15.0 DME" and so on, by what ended the leg.
std::string leg_text(const Setup& u, LegEnd end, double time_s) {
  switch (end) {
    case LegEnd::time:
      return phrase("core.leg.time", {{"time", minutes(time_s)}});
    case LegEnd::track:
      return phrase("core.leg.track", {{"distance", write_number(u.leg.value)}});
    case LegEnd::dme:
      return phrase("core.leg.dme", {{"reading", fixed(leg_end_dme_nm(u), 1)}});
    case LegEnd::radial:
      return phrase("core.leg.radial",
                    {{"radial", degrees_3(u.scenario.radial_deg.value_or(0.0))}});
  }
  return {};
}

}  // namespace

std::string_view label_of(Rulebook book) {
  return word(book == Rulebook::faa ? "core.book.faa" : "core.book.icao");
}

std::vector<std::string> book_words(Rulebook book) {
  const bool faa = book == Rulebook::faa;
  std::vector<std::string> words;
  for (const char* key : {"core.book.faa.offset", "core.book.faa.turns", "core.book.faa.time"}) {
    if (faa) words.push_back(text_of(key));
  }
  for (const char* key : {"core.book.icao.offset", "core.book.icao.turns", "core.book.icao.time"}) {
    if (!faa) words.push_back(text_of(key));
  }
  words.push_back(text_of("core.book.sectors"));
  return words;
}

std::string_view label_of(EntryKind kind, Rulebook book) {
  constexpr std::string_view kFaa[] = {"core.entry.faa.offset", "core.entry.faa.parallel",
                                       "core.entry.faa.direct"};
  constexpr std::string_view kIcao[] = {"core.entry.icao.offset", "core.entry.icao.parallel",
                                        "core.entry.icao.direct"};
  const int i = static_cast<int>(kind);
  return word(book == Rulebook::faa ? kFaa[i] : kIcao[i]);
}

EntryTurn first_turn(const Setup& u, const EntryCase& e) {
  const double from = u.arrival.heading_deg;
  const double to = e.flight.plan.heading_deg;
  const Side side = e.kind == EntryKind::direct ? u.scenario.turns : short_way(u, from, to);
  return {side, turn_angle((to - from) * sign_of(side))};
}

EntryTurn second_turn(const Setup& u, const EntryCase& e) {
  const bool parallel = e.kind == EntryKind::parallel;
  const Side side = parallel ? opposite(u.scenario.turns) : u.scenario.turns;
  const double to = rollout_heading_deg(e.flight).value_or(u.inbound.heading_deg);
  return {side, turn_angle((to - e.flight.plan.heading_deg) * sign_of(side))};
}

std::vector<std::string> entry_steps(const Setup& u, const EntryCase& e) {
  std::vector<std::string> steps;
  const Flight& f = e.flight;
  if (!e.exists) {
    steps.push_back(reason(e.why));
    return steps;
  }
  const EntryTurn first = first_turn(u, e);
  const std::string heading = degrees_3(f.plan.heading_deg);
  const char* first_key = e.kind == EntryKind::offset     ? "core.step.offset"
                          : e.kind == EntryKind::parallel ? "core.step.parallel"
                          : first.angle_deg > 180.5       ? "core.step.direct_more"
                          : first.angle_deg < 179.5       ? "core.step.direct_less"
                                                          : "core.step.direct";
  steps.push_back(phrase(first_key, {{"side", side_text(sign_of(first.side))},
                                     {"angle", fixed(first.angle_deg, 0)},
                                     {"heading", heading}}));
  if (!f.rollout.exists) {
    steps.push_back(reason(f.stop));
    return steps;
  }
  const std::string leg = leg_text(u, f.ended_by, f.entry_time_s);
  const bool clock = f.ended_by == LegEnd::time;
  const char* leg_key = !clock                           ? "core.step.leg"
                        : e.kind == EntryKind::direct    ? "core.step.leg_abeam"
                        : u.scenario.timer == Timer::fix ? "core.step.leg_fix"
                                                         : "core.step.leg_level";
  steps.push_back(phrase(leg_key, {{"leg", leg}}));
  const EntryTurn second = second_turn(u, e);
  const double to = wrap_360(f.plan.heading_deg + sign_of(second.side) * second.angle_deg);
  const char* second_key = e.kind != EntryKind::parallel                 ? "core.step.inbound"
                           : u.scenario.parallel_end == ParallelEnd::fix ? "core.step.to_fix"
                                                                         : "core.step.intercept";
  steps.push_back(phrase(second_key, {{"side", side_text(sign_of(second.side))},
                                      {"angle", fixed(second.angle_deg, 0)},
                                      {"heading", degrees_3(to)},
                                      {"intercept", fixed(u.scenario.intercept_deg, 0)}}));
  const std::optional<double> on = e.on_course_s();
  const std::optional<double> again = e.fix_again_s();
  if (on && again) {
    steps.push_back(
        phrase("core.step.established", {{"on", minutes(*on)}, {"again", minutes(*again)}}));
  } else if (again && e.kind == EntryKind::parallel &&
             u.scenario.parallel_end == ParallelEnd::fix) {
    steps.push_back(phrase("core.step.back", {{"again", minutes(*again)}}));
  } else if (again) {
    steps.push_back(text_of("core.step.not_established"));
  }
  return steps;
}

double abeam_after_level_s(const Setup& u, double outbound_heading_deg) {
  const TurnMotion out =
      turn_motion(u, u.inbound.heading_deg, outbound_heading_deg, u.scenario.turns);
  const double gap = -u.to_go_nm(out.motion_nm);
  if (gap <= 1e-9) return 0.0;
  return first_time(gap, u.to_go_nm(ground_velocity(u, outbound_heading_deg)), 0.0);
}

std::string timing_words(const WorkedCase& c) {
  const Setup& u = c.setup;
  if (!u.inbound.exists) return {};
  const double heading = flown_lap_heading(c);
  const double seconds = abeam_after_level_s(u, heading);
  if (seconds < 0.0) return text_of("core.timing.never");
  if (seconds < 0.5) return text_of("core.timing.level");
  return phrase("core.timing.abeam", {{"seconds", fixed(seconds, 0)}});
}

std::vector<std::string> station_words(const WorkedCase& c) {
  const Setup& u = c.setup;
  const Station& station = u.scenario.station;
  std::vector<std::string> words;
  const std::string height = write_number(std::floor(u.height_ft + 0.5));
  if (station.place == Station::Place::at_fix) {
    words.push_back(text_of("core.station.fix"));
  } else {
    const bool ahead = station.place == Station::Place::ahead;
    words.push_back(phrase(ahead ? "core.station.ahead" : "core.station.behind",
                           {{"dme", fixed(station.dme_nm, 1)}}));
    const double ground = length(u.station);
    if (slant_range_nm(0.0, u.height_ft) > station.dme_nm) {
      words.push_back(
          phrase("core.station.too_near", {{"height", height},
                                           {"least", fixed(slant_range_nm(0.0, u.height_ft), 1)},
                                           {"dme", fixed(station.dme_nm, 1)}}));
    } else {
      words.push_back(phrase(
          "core.station.slant",
          {{"dme", fixed(station.dme_nm, 1)}, {"height", height}, {"ground", fixed(ground, 2)}}));
    }
  }
  if (u.leg.kind == Leg::Kind::distance) {
    if (u.scenario.measure == Measure::dme) {
      const double reading = leg_end_dme_nm(u);
      const double ground = ground_range_nm(reading, u.height_ft);
      if (ground >= 0.0) {
        words.push_back(phrase("core.station.end_dme",
                               {{"reading", fixed(reading, 1)}, {"ground", fixed(ground, 2)}}));
      } else {
        words.push_back(
            phrase("core.station.end_never", {{"reading", fixed(reading, 1)}, {"height", height}}));
      }
    } else {
      words.push_back(phrase("core.station.end_track", {{"distance", write_number(u.leg.value)}}));
    }
  }
  if (u.scenario.radial_deg) {
    const bool cuts = c.flown.ended_by == LegEnd::radial && c.flown.rollout.exists;
    words.push_back(phrase(cuts ? "core.station.radial_cuts" : "core.station.radial",
                           {{"radial", degrees_3(*u.scenario.radial_deg)}}));
  }
  return words;
}

std::string lap_advice(const WorkedCase& c, int index) {
  const Setup& u = c.setup;
  const Lap& lap = c.flown.laps[static_cast<unsigned>(index)];
  const Rollout& r = lap.rollout;
  std::string text;
  if (u.leg.kind == Leg::Kind::time) {
    const double late = r.inbound_s - u.published_s;
    double next = next_outbound_s(u, lap.outbound_s, r.inbound_s);
    next = next < 0.0 ? 0.0 : next > kMostOutboundS ? kMostOutboundS : next;
    if (u.scenario.adjust == Adjust::exact && c.lap.exists()) next = std::fmax(c.lap.time_s, 0.0);
    const char* key = std::abs(late) < 0.5 ? "core.lap.on_time"
                      : late > 0.0         ? "core.lap.long"
                                           : "core.lap.short";
    text = phrase(key, {{"inbound", minutes(r.inbound_s)},
                        {"seconds", fixed(std::abs(late), 0)},
                        {"next", minutes(next)}});
  } else {
    text = phrase("core.lap.distance", {{"to_go", nm(r.to_go_nm)}});
  }
  const Miss miss = miss_of(r);
  if (miss == Miss::on_course) return text + " " + text_of("core.lap.on_course");
  text += " " + phrase(miss == Miss::past ? "core.lap.past" : "core.lap.inside",
                       {{"nm", nm(r.cross_nm)}});
  if (c.lap.exists()) {
    const double change = wrap_180(c.lap.heading_deg - lap.outbound_heading_deg);
    if (std::abs(change) >= 0.5) {
      text += " " + phrase("core.lap.turn", {{"angle", fixed(std::abs(change), 0)},
                                             {"side", side_text(change)},
                                             {"heading", degrees_3(c.lap.heading_deg)}});
    }
  }
  return text;
}

RollEffect roll_effect(const WorkedCase& c) {
  RollEffect e{};
  const bool rolls = c.setup.scenario.roll_deg_s > 0.0;
  e.roll_deg_s = rolls ? c.setup.scenario.roll_deg_s : kUsualRollDegS;
  Scenario other = c.setup.scenario;
  other.laps = 0;
  other.roll_deg_s = rolls ? 0.0 : kUsualRollDegS;
  const Setup u = make_setup(other);
  Flight f;
  fly_scenario(u, f);
  e.roll_s = make_roll_in(c.setup.turn, c.setup.tas_kt, e.roll_deg_s).seconds;
  e.exists = f.rollout.exists && c.flown.rollout.exists;
  const double sign = rolls ? 1.0 : -1.0;
  e.cross_change_nm = e.exists ? sign * (c.flown.rollout.cross_nm - f.rollout.cross_nm) : 0.0;
  e.to_go_change_nm = e.exists ? sign * (c.flown.rollout.to_go_nm - f.rollout.to_go_nm) : 0.0;
  return e;
}

std::string roll_words(const WorkedCase& c, const RollEffect& e) {
  std::string text = phrase(c.setup.scenario.roll_deg_s > 0.0 ? "core.roll.on" : "core.roll.off",
                            {{"rate", write_number(e.roll_deg_s)},
                             {"bank", fixed(c.setup.turn.bank_deg, 0)},
                             {"seconds", fixed(e.roll_s, 1)}});
  if (!e.exists) return text;
  const double cross = std::abs(e.cross_change_nm);
  text +=
      " " + phrase(e.cross_change_nm >= 0.0 ? "core.roll.toward" : "core.roll.away",
                   {{"cross", fixed(cross, 2)}, {"along", fixed(std::abs(e.to_go_change_nm), 2)}});
  text += " " + text_of(cross <= kOnCourseNm ? "core.roll.little" : "core.roll.much");
  const RollIn in = make_roll_in(c.setup.turn, c.setup.tas_kt, e.roll_deg_s);
  text += " " + phrase("core.roll.lead",
                       {{"lead", fixed(in.gain_deg, 0)},
                        {"rule", fixed(roll_out_lead_by_rule_deg(c.setup.turn.bank_deg), 0)}});
  return text;
}

std::vector<std::string> wind_model_words(const Setup& u) {
  std::vector<std::string> words{text_of("core.wind.model")};
  const Scenario& s = u.scenario;
  if (s.wind_is_true) {
    words.push_back(phrase("core.wind.true", {{"true", degrees_3(s.wind_from_deg)},
                                              {"magnetic", degrees_3(u.wind.from_deg)}}));
  }
  if (s.later_wind) {
    const double from_deg = magnetic_wind_deg(s, s.later_wind->from_deg);
    words.push_back(phrase("core.wind.later", {{"from", degrees_3(from_deg)},
                                               {"speed", fixed(s.later_wind->speed_kt, 0)}}));
  }
  return words;
}

}  // namespace core
