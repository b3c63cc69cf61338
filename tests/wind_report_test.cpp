// Wind reports: groups, lines, phrases, and what is made of them.
#include "core/wind_report.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/scenario.h"
#include "core/spoken.h"
#include "core/spoken_wind.h"
#include "core/words.h"
#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tables/check_rows.h"
#include "tests/tables/wind_report_checks.h"
#include "tests/tally.h"

using namespace core;

namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

std::string two(int v) {
  return {static_cast<char>('0' + v / 10), static_cast<char>('0' + v % 10)};
}
std::string three(int v) { return static_cast<char>('0' + v / 100) + two(v % 100); }

/// As the forecast writes it. Speeds of 199 and more are written 99.
std::string aloft_wind(int tens, int kt) {
  return kt < 100 ? two(tens) + two(kt) : two(tens + 50) + two(std::min(kt - 100, 99));
}

WindReport read(std::string_view text, double altitude_ft = 4000.0, double variation = 7.0) {
  return read_wind_report("auto", text, altitude_ft, variation);
}

/// "240/18 G25", "calm", "variable 3", "light", or why there is none.
std::string brief(const ReportedWind& w) {
  if (w.why == NoReport::variable) return "variable " + fixed(*w.speed_kt, 0);
  if (w.why != NoReport::none) return std::string(name_of(w.why));
  if (w.light_and_variable) return "light";
  if (w.calm()) return "calm";
  std::string out = digits_3(*w.from_deg) + "/" + fixed(*w.speed_kt, 0);
  if (w.gust_kt > 0.0) out += " G" + fixed(w.gust_kt, 0);
  return w.at_least ? out + "+" : out;
}
std::string brief(const WindReport& r) { return brief(r.wind); }

std::string all_lines(const WindReport& r) {
  std::string out;
  for (const std::string& s : r.steps) out += s + "\n";
  for (const std::string& s : r.problems) out += s + "\n";
  return out;
}
bool says(const WindReport& r, std::string_view part) {
  return all_lines(r).find(part) != std::string::npos;
}

/// What must hold of any answer, whatever the text was. Empty: all of it does.
std::string fault_of(const WindReport& r) {
  const std::string lines = all_lines(r);
  if (lines.find("core.") != std::string::npos) return "a word is missing: " + lines;
  if (lines.find("–") != std::string::npos) return "a number is missing: " + lines;
  const ReportedWind& w = r.wind;
  if (w.from_deg && !(*w.from_deg > 0.0 && *w.from_deg <= 360.0)) return "direction";
  if (w.speed_kt && !(*w.speed_kt >= 0.0 && *w.speed_kt < 1000.0)) return "speed";
  if (!(w.gust_kt >= 0.0 && w.gust_kt < 1000.0)) return "gust";
  if (r.isa_c && !std::isfinite(*r.isa_c)) return "isa";
  if (r.has_wind() && !r.kind) return "a wind of no kind";
  if (r.has_wind() && r.steps.empty()) return "a wind without a word";
  if (!r.has_wind() && r.problems.empty()) return "no wind, and nobody says why";
  if (r.periods.size() > kMostPeriods) return "periods";
  const std::string link = link_of(r);
  if (!link.empty() && !r.has_wind()) return "a link without a wind";
  const ParsedLink parsed = parse_link(link);
  if (!parsed.problems.empty()) return link + ": " + parsed.problems[0].message;
  if (!link.empty()) {
    if (parsed.scenario.wind_is_true != r.is_true) return "reference in " + link;
    if (parsed.scenario.wind_kt != w.speed_kt.value_or(0.0)) return "speed in " + link;
    if (parsed.scenario.wind_from_deg != w.from_deg.value_or(360.0)) return "direction in " + link;
  }
  Json json;
  write_wind_report(json, r);
  return test::json_fault(json.str());
}

}  // namespace

TEST_CASE("table: wind reports", "[table][report]") { test::check_rows(test::kWindReportChecks); }

TEST_CASE("report: the misprinted header is another group", "[report]") {
  CHECK(brief(decode_aloft_group("750252").wind) == "250/102");
  CHECK(brief(decode_aloft_group("550252").wind) == "050/102");
}

