// The decoding of a clearance as a student does it, a step a sentence or two.
#include "core/clearance_parts.h"

namespace core {
namespace {

bool is_line(const HeardClearance& h) {
  return h.reference == Reference::radial || h.reference == Reference::bearing;
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
  if (!h.number_deg) {
    return say(r, h.published                       ? "step.station.published"
                  : h.reference == Reference::route ? "step.station.route"
                                                    : "step.station.none");
  }
  if (against(r)) return against(r)->text;
  if (!is_line(h)) {
    return say(r, r.has(Doubt::course_outbound) ? "step.station.taken_outbound"
                  : h.sense == Sense::from      ? "step.station.outbound"
                                                : "step.station.course");
  }
  if (!r.inbound_deg) return say(r, "step.station.open");
  if (!r.station) return say(r, "step.station.either");
  if (*r.station == Station::Place::at_fix) {
    const bool from = *r.line_from_deg == static_cast<double>(*h.number_deg);
    return say(r, from ? "step.station.from" : "step.station.to");
  }
  return say(r, h.dme_nm ? "step.out.miles" : "step.out.somewhere") + ' ' +
         say(r, h.inbound_said_deg ? "step.why.inbound" : "step.why.side") + ' ' +
         say(r, *r.station == Station::Place::ahead ? "step.beyond" : "step.between");
}

std::string no_inbound_step(const ReadClearance& r) {
  if (!r.heard.number_deg && r.has(Doubt::chart_has_it)) {
    if (!r.charted_inbound_deg) return say(r, "step.inbound.chart");
    return say(r,
               r.has(Contradiction::direction_chart) ? "step.inbound.chart_against"
               : r.heard.direction                   ? "step.inbound.chart_fits"
                                                     : "step.inbound.chart_unchecked",
               *r.charted_inbound_deg + 180.0);
  }
  return say(r, against(r) ? "step.inbound.contradiction" : "step.inbound.open");
}

std::string inbound_step(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!r.inbound_deg) return no_inbound_step(r);
  const bool same = *r.inbound_deg == static_cast<double>(*h.number_deg);
  if (!r.station || !is_line(h)) {
    return say(r, same ? "step.inbound.itself" : "step.inbound.reverse");
  }
  const bool away = *r.station == Station::Place::behind;
  std::string out = say(r, away ? "step.inbound.away" : "step.inbound.toward") + ' ' +
                    say(r, same ? "step.inbound.line_itself" : "step.inbound.line_reverse");
  // What is most often got wrong first, in the direction in which it would be wrong here.
  if (!same) out += ' ' + say(r, "mistake.taken_for_inbound");
  if (same && away) out += ' ' + say(r, "mistake.reversed");
  return out;
}

std::string_view turns_key(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  return h.both_turns             ? "step.turns.both"
         : h.turns == Side::left  ? "step.turns.left"
         : h.turns == Side::right ? "step.turns.right"
         : h.published            ? "step.turns.chart"
         : r.turns                ? "step.turns.standard"
                                  : "step.turns.none";
}

std::string_view leg_key(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!r.leg) {
    return h.other_leg ? "step.leg.both" : h.published ? "step.leg.chart" : "step.leg.standard";
  }
  if (r.leg->kind == Leg::Kind::time) {
    return h.leg_is_outbound ? "step.leg.time_outbound" : "step.leg.time";
  }
  if (!r.outbound_end_dme_nm) {
    return r.has(Doubt::leg_past_station) ? "step.leg.past_station" : "step.leg.miles";
  }
  return r.station == Station::Place::at_fix  ? "step.leg.dme_at_fix"
         : r.station == Station::Place::ahead ? "step.leg.dme_beyond"
                                              : "step.leg.dme_between";
}

}  // namespace

std::vector<std::string> decode_steps(const ReadClearance& r) {
  const HeardClearance& h = r.heard;
  std::vector<std::string> steps;
  if (r.has(Doubt::nothing)) return steps;
  steps.push_back(say(r, h.direction ? "step.side" : "step.side.none"));
  steps.push_back(station_step(r));
  steps.push_back(inbound_step(r));
  steps.push_back(say(r, turns_key(r)));
  steps.push_back(say(r, leg_key(r)));
  steps.push_back(say(r, h.efc_min ? "step.efc" : "step.efc.none"));
  if (h.efc_min && h.now_min) steps.back() += ' ' + say(r, "step.efc.now");
  if (h.max_ias_kt) steps.push_back(say(r, "step.speed"));
  return steps;
}

}  // namespace core
