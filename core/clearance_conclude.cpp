// What follows from the pieces of a clearance, and what contradicts what.
#include "core/clearance_parts.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

/// How far the direction word is from the bearing fix to pattern, degrees.
double off_direction(const HeardClearance& h, double pattern_deg) {
  return std::abs(wrap_180(pattern_deg - 45.0 * *h.direction));
}
/// True too where no direction was said.
bool fits(const HeardClearance& h, double pattern_deg) {
  return !h.direction || off_direction(h, pattern_deg) <= kHalfEighthDeg + kEighthToleranceDeg;
}
bool same_direction(double a, double b) { return std::abs(wrap_180(a - b)) <= 1.0; }

std::string side_of(double pattern_deg) {
  return std::string(name_of_eighth(nearest_eighth(pattern_deg)));
}

/// Fillings that most sentences here share.
std::string say(std::string_view key, const HeardClearance& h, double pattern_deg) {
  const double back = wrap_360(pattern_deg + 180.0);
  return phrase(key, {{"word", direction_words(h)},
                      {"fix", fix_words(h)},
                      {"line", line_words(h)},
                      {"side", side_of(pattern_deg)},
                      {"pattern", degrees_3(pattern_deg)},
                      {"back", degrees_3(back)},
                      {"back_side", side_of(back)}});
}

/// The pattern's bearing from the fix is settled: the inbound course, and how well the
/// direction word matches it.
void settle(ReadClearance& r, double pattern_deg) {
  const HeardClearance& h = r.heard;
  r.inbound_deg = wrap_360(pattern_deg + 180.0);
  if (!h.direction || off_direction(h, pattern_deg) <= kHalfEighthDeg) return;
  add(r, Doubt::direction_edge, say("core.clearance.problem.direction_edge", h, pattern_deg));
}

/// The station does not stand at the fix.
bool off_station(const HeardClearance& h) {
  if (h.dme_nm) return true;
  if (h.fix_is_station) return false;
  return h.fix_is_waypoint || (!h.station.empty() && !h.fix.empty() && h.station != h.fix);
}

void contradict_inbound(ReadClearance& r) {
  add(r, Contradiction::inbound_line,
      phrase("core.clearance.contradiction.inbound_line",
             {{"inbound", degrees_3(*r.heard.inbound_said_deg)}, {"line", line_words(r.heard)}}));
}

/// A line from the station through the fix, `from_deg` being its radial or bearing.
void conclude_line(ReadClearance& r, double from_deg) {
  const HeardClearance& h = r.heard;
  r.line_from_deg = from_deg;
  const double back = wrap_360(from_deg + 180.0);
  const bool beyond = fits(h, from_deg);
  if (!off_station(h)) {
    if (!beyond) {
      add(r, Contradiction::direction_line,
          say(fits(h, back) ? "core.clearance.contradiction.direction_line_opposite"
                            : "core.clearance.contradiction.direction_line",
              h, from_deg));
    } else if (h.inbound_said_deg && !same_direction(*h.inbound_said_deg, back)) {
      contradict_inbound(r);
    } else {
      r.station = Station::Place::at_fix;
      settle(r, from_deg);
    }
    return;
  }
  bool ahead = beyond;
  if (h.inbound_said_deg) {
    ahead = same_direction(*h.inbound_said_deg, back);
    if (!ahead && !same_direction(*h.inbound_said_deg, from_deg)) return contradict_inbound(r);
    if (!fits(h, ahead ? from_deg : back)) return contradict_inbound(r);
  } else if (!h.direction) {
    add(r, Doubt::direction_open, say("core.clearance.problem.direction_open", h, from_deg));
    return;
  } else if (!beyond && !fits(h, back)) {
    add(r, Contradiction::direction_dme,
        say("core.clearance.contradiction.direction_dme", h, from_deg));
    return;
  }
  r.station = ahead ? Station::Place::ahead : Station::Place::behind;
  settle(r, ahead ? from_deg : back);
}

/// "265 bearing", neither to nor from: only the direction word can tell.
void conclude_unclear_bearing(ReadClearance& r, double number_deg) {
  const HeardClearance& h = r.heard;
  const double back = wrap_360(number_deg + 180.0);
  if (!h.direction) {
    add(r, Doubt::bearing_unclear, say("core.clearance.problem.bearing_unclear", h, number_deg));
  } else if (fits(h, number_deg) || fits(h, back)) {
    const bool from = fits(h, number_deg);
    if (!off_station(h)) {
      r.station = Station::Place::at_fix;
      r.line_from_deg = from ? number_deg : back;
      add(r, Doubt::bearing_unclear,
          say(from ? "core.clearance.problem.bearing_from" : "core.clearance.problem.bearing_to", h,
              number_deg));
    } else {
      add(r, Doubt::bearing_unclear,
          say("core.clearance.problem.bearing_either", h, from ? number_deg : back));
    }
    settle(r, from ? number_deg : back);
  } else {
    add(r, Contradiction::direction_line,
        say("core.clearance.contradiction.direction_course", h, back));
  }
}

void conclude_course(ReadClearance& r, double number_deg) {
  const HeardClearance& h = r.heard;
  const double back = wrap_360(number_deg + 180.0);
  const bool outbound = h.sense == Sense::from;
  if (fits(h, outbound ? number_deg : back)) {
    settle(r, outbound ? number_deg : back);
  } else if (h.sense == Sense::unsaid && fits(h, number_deg)) {
    add(r, Doubt::course_outbound, say("core.clearance.problem.course_outbound", h, number_deg));
    settle(r, number_deg);
  } else {
    add(r, Contradiction::direction_course,
        say(h.sense == Sense::unsaid ? "core.clearance.contradiction.direction_course"
            : outbound               ? "core.clearance.contradiction.direction_outbound"
                                     : "core.clearance.contradiction.direction_inbound",
            h, outbound ? number_deg : back));
    return;
  }
  if (h.fix_is_station || h.aid == Aid::satellite) r.station = Station::Place::at_fix;
  if (h.dme_nm) {
    r.station.reset();
    add(r, Doubt::station_open, say("core.clearance.problem.station_open", h, number_deg));
  }
}