TEST_CASE("report: every group of the winds aloft forecast comes back", "[report][property]") {
  test::Tally tally;
  for (int tens = 1; tens <= 36; ++tens) {
    for (int kt = 1; kt <= 210; ++kt) {
      const std::string wind = aloft_wind(tens, kt);
      const auto same = [&](const AloftGroup& g) {
        return g.wind.why == NoReport::none && g.wind.from_deg == 10.0 * tens &&
               g.wind.speed_kt == std::min(kt, 199) && g.wind.at_least == (kt >= 199) &&
               !g.wind.light_and_variable;
      };
      const AloftGroup bare = decode_aloft_group(wind);
      tally.check(same(bare) && !bare.temperature_c, [&] { return wind; });
      for (int t = -99; t <= 99; ++t) {
        const std::string text = wind + (t < 0 ? "-" : "+") + two(std::abs(t));
        const AloftGroup g = decode_aloft_group(text);
        tally.check(same(g) && g.temperature_c == t && !g.unsigned_form, [&] { return text; });
        if (t > 0) continue;
        const std::string high = wind + two(-t);
        const AloftGroup h = decode_aloft_group(high);
        tally.check(same(h) && h.temperature_c == t && h.unsigned_form, [&] { return high; });
      }
    }
  }
  tally.settle(36LL * 210 * 300);
}

TEST_CASE("report: of all figures, only groups are groups", "[report]") {
  test::Tally tally;
  int good = 0;
  for (int n = 0; n < 10000; ++n) {
    const std::string text = two(n / 100) + two(n % 100);
    const int dd = n / 100;
    const int ff = n % 100;
    const NoReport expected = n == 9900                ? NoReport::none
                              : dd >= 51 && dd <= 86   ? NoReport::none
                              : !(dd >= 1 && dd <= 36) ? NoReport::bad_code
                              : ff == 0                ? NoReport::bad_speed
                                                       : NoReport::none;
    const NoReport why = decode_aloft_group(text).wind.why;
    tally.check(why == expected, [&] { return text; });
    good += why == NoReport::none;
  }
  tally.settle(10000);
  CHECK(good == 1 + 36 * 100 + 36 * 99);
  for (const char* text : {"", "2", "224", "22421", "2242-1", "2242-180", "2242*18", "22A2-18",
                           "2242 18", "+242-18", "2242--8", "22421899"}) {
    INFO(text);
    CHECK(decode_aloft_group(text).wind.why == NoReport::bad_group);
  }
}

TEST_CASE("report: every wind group of a METAR comes back", "[report][property]") {
  test::Tally tally;
  for (int from = 0; from <= 399; ++from) {
    for (int kt = 0; kt <= 120; ++kt) {
      const std::string speed = kt < 100 ? two(kt) : three(kt);
      const std::string text = three(from) + speed + "KT";
      const ReportedWind w = decode_wind_group(text);
      const bool wrong = from > 360 || (from == 0 && kt > 0);
      tally.check(wrong ? w.why == NoReport::bad_direction : w.why == NoReport::none,
                  [&] { return text; });
      if (wrong) continue;
      tally.check(w.speed_kt == kt && w.gust_kt == 0.0, [&] { return text; });
      tally.check(from == 0 ? w.calm() : w.from_deg == from, [&] { return text; });
      const ReportedWind g = decode_wind_group(three(from) + speed + "G" + two(99) + "KT");
      tally.check(g.gust_kt == 99.0 && g.speed_kt == kt, [&] { return text + " with a gust"; });
    }
  }
  tally.settle(400LL * 121 + 3LL * 360 * 121);
}

TEST_CASE("report: units, slashes and letters of a wind group", "[report]") {
  const auto group = [](const char* text) { return brief(decode_wind_group(text)); };
  CHECK(group("24018KT") == "240/18");
  CHECK(group("24018G25KT") == "240/18 G25");
  CHECK(group("240118KT") == "240/118");
  CHECK(group("00000KT") == "calm");
  CHECK(group("00000MPS") == "calm");
  CHECK(group("VRB03KT") == "variable 3");
  CHECK(group("VRB00KT") == "calm");
  CHECK(group("24000KT") == "240/0");
  CHECK(group("36010KT") == "360/10");
  CHECK(group("27008G14MPS") == "270/16 G27");  // 15.55 and 27.21 kt
  CHECK(group("27050KMH") == "270/27");         // 27.00 kt
  CHECK(group("240P99KT") == "240/100+");
  CHECK(group("240P49MPS") == "240/97+");  // 50 m/s is 97.19 kt
  CHECK(group("/////KT") == "not-reported");
  CHECK(group("///12KT") == "not-reported");
  CHECK(group("39018KT") == "bad-direction");
  CHECK(group("00005KT") == "bad-direction");
  for (const char* text : {"", "KT", "24018", "2408KT", "0200KT", "24O18KT", "24018GKT",
                           "24018G2KT", "24018G25", "24018G25XKT", "240018018KT", "VRBKT"}) {
    INFO(text);
    CHECK(group(text) == "bad-group");
  }
}

