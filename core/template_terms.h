// core/template_terms.h - the calculation table of the PANS-OPS holding template.
//
// ICAO Doc 8168 Vol II (PANS-OPS), Part I Sec 4 Ch 3 App C, conventional holding. Each line
// is marked: [seen] read in a stored copy, [memory] recalled, [derived] our own arithmetic.
// docs/theory.md "Protected area". Indicative, not for navigation or procedure design.
#pragma once

#include <optional>

namespace core {

/// Pilot tolerances, seconds and degrees: Table I-2-3-1 [seen].
inline constexpr double kBankEstablishS = 5.0;
inline constexpr double kReactionS = 6.0;
inline constexpr double kTimingS = 10.0;
inline constexpr double kHeadingToleranceDeg = 5.0;

/// Ratio of true to indicated airspeed, incompressible:
/// 171233 sqrt(288 + deviation - 0.00198 H) / (288 - 0.00198 H)^2.628, H in ft.
/// Part I Sec 1 App [seen]. For the area only; core/atmosphere.h has the exact one.
[[nodiscard]] double pans_ops_tas_factor(double altitude_ft, double isa_deviation_c);
/// Design wind from any side, kt: 2 h + 47, h in thousands of ft. I-4-3 App C [seen].
[[nodiscard]] double pans_ops_wind_kt(double altitude_ft);
/// The same in km/h: 12 h + 87, h in thousands of metres [seen]. The two forms are
/// rounded differently.
[[nodiscard]] double pans_ops_wind_km_h(double altitude_m);
/// The FAA's design wind, kt: 50 at 4,000 ft and 3 for each 2,000 ft above, at most 120.
/// Order 7130.3A 2-4 [seen]; linear in between [our reading]. Absent below 4,000 ft,
/// where no value was seen. A fact beside the area: no FAA template is drawn from it.
[[nodiscard]] std::optional<double> faa_design_wind_kt(double altitude_ft);

/// The calculation table of the template, in NM, kt and s.
struct TemplateTerms {
  double k;                    ///< K, TAS factor [seen]
  double tas_kt;               ///< V = K IAS [seen]
  double v_nm_s;               ///< v [seen]
  double rate_uncapped_deg_s;  ///< 3431 tan(bank) / (pi V): 509.26 / V at 25 degrees [seen]
  double rate_deg_s;           ///< R, that or 3, the lesser [seen]
  double radius_nm;            ///< r = V / (62.83 R) [seen]
  double wind_kt;              ///< w [seen]
  double w_nm_s;               ///< w' [seen]
  double e_nm_deg;             ///< E = w' / R, drift for each degree of turn [seen]
  double t_s;                  ///< t = 60 T [seen]
  double length_nm;            ///< L = v t [seen]
  double ab_nm;                ///< 5 v [memory]
  double ac_nm;                ///< 11 v [memory; 11 s seen in the RNAV form]
  double gi_short_nm;          ///< gi1 = gi3 = (t - 5) v [memory; same form seen for the base turn]
  double gi_long_nm;           ///< gi2 = gi4 = (t + 21) v [memory; likewise]
  double wb_nm, wc_nm;         ///< 5 w', 11 w' [memory]
  double wd_nm, we_nm, wf_nm, wg_nm;  ///< Wc + 45 E, 90 E, 135 E, 180 E [memory]
  double wh_nm;                       ///< Wb + 270 E [memory]
  double wi_short_nm;                 ///< Wi1 = Wi3 = (t + 6) w' + 180 E [derived]
  double wi_long_nm;                  ///< Wi2 = Wi4 = (t + 32) w' + 180 E [derived]
  double wj_nm, wk_nm, wl_nm, wm_nm;  ///< Wi2 + 45 E, 90 E, 90 E, 135 E [memory]
  double wn3_nm, wn4_nm;              ///< Wi1 + 180 E, Wi2 + 180 E [memory]
  /// Farthest outbound of an entry from any side:
  /// 2 r + (t + 15) v + (t + 26) w' + 195 E [memory].
  double xe_nm;
  /// Farthest to the non-holding side:
  /// 11 v cos 20 + r sin 20 + r + (t + 15) v tan 5 + (t + 26) w' + 125 E [memory].
  double ye_nm;
};
/// No range is checked; an input that is not finite gives NaN.
[[nodiscard]] TemplateTerms template_terms(double ias_kt, double altitude_ft, double outbound_s,
                                           double isa_deviation_c = 15.0, double bank_deg = 25.0);

}  // namespace core
