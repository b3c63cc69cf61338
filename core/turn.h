// core/turn.h - the coordinated level turn.
#pragma once

namespace core {

inline constexpr double kStandardRateDegS = 3.0;

/// A level turn at constant true airspeed: 3 deg/s or the bank limit, whichever
/// needs the least bank (AIM 5-3-8 j8; Doc 8168 Vol II I-4-3).
struct Turn {
  double bank_deg;
  double rate_deg_s;
  double radius_nm;
};

/// Needs `tas_kt` > 0 and `bank_limit_deg` in (0, 90).
/// rate = g tan(bank) / TAS, radius = TAS / rate; exact g and NM, docs/theory.md.
[[nodiscard]] Turn level_turn(double tas_kt, double bank_limit_deg);

/// Turn rate, deg/s, of a coordinated turn at `bank_deg`.
[[nodiscard]] double turn_rate_deg_s(double tas_kt, double bank_deg);
/// Bank, degrees, that turns at `rate_deg_s`.
[[nodiscard]] double bank_for_rate_deg(double tas_kt, double rate_deg_s);
/// Radius in still air, NM.
[[nodiscard]] double turn_radius_nm(double tas_kt, double rate_deg_s);

}  // namespace core