TEST_CASE("report: the wind out of a whole METAR", "[report]") {
  const WindReport r = read(
      "METAR KXYZ 141853Z AUTO 24018G25KT 210V280 10SM BKN250 18/04 A2992 RMK AO2 PK WND "
      "26030/1832");
  CHECK(r.kind == ReportKind::metar);
  CHECK(r.is_true);
  CHECK(brief(r) == "240/18 G25");
  CHECK(r.wind.sector_from_deg == 210.0);
  CHECK(r.wind.sector_to_deg == 280.0);
  CHECK(r.magnetic_deg == 233.0);
  CHECK(link_of(r) == "wind=240/18&windref=true");
  CHECK(says(r, "True 240, variation 7° east: subtract it, magnetic 233."));
  CHECK(says(r, "Gusts to 25 kt are left out: the steady 18 kt is used."));
  CHECK(says(r, "subtract east variation"));
  CHECK(says(r, std::string(steady_wind_limit())));
  CHECK(says(read("31012KT", 4000, -7), "variation 7° west: add it, magnetic 317."));
  CHECK_FALSE(read("31012KT", 4000, kNaN).magnetic_deg);
  // Written without the word METAR, in small letters, with the unit apart.
  CHECK(brief(read("xxxx 141200z 33009kt 9999")) == "330/9");
  CHECK(brief(read("METAR XXXX 141200Z 33009 KT 9999")) == "330/9");
  // The name of an aerodrome is no wind, nor is a forecast of change or wind shear.
  CHECK(brief(read("METAR NZKT 141200Z 33009KT")) == "330/9");
  CHECK(brief(read("METAR XXXX 141200Z /////KT 9999 TEMPO 24018KT")) == "not-reported");
  CHECK(brief(read("METAR XXXX 141200Z 9999 TEMPO 24018KT")) == "no-group");
  CHECK(brief(read("METAR XXXX 141200Z 9999 RMK 24018KT")) == "no-group");
  CHECK(brief(read("METAR XXXX WS020/24045KT 33009KT")) == "330/9");
  // Temperature and dew point are no wind.
  CHECK(brief(read("METAR XXXX 141200Z 9999 BKN010 12/10 Q1013")) == "no-group");
  // What is wrong is named.
  CHECK(says(read("METAR XXXX 141200Z 0200KT 340V060"), "“0200KT”"));
  CHECK(says(read("METAR XXXX 141200Z 24018 9999"), "“24018”"));
  CHECK(says(read("METAR XXXX 141200Z 24025G18KT"), "18 kt, is not above the wind’s 25 kt"));
  CHECK(brief(read("METAR XXXX 141200Z VRB05KT")) == "variable 5");
  CHECK(link_of(read("METAR XXXX 141200Z VRB05KT")).empty());
  CHECK(link_of(read("METAR XXXX 141200Z 00000KT")) == "wind=360/0&windref=true");
}

