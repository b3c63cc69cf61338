// core/scenario.h - everything that a person chooses, and its text form: the link.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/hold.h"
#include "core/rulebook.h"
#include "core/station.h"
#include "core/wind.h"

namespace core {

/// Rules of thumb for the first outbound heading of the offset entry.
enum class HeadingRule { still_air, drift_once, track_30, drift_triple };
inline constexpr int kHeadingRules = 4;
/// Rules of thumb for its time.
enum class TimingRule { fixed, groundspeed };
/// Where the clock of the entry's outbound leg starts.
enum class Timer { fix, level };

/// Length of the leg: a time, or a distance along the course.
struct Leg {
  enum class Kind { time, distance };
  Kind kind = Kind::time;
  double value = 60.0;  ///< seconds or NM
  friend bool operator==(const Leg&, const Leg&) = default;
};

/// How a DME or along-track leg is measured.
enum class Measure {
  track,  ///< along the course from the fix
  dme,    ///< by the DME's slant reading
};

/// What ends the parallel entry.
enum class ParallelEnd { course, fix };  ///< intercept the inbound course, or fly to the fix

/// How a lap's outbound time follows from the last inbound leg.
enum class Adjust {
  seconds,  ///< as many seconds longer as the inbound leg was short
  ratio,    ///< in the ratio of the wanted to the last inbound time
  exact,    ///< the exact lap's
  keep,     ///< the published time, lap after lap
};

/// Name of the fix: at most 12 letters, figures, spaces and hyphens; empty: not named.
using FixName = std::array<char, 13>;

/// What was seen in the air, for the wind to be inferred from (core/infer.h).
struct Seen {
  std::optional<double> cross_nm;   ///< at roll-out, + on the holding side
  std::optional<double> inbound_s;  ///< from there to abeam the fix
  std::optional<double> wca_deg;    ///< correction that held the inbound course, + right
  friend bool operator==(const Seen&, const Seen&) = default;
};

/// Wind as reported, when it changes.
struct LaterWind {
  double from_deg = 360.0;
  double speed_kt = 0.0;
  friend bool operator==(const LaterWind&, const LaterWind&) = default;
};
/// When the later wind blows, seconds after the fix.
inline constexpr double kLaterWindS = 600.0;

/// One hold, one wind, one aircraft, one plan. The defaults are the page's opening
/// scene, an invented fix. Directions are magnetic unless `wind_is_true`.
// In the order of the link, not of size.
struct Scenario {  // NOLINT(clang-analyzer-optin.performance.Padding)
  double inbound_course_deg = 238.0;
  Side turns = Side::left;
  std::optional<Leg> leg;  ///< absent: by altitude
  double altitude_ft = 4000.0;
  bool speed_is_tas = false;
  double speed_kt = 105.0;  ///< IAS, or TAS with `speed_is_tas`
  double isa_deviation_c = 0.0;
  double bank_limit_deg = 30.0;
  double wind_from_deg = 160.0;  ///< as reported
  double wind_kt = 24.0;
  bool wind_is_true = false;
  double variation_east_deg = 0.0;  ///< + = east
  double arrival_course_deg = 85.0;
  std::optional<EntryKind> entry;     ///< absent: by the sectors
  std::optional<double> heading_deg;  ///< first outbound heading; absent: by `rule`
  HeadingRule rule = HeadingRule::drift_once;
  std::optional<double> time_s;  ///< absent: by `timing`
  TimingRule timing = TimingRule::fixed;
  Timer timer = Timer::fix;
  double multiple = 3.0;  ///< outbound correction of the laps, times the inbound WCA
  double intercept_deg = 30.0;
  int laps = 0;
  bool exact_multiple = false;  ///< laps fly the exact outbound heading instead of `multiple`
  Adjust adjust = Adjust::seconds;
  Rulebook book = Rulebook::faa;
  ParallelEnd parallel_end = ParallelEnd::course;
  Station station;
  double elevation_ft = 0.0;  ///< of the station
  Aid aid = Aid::vor;
  std::optional<CourseScale> scale;  ///< absent: as the aid has it
  Measure measure = Measure::track;
  std::optional<double> radial_deg;  ///< limiting radial, magnetic from the station
  FixName fix_name{};
  std::optional<int> further_clearance_min;  ///< expected at, minutes after midnight
  std::optional<SpeedRule> speed_rule;       ///< absent: by the book
  double charted_kias = 0.0;                 ///< with SpeedRule::faa_charted
  double roll_deg_s = 0.0;                   ///< rate of roll; 0: at once
  std::optional<LaterWind> later_wind;       ///< ten minutes after the fix; absent: steady
  Seen seen;

  friend bool operator==(const Scenario&, const Scenario&) = default;
};

/// What a book asks for where a scenario does not say: FAA drift-once and 30 degrees of
/// bank, ICAO a track of 30 degrees and 25 (docs/theory.md "Two books").
[[nodiscard]] constexpr HeadingRule rule_of(Rulebook book) {
  return book == Rulebook::faa ? HeadingRule::drift_once : HeadingRule::track_30;
}
[[nodiscard]] constexpr double bank_limit_of(Rulebook book) {
  return book == Rulebook::faa ? 30.0 : 25.0;
}
/// The opening scene by a book.
[[nodiscard]] Scenario default_scenario(Rulebook book);

/// Something that was asked for and could not be had: which key, and a sentence
/// that says the value, what is allowed and what was used instead.
struct Problem {
  std::string key;
  std::string message;
};

struct ParsedLink {
  Scenario scenario;
  std::vector<Problem> problems;
};

/// Reads a link's query or hash text (leading '?' or '#' allowed, keys in any
/// order, percent-encoding allowed). Never fails: a bad value is reported by its
/// key and that key's default is used; unknown keys are reported; of a key given
/// twice the last counts. At most 8,192 bytes are read.
[[nodiscard]] ParsedLink parse_link(std::string_view text);

/// The canonical link: keys in the order of the design's table, only what differs
/// from the defaults, numbers without needless zeros. parse_link gives it back.
[[nodiscard]] std::string write_link(const Scenario& scenario);

/// Text form of one key's value in `scenario`; empty where it is absent.
[[nodiscard]] std::string value_text(const Scenario& scenario, std::string_view key);

/// Sets one key from its text. On a bad value nothing changes and `problem` says
/// why. An empty value clears an optional key. Returns whether the value was taken.
bool set_value(Scenario& scenario, std::string_view key, std::string_view text, Problem& problem);

/// The link's keys in canonical order.
[[nodiscard]] std::size_t key_count();
[[nodiscard]] std::string_view key_name(std::size_t index);

[[nodiscard]] std::string_view name_of(EntryKind kind);
[[nodiscard]] std::string_view name_of(HeadingRule rule);
[[nodiscard]] std::string_view name_of(TimingRule rule);
[[nodiscard]] std::string_view name_of(Timer timer);
[[nodiscard]] std::string_view name_of(Side side);
[[nodiscard]] std::string_view name_of(Rulebook book);
[[nodiscard]] std::string_view name_of(Adjust adjust);
[[nodiscard]] std::string_view name_of(Measure measure);
[[nodiscard]] std::string_view name_of(ParallelEnd end);

}  // namespace core
