// core/limits.h - how fast one may hold, where to slow down, and what limits the turn.
//
// Speeds are indicated, taken as calibrated (core/atmosphere.h); altitude is feet, used
// both as the altitude of the tables and as pressure altitude. Both rulebooks stand side
// by side; which one binds is the reader's choice.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/apart.h"
#include "core/flight.h"
#include "core/rulebook.h"

namespace core {

[[nodiscard]] std::string_view name_of(SpeedRule rule);
[[nodiscard]] std::optional<SpeedRule> speed_rule(std::string_view name);
[[nodiscard]] Rulebook rulebook_of(SpeedRule rule);
/// The scenario's rule; by its book where it names none.
[[nodiscard]] SpeedRule speed_rule_of(const Scenario& scenario);

/// Least speed for which FAA holds are laid out, KIAS, unless charted otherwise
/// (AIM 5-3-8 j2).
inline constexpr double kLeastHoldingKias = 90.0;

/// One line of a speed table: above `above_ft` up to and including `up_to_ft`. Where
/// both limits stand, the lesser counts.
struct SpeedBand {
  double above_ft;  ///< minus infinity: from the ground
  double up_to_ft;  ///< infinity: no upper end
  double ias_kt;    ///< infinity: limited by Mach number alone
  double mach;      ///< infinity: limited by airspeed alone
};
/// The lines of `rule` from the bottom up. Empty for faa_charted.
[[nodiscard]] std::vector<SpeedBand> speed_bands(SpeedRule rule);

/// Why there is no limit to name.
enum class NoLimit {
  none,
  bad_altitude,      ///< not a number
  no_charted_speed,  ///< faa_charted without a speed above zero
};

/// The greatest holding speed at an altitude. Where `why` is not `none`, the numbers are
/// NaN.
struct SpeedLimit {
  NoLimit why;
  SpeedRule asked;
  /// The line that gives the number. Not `asked` where that has no line at this altitude:
  /// the icon outside 6,001 to 14,000 ft, category A/B above 14,000 ft.
  SpeedRule applied;
  SpeedBand band;
  double ias_kt;  ///< KIAS; a Mach limit is converted at this altitude
  bool by_mach;   ///< the Mach number is what limits

  [[nodiscard]] bool exists() const { return why == NoLimit::none; }
};

/// Source: AIM 5-3-8 j2 with TBL 5-3-1 (seen); Doc 8168 Vol I Part I Sec 6 Ch 1 table, as
/// a State AIP restates it (seen). `charted_kias` is read for faa_charted only.
[[nodiscard]] SpeedLimit greatest_holding_speed(SpeedRule rule, double altitude_ft,
                                                double charted_kias = 0.0);

/// Calibrated airspeed, kt, at which `mach` is flown; the temperature cancels.
[[nodiscard]] double cas_from_mach(double mach, double altitude_ft);

/// What the limit means for the aircraft of a setup. Where `limit.exists()` is false,
/// margin and limit_tas_kt are NaN and nothing is over.
struct SpeedCheck {
  SpeedLimit limit;
  double ias_kt;        ///< of the setup; from its TAS where that was given
  double margin_kt;     ///< limit less airspeed: negative when too fast
  double over_by_kt;    ///< 0 within the limit
  double limit_tas_kt;  ///< TAS at the limit, today's temperature
  bool below_least;     ///< slower than kLeastHoldingKias

  [[nodiscard]] bool within() const { return over_by_kt == 0.0; }
};
[[nodiscard]] SpeedCheck check_speed(const Setup& setup, SpeedRule rule, double charted_kias = 0.0);
/// Indicated airspeed of the setup, kt.
[[nodiscard]] double ias_of(const Setup& setup);

/// Slowing to holding speed begins when 3 minutes or less from the fix (AIM 5-3-8 d).
inline constexpr double kSlowDownS = 180.0;

/// The first point at which that is so, on the arrival course. Where `why` is not
/// Stop::none (it is then no_arrival), the numbers are NaN.
struct SlowDown {
  Stop why;
  double before_fix_s;    ///< kSlowDownS
  double groundspeed_kt;  ///< along the arrival course
  double distance_nm;     ///< to the fix
  Vec2 at;                ///< NM
};
/// `arriving_tas_kt` is the true airspeed before slowing down; absent: the setup's, and the
/// point is then the nearest to the fix that it can be.
CORE_APART [[nodiscard]] SlowDown slow_down_point(
    const Setup& setup, std::optional<double> arriving_tas_kt = std::nullopt);

/// TAS, kt, at which a turn at standard rate takes just this bank: g tan(bank) / (3 deg/s).
/// Above it the bank limit turns more slowly.
[[nodiscard]] double crossover_tas_kt(double bank_limit_deg);
/// Bank limits of the books, degrees: AIM 5-3-8 j8; Doc 8168 Vol I 1.3.1.
inline constexpr double kFaaBankDeg = 30.0;
inline constexpr double kFaaFlightDirectorBankDeg = 25.0;
inline constexpr double kIcaoBankDeg = 25.0;

/// Standard rate against the bank limit at the setup's TAS.
struct RateCheck {
  bool limited;  ///< the bank limit binds: the turn is slower than standard rate
  double tas_kt;
  double bank_limit_deg;
  double standard_bank_deg;   ///< what 3 deg/s would take
  double standard_radius_nm;  ///< and its radius
  Turn turn;                  ///< as flown
  double circle_s;            ///< 360 degrees as flown
  double crossover_tas_kt;    ///< where this limit begins to bind
};
[[nodiscard]] RateCheck check_rate(const Setup& setup);

/// In words; each is a sentence or two of plain facts.
[[nodiscard]] std::string_view label_of(SpeedRule rule);
[[nodiscard]] std::string reason(NoLimit why);
[[nodiscard]] std::string speed_words(const SpeedCheck& check);
[[nodiscard]] std::string slow_down_words(const SlowDown& point);
[[nodiscard]] std::string rate_words(const RateCheck& check);
/// Where 25 and 30 degrees begin to bind, and which book asks for which.
[[nodiscard]] std::string bank_books_words();
/// The exceptions to the FAA's table, one a line.
[[nodiscard]] std::vector<std::string> faa_exception_words();

}  // namespace core
