#include "core/template_terms.h"

#include <cmath>

#include "core/turn.h"
#include "core/units.h"

namespace core {

double pans_ops_tas_factor(double altitude_ft, double isa_deviation_c) {
  const double standard = 288.0 - 0.00198 * altitude_ft;
  return 171233.0 * std::sqrt(standard + isa_deviation_c) / std::pow(standard, 2.628);
}

double pans_ops_wind_kt(double altitude_ft) { return 2.0 * altitude_ft / 1000.0 + 47.0; }

double pans_ops_wind_km_h(double altitude_m) { return 12.0 * altitude_m / 1000.0 + 87.0; }

std::optional<double> faa_design_wind_kt(double altitude_ft) {
  if (!(altitude_ft >= 4000.0)) return std::nullopt;
  return std::fmin(50.0 + 3.0 * (altitude_ft - 4000.0) / 2000.0, 120.0);
}

TemplateTerms template_terms(double ias_kt, double altitude_ft, double outbound_s,
                             double isa_deviation_c, double bank_deg) {
  TemplateTerms t{};
  t.k = pans_ops_tas_factor(altitude_ft, isa_deviation_c);
  t.tas_kt = t.k * ias_kt;
  t.v_nm_s = t.tas_kt / 3600.0;
  t.rate_uncapped_deg_s = 3431.0 * std::tan(bank_deg * kDegToRad) / (kPi * t.tas_kt);
  t.rate_deg_s =
      t.rate_uncapped_deg_s > kStandardRateDegS ? kStandardRateDegS : t.rate_uncapped_deg_s;
  t.radius_nm = t.tas_kt / (62.83 * t.rate_deg_s);
  t.wind_kt = pans_ops_wind_kt(altitude_ft);
  t.w_nm_s = t.wind_kt / 3600.0;
  t.e_nm_deg = t.w_nm_s / t.rate_deg_s;
  t.t_s = outbound_s;
  t.length_nm = t.v_nm_s * t.t_s;
  const double v = t.v_nm_s;
  const double w = t.w_nm_s;
  const double e = t.e_nm_deg;
  t.ab_nm = 5.0 * v;
  t.ac_nm = 11.0 * v;
  t.gi_short_nm = (t.t_s - 5.0) * v;
  t.gi_long_nm = (t.t_s + 21.0) * v;
  t.wb_nm = 5.0 * w;
  t.wc_nm = 11.0 * w;
  t.wd_nm = t.wc_nm + 45.0 * e;
  t.we_nm = t.wc_nm + 90.0 * e;
  t.wf_nm = t.wc_nm + 135.0 * e;
  t.wg_nm = t.wc_nm + 180.0 * e;
  t.wh_nm = t.wb_nm + 270.0 * e;
  t.wi_short_nm = (t.t_s + 6.0) * w + 180.0 * e;
  t.wi_long_nm = (t.t_s + 32.0) * w + 180.0 * e;
  t.wj_nm = t.wi_long_nm + 45.0 * e;
  t.wk_nm = t.wi_long_nm + 90.0 * e;
  t.wl_nm = t.wi_long_nm + 90.0 * e;
  t.wm_nm = t.wi_long_nm + 135.0 * e;
  t.wn3_nm = t.wi_short_nm + 180.0 * e;
  t.wn4_nm = t.wi_long_nm + 180.0 * e;
  const double r = t.radius_nm;
  t.xe_nm = 2.0 * r + (t.t_s + 15.0) * v + (t.t_s + 26.0) * w + 195.0 * e;
  t.ye_nm = 11.0 * v * cos_deg(20.0) + r * sin_deg(20.0) + r +
            (t.t_s + 15.0) * v * std::tan(5.0 * kDegToRad) + (t.t_s + 26.0) * w + 125.0 * e;
  return t;
}

}  // namespace core