TEST_CASE("report: the periods of a TAF", "[report]") {
  const WindReport r = read(
      "TAF KXYZ 141120Z 1412/1518 31012KT P6SM SKC WS020/24045KT FM141800 33018G28KT P6SM BECMG "
      "1420/1422 VRB04KT TEMPO 1422/1424 SHRA TEMPO 1500/1504 30020G35KT PROB30 TEMPO 1504/1506 "
      "00000KT FM150600 39010KT");
  CHECK(r.kind == ReportKind::taf);
  CHECK(r.is_true);
  CHECK(brief(r) == "310/12");
  CHECK(r.magnetic_deg == 303.0);
  std::string periods;
  for (const WindPeriod& p : r.periods) periods += p.label + ": " + brief(p.wind) + "; ";
  CHECK(periods ==
        "1412/1518: 310/12; FM141800: 330/18 G28; BECMG 1420/1422: variable 4; TEMPO 1500/1504: "
        "300/20 G35; PROB30 TEMPO 1504/1506: calm; FM150600: bad-direction; ");
  CHECK(says(r, "“39010KT”"));
  CHECK(says(r, "that of 1412/1518"));
  // A first wind that cannot be read is not replaced by a later one.
  CHECK(brief(read("TAF KXYZ 1412/1518 39012KT FM141800 33018KT")) == "bad-direction");
  CHECK(read("KXYZ 1412/1518 31012KT").kind == ReportKind::taf);
  // Pasted with an observation: its wind is none of the forecast's.
  const char* both[] = {
      "METAR KXYZ 141156Z 24018KT 10SM SCT040 17/09 A3002\nTAF KXYZ 141120Z 1412/1518 30012KT",
      "TAF KXYZ 141120Z 1412/1518 30012KT\nMETAR KXYZ 141156Z 24018KT 10SM SCT040 17/09 A3002"};
  for (const char* text : both) {
    const WindReport two = read(text);
    CHECK(brief(two) == "300/12");
    CHECK(two.periods.size() == 1);
  }
}

TEST_CASE("report: winds as they are said", "[report]") {
  const auto said = [](const char* text) { return brief(read_spoken_wind(text)); };
  CHECK(said("wind two four zero at one eight gust two five") == "240/18 G25");
  CHECK(said("Wind 240 at 18, gusting to 25 knots.") == "240/18 G25");
  CHECK(said("240/18") == "240/18");
  CHECK(said("240/18G25KT") == "240/18 G25");
  CHECK(said("240 at 18") == "240/18");
  CHECK(said("240° / 18 kt") == "240/18");
  CHECK(said("calm") == "calm");
  CHECK(said("wind calm") == "calm");
  CHECK(said("winds are calm") == "calm");
  CHECK(said("wind two forty at eighteen") == "240/18");
  CHECK(said("wind three six zero at niner") == "360/9");
  CHECK(said("wind zero zero zero at zero zero") == "calm");
  CHECK(said("wind two four zero one eight") == "240/18");
  CHECK(said("wind 2 4 0 at 1 8") == "240/18");
  CHECK(said("wind 90 at 10") == "090/10");
  CHECK(said("wind 240 degrees 18 knots maximum 25 minimum 10") == "240/18 G25");
  CHECK(said("wind 240 variable between 210 and 280 at 12") == "240/12");
  CHECK(said("wind 240 at 5 metres per second") == "240/10");  // 9.72 kt
  CHECK(said("wind variable at five") == "variable 5");
  CHECK(said("wind variable between 200 and 280 at 7") == "variable 7");
  CHECK(said("wind light and variable") == "light");
  CHECK(said("Information Kilo, one eight five three zulu, wind two four zero at one eight, "
             "visibility one zero, wind shear advisories are in effect") == "240/18");
  CHECK(said("wind shear reported, wind 300 at 12") == "300/12");
  CHECK(said("wind 400 at 5") == "bad-direction");
  CHECK(said("wind 000 at 5") == "bad-direction");
  CHECK(said("wind 240") == "no-speed");
  CHECK(said("wind 240 at") == "no-speed");
  CHECK(said("wind two four zero at one eight one zero miles") == "no-speed");
  CHECK(said("12/10") == "no-group");
  CHECK(said("the runway is 24") == "no-group");
  CHECK(said("") == "no-group");
  CHECK(read_spoken_wind("wind 240 variable between 210 and 280 at 12").sector_to_deg == 280.0);
}

TEST_CASE("report: every said wind comes back", "[report][property]") {
  test::Tally tally;
  for (int from = 1; from <= 360; ++from) {
    for (int kt = 1; kt <= 99; ++kt) {
      const std::string a = three(from);
      const std::string s = two(kt);
      for (const std::string& text : {"wind " + spelled(a) + " at " + spelled(s), a + "/" + s,
                                      a + " at " + s, "wind " + a + s}) {
        const ReportedWind w = read_spoken_wind(text);
        tally.check(w.why == NoReport::none && w.from_deg == from && w.speed_kt == kt,
                    [&] { return text; });
      }
    }
  }
  tally.settle(360LL * 99 * 4);
}

