// What follows from the pieces of a clearance, and what contradicts what.
#include "core/clearance_parts.h"

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

void note_edge(ReadClearance& r, double pattern_deg) {
  if (!r.heard.direction || off_direction(r.heard, pattern_deg) <= kHalfEighthDeg) return;
  add(r, Doubt::direction_edge, pattern_deg);
}

/// The pattern's bearing from the fix is settled.
void settle(ReadClearance& r, double pattern_deg) {
  r.inbound_deg = wrap_360(pattern_deg + 180.0);
  note_edge(r, pattern_deg);
}

/// The station does not stand at the fix.
bool off_station(const HeardClearance& h) {
  if (h.dme_nm) return true;
  if (h.fix_is_station) return false;
  return h.fix_is_waypoint || (!h.station.empty() && !h.fix.empty() && h.station != h.fix);
}

/// A line from the station through the fix, `from_deg` being its radial or bearing.
void conclude_line(ReadClearance& r, double from_deg) {
  const HeardClearance& h = r.heard;
  r.line_from_deg = from_deg;
  const double back = wrap_360(from_deg + 180.0);
  const bool off = off_station(h);
  const bool beyond_fits = fits(h, from_deg);
  const bool between_fits = off && fits(h, back);
  if (!beyond_fits && !between_fits) {
    add(r, off ? Contradiction::direction_dme : Contradiction::direction_line, from_deg,
        fits(h, back) ? ".opposite" : "");
    return;
  }
  bool ahead = beyond_fits;
  if (h.inbound_said_deg) {
    ahead = same_direction(*h.inbound_said_deg, back);
    const bool behind = off && same_direction(*h.inbound_said_deg, from_deg);
    if (!(ahead ? beyond_fits : behind && between_fits)) {
      add(r, Contradiction::inbound_line);
      return;
    }
  } else if (off && !h.direction) {
    add(r, Doubt::direction_open, from_deg);
    return;
  }
  r.station = !off    ? Station::Place::at_fix
              : ahead ? Station::Place::ahead
                      : Station::Place::behind;
  settle(r, ahead ? from_deg : back);
}

/// "265 bearing", neither to nor from: only the direction word can tell.
void conclude_unclear_bearing(ReadClearance& r, double number_deg) {
  const HeardClearance& h = r.heard;
  const double back = wrap_360(number_deg + 180.0);
  const bool from = fits(h, number_deg);
  if (!h.direction) {
    add(r, Doubt::bearing_unclear);
    return;
  }
  if (!from && !fits(h, back)) {
    add(r, Contradiction::direction_line, number_deg, ".bearing");
    return;
  }
  const double pattern = from ? number_deg : back;
  const bool off = off_station(h);
  if (!off) {
    r.station = Station::Place::at_fix;
    r.line_from_deg = pattern;
  }
  add(r, Doubt::bearing_unclear, pattern, {}, off ? ".either" : from ? ".from" : ".to");
  settle(r, pattern);
}

void conclude_course(ReadClearance& r, double number_deg) {
  const HeardClearance& h = r.heard;
  const double back = wrap_360(number_deg + 180.0);
  const bool outbound = h.sense == Sense::from;
  double pattern = outbound ? number_deg : back;
  if (!fits(h, pattern)) {
    if (h.sense != Sense::unsaid || !fits(h, number_deg)) {
      add(r, Contradiction::direction_course, pattern,
          h.sense == Sense::unsaid ? ""
          : outbound               ? ".outbound"
                                   : ".inbound");
      return;
    }
    pattern = number_deg;
    add(r, Doubt::course_outbound, pattern);
  }
  settle(r, pattern);
  if (h.dme_nm) {
    add(r, Doubt::station_open);
  } else if (h.fix_is_station || h.aid == Aid::satellite) {
    r.station = Station::Place::at_fix;
  }
}

/// Nothing in the clearance says the course.
void conclude_chart(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (!h.published && h.reference != Reference::route) return add(r, Doubt::no_line);
  add(r, Doubt::chart_has_it, 0.0, {}, h.published ? "" : ".route");
  if (!r.charted_inbound_deg || !h.direction) return;
  const double pattern = wrap_360(*r.charted_inbound_deg + 180.0);
  if (fits(h, pattern)) {
    note_edge(r, pattern);
  } else {
    add(r, Contradiction::direction_chart, pattern);
  }
}

void conclude_leg(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (h.other_leg) return add(r, Contradiction::two_legs);
  r.leg = h.leg;
  if (!h.leg || h.leg->kind != Leg::Kind::distance || !r.station) return;
  if (*r.station == Station::Place::at_fix) {
    // Miles from the fix, and a DME there reads them; an NDB or a satellite fix has none.
    if (h.aid == Aid::vor) r.outbound_end_dme_nm = h.leg->value;
    return;
  }
  if (!h.dme_nm) return;
  const double end =
      *h.dme_nm + (*r.station == Station::Place::ahead ? h.leg->value : -h.leg->value);
  // Both are decimal numbers, and so is their sum.
  const double decimal = std::floor(end * 1e6 + 0.5) / 1e6;
  if (decimal > 0.0) {
    r.outbound_end_dme_nm = decimal;
  } else {
    add(r, Doubt::leg_past_station);
  }
}

void conclude_turns(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (h.both_turns) return add(r, Contradiction::two_turns);
  r.turns = h.turns;
  const bool told = h.direction || h.reference != Reference::none;
  if (!h.turns && h.hold && !h.published && told) r.turns = Side::right;
}

bool nothing(const HeardClearance& h) {
  return !h.hold && !h.published && !h.direction && h.fix.empty() && h.route.empty() &&
         h.reference == Reference::none && !h.dme_nm && !h.leg && !h.turns && !h.efc_min &&
         !h.max_ias_kt && !h.aid;
}

}  // namespace

void conclude(ReadClearance& r) {
  const HeardClearance& h = r.heard;
  if (nothing(h)) return add(r, Doubt::nothing);
  const auto doubt_if = [&r](bool is, Doubt kind) {
    if (is) add(r, kind);
  };
  doubt_if(!h.hold, Doubt::no_hold);
  doubt_if(!h.direction, Doubt::no_direction);
  doubt_if(h.fix.empty() && !h.dme_nm, Doubt::no_fix);
  doubt_if(h.aid == Aid::ndb && h.reference == Reference::radial, Doubt::ndb_radial);
  if (h.other_direction) add(r, Contradiction::two_directions);
  if (h.other_number_deg) add(r, Contradiction::two_lines);
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
  doubt_if(!h.efc_min && !r.has(Doubt::bad_time), Doubt::no_efc);
  if (r.unread_count == 0) return;
  std::string list;
  for (const std::string& w : r.unread) {
    if (!list.empty()) list += ' ';
    list += w;
  }
  add(r, Doubt::unread, 0.0, list, r.unread_count > kMostUnread ? ".more" : "");
}

}  // namespace core
