// The decoding of a clearance as a student does it, a step a sentence or two.
#include "core/clearance_parts.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

std::string side_of(double pattern_deg) {
  return std::string(name_of_eighth(nearest_eighth(pattern_deg)));
}

bool is_line(const HeardClearance& h) {
  return h.reference == Reference::radial || h.reference == Reference::bearing;
}
/// The number is the bearing TO the station.
bool said_to(const ReadClearance& r) {
  return r.line_from_deg && *r.line_from_deg != static_cast<double>(*r.heard.number_deg);
}

std::string side_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!h.direction) return std::string(word("core.clearance.step.side.none"));
  return phrase("core.clearance.step.side", {{"word", direction_words(h)},
                                             {"side", std::string(name_of_eighth(*h.direction))},
                                             {"fix", fix_words(h)},
                                             {"middle", degrees_3(45.0 * *h.direction)}});
}

std::string_view station_key(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!h.number_deg) {
    return h.published                       ? "core.clearance.step.station.published"
           : h.reference == Reference::route ? "core.clearance.step.station.route"
                                             : "core.clearance.step.station.none";
  }
  if (!is_line(h)) {
    return r.has(Doubt::course_outbound) ? "core.clearance.step.station.taken_outbound"
           : h.sense == Sense::from      ? "core.clearance.step.station.outbound"
                                         : "core.clearance.step.station.course";
  }
  if (!r.inbound_deg) return "core.clearance.step.station.open";
  if (!r.station) return "core.clearance.step.station.either";
  switch (*r.station) {
    case Station::Place::at_fix:
      return said_to(r) ? "core.clearance.step.station.to" : "core.clearance.step.station.from";
    case Station::Place::ahead:
      return "core.clearance.step.station.beyond";
    case Station::Place::behind:
      break;
  }
  return "core.clearance.step.station.between";
}

/// The contradiction that leaves the inbound course open.
const Remark<Contradiction>* against(const ReadClearance& r) {
  for (const Remark<Contradiction>& c : r.contradictions) {
    if (c.kind != Contradiction::two_turns && c.kind != Contradiction::two_legs) return &c;
  }
  return nullptr;
}

std::string station_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (h.number_deg && against(r)) return against(r)->text;
  const double from = r.line_from_deg.value_or(0.0);
  const std::string side = h.direction ? std::string(name_of_eighth(*h.direction)) : std::string();
  const std::string out =
      h.dme_nm ? phrase("core.clearance.out.miles", {{"dme", write_number(*h.dme_nm)}})
               : std::string(word("core.clearance.out.somewhere"));
  const std::string why =
      phrase(h.inbound_said_deg ? "core.clearance.why.inbound" : "core.clearance.why.side",
             {{"side", side}, {"inbound", degrees_3(h.inbound_said_deg.value_or(0))}});
  return phrase(station_key(r), {{"fix", fix_words(h)},
                                 {"line", line_words(h)},
                                 {"from", degrees_3(from)},
                                 {"out", out},
                                 {"why", why},
                                 {"side", side},
                                 {"word", direction_words(h)},
                                 {"route", h.route}});
}

std::string no_inbound_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!h.number_deg && r.has(Doubt::chart_has_it)) {
    if (!r.charted_inbound_deg) return std::string(word("core.clearance.step.inbound.chart"));
    const bool against = r.has(Contradiction::direction_chart);
    return phrase(against       ? "core.clearance.step.inbound.chart_against"
                  : h.direction ? "core.clearance.step.inbound.chart_fits"
                                : "core.clearance.step.inbound.chart_unchecked",
                  {{"charted", degrees_3(*r.charted_inbound_deg)},
                   {"side", side_of(*r.charted_inbound_deg + 180.0)},
                   {"word", direction_words(h)}});
  }
  return std::string(word(against(r) ? "core.clearance.step.inbound.contradiction"
                                     : "core.clearance.step.inbound.open"));
}

/// "265° − 180 = 085°"
std::string reciprocal_sum(double deg) {
  return phrase(deg > 180.0 ? "core.clearance.sum.take" : "core.clearance.sum.add",
                {{"from", degrees_3(deg)}, {"result", degrees_3(deg + 180.0)}});
}

