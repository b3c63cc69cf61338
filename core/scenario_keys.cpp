#include "core/scenario_keys.h"

#include <cmath>

#include "core/text_number.h"

namespace core {
namespace {

using Text = std::string_view;

constexpr Text kEntryNames[] = {"offset", "parallel", "direct"};
constexpr Text kRuleNames[] = {"still-air", "drift-once", "track-30", "drift-triple"};
constexpr Text kTimingNames[] = {"fixed", "groundspeed"};
constexpr Text kTimerNames[] = {"fix", "level"};
constexpr Text kSideNames[] = {"left", "right"};
constexpr Text kBookNames[] = {"faa", "icao"};
constexpr Text kAdjustNames[] = {"seconds", "ratio", "exact", "keep"};
constexpr Text kMeasureNames[] = {"track", "dme"};
constexpr Text kParallelNames[] = {"course", "fix"};
constexpr Text kAidNames[] = {"vor", "ndb", "satellite"};
constexpr Text kScaleNames[] = {"vor", "terminal", "en-route", "older"};
constexpr Text kSpeedRuleNames[] = {"faa",           "faa-icon",        "faa-charted",
                                    "faa-air-force", "faa-navy",        "faa-climb",
                                    "icao",          "icao-turbulence", "icao-cat-ab"};

template <std::size_t N>
int index_of(const Text (&names)[N], Text name) {
  for (std::size_t i = 0; i < N; ++i) {
    if (names[i] == name) return static_cast<int>(i);
  }
  return -1;
}

bool read_in_range(Text text, double low, double high, double& out) {
  const std::optional<double> v = read_number(text);
  if (!v || *v < low || *v > high) return false;
  out = *v;
  return true;
}

bool read_direction(Text text, double& out) {
  double v = 0.0;
  if (!read_in_range(text, 0.0, 360.0, v)) return false;
  out = v == 0.0 ? 360.0 : v;
  return true;
}

/// Optional keys are cleared by an empty text.
template <class T, class Read>
bool read_optional(Text text, std::optional<T>& out, const Read& read) {
  if (text.empty()) {
    out.reset();
    return true;
  }
  T value{};
  if (!read(text, value)) return false;
  out = value;
  return true;
}

bool read_seconds(Text text, double low, double high, double& out) {
  const std::optional<double> v = read_time(text);
  if (!v || *v < low || *v > high) return false;
  out = *v;
  return true;
}

bool read_leg(Text text, Leg& out) {
  if (text.size() > 2 && (text[text.size() - 2] | 32) == 'n' && (text.back() | 32) == 'm') {
    double nm = 0.0;
    if (!read_in_range(text.substr(0, text.size() - 2), 0.5, 50.0, nm)) return false;
    out = {Leg::Kind::distance, nm};
    return true;
  }
  double s = 0.0;
  if (!read_seconds(text, 15.0, 600.0, s)) return false;
  out = {Leg::Kind::time, s};
  return true;
}

bool read_wind(Text text, Scenario& s) {
  const std::size_t slash = text.find('/');
  if (slash == Text::npos) return false;
  double from = 0.0;
  double speed = 0.0;
  if (!read_direction(text.substr(0, slash), from)) return false;
  if (!read_in_range(text.substr(slash + 1), 0.0, 150.0, speed)) return false;
  s.wind_from_deg = from;
  s.wind_kt = speed;
  return true;
}

bool read_variation(Text text, Scenario& s) {
  double sign = 1.0;
  if (!text.empty()) {
    const int last = text.back() | 32;
    if (last == 'e' || last == 'w') {
      sign = last == 'e' ? 1.0 : -1.0;
      text.remove_suffix(1);
    } else if (text.find_first_not_of("0.,") != Text::npos) {
      return false;  // which way is not said
    }
  }
  double v = 0.0;
  if (!read_in_range(text, 0.0, 180.0, v)) return false;
  s.variation_east_deg = v == 0.0 ? 0.0 : sign * v;
  return true;
}

template <std::size_t N, class E>
bool read_name(const Text (&names)[N], Text text, E& out) {
  const int i = index_of(names, text);
  if (i < 0) return false;
  out = static_cast<E>(i);
  return true;
}

/// "8L", "8R" or "0": a correction left or right of the course.
bool read_correction(Text text, double& out) {
  double sign = 1.0;
  const int last = text.empty() ? 0 : text.back() | 32;
  if (last == 'l' || last == 'r') {
    sign = last == 'r' ? 1.0 : -1.0;
    text.remove_suffix(1);
  } else if (text.find_first_not_of("0.,") != Text::npos) {
    return false;  // which way is not said
  }
  double v = 0.0;
  if (!read_in_range(text, 0.0, 60.0, v)) return false;
  out = v == 0.0 ? 0.0 : sign * v;
  return true;
}

/// "fix", or the DME reading at the fix with the way the inbound leg is flown: "10to",
/// "28from".
bool read_station(Text text, Station& out) {
  if (text == "fix") {
    out = {};
    return true;
  }
  const bool to = text.size() > 2 && text.substr(text.size() - 2) == "to";
  const bool from = text.size() > 4 && text.substr(text.size() - 4) == "from";
  if (!to && !from) return false;
  text.remove_suffix(to ? 2 : 4);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  out.place = to ? Station::Place::ahead : Station::Place::behind;
  return read_in_range(text, 1.0, 200.0, out.dme_nm);
}

bool read_fix_name(Text text, FixName& out) {
  out = {};
  if (text.size() + 1 > out.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    const bool plain = (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == ' ' || c == '-';
    if (!plain) return false;
    out[i] = c;
  }
  return true;
}

/// "18:45" or "1845".
bool read_clock(Text text, int& minutes) {
  std::string figures;
  for (const char c : text) {
    if (c != ':') figures += c;
  }
  const std::size_t colon = text.find(':');
  const bool shaped = colon == Text::npos ? text.size() == 4 : colon + 3 == text.size();
  const std::optional<double> v = read_number(figures);
  if (!shaped || figures.size() < 3 || figures.size() > 4 || !v || *v < 0.0 ||
      figures.find_first_not_of("0123456789") != std::string::npos)
    return false;
  const int number = static_cast<int>(*v);
  minutes = number / 100 * 60 + number % 100;
  return number / 100 < 24 && number % 100 < 60;
}

/// A name of a line of the tables, or the speed that the chart prints.
bool read_limit(Text text, Scenario& s) {
  s.speed_rule.reset();
  s.charted_kias = 0.0;
  if (text.empty()) return true;
  SpeedRule rule = SpeedRule::faa_charted;
  if (!read_name(kSpeedRuleNames, text, rule) && !read_in_range(text, 60.0, 350.0, s.charted_kias))
    return false;
  if (rule == SpeedRule::faa_charted && s.charted_kias == 0.0) return false;
  s.speed_rule = rule;
  return true;
}

bool read_later(Text text, std::optional<LaterWind>& out) {
  out.reset();
  if (text.empty()) return true;
  const std::size_t slash = text.find('/');
  LaterWind w;
  if (slash == Text::npos || !read_direction(text.substr(0, slash), w.from_deg) ||
      !read_in_range(text.substr(slash + 1), 0.0, 150.0, w.speed_kt))
    return false;
  out = w;
  return true;
}

bool read_speed(Text text, Scenario& s, bool is_tas) {
  if (!read_in_range(text, 40.0, 350.0, s.speed_kt)) return false;
  s.speed_is_tas = is_tas;
  return true;
}

constexpr std::array<ScenarioKey, kKeyCount> kKeys = {{
    {"inbound", [](Text t, Scenario& s) { return read_direction(t, s.inbound_course_deg); },
     [](const Scenario& s) { return write_number(s.inbound_course_deg); }},
    {"turns", [](Text t, Scenario& s) { return read_name(kSideNames, t, s.turns); },
     [](const Scenario& s) { return std::string(name_of(s.turns)); }},
    {"leg", [](Text t, Scenario& s) { return read_optional(t, s.leg, read_leg); },
     [](const Scenario& s) {
       if (!s.leg) return std::string();
       return s.leg->kind == Leg::Kind::time ? write_time(s.leg->value)
                                             : write_number(s.leg->value) + "nm";
     }},
    {"altitude",
     [](Text t, Scenario& s) { return read_in_range(t, -1000.0, 45000.0, s.altitude_ft); },
     [](const Scenario& s) { return write_number(s.altitude_ft); }},
    {"ias", [](Text t, Scenario& s) { return read_speed(t, s, false); },
     [](const Scenario& s) { return s.speed_is_tas ? std::string() : write_number(s.speed_kt); }},
    {"tas", [](Text t, Scenario& s) { return read_speed(t, s, true); },
     [](const Scenario& s) { return s.speed_is_tas ? write_number(s.speed_kt) : std::string(); }},
    {"isa", [](Text t, Scenario& s) { return read_in_range(t, -60.0, 60.0, s.isa_deviation_c); },
     [](const Scenario& s) {
       return (s.isa_deviation_c > 0.0 ? "+" : "") + write_number(s.isa_deviation_c);
     }},
    {"bank", [](Text t, Scenario& s) { return read_in_range(t, 5.0, 60.0, s.bank_limit_deg); },
     [](const Scenario& s) { return write_number(s.bank_limit_deg); }},
    {"wind", read_wind,
     [](const Scenario& s) {
       return write_number(s.wind_from_deg) + "/" + write_number(s.wind_kt);
     }},
    {"windref",
     [](Text t, Scenario& s) {
       if (t != "true" && t != "magnetic") return false;
       s.wind_is_true = t == "true";
       return true;
     },
     [](const Scenario& s) { return std::string(s.wind_is_true ? "true" : "magnetic"); }},
    {"variation", read_variation,
     [](const Scenario& s) {
       const double v = s.variation_east_deg;
       return write_number(std::abs(v)) + (v < 0.0 ? "W" : "E");
     }},
    {"arrive", [](Text t, Scenario& s) { return read_direction(t, s.arrival_course_deg); },
     [](const Scenario& s) { return write_number(s.arrival_course_deg); }},
    {"entry",
     [](Text t, Scenario& s) {
       if (t == "auto") t = {};
       return read_optional(t, s.entry,
                            [](Text n, EntryKind& e) { return read_name(kEntryNames, n, e); });
     },
     [](const Scenario& s) { return std::string(s.entry ? name_of(*s.entry) : Text("auto")); }},
    {"heading", [](Text t, Scenario& s) { return read_optional(t, s.heading_deg, read_direction); },
     [](const Scenario& s) {
       return s.heading_deg ? write_number(*s.heading_deg) : std::string();
     }},
    {"rule", [](Text t, Scenario& s) { return read_name(kRuleNames, t, s.rule); },
     [](const Scenario& s) { return std::string(name_of(s.rule)); }},
    {"time",
     [](Text t, Scenario& s) {
       return read_optional(t, s.time_s,
                            [](Text n, double& v) { return read_seconds(n, 0.0, 600.0, v); });
     },
     [](const Scenario& s) { return s.time_s ? write_time(*s.time_s) : std::string(); }},
    {"timing", [](Text t, Scenario& s) { return read_name(kTimingNames, t, s.timing); },
     [](const Scenario& s) { return std::string(name_of(s.timing)); }},
    {"timer", [](Text t, Scenario& s) { return read_name(kTimerNames, t, s.timer); },
     [](const Scenario& s) { return std::string(name_of(s.timer)); }},
    {"multiple",
     [](Text t, Scenario& s) {
       s.exact_multiple = t == "exact";
       // The link says no number beside it, and rules with a multiple fly one all the same.
       s.multiple = Scenario{}.multiple;
       return s.exact_multiple || read_in_range(t, 0.0, 10.0, s.multiple);
     },
     [](const Scenario& s) {
       return s.exact_multiple ? std::string("exact") : write_number(s.multiple);
     }},
    {"intercept", [](Text t, Scenario& s) { return read_in_range(t, 5.0, 90.0, s.intercept_deg); },
     [](const Scenario& s) { return write_number(s.intercept_deg); }},
    {"laps",
     [](Text t, Scenario& s) {
       double v = 0.0;
       if (!read_in_range(t, 0.0, 10.0, v) || v != std::floor(v)) return false;
       s.laps = static_cast<int>(v);
       return true;
     },
     [](const Scenario& s) { return write_number(s.laps); }},
    {"adjust", [](Text t, Scenario& s) { return read_name(kAdjustNames, t, s.adjust); },
     [](const Scenario& s) { return std::string(name_of(s.adjust)); }},
    {"book", [](Text t, Scenario& s) { return read_name(kBookNames, t, s.book); },
     [](const Scenario& s) { return std::string(name_of(s.book)); }},
    {"parallel", [](Text t, Scenario& s) { return read_name(kParallelNames, t, s.parallel_end); },
     [](const Scenario& s) { return std::string(name_of(s.parallel_end)); }},
    {"fix", [](Text t, Scenario& s) { return read_fix_name(t, s.fix_name); },
     [](const Scenario& s) { return std::string(s.fix_name.data()); }},
    {"efc",
     [](Text t, Scenario& s) { return read_optional(t, s.further_clearance_min, read_clock); },
     [](const Scenario& s) {
       return s.further_clearance_min ? write_clock(*s.further_clearance_min) : std::string();
     }},
    {"station", [](Text t, Scenario& s) { return read_station(t, s.station); },
     [](const Scenario& s) {
       if (s.station.place == Station::Place::at_fix) return std::string("fix");
       return write_number(s.station.dme_nm) +
              (s.station.place == Station::Place::ahead ? "to" : "from");
     }},
    {"elevation",
     [](Text t, Scenario& s) { return read_in_range(t, -1000.0, 20000.0, s.elevation_ft); },
     [](const Scenario& s) { return write_number(s.elevation_ft); }},
    {"aid", [](Text t, Scenario& s) { return read_name(kAidNames, t, s.aid); },
     [](const Scenario& s) { return std::string(kAidNames[static_cast<int>(s.aid)]); }},
    {"scale",
     [](Text t, Scenario& s) {
       return read_optional(t, s.scale,
                            [](Text n, CourseScale& v) { return read_name(kScaleNames, n, v); });
     },
     [](const Scenario& s) {
       return s.scale ? std::string(kScaleNames[static_cast<int>(*s.scale)]) : std::string();
     }},
    {"measure", [](Text t, Scenario& s) { return read_name(kMeasureNames, t, s.measure); },
     [](const Scenario& s) { return std::string(name_of(s.measure)); }},
    {"radial", [](Text t, Scenario& s) { return read_optional(t, s.radial_deg, read_direction); },
     [](const Scenario& s) { return s.radial_deg ? write_number(*s.radial_deg) : std::string(); }},
    {"limit", read_limit,
     [](const Scenario& s) {
       if (!s.speed_rule) return std::string();
       return *s.speed_rule == SpeedRule::faa_charted
                  ? write_number(s.charted_kias)
                  : std::string(kSpeedRuleNames[static_cast<int>(*s.speed_rule)]);
     }},
    {"roll",
     [](Text t, Scenario& s) {
       return read_in_range(t, 0.0, 30.0, s.roll_deg_s) &&
              (s.roll_deg_s == 0.0 || s.roll_deg_s >= 1.0);
     },
     [](const Scenario& s) { return write_number(s.roll_deg_s); }},
    {"later", [](Text t, Scenario& s) { return read_later(t, s.later_wind); },
     [](const Scenario& s) {
       return s.later_wind ? write_number(s.later_wind->from_deg) + "/" +
                                 write_number(s.later_wind->speed_kt)
                           : std::string();
     }},
    {"saw",
     [](Text t, Scenario& s) {
       return read_optional(t, s.seen.cross_nm, [](Text n, double& v) {
         return read_in_range(n, -20.0, 20.0, v);
       });
     },
     [](const Scenario& s) {
       return s.seen.cross_nm ? write_number(*s.seen.cross_nm) : std::string();
     }},
    {"took",
     [](Text t, Scenario& s) {
       return read_optional(t, s.seen.inbound_s,
                            [](Text n, double& v) { return read_seconds(n, 0.0, 1200.0, v); });
     },
     [](const Scenario& s) {
       return s.seen.inbound_s ? write_time(*s.seen.inbound_s) : std::string();
     }},
    {"held",
     [](Text t, Scenario& s) { return read_optional(t, s.seen.wca_deg, read_correction); },
     [](const Scenario& s) {
       if (!s.seen.wca_deg) return std::string();
       const double v = *s.seen.wca_deg;
       return v == 0.0 ? std::string("0") : write_number(std::abs(v)) + (v < 0.0 ? "L" : "R");
     }},
}};

}  // namespace

const std::array<ScenarioKey, kKeyCount>& scenario_keys() { return kKeys; }

std::string_view name_of(EntryKind kind) { return kEntryNames[static_cast<int>(kind)]; }
std::string_view name_of(HeadingRule rule) { return kRuleNames[static_cast<int>(rule)]; }
std::string_view name_of(TimingRule rule) { return kTimingNames[static_cast<int>(rule)]; }
std::string_view name_of(Timer timer) { return kTimerNames[static_cast<int>(timer)]; }
std::string_view name_of(Side side) { return kSideNames[static_cast<int>(side)]; }
std::string_view name_of(Rulebook book) { return kBookNames[static_cast<int>(book)]; }
std::string_view name_of(Adjust adjust) { return kAdjustNames[static_cast<int>(adjust)]; }
std::string_view name_of(Measure measure) { return kMeasureNames[static_cast<int>(measure)]; }
std::string_view name_of(ParallelEnd end) { return kParallelNames[static_cast<int>(end)]; }

}  // namespace core