TEST_CASE("report: true and magnetic by the kind, or by what the report says", "[report]") {
  for (int i = 0; i < kReportKinds; ++i) {
    const ReportKind kind = static_cast<ReportKind>(i);
    INFO(name_of(kind));
    CHECK(report_kind(name_of(kind)) == kind);
    for (const std::string_view words :
         {label_of(kind), measured_at(kind), why_reference(kind), reference_rule(kind)}) {
      CHECK(words.substr(0, 5) != "core.");
    }
    const bool is_true = facts_of(kind).is_true;
    CHECK((reference_rule(kind).find("subtract east") != std::string_view::npos) == is_true);
    CHECK((reference_rule(kind).find("magnetic, as the hold") != std::string_view::npos) !=
          is_true);
    if (kind == ReportKind::winds_aloft) continue;
    const WindReport r = read_wind_report(name_of(kind), "240 at 18", 4000, 7);
    CHECK(brief(r) == "240/18");
    CHECK(r.is_true == is_true);
    CHECK(r.magnetic_deg == (is_true ? 233.0 : 240.0));
    CHECK(link_of(r) == std::string("wind=240/18&windref=") + (is_true ? "true" : "magnetic"));
    // A digital ATIS writes the wind as a METAR does.
    CHECK(brief(read_wind_report(name_of(kind), "K 1853Z 24018G25KT 10SM", 4000, 7)) ==
          "240/18 G25");
  }
  CHECK_FALSE(report_kind("auto"));
  const WindReport r = read("tower wind 240 true at 12");
  CHECK(r.kind == ReportKind::tower);
  CHECK(r.is_true);
  CHECK(r.magnetic_deg == 233.0);
}

TEST_CASE("report: the kind is told from the text", "[report]") {
  const auto kind = [](const char* text) {
    const WindReport r = read(text);
    return r.kind ? std::string(name_of(*r.kind)) : std::string(name_of(r.wind.why));
  };
  CHECK(kind("METAR XXXX 141200Z 33009KT") == "metar");
  CHECK(kind("33009KT") == "metar");
  // The tower's visibility is a remark, no tower's wind.
  CHECK(kind("XXXX 141256Z 24018KT 10SM 17/09 A3002 RMK AO2 TWR VIS 2 SLP134") == "metar");
  CHECK(kind("XXXX 141200Z 0200KT") == "metar");
  CHECK(kind("TAF XXXX 141120Z 1412/1518 31012KT") == "taf");
  CHECK(kind("2242-18") == "winds-aloft");
  CHECK(kind("9900") == "winds-aloft");
  CHECK(kind("731960") == "winds-aloft");
  CHECK(kind("BRL 2726 2726-09") == "winds-aloft");
  CHECK(kind("ATIS information K, wind 240 at 18") == "atis");
  CHECK(kind("tower says 240 at 18") == "tower");
  CHECK(kind("AWOS, wind 240 at 18") == "station-phone");
  CHECK(kind("wind 240 at 18") == "tower");
  CHECK(kind("240/18KT") == "tower");
  CHECK(kind("good morning") == "unrecognised");
  CHECK(kind("") == "empty");
  CHECK(kind(" \n\t") == "empty");
  CHECK(says(read("33009KT"), "Read as: METAR."));
  CHECK(says(read("240/18"), "Nothing names its source."));
  CHECK_FALSE(says(read("tower says 240/18"), "Nothing names its source."));
  CHECK(read_wind_report("sonde", "240/18", 4000, 0).wind.why == NoReport::unknown_kind);
}

TEST_CASE("report: one winds aloft group at the altitude", "[report]") {
  const WindReport r = read("2242-18", 18000);
  CHECK(brief(r) == "220/42");
  CHECK(r.temperature_c == -18.0);
  // Standard at 18,000 ft: 15 - 0.0065 * 5486.4 = -20.66 °C.
  CHECK(r.isa_c == 2.7);
  CHECK(link_of(r) == "wind=220/42&windref=true&isa=+2.7");
  CHECK(says(r, "the standard temperature is −20.7 °C, so −18 °C is +2.7 °C from standard"));
  // The other form is for other levels: no deviation is taken.
  CHECK_FALSE(read("731960", 4000).isa_c);
  CHECK(says(read("731960", 4000), "a level above 24000 ft, and you are at 4000 ft"));
  CHECK_FALSE(read("2242-18", 24001).isa_c);
  CHECK(read("2242-18", 24000).isa_c);
  CHECK(read("750252", 35000).isa_c == 2.3);  // standard: -54.34 °C
  CHECK(brief(read("2242-18", kNaN)) == "220/42");
  CHECK_FALSE(read("2242-18", kNaN).isa_c);
  // Typographic minus.
  CHECK(read("2242−18", 18000).temperature_c == -18.0);
  // More than the page takes: read, but no link.
  CHECK(brief(read("7799")) == "270/199+");
  CHECK(link_of(read("7799")).empty());
  CHECK(says(read("7799"), "more than the page takes"));
  CHECK(brief(read("9900")) == "light");
  CHECK(link_of(read("9900")) == "wind=360/0&windref=true");
}

