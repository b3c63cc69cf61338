// core/report.h - the parts of evaluate()'s answer that go beyond one flight, as JSON.
//
// Each writes a key and its value; docs/module.md describes them. A part without an answer
// is null.
#pragma once

#include "core/json.h"
#include "core/worked_case.h"

namespace core {

/// Parts that cost more than the rest together: only on request.
struct ReportParts {
  bool more = true;    ///< laps, and all that stands behind the sector: what the first view lacks
  bool area = true;    ///< the protected area and by how much the flight stays inside it
  bool flight = true;  ///< what the flight comes to, in the picture's text alternative
  bool study = true;   ///< the exact multiple over all winds, and common practice
};

/// The value alone.
void write_rollout(Json& json, const Rollout& rollout);

void write_clearance_of(Json& json, const WorkedCase& worked);
void write_book(Json& json, const WorkedCase& worked);
void write_entries(Json& json, const WorkedCase& worked);
void write_station(Json& json, const WorkedCase& worked);
void write_laps(Json& json, const WorkedCase& worked);
void write_roll(Json& json, const WorkedCase& worked);
void write_wind_model(Json& json, const WorkedCase& worked);
void write_limits(Json& json, const WorkedCase& worked);
void write_displays(Json& json, const WorkedCase& worked);
void write_area(Json& json, const WorkedCase& worked, bool wanted);
/// From what was seen of the entry, or, with laps, of the last lap flown.
void write_inferred_wind(Json& json, const WorkedCase& worked);
void write_study(Json& json, const WorkedCase& worked, bool wanted);
/// All of these.
void write_more(Json& json, const WorkedCase& worked, const ReportParts& parts);

/// What the displays show at a time of the flight, as a JSON object; "null" without a track.
[[nodiscard]] std::string needle_text(const WorkedCase& worked, double t_s);
/// The same at a place and on a heading.
[[nodiscard]] std::string needle_text(const Setup& setup, Vec2 at, double heading_deg);

}  // namespace core