std::string inbound_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!r.inbound_deg) return no_inbound_step(r);
  const double number = *h.number_deg;
  const bool same = *r.inbound_deg == number;
  std::string_view key =
      same ? "core.clearance.step.inbound.itself" : "core.clearance.step.inbound.reverse";
  if (r.station && is_line(h)) {
    key = *r.station == Station::Place::behind ? (same ? "core.clearance.step.inbound.away"
                                                       : "core.clearance.step.inbound.away_reverse")
          : same                               ? "core.clearance.step.inbound.toward_itself"
                                               : "core.clearance.step.inbound.toward";
  }
  std::string out = phrase(key, {{"line", line_words(h)},
                                 {"inbound", degrees_3(*r.inbound_deg)},
                                 {"sum", reciprocal_sum(number)}});
  // What is most often got wrong first, in the direction in which it would be wrong here.
  std::string_view mistake;
  if (is_line(h) && !same) mistake = "core.clearance.mistake.taken_for_inbound";
  if (is_line(h) && same && r.station == Station::Place::behind)
    mistake = "core.clearance.mistake.added";
  if (!mistake.empty()) {
    out += ' ';
    out += phrase(mistake, {{"line", line_words(h)}, {"inbound", degrees_3(*r.inbound_deg)}});
  }
  return out;
}

std::string turns_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (h.both_turns) return std::string(word("core.clearance.step.turns.both"));
  if (h.turns) {
    return std::string(word(*h.turns == Side::left ? "core.clearance.step.turns.left"
                                                   : "core.clearance.step.turns.right"));
  }
  if (h.published) return std::string(word("core.clearance.step.turns.chart"));
  return std::string(
      word(r.turns ? "core.clearance.step.turns.standard" : "core.clearance.step.turns.none"));
}

std::string leg_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!r.leg) {
    return std::string(word(h.other_leg   ? "core.clearance.step.leg.both"
                            : h.published ? "core.clearance.step.leg.chart"
                                          : "core.clearance.step.leg.standard"));
  }
  if (r.leg->kind == Leg::Kind::time) {
    return phrase(h.leg_is_outbound ? "core.clearance.step.leg.time_outbound"
                                    : "core.clearance.step.leg.time",
                  {{"time", write_time(r.leg->value)}});
  }
  const std::string miles = write_number(r.leg->value);
  if (!r.outbound_end_dme_nm) {
    return phrase(r.has(Doubt::leg_past_station) ? "core.clearance.step.leg.past_station"
                                                 : "core.clearance.step.leg.miles",
                  {{"miles", miles}});
  }
  const bool at_fix = r.station == Station::Place::at_fix;
  return phrase(at_fix                                ? "core.clearance.step.leg.dme_at_fix"
                : *r.station == Station::Place::ahead ? "core.clearance.step.leg.dme_beyond"
                                                      : "core.clearance.step.leg.dme_between",
                {{"miles", miles},
                 {"dme", write_number(h.dme_nm.value_or(0.0))},
                 {"end", write_number(*r.outbound_end_dme_nm)}});
}

std::string efc_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!h.efc_min) return std::string(word("core.clearance.step.efc.none"));
  std::string out = phrase("core.clearance.step.efc", {{"time", clock_text(*h.efc_min)}});
  if (h.now_min) {
    const int wait = (*h.efc_min - *h.now_min + 1440) % 1440;
    out += ' ';
    out += phrase(wait == 1 ? "core.clearance.step.efc.minute" : "core.clearance.step.efc.minutes",
                  {{"now", clock_text(*h.now_min)}, {"minutes", write_number(wait)}});
  }
  return out;
}

}  // namespace

std::vector<std::string> decode_steps(const ReadClearance& r) {
  if (r.has(Doubt::nothing)) return {};
  std::vector<std::string> steps = {side_step(r),  station_step(r), inbound_step(r),
                                    turns_step(r), leg_step(r),     efc_step(r)};
  if (r.heard.max_ias_kt) {
    steps.push_back(
        phrase("core.clearance.step.speed", {{"speed", write_number(*r.heard.max_ias_kt)}}));
  }
  return steps;
}

}  // namespace core
