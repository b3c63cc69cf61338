// Wind reports: kind, altitude and variation in the first three lines, then METAR, TAF, winds
// aloft, ATIS, a tower's wind, or any text.
#include "core/scenario.h"
#include "core/text_number.h"
#include "core/wind_report.h"
#include "tests/fuzz/must.h"

using namespace core;
using fuzz::must;

namespace {

void must_be_wind(const ReportedWind& w) {
  const bool means = w.why == NoReport::none || w.why == NoReport::variable;
  must(!means || !w.from_deg || (*w.from_deg > 0.0 && *w.from_deg <= 360.0), "a direction", w.text);
  must(!means || !w.speed_kt || (*w.speed_kt >= 0.0 && *w.speed_kt < 3000.0), "a speed", w.text);
  must(std::isfinite(w.gust_kt) && w.gust_kt >= 0.0, "a gust", w.text);
  for (const char c : w.text) must(c >= ' ' && c <= '~', "what was read is printable", w.text);
}

void must_be_link(const std::string& link) {
  must(parse_link(link).problems.empty(), "the link of a report is one that the page takes", link);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view text = fuzz::text_of(data, size);
  const std::string_view kind = fuzz::take_line(text);
  const double altitude_ft = read_number(fuzz::take_line(text)).value_or(std::nan(""));
  const double variation_deg = read_number(fuzz::take_line(text)).value_or(std::nan(""));
  const WindReport r = read_wind_report(kind, text, altitude_ft, variation_deg);
  must_be_wind(r.wind);
  must(!r.has_wind() || r.wind.speed_kt || r.wind.light_and_variable, "a wind has a speed");
  must(r.has_wind() || !r.problems.empty(), "where there is no wind, it is said why");
  must(r.periods.size() <= kMostPeriods, "periods are bounded");
  must(!r.magnetic_deg || (*r.magnetic_deg > 0.0 && *r.magnetic_deg <= 360.0), "magnetic");
  must(!r.temperature_c || std::isfinite(*r.temperature_c), "a temperature");
  must(!r.isa_c || std::isfinite(*r.isa_c), "a deviation");
  for (const std::string& step : r.steps) must(!step.empty(), "a step says something");
  for (const std::string& problem : r.problems) must(!problem.empty(), "a problem says something");
  must_be_link(link_of(r));
  for (const WindPeriod& p : r.periods) {
    must_be_wind(p.wind);
    must_be_link(link_of(p.wind, r.is_true));
  }
  Json json;
  write_wind_report(json, r);
  fuzz::must_be_json(json.str(), text, 60000);
  return 0;
}
