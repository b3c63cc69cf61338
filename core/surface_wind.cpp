#include "core/surface_wind.h"

#include <algorithm>

namespace core {
namespace {

using Text = std::string_view;

struct UnitName {
  Text name;
  SpeedUnit unit;
};
constexpr UnitName kUnits[] = {
    {"KT", SpeedUnit::kt}, {"MPS", SpeedUnit::mps}, {"KMH", SpeedUnit::kmh}};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool starts_with(Text t, Text head) { return t.substr(0, head.size()) == head; }

const UnitName* unit_of(Text group) {
  for (const UnitName& u : kUnits) {
    if (group.size() >= u.name.size() && group.substr(group.size() - u.name.size()) == u.name) {
      return &u;
    }
  }
  return nullptr;
}

/// Meant as a wind group: a unit behind VRB, slashes or three figures. Aerodromes whose code
/// ends in KT have none of these, a speed alone (18KT) has fewer.
bool is_meant(Text group) {
  const UnitName* u = unit_of(group);
  if (!u || group.size() == u->name.size() || starts_with(group, "WS")) return false;
  if (starts_with(group, "VRB") || group.find("//") != Text::npos) return true;
  int figures = 0;
  for (const char c : group) figures += is_digit(c);
  return figures >= 3;
}

/// Two or three figures, with P before them for "more than"; moves `at` behind them.
struct Speed {
  bool good;
  bool more;
  int value;
};
Speed read_speed(Text body, std::size_t& at) {
  Speed s{false, at < body.size() && body[at] == 'P', 0};
  if (s.more) ++at;
  std::size_t count = 0;
  while (at + count < body.size() && is_digit(body[at + count])) ++count;
  s.good = count == 2 || count == 3;
  if (s.good) s.value = digits_at(body, at, count) + (s.more ? 1 : 0);
  at += count;
  return s;
}

bool is_change(Text g) { return g == "BECMG" || g == "TEMPO" || g == "NOSIG"; }
bool is_from(Text g) { return has_form(g, "FMdddd") || has_form(g, "FMdddddd"); }
bool is_probability(Text g) { return has_form(g, "PROBdd"); }

void take_sector(ReportedWind& w, Text group) {
  if (!has_form(group, "dddVddd")) return;
  const int a = digits_at(group, 0, 3);
  const int b = digits_at(group, 4, 3);
  if (a > 360 || b > 360) return;
  w.sector_from_deg = a == 0 ? 360 : a;
  w.sector_to_deg = b == 0 ? 360 : b;
}

}  // namespace

ReportedWind decode_wind_group(std::string_view group) {
  ReportedWind w;
  w.text = named_group(group);
  w.why = NoReport::bad_group;
  const UnitName* u = unit_of(group);
  if (!u) return w;
  const Text body = group.substr(0, group.size() - u->name.size());
  if (body.find("//") != Text::npos) {
    w.why = NoReport::not_reported;
    return w;
  }
  const bool variable = starts_with(body, "VRB");
  if (!variable && !has_form(body.substr(0, 3), "ddd")) return w;
  std::size_t at = 3;
  const Speed speed = read_speed(body, at);
  Speed gust{true, false, 0};
  if (speed.good && at < body.size() && body[at] == 'G') gust = read_speed(body, ++at);
  if (!speed.good || !gust.good || at != body.size()) return w;
  const int from = variable ? 0 : digits_at(body, 0, 3);
  if (from > 360 || (!variable && from == 0 && speed.value > 0)) {
    w.why = NoReport::bad_direction;
    return w;
  }
  w.unit = u->unit;
  w.unit_speed = speed.value;
  w.speed_kt = knots_of(speed.value, u->unit);
  w.gust_kt = knots_of(gust.value, u->unit);
  w.at_least = speed.more;
  if (from > 0) w.from_deg = from;
  w.why = variable && speed.value > 0 ? NoReport::variable : NoReport::none;
  return w;
}

ReportedWind wind_in(const std::vector<std::string>& groups, std::size_t at, std::size_t end) {
  if (end > groups.size()) end = groups.size();
  ReportedWind missing;
  for (std::size_t i = at; i < end; ++i) {
    const Text g = groups[i];
    if (g == "RMK" || is_change(g)) break;
    std::string joined;
    // "24018 KT", with a space before the unit.
    if (i + 1 < end && is_digit(g[0]) && has_form(g.substr(0, 5), "ddddd")) {
      const UnitName* u = unit_of(groups[i + 1]);
      if (u && groups[i + 1] == u->name) joined = groups[i] + groups[i + 1];
    }
    if (joined.empty() && !is_meant(g)) {
      const bool unitless = has_form(g, "ddddd") || has_form(g, "dddddGdd");
      if (unitless && missing.text.empty()) {
        missing.why = NoReport::bad_group;
        missing.text = named_group(g);
      }
      continue;
    }
    ReportedWind w = decode_wind_group(joined.empty() ? g : Text(joined));
    const std::size_t next = i + (joined.empty() ? 1 : 2);
    if (next < end) take_sector(w, groups[next]);
    return w;
  }
  return missing;
}

std::vector<WindPeriod> taf_periods(const std::vector<std::string>& groups) {
  std::vector<WindPeriod> out;
  const std::size_t n = groups.size();
  const auto starts = [&](std::size_t i) {
    return is_change(groups[i]) || is_from(groups[i]) || is_probability(groups[i]);
  };
  // An observation may stand before or behind.
  const auto taf = std::find(groups.begin(), groups.end(), "TAF");
  const auto first = static_cast<std::size_t>(taf == groups.end() ? 0 : taf - groups.begin());
  const auto over = [&](std::size_t i) {
    return groups[i] == "RMK" || groups[i] == "METAR" || groups[i] == "SPECI";
  };
  for (std::size_t i = first; i < n && !over(i) && out.size() < kMostPeriods;) {
    std::string label;
    if (starts(i)) {
      label = groups[i++];
      if (i < n && is_probability(label) && groups[i] == "TEMPO") label += " " + groups[i++];
      if (i < n && is_validity(groups[i])) label += " " + groups[i++];
    }
    std::size_t end = i;
    for (; end < n && !starts(end) && !over(end); ++end) {
      if (label.empty() && is_validity(groups[end])) label = groups[end];
    }
    const ReportedWind w = wind_in(groups, i, end);
    if (w.why != NoReport::no_group) out.push_back({label, w});
    i = end;
  }
  return out;
}

}  // namespace core
