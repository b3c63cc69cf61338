#include "core/clearance.h"

#include "core/clearance_parts.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {

const std::string_view kEighthWords[kEighths] = {"NORTH", "NORTHEAST", "EAST", "SOUTHEAST",
                                                 "SOUTH", "SOUTHWEST", "WEST", "NORTHWEST"};

int nearest_eighth(double bearing_deg) {
  const double eighths = std::floor(turn_angle(bearing_deg) / 45.0 + 0.5);
  return eighths >= 0.0 && eighths < kEighths ? static_cast<int>(eighths) : 0;
}

std::string_view name_of_eighth(int eighth) {
  constexpr std::string_view kNames[] = {"north", "northeast", "east", "southeast",
                                         "south", "southwest", "west", "northwest"};
  return kNames[eighth & 7];
}

std::string_view name_of(Reference reference) {
  constexpr std::string_view kNames[] = {"none", "radial", "bearing", "course", "route"};
  return kNames[static_cast<int>(reference)];
}

std::string_view name_of(Sense sense) {
  constexpr std::string_view kNames[] = {"unsaid", "to", "from"};
  return kNames[static_cast<int>(sense)];
}

std::string_view name_of(Contradiction kind) {
  constexpr std::string_view kNames[kContradictions] = {
      "direction_line", "direction_dme", "direction_course", "direction_chart", "inbound_line",
      "two_directions", "two_lines",     "two_turns",        "two_legs"};
  return kNames[static_cast<int>(kind)];
}

std::string_view name_of(Doubt kind) {
  constexpr std::string_view kNames[kDoubts] = {"nothing",         "cut",
                                                "unread",          "no_hold",
                                                "no_direction",    "no_fix",
                                                "no_line",         "no_efc",
                                                "chart_has_it",    "direction_edge",
                                                "direction_open",  "course_outbound",
                                                "bearing_unclear", "station_open",
                                                "bad_direction",   "short_direction",
                                                "spare_line",      "ndb_radial",
                                                "bad_leg",         "leg_past_station",
                                                "bad_time",        "bad_speed"};
  return kNames[static_cast<int>(kind)];
}

bool ReadClearance::has(Contradiction kind) const {
  for (const Remark<Contradiction>& c : contradictions) {
    if (c.kind == kind) return true;
  }
  return false;
}

bool ReadClearance::has(Doubt kind) const {
  for (const Remark<Doubt>& p : problems) {
    if (p.kind == kind) return true;
  }
  return false;
}

bool in_range(const Leg& leg) {
  return leg.kind == Leg::Kind::time ? leg.value >= kLeastLegS && leg.value <= kMostLegS
                                     : leg.value >= kLeastLegNm && leg.value <= kMostLegNm;
}

ReadClearance read_clearance(std::string_view text, std::optional<double> charted_inbound_deg) {
  ReadClearance r;
  if (charted_inbound_deg && std::isfinite(*charted_inbound_deg)) {
    r.charted_inbound_deg = wrap_360(*charted_inbound_deg);
  }
  hear_clearance(text, r);
  conclude(r);
  return r;
}

std::string link_of(const ReadClearance& r) {
  std::string out;
  const auto set = [&out](std::string_view key, const std::string& value) {
    if (!out.empty()) out += '&';
    out += key;
    out += '=';
    // Names hold letters, figures, apostrophes and spaces; only the space needs care.
    for (const char c : value) {
      if (c == ' ') {
        out += "%20";
      } else {
        out += c;
      }
    }
  };
  if (r.inbound_deg) set("inbound", write_number(*r.inbound_deg));
  if (r.turns) set("turns", std::string(name_of(*r.turns)));
  if (r.leg) {
    set("leg", r.leg->kind == Leg::Kind::time ? write_time(r.leg->value)
                                              : write_number(r.leg->value) + "nm");
  }
  // A name that the link has no room or letters for is left out.
  Scenario tried;
  Problem refused;
  if (!r.heard.fix.empty() && set_value(tried, "fix", r.heard.fix, refused)) {
    set("fix", r.heard.fix);
  }
  if (r.station == Station::Place::at_fix) {
    set("station", "fix");
  } else if (r.station && r.heard.dme_nm && *r.heard.dme_nm >= 1.0) {
    set("station",
        write_number(*r.heard.dme_nm) + (*r.station == Station::Place::ahead ? "to" : "from"));
  }
  if (r.leg && r.leg->kind == Leg::Kind::distance && r.heard.dme_nm) set("measure", "dme");
  if (r.heard.efc_min) set("efc", write_clock(*r.heard.efc_min));
  if (r.heard.aid) set("aid", std::string(name_of(*r.heard.aid)));
  return out;
}

}  // namespace core
