#include "core/wind_report.h"

#include "core/scenario.h"
#include "core/spoken_wind.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

using Text = std::string_view;
using Groups = std::vector<std::string>;

/// Beyond this an altitude counts as not known.
constexpr double kMostAltitudeFt = 100000.0;

constexpr ReportFacts kFacts[] = {
    {"metar", true, "FAA-H-8083-28B (AWH) 24.3"},
    {"taf", true, "FAA-H-8083-28B (AWH) 27.4.2.5"},
    {"winds-aloft", true, "FAA-H-8083-28B (AWH) 27.2.1.1.1"},
    {"atis", false, "AIM 4-2-10"},
    {"tower", false, "AIM 4-2-10"},
    {"station-phone", false, "FAA-H-8083-28B (AWH) 24.3.1.2, note"},
};
static_assert(sizeof kFacts / sizeof kFacts[0] == kReportKinds);

/// "core.report.<what>.<name>"; keys of the catalogue have no hyphens.
std::string key_of(const char* what, Text name) {
  std::string key = "core.report." + std::string(what) + "." + std::string(name);
  for (char& c : key) {
    if (c == '-') c = '_';
  }
  return key;
}
Text kind_word(const char* what, ReportKind kind) { return word(key_of(what, name_of(kind))); }

/// "18" or "18.5": as it was said, never rounded.
std::string plain(double v) { return write_number(v); }
std::string feet(double v) { return fixed(v, 0); }
std::string signed_tenth(double v) {
  const std::string text = fixed(v, 1);
  return v > 0.0 && text != "0.0" ? "+" + text : text;
}
std::string signed_whole(double v) { return v > 0.0 ? "+" + fixed(v, 0) : fixed(v, 0); }
double to_tenth(double v) { return std::floor(v * 10.0 + 0.5) / 10.0; }

void step(WindReport& r, Text key) { r.steps.emplace_back(word(key)); }
void step(WindReport& r, Text key, std::initializer_list<Filling> f) {
  r.steps.push_back(phrase(key, f));
}
void problem(WindReport& r, Text key, std::initializer_list<Filling> f = {}) {
  r.problems.push_back(phrase(key, f));
}

void give_up(WindReport& r, NoReport why, std::string text = {}) {
  if (why != NoReport::variable) {
    r.wind = {};
    r.wind.text = text;
  }
  r.wind.why = why;
  problem(r, key_of("none", name_of(why)), {{"text", text}});
}

/// A surface wind in words, and what is left out of it.
void explain_group(WindReport& r) {
  const ReportedWind& w = r.wind;
  if (w.light_and_variable) {
    step(r, "core.report.said.light", {{"text", w.text}});
    return;
  }
  if (w.calm()) {
    step(r, "core.report.said.calm", {{"text", w.text}});
    return;
  }
  const std::string speed = plain(*w.speed_kt);
  if (w.from_deg) {
    step(r, "core.report.said.wind",
         {{"text", w.text}, {"from", degrees_3(*w.from_deg)}, {"speed", speed}});
  } else {
    step(r, "core.report.said.variable", {{"text", w.text}, {"speed", speed}});
  }
  if (w.unit != SpeedUnit::kt) {
    step(r, w.unit == SpeedUnit::mps ? "core.report.said.mps" : "core.report.said.kmh",
         {{"value", plain(w.unit_speed)}, {"speed", speed}});
  }
  if (w.at_least) step(r, "core.report.said.at_least", {{"speed", speed}});
  if (w.sector_to_deg > 0.0) {
    step(r, w.from_deg ? "core.report.said.sector" : "core.report.said.sector_only",
         {{"low", degrees_3(w.sector_from_deg)},
          {"high", degrees_3(w.sector_to_deg)},
          {"from", w.from_deg ? degrees_3(*w.from_deg) : std::string()}});
  }
  if (w.gust_kt > 0.0) {
    step(r, "core.report.said.gust", {{"gust", plain(w.gust_kt)}, {"speed", speed}});
    if (w.gust_kt <= *w.speed_kt) {
      problem(r, "core.report.gust_low", {{"gust", plain(w.gust_kt)}, {"speed", speed}});
    }
  }
}