namespace {
constexpr const char* kLine =
    "MKC 2426 2726-09 2826-14 2930-21 2744-32 2751-41 275550 276050 276547";
}

TEST_CASE("report: a winds aloft line, level by level and between", "[report]") {
  CHECK(brief(read(kLine, 3000)) == "240/26");
  CHECK(brief(read(kLine, 6000)) == "270/26");
  CHECK(brief(read(kLine, 39000)) == "270/65");
  CHECK(read(kLine, 39000).temperature_c == -47.0);
  CHECK(brief(read(kLine, 1000)) == "240/26");
  CHECK(says(read(kLine, 1000), "below the lowest level of the line, 3000 ft"));
  CHECK(brief(read(kLine, 45000)) == "270/65");
  CHECK(says(read(kLine, 45000), "above the highest level of the line, 39000 ft"));
  // Two thirds of 240/26 and one third of 270/26: x = -26 (2/3 sin 60 + 1/3), y = -26 (2/3)
  // cos 60 as the motion against it; direction 60 + 9.90 off west, 249.9/25.1.
  const WindReport r = read(kLine, 4000);
  CHECK(brief(r) == "250/25");
  CHECK(r.wind.text == "2426 2726-09");
  CHECK(says(r, "33 % of the way from 3000 to 6000 ft"));
  CHECK(says(r, "common practice; no source"));
  CHECK(r.temperature_c == -9.0);
  CHECK(r.isa_c == -12.1);  // standard at 6,000 ft: 3.11 °C
  CHECK(says(r, "Only the level at 6000 ft has a temperature"));
  // Both levels have one: -9 at 6,000 ft, -14 at 9,000 ft.
  CHECK(read(kLine, 7500).temperature_c == -11.5);
  CHECK_FALSE(read(kLine, kNaN).has_wind());
  CHECK(read(kLine, kNaN).wind.why == NoReport::bad_altitude);
}

TEST_CASE("report: which groups are for which levels", "[report]") {
  // Near high ground the lowest levels are missing; the signs say which.
  const char* high = "DEN 2321-04 2532-08 2434-19 2441-31 245542 245851 245955";
  CHECK(brief(read(high, 9000)) == "230/21");
  CHECK(brief(read(high, 30000)) == "240/55");
  // A whole bulletin: heading, levels, stations.
  const std::string bulletin =
      "FBUS31 KWNO 190440\nDATA BASED ON 190000Z\nVALID 190600Z FOR USE 0500-0900Z. TEMPS NEG ABV "
      "24000\nFT  3000 6000 9000 12000 18000 24000 30000 34000 39000\n" +
      std::string(kLine) + "\nDEN 2321-04";
  CHECK(brief(read(bulletin, 6000)) == "270/26");
  CHECK(says(read(bulletin, 6000), "only the first, MKC, was read"));
  CHECK(brief(read("FT 3000 6000 9000\nABI 2426+05 2726+01", 9000)) == "270/26");
  CHECK(brief(read("3000 6000 9000 ABI 2426 2726+01 2830-04", 9000)) == "280/30");
  // Not to be told: said, never guessed.
  for (const char* text :
       {"ABI 9900 2714+06", "ABI 2426+05 2726+01 2726-05", "FT 3000 6000 ABI 2426 2726+01 2830-04",
        "FT 24000 30000 ABI 2426+05 2726+01", "ABI 245542 2426+05",
        "FBUS31 KWNO 190440 DATA BASED ON 190000Z ABI 2426"}) {
    INFO(text);
    CHECK(read_wind_report("winds-aloft", text, 6000, 0).wind.why == NoReport::levels_unclear);
  }
  // A wrong group is named; it harms only the levels that it stands at.
  const char* spoilt = "MKC 2426 2726-09 4026-14 2930-21 2744-32 2751-41 275550 276050 276547";
  CHECK(brief(read(spoilt, 3000)) == "240/26");
  CHECK(says(read(spoilt, 3000), "“4026-14”"));
  CHECK(brief(read(spoilt, 9000)) == "bad-code");
  CHECK(brief(read(spoilt, 8000)) == "bad-code");
  CHECK(says(read_wind_report("winds-aloft", "MKC 27I4+06", 4000, 0), "“27I4+06”"));
}

