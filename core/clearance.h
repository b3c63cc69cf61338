// core/clearance.h - a hold clearance: read as said, decoded step by step, composed.
//
// Directions are degrees magnetic, whole as they are said, (0, 360]; distances NM as the DME
// reads them (slant range is not taken off), leg times seconds, clock times minutes after
// midnight UTC. A RADIAL always points away FROM its station; the INBOUND course is the one
// flown to the fix, so the pattern lies from the fix on the bearing inbound + 180.
// Any text can be read: kMostSpokenBytes and kMostSpokenTokens bound the work, what is not
// understood is listed, and what contradicts itself is named and not resolved.
// Sources: AIM 5-3-8 and FAA Order JO 7110.65 4-6-4 (seen), FAA-H-8083-16B 2-51 and
// Fig 3-18 (seen); docs/theory.md, Clearance.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/json.h"
#include "core/scenario.h"
#include "core/station.h"

namespace core {

/// Eight directions, 0 = north, clockwise: 45 degrees each, 22.5 either way.
inline constexpr int kEighths = 8;
inline constexpr double kHalfEighthDeg = 22.5;
/// So far outside its eighth a direction word is still taken, with a remark. Our own
/// choice: a controller's word is rounded from a chart, not measured.
inline constexpr double kEighthToleranceDeg = 5.0;
[[nodiscard]] int nearest_eighth(double bearing_deg);
/// In lower case: "northeast".
[[nodiscard]] std::string_view name_of_eighth(int eighth);

/// What the aircraft holds on.
enum class Reference {
  none,
  radial,   ///< from a VOR
  bearing,  ///< to or from a station, as said
  course,   ///< the inbound course where nothing else is said
  route,    ///< an airway, route or localizer without a number: its course is on the chart
};
[[nodiscard]] std::string_view name_of(Reference reference);
/// Of a bearing: to or from the station. Of a course: to = inbound, from = outbound.
enum class Sense { unsaid, to, from };
[[nodiscard]] std::string_view name_of(Sense sense);

/// The pieces of a clearance as they were heard, before anything is concluded.
struct HeardClearance {
  bool hold = false;                              ///< the word itself
  bool published = false;                         ///< "as published"
  bool fix_is_station = false;                    ///< "ABC VOR", "ABC NDB"
  bool fix_is_waypoint = false;                   ///< "intersection", "waypoint": not the station
  bool both_turns = false;                        ///< left and right were both said
  std::optional<int> direction, other_direction;  ///< eighths; the other where two were said
  std::string fix;      ///< capitals; empty where left out, or where it only has a DME distance
  std::string station;  ///< whose radial or bearing, where named
  std::string route;    ///< "V12"
  Reference reference = Reference::none;
  Sense sense = Sense::unsaid;
  std::optional<int> number_deg, other_number_deg;
  std::optional<int> inbound_said_deg;  ///< an inbound course beside a radial or bearing
  std::optional<double> dme_nm;         ///< of the fix
  std::optional<Leg> leg, other_leg;
  bool leg_is_outbound = false;  ///< "outbound time 1 minute"
  std::optional<Side> turns;
  std::optional<int> efc_min, now_min;
  std::optional<double> max_ias_kt;
  std::optional<Aid> aid;
};

/// Two things that cannot both be so.
enum class Contradiction {
  direction_line,    ///< direction word against the radial or bearing of the fix itself
  direction_dme,     ///< neither beyond the fix nor between it and the station
  direction_course,  ///< against the course, inbound and (where unsaid) outbound
  direction_chart,   ///< published or airway: against the inbound course already known
  inbound_line,      ///< the inbound course said does not lie along the radial, or not that way
  two_directions,
  two_lines,  ///< two radials, courses or bearings to hold on
  two_turns,
  two_legs,  ///< two lengths, or one in minutes and one in miles
};
inline constexpr int kContradictions = 9;
[[nodiscard]] std::string_view name_of(Contradiction kind);

/// Missing, unclear, unreadable or worth a remark; nothing of it stops the reading.
enum class Doubt {
  nothing,  ///< no piece of a clearance was found
  cut,      ///< too long: the rest was not read
  unread,   ///< words that were not understood
  no_hold,  ///< the word HOLD
  no_direction,
  no_fix,
  no_line,  ///< no radial, course, bearing
  no_efc,
  chart_has_it,      ///< published, or an airway: the course is not in the clearance
  direction_edge,    ///< the word's neighbour fits better, within the tolerance
  direction_open,    ///< a DME fix without a direction word: toward or away is not said
  course_outbound,   ///< "course" fits the direction word only as the outbound course
  bearing_unclear,   ///< to or from not said: the direction word decides, or nothing does
  station_open,      ///< a fix off the station, and nothing says on which side of it
  bad_direction,     ///< a number that is no direction
  short_direction,   ///< fewer than three figures
  spare_line,        ///< a second radial that the hold is not on
  ndb_radial,        ///< an NDB has bearings
  bad_leg,           ///< not 0:15 to 10:00 or 0.5 to 50 NM, or without a unit
  leg_past_station,  ///< longer than the distance to the station that it leads to
  bad_time,          ///< no clock time
  bad_speed,
};
inline constexpr int kDoubts = 22;
[[nodiscard]] std::string_view name_of(Doubt kind);

template <class Kind>
struct Remark {
  Kind kind;
  std::string text;  ///< a sentence for the reader
};

/// What was heard and what follows. Everything that is not determined is absent; a value
/// that a contradiction touches is absent too.
struct ReadClearance {
  HeardClearance heard;
  std::optional<double> line_from_deg;  ///< the radial, or the bearing FROM the station
  std::optional<Station::Place> station;
  std::optional<double> inbound_deg;
  std::optional<Side> turns;  ///< right where a hold that is not published says nothing
  std::optional<Leg> leg;     ///< only where said: absent is the standard leg, or the chart's
  /// DME reading where the outbound leg ends: the fix's plus or minus the leg.
  std::optional<double> outbound_end_dme_nm;
  std::optional<double> charted_inbound_deg;  ///< as given to read_clearance
  std::vector<Remark<Contradiction>> contradictions;
  std::vector<Remark<Doubt>> problems;
  std::vector<std::string> unread;  ///< words and figures, at most kMostUnread
  int unread_count = 0;