void read_surface(WindReport& r, Text text, const Groups& groups) {
  if (r.kind == ReportKind::taf) {
    r.periods = taf_periods(groups);
    if (!r.periods.empty()) r.wind = r.periods.front().wind;
  } else {
    r.wind = wind_in(groups, 0, groups.size());
  }
  if (r.wind.why != NoReport::none && r.wind.why != NoReport::variable &&
      r.wind.why != NoReport::not_reported) {
    const ReportedWind said = read_spoken_wind(text);
    const bool written = r.is_true && r.wind.why != NoReport::no_group;
    if (!written || said.why == NoReport::none) r.wind = said;
  }
  if (r.wind.why == NoReport::none || r.wind.why == NoReport::variable) {
    if (!r.periods.empty() && !r.periods.front().label.empty()) {
      step(r, r.periods.size() > 1 ? "core.report.taf.first" : "core.report.taf.only",
           {{"period", r.periods.front().label}});
    }
    explain_group(r);
    if (r.wind.said_true) r.is_true = *r.wind.said_true;
  }
  if (r.wind.why != NoReport::none) give_up(r, r.wind.why, r.wind.text);
  for (std::size_t i = 1; i < r.periods.size(); ++i) {
    const ReportedWind& w = r.periods[i].wind;
    if (w.why == NoReport::none || w.why == NoReport::variable) continue;
    problem(r, "core.report.taf.unread", {{"period", r.periods[i].label}, {"text", w.text}});
  }
}

void explain_aloft(WindReport& r, const AloftGroup& g, double level_ft) {
  const ReportedWind& w = g.wind;
  const std::string name =
      level_ft > 0.0 ? phrase("core.report.aloft.at", {{"level", feet(level_ft)}, {"text", w.text}})
                     : w.text;
  const std::string dd = w.text.substr(0, 2);
  const std::string ff = w.text.substr(2, 2);
  if (w.light_and_variable) {
    step(r, "core.report.said.light", {{"text", name}});
  } else {
    const bool fast = *w.speed_kt >= 100.0;
    step(r,
         w.at_least ? "core.report.aloft.most"
         : fast     ? "core.report.aloft.fast"
                    : "core.report.aloft.plain",
         {{"text", name},
          {"dd", dd},
          {"ff", ff},
          {"code", digits_3(*w.from_deg).substr(0, 2)},
          {"from", degrees_3(*w.from_deg)},
          {"speed", plain(*w.speed_kt)}});
  }
  if (!g.temperature_c) {
    step(r, "core.report.aloft.no_temperature");
  } else if (g.unsigned_form) {
    step(r, "core.report.aloft.unsigned",
         {{"tt", w.text.substr(4)}, {"temperature", fixed(*g.temperature_c, 0)}});
  } else {
    step(r, "core.report.aloft.signed", {{"temperature", signed_whole(*g.temperature_c)}});
  }
}

/// The deviation that `temperature_c` at `level_ft` stands for.
double take_deviation(WindReport& r, double level_ft, double temperature_c) {
  const double deviation = to_tenth(isa_deviation_at(level_ft, temperature_c));
  step(r, "core.report.aloft.isa",
       {{"level", feet(level_ft)},
        {"standard", signed_tenth(temperature_c - isa_deviation_at(level_ft, temperature_c))},
        {"temperature", signed_whole(temperature_c)},
        {"deviation", signed_tenth(deviation)}});
  return deviation;
}

