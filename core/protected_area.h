// core/protected_area.h - the airspace that a hold is given, indicatively.
//
// After the conventional holding template of ICAO Doc 8168 Vol II (PANS-OPS), Part I
// Sec 4 Ch 3 App C. INDICATIVE, NOT FOR NAVIGATION OR PROCEDURE DESIGN: much of the
// published construction is recalled, not read; marks as in core/template_terms.h. The
// picture must carry the caption of caption_of_area(). docs/theory.md "Protected area".
//
// Results are in the core's plane: NM, x east, y north, the fix at the origin.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "core/apart.h"
#include "core/limits.h"
#include "core/outline.h"
#include "core/template_terms.h"

namespace core {

/// What the area is drawn for.
struct AreaInputs {
  Hold hold;
  double ias_kt = 230.0;          ///< fastest aircraft that the hold is for
  double altitude_ft = 6000.0;    ///< highest level of the hold
  double outbound_s = 60.0;       ///< outbound time in still air
  double isa_deviation_c = 15.0;  ///< [seen] ISA + 15
  double bank_deg = 25.0;         ///< [seen] Table I-2-3-1
  double fix_tolerance_nm = 0.0;  ///< radius about the fix within which it is recognised
};

/// Why there is no area, or nothing to measure.
enum class NoArea {
  none,
  bad_altitude,   ///< not between -1,000 and 45,000 ft
  bad_speed,      ///< not between 40 and 600 kt, or there is no speed limit to draw for
  bad_time,       ///< outbound time not between 5 seconds and an hour
  bad_turn,       ///< bank not between 1 and 60 degrees
  bad_tolerance,  ///< fix tolerance negative or beyond 50 NM
  nothing_flown,  ///< the flight has no track from the fix on
};
[[nodiscard]] std::string_view name_of(NoArea why);

/// A point of the template with its published letter, and how far the wind may have
/// carried the aircraft from it. Letters and angles [memory].
struct TemplatePoint {
  const char* name;
  Vec2 at;
  double drift_nm;
};

/// Width of the buffer all round, NM [seen].
inline constexpr double kBufferNm = 5.0;
/// Obstacle clearance, metres, in each NM of the buffer from the area outward: the first
/// and the last [seen], between them [memory].
inline constexpr std::array<double, 5> kBufferClearanceM = {300.0, 150.0, 120.0, 90.0, 60.0};

struct ProtectedArea {
  static constexpr int kTemplatePoints = 18;

  NoArea why = NoArea::nothing_flown;  ///< where not `none`, the rest means nothing
  AreaInputs inputs;
  TemplateTerms terms{};
  std::array<TemplatePoint, kTemplatePoints> points{};  ///< a, b, c ... n4
  Outline basic;                                        ///< template, moved about the fix tolerance
  Outline entry;                                        ///< with the entries from every side
  Outline buffer;  ///< outer edge of the buffer: kBufferNm beyond `entry`

  [[nodiscard]] bool exists() const { return why == NoArea::none; }

  ProtectedArea() {}  // NOLINT: leaves the outlines unset on purpose
};

/// Draws the area. Drift circles of radius "flying time since the fix x design wind"
/// about the still-air template, wrapped [memory; flying time and all-round wind seen].
/// The entry area wraps entries in still air from every direction, flown late by the
/// tolerances above, in the same drift circles [our reading; docs/theory.md].
[[nodiscard]] ProtectedArea protected_area(const AreaInputs& inputs);

/// The inputs for a setup's hold: `limit` gives the speed, the leg the time (a distance
/// leg: its still-air time at V [our reading]). Bank, temperature and wind are the
/// template's, not the day's.
[[nodiscard]] AreaInputs area_inputs(const Setup& setup, const SpeedLimit& limit,
                                     double fix_tolerance_nm = 0.0);

/// The area of a setup's hold: by the greatest speed that its rule, or its book, allows.
CORE_APART [[nodiscard]] ProtectedArea area_of(const Setup& setup);

/// The edge `nm` beyond the entry area: 1 to 5 for the buffer's steps.
[[nodiscard]] Outline buffer_edge(const ProtectedArea& area, double nm);

/// By how much a flight stays inside, from the fix on; negative: by how much it leaves.
/// The times are where that is.
struct InsideBy {
  NoArea why;  ///< where not `none`, the rest is NaN
  double basic_nm;
  double basic_at_s;
  double entry_nm;
  double entry_at_s;
  double buffer_nm;  ///< inside the outer edge of the buffer
  double buffer_at_s;

  [[nodiscard]] bool exists() const { return why == NoArea::none; }
};
[[nodiscard]] InsideBy inside_by_nm(const ProtectedArea& area, const Flight& flight);

/// The caption that must stand by every drawing of the area.
[[nodiscard]] std::string_view caption_of_area();
[[nodiscard]] std::string reason(NoArea why);
/// What it is drawn for: speed, level, wind, time.
[[nodiscard]] std::string area_words(const ProtectedArea& area);
[[nodiscard]] std::string inside_words(const InsideBy& inside);
/// The FAA's design wind beside it; empty where none was seen.
[[nodiscard]] std::string faa_wind_words(double altitude_ft);

}  // namespace core