  [[nodiscard]] bool has(Contradiction kind) const;
  [[nodiscard]] bool has(Doubt kind) const;
};
inline constexpr int kMostUnread = 40;
/// So many remarks of one kind are made, each once: a text may say a hundred radials.
inline constexpr int kMostRemarks = 8;

/// Reads any text. `charted_inbound_deg` is the inbound course known already (the
/// scenario's); only a clearance without a course of its own is held against it.
[[nodiscard]] ReadClearance read_clearance(std::string_view text,
                                           std::optional<double> charted_inbound_deg = {});

/// The decoding, a sentence or two a step, with the clearance's own numbers: side, station,
/// inbound course, turns, leg, expect-further-clearance time, and a speed where one was said.
[[nodiscard]] std::vector<std::string> decode_steps(const ReadClearance& clearance);

/// Keys that the clearance determines, as link text: inbound, turns, leg, fix, station
/// (fix, 10to, 28from), efc (hh:mm), aid. Empty where it determines none.
[[nodiscard]] std::string link_of(const ReadClearance& clearance);

/// {heard, inbound_deg, turns, leg_s, leg_nm, station, outbound_end_dme_nm, efc, steps,
/// contradictions, problems, unread, link}; what is absent is null.
void write_clearance(Json& json, const ReadClearance& clearance);

/// A hold to be put into words.
struct ClearanceSpec {
  double inbound_deg = 360.0;  ///< said to the whole degree
  Side turns = Side::right;
  std::optional<Leg> leg;    ///< absent: standard, and not said
  std::string fix;           ///< empty: left out, as after a clearance limit
  std::string station_name;  ///< said where the station is not at the fix
  Station::Place station = Station::Place::at_fix;
  double dme_nm = 0.0;  ///< of the fix, where the station is ahead or behind; to 0.1 NM
  Aid aid = Aid::vor;   ///< satellite: at the fix, on a course
  std::optional<int> efc_min;
  std::optional<double> max_ias_kt;
  bool published = false;        ///< direction and "as published" only
  bool say_right_turns = false;  ///< standard turns are not said unless wanted
};
enum class Figures { numerals, spoken };

/// In the order of JO 7110.65 4-6-4. Names are raised to capitals and keep letters, figures
/// and spaces, at most 24; to be read back they must not be words of the phraseology. Empty
/// where the inbound course is not finite, or a station ahead or behind has no DME distance
/// of 0.1 to 199 NM. A leg, time or speed out of range is left out.
[[nodiscard]] std::string compose_clearance(const ClearanceSpec& spec,
                                            Figures figures = Figures::numerals);

}  // namespace core
