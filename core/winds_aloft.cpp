#include "core/winds_aloft.h"

#include "core/atmosphere.h"

namespace core {
namespace {

using Text = std::string_view;
using Groups = std::vector<std::string>;

constexpr double kStandardLevelsFt[] = {3000, 6000, 9000, 12000, 18000, 24000, 30000, 34000, 39000};
constexpr std::size_t kMostLevels = 12;
constexpr double kLowestLevelFt = 1000.0;
constexpr double kHighestLevelFt = 60000.0;
constexpr double kZeroCelsiusK = 273.15;

bool has_letter(Text t) {
  for (const char c : t) {
    if (c >= 'A' && c <= 'Z') return true;
  }
  return false;
}

bool has_group_form(Text g) {
  return has_form(g, "dddd") || has_form(g, "ddddsdd") || has_form(g, "dddddd");
}

/// A level as the FT line has it; 0 where it is none.
double level_of(Text g) {
  if (!has_form(g, "dddd") && !has_form(g, "ddddd")) return 0.0;
  const int ft = digits_at(g, 0, g.size());
  return ft % 1000 == 0 && ft >= kLowestLevelFt && ft <= kHighestLevelFt ? ft : 0.0;
}

/// The FT line's levels; `at` moves behind them. Without FT, 3000 6000 starts one.
std::vector<double> read_levels(const Groups& groups, std::size_t& at) {
  std::vector<double> levels;
  for (std::size_t i = 0; i + 1 < groups.size(); ++i) {
    const bool named = groups[i] == "FT" && level_of(groups[i + 1]) > 0.0;
    if (!named && !(groups[i] == "3000" && groups[i + 1] == "6000")) continue;
    for (at = i + (named ? 1 : 0); at < groups.size() && levels.size() < kMostLevels; ++at) {
      const double ft = level_of(groups[at]);
      if (ft <= 0.0 || (!levels.empty() && ft <= levels.back())) break;
      levels.push_back(ft);
    }
    break;
  }
  return levels;
}

/// Whether the groups can stand at the levels from `first` on, by their signs.
bool fits(const std::vector<AloftGroup>& groups, const std::vector<double>& levels,
          std::size_t first) {
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const AloftGroup& g = groups[i];
    if (g.temperature_c && g.unsigned_form != (levels[first + i] > kSignedUpToFt)) return false;
  }
  return true;
}

}  // namespace

AloftGroup decode_aloft_group(std::string_view group) {
  AloftGroup g;
  ReportedWind& w = g.wind;
  w.text = named_group(group);
  w.why = group.find('/') == Text::npos ? NoReport::bad_group : NoReport::not_reported;
  if (!has_group_form(group)) return g;
  const int code = digits_at(group, 0, 2);
  const int figures = digits_at(group, 2, 2);
  const bool fast = code >= 51 && code <= 86;
  const bool light = code == 99 && figures == 0;
  if (!fast && !light && (code < 1 || code > 36)) {
    w.why = NoReport::bad_code;
    return g;
  }
  if (!fast && !light && figures == 0) {
    w.why = NoReport::bad_speed;
    return g;
  }
  w.why = NoReport::none;
  w.light_and_variable = light;
  if (!light) {
    w.from_deg = 10.0 * (fast ? code - 50 : code);
    w.speed_kt = figures + (fast ? 100 : 0);
    w.unit_speed = *w.speed_kt;
    w.at_least = fast && figures == 99;
  }
  g.unsigned_form = group.size() == 6;
  if (group.size() > 4) {
    const int t = digits_at(group, group.size() - 2, 2);
    g.temperature_c = t > 0 && (g.unsigned_form || group[4] == '-') ? -t : t;
  }
  return g;
}

double isa_deviation_at(double level_ft, double temperature_c) {
  return temperature_c + kZeroCelsiusK - temperature_k(level_ft);
}

AloftLine read_aloft_line(const std::vector<std::string>& groups) {
  AloftLine line;
  std::size_t at = 0;
  std::vector<double> levels = read_levels(groups, at);
  const bool own_levels = !levels.empty();
  if (!own_levels) levels.assign(kStandardLevelsFt, kStandardLevelsFt + 9);
  // Figures of a bulletin's heading would pass for groups where no FT line ends it.
  for (const std::string& g : groups) {
    if (!own_levels && (g == "DATA" || g == "VALID" || g == "KWNO")) {
      line.why = NoReport::levels_unclear;
      return line;
    }
  }
  for (; at < groups.size(); ++at) {
    const Text g = groups[at];
    const bool started = !line.groups.empty();
    // A station's name stands first or is short; other figures are meant as a group.
    const bool first = at == 0 && groups.size() > 1;
    const bool meant = (started || !first) && g.size() > 3;
    if (!has_group_form(g) && has_letter(g) && !(meant && has_digit(g))) {
      if (!started) {
        line.station = named_group(g);
        continue;
      }
      for (++at; at < groups.size(); ++at) {
        line.more_stations = line.more_stations || has_group_form(groups[at]);
      }
      break;
    }
    line.groups.push_back(decode_aloft_group(g));
    if (line.groups.size() > kMostLevels) break;
  }
  const std::size_t count = line.groups.size();
  if (count == 0) return line;
  line.why = NoReport::none;
  if (count == 1 && !own_levels) return line;
  line.why = NoReport::levels_unclear;
  if (count > levels.size()) return line;
  const std::size_t spare = levels.size() - count;
  std::size_t first = spare;
  if (own_levels || spare == 0) {
    if (!fits(line.groups, levels, spare)) return line;
  } else {
    int ways = 0;
    for (std::size_t i = 0; i <= spare; ++i) {
      if (!fits(line.groups, levels, i)) continue;
      ++ways;
      first = i;
    }
    if (ways != 1) return line;
  }
  line.why = NoReport::none;
  for (std::size_t i = 0; i < count; ++i) line.levels_ft.push_back(levels[first + i]);
  return line;
}

bool looks_like_aloft(const std::vector<std::string>& groups) {
  std::size_t at = 0;
  if (!read_levels(groups, at).empty()) return true;
  bool only_groups = true;
  std::size_t count = 0;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (has_form(groups[i], "ddddsdd")) return true;
    if (has_group_form(groups[i])) {
      ++count;
    } else if (i > 0 || !has_letter(groups[i])) {
      only_groups = false;
    }
  }
  return only_groups && count > 0;
}

Wind wind_between_levels(Wind low, Wind high, double fraction) {
  const Vec2 v = low.velocity_kt() * (1.0 - fraction) + high.velocity_kt() * fraction;
  return {direction_of(v * -1.0), length(v)};
}

}  // namespace core