/// Nothing in the clearance says the course.
void conclude_chart(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (h.published || h.reference == Reference::route) {
    add(r, Doubt::chart_has_it,
        phrase(h.published ? "core.clearance.problem.published" : "core.clearance.problem.route",
               {{"route", h.route}}));
  } else {
    add(r, Doubt::no_line, std::string(word("core.clearance.problem.no_line")));
    return;
  }
  if (!r.charted_inbound_deg || !h.direction) return;
  const double pattern = wrap_360(*r.charted_inbound_deg + 180.0);
  if (!fits(h, pattern)) {
    add(r, Contradiction::direction_chart,
        say("core.clearance.contradiction.direction_chart", h, pattern));
  } else if (off_direction(h, pattern) > kHalfEighthDeg) {
    add(r, Doubt::direction_edge, say("core.clearance.problem.direction_edge", h, pattern));
  }
}

std::string leg_words(const Leg& leg) {
  return leg.kind == Leg::Kind::time ? write_time(leg.value) : write_number(leg.value) + " NM";
}

void conclude_leg(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!h.leg) return;
  if (h.other_leg) {
    add(r, Contradiction::two_legs,
        phrase("core.clearance.contradiction.two_legs",
               {{"first", leg_words(*h.leg)}, {"second", leg_words(*h.other_leg)}}));
    return;
  }
  r.leg = h.leg;
  if (h.leg->kind != Leg::Kind::distance || !r.station) return;
  if (*r.station == Station::Place::at_fix) {
    // Miles from the fix, and a DME there reads them; an NDB or a satellite fix has none.
    if (h.aid == Aid::vor) r.outbound_end_dme_nm = h.leg->value;
    return;
  }
  if (!h.dme_nm) return;
  const double end =
      *h.dme_nm + (*r.station == Station::Place::ahead ? h.leg->value : -h.leg->value);
  if (end > 0.0) {
    r.outbound_end_dme_nm = std::floor(end * 1e6 + 0.5) / 1e6;
    return;
  }
  add(r, Doubt::leg_past_station,
      phrase("core.clearance.problem.leg_past_station",
             {{"leg", write_number(h.leg->value)}, {"dme", write_number(*h.dme_nm)}}));
}

void conclude_turns(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (h.both_turns) {
    add(r, Contradiction::two_turns, std::string(word("core.clearance.contradiction.two_turns")));
  } else if (h.turns) {
    r.turns = h.turns;
  } else if (h.hold && !h.published && (h.direction || h.reference != Reference::none)) {
    r.turns = Side::right;
  }
}

bool nothing(const HeardClearance& h) {
  return !h.hold && !h.published && !h.direction && h.fix.empty() && h.route.empty() &&
         h.reference == Reference::none && !h.dme_nm && !h.leg && !h.turns && !h.efc_min &&
         !h.max_ias_kt && !h.aid;
}

}  // namespace

void conclude(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (nothing(h)) {
    add(r, Doubt::nothing, std::string(word("core.clearance.problem.nothing")));
    return;
  }
  const auto missing = [&r](bool is, Doubt kind, std::string_view key) {
    if (is) add(r, kind, std::string(word(key)));
  };
  missing(!h.hold, Doubt::no_hold, "core.clearance.problem.no_hold");
  missing(!h.direction, Doubt::no_direction, "core.clearance.problem.no_direction");
  missing(h.fix.empty() && !h.dme_nm, Doubt::no_fix, "core.clearance.problem.no_fix");
  missing(h.aid == Aid::ndb && h.reference == Reference::radial, Doubt::ndb_radial,
          "core.clearance.problem.ndb_radial");
  if (h.other_direction) {
    add(r, Contradiction::two_directions,
        phrase("core.clearance.contradiction.two_directions",
               {{"first", std::string(name_of_eighth(*h.direction))},
                {"second", std::string(name_of_eighth(*h.other_direction))}}));
  }
  if (h.other_number_deg) {
    add(r, Contradiction::two_lines,
        phrase("core.clearance.contradiction.two_lines",
               {{"line", line_words(h)}, {"other", digits_3(*h.other_number_deg)}}));
  }
  if (!h.number_deg) {
    conclude_chart(r);
  } else if (h.reference == Reference::course) {
    conclude_course(r, *h.number_deg);
  } else if (h.reference == Reference::bearing && h.sense == Sense::unsaid) {
    conclude_unclear_bearing(r, *h.number_deg);
  } else {
    conclude_line(r, wrap_360(*h.number_deg + (h.sense == Sense::to ? 180.0 : 0.0)));
  }
  if (h.other_direction || h.other_number_deg) {
    r.inbound_deg.reset();
    r.station.reset();
  }
  conclude_turns(r);
  conclude_leg(r);
  missing(!h.efc_min && !r.has(Doubt::bad_time), Doubt::no_efc, "core.clearance.problem.no_efc");
  if (r.unread_count > 0) {
    std::string list;
    for (const std::string& w : r.unread) list += (list.empty() ? "" : " ") + w;
    add(r, Doubt::unread,
        phrase(r.unread_count > kMostUnread ? "core.clearance.problem.unread_more"
                                            : "core.clearance.problem.unread",
               {{"words", list}, {"more", write_number(r.unread_count - kMostUnread)}}));
  }
}

}  // namespace core