TEST_CASE("report: between levels the wind goes from one to the other", "[report][property]") {
  CHECK(brief(read("FT 3000 6000 ABI 3610 1810+00", 4500)) == "calm");  // they cancel
  CHECK(brief(read("FT 3000 6000 ABI 9900 2730+00", 5000)) == "270/20");
  CHECK(brief(read("FT 3000 6000 ABI 9900 9900+00", 5000)) == "light");
  CHECK(brief(read("FT 3000 6000 ABI 2750 7799", 4500)) == "270/125+");
  test::Random r(7301);
  test::Tally tally;
  for (int i = 0; i < 5000; ++i) {
    const Wind a{r.stepped(10, 360, 10), r.stepped(5, 198, 1)};
    const Wind b{r.stepped(10, 360, 10), r.stepped(5, 198, 1)};
    const double f = r.unit();
    const Wind w = wind_between_levels(a, b, f);
    // Component by component, by the sine and cosine of the library.
    const double rad = std::acos(-1.0) / 180.0;
    const double east = (1 - f) * a.speed_kt * std::sin(a.from_deg * rad) +
                        f * b.speed_kt * std::sin(b.from_deg * rad);
    const double north = (1 - f) * a.speed_kt * std::cos(a.from_deg * rad) +
                         f * b.speed_kt * std::cos(b.from_deg * rad);
    const auto say = [&] { return std::to_string(i); };
    tally.check(std::abs(w.speed_kt * std::sin(w.from_deg * rad) - east) < 1e-9, say);
    tally.check(std::abs(w.speed_kt * std::cos(w.from_deg * rad) - north) < 1e-9, say);
    const std::string line =
        "FT 6000 9000 ABI " +
        aloft_wind(static_cast<int>(a.from_deg) / 10, static_cast<int>(a.speed_kt)) + "+00 " +
        aloft_wind(static_cast<int>(b.from_deg) / 10, static_cast<int>(b.speed_kt)) + "+00";
    const WindReport read_one = read(line, 6000.0 + 3000.0 * f);
    const ReportedWind& got = read_one.wind;
    if (!tally.check(got.why == NoReport::none && got.speed_kt.has_value(), [&] { return line; }))
      continue;
    tally.check(std::abs(*got.speed_kt - w.speed_kt) <= 0.5 + 1e-9, [&] { return line; });
    if (got.from_deg) {
      tally.check(std::abs(wrap_180(*got.from_deg - w.from_deg)) <= 0.5 + 1e-9,
                  [&] { return line; });
    }
  }
  tally.settle(5000LL * 4);
}

TEST_CASE("report: a temperature is no more than the link takes", "[report]") {
  // +50 at 24,000 ft is 82.5 °C above standard.
  const WindReport r = read("2242+50", 24000);
  CHECK(r.isa_c == 82.5);
  CHECK(link_of(r) == "wind=220/42&windref=true");
  CHECK(says(r, "it is left out"));
  // Less than a degree has its sign, too: standard is 15 - 1.9812 * 12 = -8.8 at 12,000 ft
  // (derived).
  CHECK(says(read("2242-08", 12000), "+0.8"));
}

TEST_CASE("report: JSON of a report and of the chooser", "[report]") {
  Json kinds;
  write_report_kinds(kinds);
  CHECK(test::json_fault(kinds.str()).empty());
  CHECK(kinds.str().find("\"kind\":\"station-phone\"") != std::string::npos);
  CHECK(kinds.str().find("core.") == std::string::npos);
  Json json;
  write_wind_report(json, read("2361-30", 24000));  // standard: -32.55 °C
  CHECK(test::json_fault(json.str()).empty());
  const std::string head =
      "{\"kind\":\"winds-aloft\",\"label\":\"winds aloft\",\"from_deg\":230,\"speed_kt\":61,"
      "\"gust_kt\":null,\"ref\":\"true\",\"magnetic_deg\":223,\"light_and_variable\":false,"
      "\"at_least\":false,\"temperature_c\":-30,\"isa_c\":2.5,\"why\":null,\"steps\":[";
  CHECK(json.str().substr(0, head.size()) == head);
}

