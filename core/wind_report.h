// core/wind_report.h - a wind report, as it is written or said, made into a wind.
//
// Directions are as reported: true in METAR, TAF and winds aloft, magnetic on ATIS, from
// the tower and on the telephone. Nothing is converted in `wind`; `magnetic_deg` has the
// sum. The model's wind is steady and has no gusts, and the words say so. No text fails,
// and the work is bounded (core/reported_wind.h).
#pragma once

#include "core/json.h"
#include "core/surface_wind.h"
#include "core/winds_aloft.h"

namespace core {

enum class ReportKind { metar, taf, winds_aloft, atis, tower, station_phone };
inline constexpr int kReportKinds = 6;

/// What the kinds differ in. All six are [seen] in their source.
struct ReportFacts {
  std::string_view name;  ///< "metar", "winds-aloft", ...
  bool is_true;
  const char* source;
};
[[nodiscard]] const ReportFacts& facts_of(ReportKind kind);
[[nodiscard]] std::string_view name_of(ReportKind kind);
[[nodiscard]] std::optional<ReportKind> report_kind(std::string_view name);

/// In words: its name; where its wind is measured; why it is true or magnetic; what to do
/// with the direction.
[[nodiscard]] std::string_view label_of(ReportKind kind);
[[nodiscard]] std::string_view measured_at(ReportKind kind);
[[nodiscard]] std::string_view why_reference(ReportKind kind);
[[nodiscard]] std::string_view reference_rule(ReportKind kind);
/// The model's limit: a steady wind without gusts.
[[nodiscard]] std::string_view steady_wind_limit();

/// What a report says. `wind.why` is `none` where there is a wind to fly in: a direction
/// and a speed, calm, or light and variable (flown as calm).
struct WindReport {
  std::optional<ReportKind> kind;  ///< absent: not known
  ReportedWind wind;
  bool is_true = false;                ///< what `wind.from_deg` refers to
  std::optional<double> magnetic_deg;  ///< where a direction and a variation are there
  /// Winds aloft: of the level, or between two levels in proportion; else of the one level
  /// near that has it. °C, to a tenth.
  std::optional<double> temperature_c;
  std::optional<double> isa_c;        ///< deviation from standard, to a tenth
  std::vector<WindPeriod> periods;    ///< TAF; `wind` is the first one's
  std::vector<std::string> steps;     ///< the decoding, sentence by sentence
  std::vector<std::string> problems;  ///< what is wrong or left out; a wind may be there still

  [[nodiscard]] bool has_wind() const { return wind.why == NoReport::none; }
};

/// `kind`: a name of a kind, or "auto" or nothing to tell it from the text. `altitude_ft`
/// is the holding altitude, for winds aloft; not known where it is not a number or beyond
/// 100,000 ft. A variation that is not finite is not known.
///
/// A winds aloft line is read between the two levels about the altitude, as vectors, to
/// whole degrees and knots (common practice, no source); below the lowest and above the
/// highest level, that level's wind stands.
[[nodiscard]] WindReport read_wind_report(std::string_view kind, std::string_view text,
                                          double altitude_ft, double variation_east_deg);

/// Keys of a link: wind=240/18&windref=true, and isa= where a temperature was read. Empty
/// where there is no wind that the page takes.
[[nodiscard]] std::string link_of(const WindReport& report);
/// The same for one period of a TAF.
[[nodiscard]] std::string link_of(const ReportedWind& wind, bool is_true);

/// {kind, label, from_deg, speed_kt, ref, magnetic_deg, gust_kt, light_and_variable,
/// at_least, temperature_c, isa_c, why, steps, problems, periods, limit, link}
void write_wind_report(Json& json, const WindReport& report);
/// The chooser: [{kind, label, ref, where, why, rule, source, mark}]
void write_report_kinds(Json& json);

}  // namespace core