/// The wind at the altitude from two groups about it.
void read_between(WindReport& r, const AloftLine& line, std::size_t low, double altitude_ft) {
  const AloftGroup& a = line.groups[low];
  const AloftGroup& b = line.groups[low + 1];
  const double fraction =
      (altitude_ft - line.levels_ft[low]) / (line.levels_ft[low + 1] - line.levels_ft[low]);
  const auto flown = [](const ReportedWind& w) {
    return Wind{w.from_deg.value_or(360.0), w.speed_kt.value_or(0.0)};
  };
  const Wind between = wind_between_levels(flown(a.wind), flown(b.wind), fraction);
  ReportedWind& w = r.wind;
  w.why = NoReport::none;
  w.text = a.wind.text + " " + b.wind.text;
  w.at_least = a.wind.at_least || b.wind.at_least;
  w.light_and_variable = a.wind.light_and_variable && b.wind.light_and_variable;
  if (w.light_and_variable) {
    step(r, "core.report.aloft.both_light");
  } else {
    w.speed_kt = std::floor(between.speed_kt + 0.5);
    w.unit_speed = *w.speed_kt;
    if (*w.speed_kt > 0.0) w.from_deg = wrap_360(std::floor(between.from_deg + 0.5));
    step(r, w.from_deg ? "core.report.aloft.between" : "core.report.aloft.cancel",
         {{"altitude", feet(altitude_ft)},
          {"percent", fixed(100.0 * fraction, 0)},
          {"low", feet(line.levels_ft[low])},
          {"high", feet(line.levels_ft[low + 1])},
          {"from", w.from_deg ? degrees_3(*w.from_deg) : std::string()},
          {"speed", plain(*w.speed_kt)}});
    if (a.wind.light_and_variable || b.wind.light_and_variable) {
      step(r, "core.report.aloft.one_light");
    }
    if (w.at_least) step(r, "core.report.aloft.at_least");
  }
  if (!a.temperature_c && !b.temperature_c) return;
  if (a.temperature_c && b.temperature_c) {
    r.temperature_c = to_tenth(*a.temperature_c * (1.0 - fraction) + *b.temperature_c * fraction);
    const double da = isa_deviation_at(line.levels_ft[low], *a.temperature_c);
    const double db = isa_deviation_at(line.levels_ft[low + 1], *b.temperature_c);
    r.isa_c = to_tenth(da * (1.0 - fraction) + db * fraction);
    step(r, "core.report.aloft.isa_between",
         {{"altitude", feet(altitude_ft)},
          {"temperature", signed_tenth(*r.temperature_c)},
          {"low", signed_tenth(da)},
          {"high", signed_tenth(db)},
          {"deviation", signed_tenth(*r.isa_c)}});
    return;
  }
  const bool upper = !a.temperature_c;
  r.temperature_c = upper ? b.temperature_c : a.temperature_c;
  const double level_ft = line.levels_ft[upper ? low + 1 : low];
  r.isa_c = take_deviation(r, level_ft, *r.temperature_c);
  step(r, "core.report.aloft.isa_one_level",
       {{"level", feet(level_ft)}, {"altitude", feet(altitude_ft)}});
}

/// One group's own wind and temperature. `level_ft` NaN: not known.
void take_aloft(WindReport& r, const AloftGroup& g, double level_ft) {
  r.wind = g.wind;
  r.temperature_c = g.temperature_c;
  if (g.temperature_c && std::isfinite(level_ft)) {
    r.isa_c = take_deviation(r, level_ft, *g.temperature_c);
  }
}

void read_single(WindReport& r, const AloftGroup& g, double altitude_ft) {
  explain_aloft(r, g, 0.0);
  double level_ft = altitude_ft;
  if (!std::isfinite(altitude_ft)) {
    level_ft = std::nan("");
  } else if (g.temperature_c && g.unsigned_form != (altitude_ft > kSignedUpToFt)) {
    problem(r, g.unsigned_form ? "core.report.aloft.for_above" : "core.report.aloft.for_below",
            {{"altitude", feet(altitude_ft)}});
    level_ft = std::nan("");
  } else {
    step(r, "core.report.aloft.single", {{"altitude", feet(altitude_ft)}});
  }
  take_aloft(r, g, level_ft);
}

void read_aloft(WindReport& r, const Groups& groups, double altitude_ft) {
  const AloftLine line = read_aloft_line(groups);
  if (line.why != NoReport::none) return give_up(r, line.why);
  if (line.more_stations) problem(r, "core.report.aloft.more_stations", {{"text", line.station}});
  const std::size_t count = line.groups.size();
  std::size_t low = 0;
  std::size_t high = 0;
  if (!line.levels_ft.empty()) {
    if (!std::isfinite(altitude_ft)) return give_up(r, NoReport::bad_altitude);
    const std::vector<double>& levels = line.levels_ft;
    while (low + 1 < count && levels[low + 1] <= altitude_ft) ++low;
    high = low + 1 < count && levels[low] < altitude_ft ? low + 1 : low;
  }
  for (std::size_t i = 0; i < count; ++i) {
    const ReportedWind& w = line.groups[i].wind;
    if (w.why == NoReport::none) continue;
    if (i == low || i == high) return give_up(r, w.why, w.text);
    problem(r, key_of("none", name_of(w.why)), {{"text", w.text}});
  }
  if (line.levels_ft.empty()) return read_single(r, line.groups[0], altitude_ft);
  explain_aloft(r, line.groups[low], line.levels_ft[low]);
  if (high != low) {
    explain_aloft(r, line.groups[high], line.levels_ft[high]);
    return read_between(r, line, low, altitude_ft);
  }
  if (line.levels_ft[low] != altitude_ft) {
    step(r,
         altitude_ft < line.levels_ft[low] ? "core.report.aloft.below" : "core.report.aloft.above",
         {{"altitude", feet(altitude_ft)}, {"level", feet(line.levels_ft[low])}});
  }
  take_aloft(r, line.groups[low], line.levels_ft[low]);
}