TEST_CASE("report: any text is answered", "[report][hostile]") {
  const char* pieces[] = {"METAR",
                          "TAF",
                          "KXYZ",
                          "141853Z",
                          "24018G25KT",
                          "VRB03KT",
                          "/////KT",
                          "210V280",
                          "1412/1518",
                          "FM141800",
                          "BECMG",
                          "TEMPO",
                          "PROB30",
                          "RMK",
                          "FT",
                          "3000",
                          "6000",
                          "39000",
                          "2426",
                          "2726-09",
                          "275550",
                          "7799",
                          "9900",
                          "wind",
                          "two",
                          "four",
                          "zero",
                          "at",
                          "gust",
                          "240/18",
                          "calm",
                          "variable",
                          "between",
                          "true",
                          "hundred",
                          "and",
                          "999999999999",
                          "24018MPS",
                          "0",
                          "/",
                          "-",
                          "+",
                          "=",
                          "{text}",
                          "\xff\xfe",
                          "\xe2\x88\x92",
                          "KT",
                          "G",
                          "P99KT",
                          "240P99KT",
                          ",",
                          ".",
                          "18.5",
                          "1/2"};
  constexpr int kPieces = static_cast<int>(sizeof pieces / sizeof pieces[0]);
  const char* kinds[] = {"auto", "",      "metar",         "taf",    "winds-aloft",
                         "atis", "tower", "station-phone", "no kind"};
  const double altitudes[] = {4000,  0,      -1000, 45000, 24000,
                              1e300, -1e300, 1e9,   kNaN,  std::numeric_limits<double>::infinity()};
  test::Random r(7302);
  test::Tally tally;
  int winds = 0;
  for (int i = 0; i < 60000; ++i) {
    std::string text;
    const int count = r.below(12);
    for (int k = 0; k < count; ++k) {
      if (r.chance(0.08)) {
        text += static_cast<char>(r.below(256));
      } else {
        text += pieces[r.below(kPieces)];
      }
      if (!r.chance(0.1)) text += ' ';
    }
    const char* kind = kinds[r.below(9)];
    const double altitude = r.chance(0.7) ? r.between(0, 40000) : altitudes[r.below(10)];
    const double variation = r.chance(0.8) ? r.between(-180, 180) : altitudes[r.below(10)];
    const WindReport report = read_wind_report(kind, text, altitude, variation);
    winds += report.has_wind();
    const std::string fault = fault_of(report);
    tally.check(fault.empty(), [&] { return std::string(kind) + " [" + text + "]: " + fault; });
  }
  tally.settle(60000);
  CHECK(winds > 6000);  // and not only refusals
}

TEST_CASE("report: long text is cut between groups, and said to be", "[report][hostile]") {
  std::string many;
  for (int i = 0; i < 100000; ++i) many += "24018KT ";
  const WindReport r = read(many);
  CHECK(brief(r) == "240/18");
  CHECK(says(r, "was not read"));
  CHECK(fault_of(r).empty());
  CHECK(fault_of(read(std::string(1000000, '2'))).empty());
  CHECK(fault_of(read(std::string(1999, 'T'))).empty());
  CHECK(fault_of(read("wind " + std::string(1900, '2'))).empty());
  std::string taf = "TAF KXYZ 1412/1518 31012KT";
  for (int i = 0; i < 100; ++i) taf += " TEMPO 1412/1413 24018KT";
  CHECK(read(taf).periods.size() == kMostPeriods);
  const std::string edge(kMostReportBytes - 3, 'X');
  CHECK_FALSE(split_report(edge + " 24").cut);
  CHECK(split_report(edge + " 24018KT").groups.size() == 1);
}

TEST_CASE("report: a wind said to be light and variable is flown as calm", "[report]") {
  for (const char* text : {"wind light and variable", "LIGHT VARIABLE", "light and variable"}) {
    const WindReport r = read(text);
    CAPTURE(text, all_lines(r));
    CHECK(brief(r) == "light");
    CHECK(says(r, phrase("core.report.said.light", {{"text", r.wind.text}})));
  }
}
