// tests/tables/protected_area_checks.h - the calculation table of the holding template.
#pragma once

#include "core/needles.h"
#include "core/protected_area.h"
#include "tests/tables/check.h"

namespace test {

using core::TemplateTerms;

/// The published worked example: base turn over an NDB, 140 kt, 6,000 ft, 2 min, ISA + 15.
inline TemplateTerms base_turn() { return core::template_terms(140, 6000, 120); }
/// The remembered holding example: 220 kt, 10,000 ft, 1 min, ISA + 15.
inline TemplateTerms holding() { return core::template_terms(220, 10000, 60); }
inline double zn() { return core::pans_ops_ndb_cone_nm(6000); }
inline TemplateTerms one_minute(double ias_kt, double altitude_ft) {
  return core::template_terms(ias_kt, altitude_ft, 60);
}
inline double k15(double altitude_ft) { return core::pans_ops_tas_factor(altitude_ft, 15); }

/// The same example in kilometres: 260 km/h at 1,850 m, with the wind of the metric form.
struct Metric {
  double k, v_km_h, v_km_s, rate_uncapped, r_km, w_km_h, w_km_s, e_km;
};
inline Metric metric(double ias_km_h, double altitude_m) {
  Metric m{};
  const double km_per_nm = core::kMetresPerNm / 1000.0;
  const TemplateTerms t =
      core::template_terms(ias_km_h / km_per_nm, altitude_m / core::kMetresPerFoot, 120);
  m.k = t.k;
  m.v_km_h = t.tas_kt * km_per_nm;
  m.v_km_s = t.v_nm_s * km_per_nm;
  m.rate_uncapped = t.rate_uncapped_deg_s;
  m.r_km = t.radius_nm * km_per_nm;
  m.w_km_h = core::pans_ops_wind_km_h(altitude_m);
  m.w_km_s = m.w_km_h / 3600.0;
  m.e_km = m.w_km_s / t.rate_deg_s;
  return m;
}
inline Metric base_turn_metric() { return metric(260, 1850); }

inline constexpr const char* kTas = "ICAO Doc 8168 Vol II Part I Sec 1 App, TAS formula";
inline constexpr const char* kC1 = "ICAO Doc 8168 Vol II Table I-4-3-App C-1";
inline constexpr const char* kVolIIWind = "ICAO Doc 8168 Vol II I-4-3 App C, wind";
inline constexpr const char* kLines = "docs/theory.md, Protected area: lines of the table";
inline constexpr const char* kMemoryLines =
    "ICAO Doc 8168 Vol II holding template, lines recalled; docs/theory.md, Protected area";
inline constexpr const char* kFaaWind = "FAA Order 7130.3A 2-4, design wind";

inline const Check kProtectedAreaChecks[] = {
    {"A16", "TAS: 140 kt, 6,000 ft, ISA+15, area formula", 157.23, 0.01, Unit::kt, kC1, Mark::seen,
     [] { return 140 * core::pans_ops_tas_factor(6000, 15); }},
    {"A17", "TAS: 150 kt, 20,000 ft, ISA+10, area formula", 209.59, 0.01, Unit::kt, kTas,
     Mark::seen, [] { return 150 * core::pans_ops_tas_factor(20000, 10); }},
    {"P01", "K at 6,000 ft, ISA+15", 1.1231, 0.0002, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn().k; }},
    {"P02", "R before the limit, 140 kt at 6,000 ft", 3.24, 0.01, Unit::deg_s, kC1, Mark::seen,
     [] { return base_turn().rate_uncapped_deg_s; }},
    {"P02", "R", 3, 0, Unit::deg_s, kC1, Mark::seen, [] { return base_turn().rate_deg_s; }},
    {"P03", "r", 0.83, 0.005, Unit::nm, kC1, Mark::seen, [] { return base_turn().radius_nm; }},
    {"P04", "w at 6,000 ft", 59, 0.01, Unit::kt, kC1, Mark::seen,
     [] { return base_turn().wind_kt; }},
    {"P05", "w at 1,850 m, km/h", 109.2, 0.05, Unit::km_h, kC1, Mark::seen,
     [] { return core::pans_ops_wind_km_h(1850); }},
    {"P06", "E, NM for each degree", 0.00546, 0.00001, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn().e_nm_deg; }},
    {"P07", "L, 2 minutes", 5.24, 0.005, Unit::nm, kC1, Mark::seen,
     [] { return base_turn().length_nm; }},
    {"P08", "ab1 = (t - 5)(v - w') - zN", 2.31, 0.01, Unit::nm, kC1, Mark::seen,
     [] {
       const TemplateTerms t = base_turn();
       return (t.t_s - 5) * (t.v_nm_s - t.w_nm_s) - zn();
     }},
    {"P08", "ab2 = (t + 21)(v + w') + zN", 9.30, 0.01, Unit::nm, kC1, Mark::seen,
     [] {
       const TemplateTerms t = base_turn();
       return (t.t_s + 21) * (t.v_nm_s + t.w_nm_s) + zn();
     }},
    {"P09", "Wd = 50 E of the base turn", 0.27, 0.005, Unit::nm, kC1, Mark::seen,
     [] { return 50 * base_turn().e_nm_deg; }},
    {"P09", "We = 100 E", 0.55, 0.005, Unit::nm, kC1, Mark::seen,
     [] { return 100 * base_turn().e_nm_deg; }},
    {"P09", "Wi = 190 E", 1.04, 0.005, Unit::nm, kC1, Mark::seen,
     [] { return 190 * base_turn().e_nm_deg; }},
    {"P09", "Wj = 235 E", 1.28, 0.005, Unit::nm, kC1, Mark::seen,
     [] { return 235 * base_turn().e_nm_deg; }},
    {"P10", "zN at 6,000 ft", 0.83, 0.005, Unit::nm, kC1, Mark::seen, [] { return zn(); }},
    {"3.5", "v, NM/s", 0.0437, 0.00005, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn().v_nm_s; }},
    {"3.5", "w', NM/s", 0.0164, 0.00005, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn().w_nm_s; }},
    {"3.5", "t", 120, 0, Unit::s, kC1, Mark::seen, [] { return base_turn().t_s; }},
    {"3.5", "K, metric column", 1.1244, 0.0002, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn_metric().k; }},
    {"3.5", "V, km/h (printed from the rounded K)", 292.34, 0.03, Unit::km_h, kC1, Mark::seen,
     [] { return base_turn_metric().v_km_h; }},
    {"3.5", "v, km/s", 0.0812, 0.00005, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn_metric().v_km_s; }},
    {"3.5", "R before the limit, metric column", 3.23, 0.005, Unit::deg_s, kC1, Mark::seen,
     [] { return base_turn_metric().rate_uncapped; }},
    {"3.5", "r, km", 1.55, 0.005, Unit::km, kC1, Mark::seen,
     [] { return base_turn_metric().r_km; }},
    {"3.5", "w', km/s", 0.03, 0.0005, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn_metric().w_km_s; }},
    {"3.5", "E, km for each degree", 0.01, 0.0005, Unit::ratio, kC1, Mark::seen,
     [] { return base_turn_metric().e_km; }},
    {"3.5", "L, km", 9.74, 0.005, Unit::km, kC1, Mark::seen,
     [] { return base_turn_metric().v_km_s * 120; }},
    {"P11", "V: 220 kt, 10,000 ft, ISA+15", 263.07, 0.01, Unit::kt, kLines, Mark::derived,
     [] { return holding().tas_kt; }},
    {"P11", "R", 1.936, 0.002, Unit::deg_s, kLines, Mark::derived,
     [] { return holding().rate_deg_s; }},
    {"P11", "r", 2.163, 0.002, Unit::nm, kLines, Mark::derived, [] { return holding().radius_nm; }},
    {"P11", "w", 67, 0.002, Unit::kt, kVolIIWind, Mark::seen, [] { return holding().wind_kt; }},
    {"P11", "L", 4.385, 0.002, Unit::nm, kLines, Mark::derived, [] { return holding().length_nm; }},
    {"P12", "XE", 13.28, 0.02, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().xe_nm; }},
    {"P12", "YE", 6.94, 0.02, Unit::nm, kMemoryLines, Mark::memory, [] { return holding().ye_nm; }},
    {"3.6", "K at 10,000 ft", 1.1958, 0.00005, Unit::ratio, kMemoryLines, Mark::memory,
     [] { return holding().k; }},
    {"3.6", "v, NM/s", 0.0731, 0.00005, Unit::ratio, kLines, Mark::derived,
     [] { return holding().v_nm_s; }},
    {"3.6", "w', NM/s", 0.0186, 0.00005, Unit::ratio, kLines, Mark::derived,
     [] { return holding().w_nm_s; }},
    {"3.6", "E, NM for each degree", 0.0096, 0.00005, Unit::ratio, kLines, Mark::derived,
     [] { return holding().e_nm_deg; }},
    {"3.6", "ab", 0.365, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().ab_nm; }},
    {"3.6", "ac", 0.804, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().ac_nm; }},
    {"3.6", "gi1", 4.02, 0.005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().gi_short_nm; }},
    {"3.6", "gi2", 5.92, 0.005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().gi_long_nm; }},
    {"3.6", "Wb", 0.093, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().wb_nm; }},
    {"3.6", "Wc", 0.205, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().wc_nm; }},
    {"3.6", "Wd", 0.637, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().wd_nm; }},
    {"3.6", "We", 1.070, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().we_nm; }},
    {"3.6", "Wf", 1.503, 0.0005, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().wf_nm; }},
    {"3.6", "Wg", 1.935, 0.0006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().wg_nm; }},
    {"3.6", "Wh", 2.689, 0.0006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return holding().wh_nm; }},
    {"3.7", "100 kt, 3,000 ft: V", 107.28, 0.01, Unit::kt, kLines, Mark::derived,
     [] { return one_minute(100, 3000).tas_kt; }},
    {"3.7", "R", 3, 0, Unit::deg_s, kLines, Mark::derived,
     [] { return one_minute(100, 3000).rate_deg_s; }},
    {"3.7", "r", 0.569, 0.0006, Unit::nm, kLines, Mark::derived,
     [] { return one_minute(100, 3000).radius_nm; }},
    {"3.7", "L", 1.788, 0.0006, Unit::nm, kLines, Mark::derived,
     [] { return one_minute(100, 3000).length_nm; }},
    {"3.7", "XE", 5.60, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(100, 3000).xe_nm; }},
    {"3.7", "YE", 3.15, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(100, 3000).ye_nm; }},
    {"3.7", "120 kt, 5,000 ft: V", 132.71, 0.01, Unit::kt, kLines, Mark::derived,
     [] { return one_minute(120, 5000).tas_kt; }},
    {"3.7", "r", 0.704, 0.0006, Unit::nm, kLines, Mark::derived,
     [] { return one_minute(120, 5000).radius_nm; }},
    {"3.7", "XE", 6.56, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(120, 5000).xe_nm; }},
    {"3.7", "YE", 3.59, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(120, 5000).ye_nm; }},
    {"3.7", "170 kt, 6,000 ft: V", 190.93, 0.01, Unit::kt, kLines, Mark::derived,
     [] { return one_minute(170, 6000).tas_kt; }},
    {"3.7", "R", 2.667, 0.0006, Unit::deg_s, kLines, Mark::derived,
     [] { return one_minute(170, 6000).rate_deg_s; }},
    {"3.7", "r", 1.139, 0.0006, Unit::nm, kLines, Mark::derived,
     [] { return one_minute(170, 6000).radius_nm; }},
    {"3.7", "XE", 8.86, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(170, 6000).xe_nm; }},
    {"3.7", "YE", 4.60, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(170, 6000).ye_nm; }},
    {"3.7", "230 kt, 6,000 ft: V", 258.31, 0.01, Unit::kt, kLines, Mark::derived,
     [] { return one_minute(230, 6000).tas_kt; }},
    {"3.7", "R", 1.9715, 0.0006, Unit::deg_s, kLines, Mark::derived,
     [] { return one_minute(230, 6000).rate_deg_s; }},
    {"3.7", "r", 2.085, 0.0006, Unit::nm, kLines, Mark::derived,
     [] { return one_minute(230, 6000).radius_nm; }},
    {"3.7", "XE", 12.58, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(230, 6000).xe_nm; }},
    {"3.7", "YE", 6.46, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(230, 6000).ye_nm; }},
    {"3.7", "230 kt, 14,000 ft: V", 293.38, 0.015, Unit::kt, kLines, Mark::derived,
     [] { return one_minute(230, 14000).tas_kt; }},
    {"3.7", "R", 1.736, 0.0006, Unit::deg_s, kLines, Mark::derived,
     [] { return one_minute(230, 14000).rate_deg_s; }},
    {"3.7", "r", 2.690, 0.0006, Unit::nm, kLines, Mark::derived,
     [] { return one_minute(230, 14000).radius_nm; }},
    {"3.7", "XE", 15.62, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(230, 14000).xe_nm; }},
    {"3.7", "YE", 8.28, 0.006, Unit::nm, kMemoryLines, Mark::memory,
     [] { return one_minute(230, 14000).ye_nm; }},
    {"3.7", "K at 3,000 ft, ISA+15", 1.0728, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return k15(3000); }},
    {"3.7", "K at 5,000 ft", 1.1059, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return k15(5000); }},
    {"3.7", "K at 8,000 ft", 1.1586, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return k15(8000); }},
    {"3.7", "K at 14,000 ft", 1.2755, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return k15(14000); }},
    {"3.7", "K at 18,000 ft", 1.3634, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return k15(18000); }},
    {"3.7", "K at 6,000 ft, ISA", 1.0938, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return core::pans_ops_tas_factor(6000, 0); }},
    {"3.7", "K at 10,000 ft, ISA", 1.1637, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return core::pans_ops_tas_factor(10000, 0); }},
    {"3.7", "K at 14,000 ft, ISA", 1.2403, 0.00006, Unit::ratio, kTas, Mark::derived,
     [] { return core::pans_ops_tas_factor(14000, 0); }},
    {"3.8", "design wind at 2,000 ft", 51, 1e-9, Unit::kt, kVolIIWind, Mark::seen,
     [] { return core::pans_ops_wind_kt(2000); }},
    {"3.8", "design wind at 14,000 ft", 75, 1e-9, Unit::kt, kVolIIWind, Mark::seen,
     [] { return core::pans_ops_wind_kt(14000); }},
    {"3.8", "design wind at 18,000 ft", 83, 1e-9, Unit::kt, kVolIIWind, Mark::seen,
     [] { return core::pans_ops_wind_kt(18000); }},
    {"P13", "FAA design wind at 4,000 ft", 50, 0.01, Unit::kt, kFaaWind, Mark::seen,
     [] { return core::faa_design_wind_kt(4000).value_or(-1); }},
    {"P13", "at 10,000 ft", 59, 0.01, Unit::kt, kFaaWind, Mark::seen,
     [] { return core::faa_design_wind_kt(10000).value_or(-1); }},
    {"P13", "at 14,000 ft", 65, 0.01, Unit::kt, kFaaWind, Mark::seen,
     [] { return core::faa_design_wind_kt(14000).value_or(-1); }},
    {"3.8", "at 6,000 ft", 53, 0.01, Unit::kt, kFaaWind, Mark::seen,
     [] { return core::faa_design_wind_kt(6000).value_or(-1); }},
    {"3.8", "at 18,000 ft", 71, 0.01, Unit::kt, kFaaWind, Mark::seen,
     [] { return core::faa_design_wind_kt(18000).value_or(-1); }},
};

}  // namespace test