/// Not among the remarks: "TWR VIS" there makes no tower's wind.
bool any_of(const Groups& groups, std::initializer_list<Text> names) {
  for (const std::string& g : groups) {
    if (g == "RMK") break;
    for (const Text n : names) {
      if (g == n) return true;
    }
  }
  return false;
}

std::optional<ReportKind> kind_by_text(Text text, const Groups& groups) {
  if (any_of(groups, {"TAF"})) return ReportKind::taf;
  if (any_of(groups, {"METAR", "SPECI"})) return ReportKind::metar;
  if (any_of(groups, {"ATIS", "INFORMATION", "INFO"})) return ReportKind::atis;
  if (any_of(groups, {"TOWER", "TWR"})) return ReportKind::tower;
  if (any_of(groups, {"PHONE", "TELEPHONE", "AWOS", "ASOS", "AUTOMATED"})) {
    return ReportKind::station_phone;
  }
  if (looks_like_aloft(groups)) return ReportKind::winds_aloft;
  for (const std::string& g : groups) {
    if (is_validity(g)) return ReportKind::taf;
  }
  const NoReport written = wind_in(groups, 0, groups.size()).why;
  const bool good = written != NoReport::no_group && written != NoReport::bad_group;
  if (good && !any_of(groups, {"WIND", "WINDS"})) return ReportKind::metar;
  if (read_spoken_wind(text).why != NoReport::no_group) return ReportKind::tower;
  if (written != NoReport::no_group) return ReportKind::metar;
  return std::nullopt;
}

/// What is done with the direction, and the model's limit.
void finish(WindReport& r, double variation_east_deg) {
  const ReportedWind& w = r.wind;
  step(r, key_of("rule", name_of(*r.kind)));
  if (w.said_true && *w.said_true != kFacts[static_cast<int>(*r.kind)].is_true) {
    step(r, *w.said_true ? "core.report.said.true" : "core.report.said.magnetic");
  }
  if (w.from_deg && !r.is_true) r.magnetic_deg = w.from_deg;
  if (w.from_deg && r.is_true && std::abs(variation_east_deg) <= 180.0) {
    r.magnetic_deg = magnetic_from_true(*w.from_deg, variation_east_deg);
    step(r, variation_east_deg < 0.0 ? "core.report.magnetic.west" : "core.report.magnetic.east",
         {{"from", digits_3(*w.from_deg)},
          {"variation", plain(std::abs(variation_east_deg))},
          {"magnetic", digits_3(*r.magnetic_deg)}});
  }
  if (r.kind != ReportKind::winds_aloft) step(r, "core.report.surface");
  if (w.why != NoReport::none) return;
  r.steps.emplace_back(steady_wind_limit());
  if (link_of(w, r.is_true).empty()) {
    problem(r, "core.report.beyond", {{"allowed", std::string(word("core.allowed.wind"))}});
  }
  Scenario s;
  Problem p;
  if (r.isa_c && !set_value(s, "isa", plain(*r.isa_c), p)) {
    problem(r, "core.report.beyond_isa",
            {{"deviation", signed_tenth(*r.isa_c)},
             {"allowed", std::string(word("core.allowed.isa"))}});
  }
}

void write_wind(Json& json, const ReportedWind& w) {
  json.field("from_deg", w.from_deg);
  json.field("speed_kt", w.speed_kt);
  json.field("gust_kt", w.gust_kt > 0.0 ? std::optional(w.gust_kt) : std::nullopt);
}

void write_lines(Json& json, Text key, const std::vector<std::string>& lines) {
  json.key(key).open_array();
  for (const std::string& line : lines) json.text(line);
  json.close_array();
}

}  // namespace

const ReportFacts& facts_of(ReportKind kind) { return kFacts[static_cast<int>(kind)]; }
std::string_view name_of(ReportKind kind) { return facts_of(kind).name; }

std::optional<ReportKind> report_kind(std::string_view name) {
  for (int i = 0; i < kReportKinds; ++i) {
    if (kFacts[i].name == name) return static_cast<ReportKind>(i);
  }
  return std::nullopt;
}

std::string_view label_of(ReportKind kind) { return kind_word("label", kind); }
std::string_view measured_at(ReportKind kind) { return kind_word("where", kind); }
std::string_view reference_rule(ReportKind kind) { return kind_word("rule", kind); }
std::string_view why_reference(ReportKind kind) { return kind_word("why", kind); }
std::string_view steady_wind_limit() { return word("core.report.limit"); }

WindReport read_wind_report(std::string_view kind, std::string_view text, double altitude_ft,
                            double variation_east_deg) {
  WindReport r;
  const ReportGroups split = split_report(text);
  const bool by_text = kind.empty() || kind == "auto";
  r.kind = by_text ? kind_by_text(text, split.groups) : report_kind(kind);
  if (split.cut) problem(r, "core.report.cut");
  if (!by_text && !r.kind) {
    give_up(r, NoReport::unknown_kind);
    return r;
  }
  if (split.groups.empty()) {
    r.kind = by_text ? std::nullopt : r.kind;
    give_up(r, NoReport::empty);
    return r;
  }
  if (!r.kind) {
    give_up(r, NoReport::unrecognised);
    return r;
  }
  r.is_true = facts_of(*r.kind).is_true;
  if (by_text) {
    step(r, "core.report.read_as", {{"kind", std::string(label_of(*r.kind))}});
    const bool by_form = r.kind == ReportKind::tower && !any_of(split.groups, {"TOWER", "TWR"});
    if (by_form) step(r, "core.report.who_says");
  }
  if (!(std::abs(altitude_ft) <= kMostAltitudeFt)) altitude_ft = std::nan("");
  if (r.kind == ReportKind::winds_aloft) {
    read_aloft(r, split.groups, altitude_ft);
  } else {
    read_surface(r, text, split.groups);
  }
  if (r.wind.why == NoReport::none || r.wind.why == NoReport::variable)
    finish(r, variation_east_deg);
  return r;
}

std::string link_of(const ReportedWind& w, bool is_true) {
  if (w.why != NoReport::none) return {};
  const std::string text =
      plain(w.from_deg.value_or(360.0)) + "/" + plain(w.speed_kt.value_or(0.0));
  Scenario s;
  Problem p;
  if (!set_value(s, "wind", text, p)) return {};
  return "wind=" + text + "&windref=" + (is_true ? "true" : "magnetic");
}

std::string link_of(const WindReport& r) {
  std::string link = link_of(r.wind, r.is_true);
  Scenario s;
  Problem p;
  if (!link.empty() && r.isa_c && set_value(s, "isa", plain(*r.isa_c), p)) {
    link += "&isa=" + value_text(s, "isa");
  }
  return link;
}

void write_wind_report(Json& json, const WindReport& r) {
  json.open_object();
  if (r.kind) {
    json.field("kind", name_of(*r.kind)).field("label", label_of(*r.kind));
  } else {
    json.key("kind").null().key("label").null();
  }
  write_wind(json, r.wind);
  json.key("ref");
  if (r.kind) {
    json.text(r.is_true ? "true" : "magnetic");
  } else {
    json.null();
  }
  json.field("magnetic_deg", r.magnetic_deg);
  json.field("light_and_variable", r.wind.light_and_variable).field("at_least", r.wind.at_least);
  json.field("temperature_c", r.temperature_c);
  json.field("isa_c", r.isa_c);
  json.key("why");
  if (r.has_wind()) {
    json.null();
  } else {
    json.text(name_of(r.wind.why));
  }
  write_lines(json, "steps", r.steps);
  write_lines(json, "problems", r.problems);
  json.key("periods").open_array();
  for (const WindPeriod& p : r.periods) {
    json.open_object().field("label", p.label);
    write_wind(json, p.wind);
    json.field("link", link_of(p.wind, r.is_true)).close_object();
  }
  json.close_array();
  json.field("limit", steady_wind_limit()).field("link", link_of(r)).close_object();
}

void write_report_kinds(Json& json) {
  json.open_array();
  for (int i = 0; i < kReportKinds; ++i) {
    const ReportKind kind = static_cast<ReportKind>(i);
    json.open_object()
        .field("kind", name_of(kind))
        .field("label", label_of(kind))
        .field("ref", kFacts[i].is_true ? "true" : "magnetic")
        .field("where", measured_at(kind))
        .field("why", why_reference(kind))
        .field("rule", reference_rule(kind))
        .field("source", kFacts[i].source)
        .field("mark", "seen")
        .close_object();
  }
  json.close_array();
}

}  // namespace core
