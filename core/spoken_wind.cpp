#include "core/spoken_wind.h"

#include "core/spoken.h"

namespace core {
namespace {

using Text = std::string_view;
using Tokens = std::vector<Token>;

constexpr std::size_t kMostNamedTokens = 12;

template <std::size_t N>
bool is_one_of(const Tokens& t, std::size_t i, const Text (&words)[N]) {
  if (i >= t.size() || t[i].kind != Token::Kind::word) return false;
  for (const Text w : words) {
    if (t[i].text == w) return true;
  }
  return false;
}
bool is_word(const Tokens& t, std::size_t i, Text word) {
  const Text words[] = {word};
  return is_one_of(t, i, words);
}
bool is_pause(const Tokens& t, std::size_t i) {
  return i < t.size() && t[i].kind == Token::Kind::pause;
}
bool is_number(const Tokens& t, std::size_t i) {
  return i < t.size() && t[i].kind == Token::Kind::number;
}

constexpr Text kWind[] = {"WIND", "WINDS"};
constexpr Text kBefore[] = {"TOWER", "TWR", "ATIS", "AWOS",    "ASOS", "SAYS",      "REPORTS",
                            "IS",    "ARE", "FROM", "SURFACE", "NOW",  "CURRENTLY", "CHECK"};
constexpr Text kVariable[] = {"VARIABLE", "VARYING", "VRB"};
constexpr Text kDegrees[] = {"DEGREES", "DEGREE", "DEG"};
constexpr Text kKnots[] = {"KNOTS", "KNOT", "KTS", "KT"};
constexpr Text kMetres[] = {"METERS", "METRES"};
constexpr Text kKilometres[] = {"KILOMETERS", "KILOMETRES"};
constexpr Text kGust[] = {"GUST", "GUSTS", "GUSTING", "G", "MAXIMUM", "MAX"};

/// A phrase being read, from token `at` on.
struct Reader {
  const Tokens& t;
  std::size_t at;
  ReportedWind w;

  bool skip(Text word) {
    const bool there = is_word(t, at, word);
    at += there;
    return there;
  }
  template <std::size_t N>
  bool skip(const Text (&words)[N]) {
    const bool there = is_one_of(t, at, words);
    at += there;
    return there;
  }

  /// A direction of two or three figures, 0 to 360; -1 where there is none. "two forty"
  /// counts. Figures of direction and speed run together leave the speed in `speed`.
  int direction(double& speed) {
    const std::optional<Figure> f = figure_at(t, at);
    speed = -1.0;
    if (!f) {
      if (!is_number(t, at)) return -1;
      const Text both = t[at].text;  // 240/18
      const std::size_t slash = both.find('/');
      if (slash > 3 || both.size() - slash > 4) return -1;  // npos is more than 3
      if (both.find_first_not_of("0123456789", slash + 1) != Text::npos) return -1;
      if (both.find_first_not_of("0123456789") != slash) return -1;
      ++at;
      speed = digits_at(both, slash + 1, 3);
      return digits_at(both, 0, slash);
    }
    if (f->text.find_first_not_of("0123456789") != Text::npos) return -1;
    if (f->whole_digits >= 5) {
      at = f->next;
      speed = digits_at(f->text, 3, f->text.size() - 3);
      return digits_at(f->text, 0, 3);
    }
    if (f->whole_digits == 1) {
      const std::optional<Figure> tens = figure_at(t, f->next);
      if (!tens || tens->whole_digits != 2 || tens->value < 10.0) return -1;
      at = tens->next;
      return static_cast<int>(100.0 * f->value + tens->value);
    }
    if (f->whole_digits > 3) return -1;
    at = f->next;
    return static_cast<int>(f->value);
  }

  /// "between 210 and 280": both set, or neither.
  void sector() {
    if (!skip("BETWEEN") && !is_number(t, at)) return;
    double speed = 0.0;
    const std::size_t start = at;
    const int a = direction(speed);
    if (!skip("AND")) skip("TO");
    const int b = a < 0 || speed >= 0.0 ? -1 : direction(speed);
    if (b < 0 || a > 360 || b > 360 || speed >= 0.0) {
      at = start;
      return;
    }
    w.sector_from_deg = a == 0 ? 360 : a;
    w.sector_to_deg = b == 0 ? 360 : b;
  }

  /// One to three figures; -1 where there is none.
  double speed() {
    const std::optional<Figure> f = figure_at(t, at);
    if (!f || f->whole_digits < 1 || f->whole_digits > 3) return -1.0;
    at = f->next;
    return f->value;
  }

  SpeedUnit unit() {
    skip(kKnots);
    if (skip("MPS")) return SpeedUnit::mps;
    if (skip("KMH")) return SpeedUnit::kmh;
    const bool metres = is_one_of(t, at, kMetres);
    if ((metres || is_one_of(t, at, kKilometres)) && is_word(t, at + 1, "PER")) {
      at += 3;
      return metres ? SpeedUnit::mps : SpeedUnit::kmh;
    }
    return SpeedUnit::kt;
  }

  void take_speed(double value) {
    double gust = 0.0;
    w.unit = unit();
    const std::size_t start = at;
    while (is_pause(t, at) || is_word(t, at, "AND")) ++at;
    if (skip(kGust)) {
      skip("TO");
      gust = speed();
      if (gust > 0.0) {
        const SpeedUnit behind = unit();
        if (w.unit == SpeedUnit::kt) w.unit = behind;  // 24018G25MPS
      }
    } else {
      at = start;
    }
    w.unit_speed = value;
    w.speed_kt = knots_of(value, w.unit);
    w.gust_kt = gust > 0.0 ? knots_of(gust, w.unit) : 0.0;
  }

  NoReport read(bool after_wind) {
    while (is_pause(t, at) || is_one_of(t, at, kBefore)) ++at;
    if (skip("CALM")) {
      w.speed_kt = 0.0;
      return NoReport::none;
    }
    if (is_word(t, at, "LIGHT")) {
      ++at;
      skip("AND");
      if (!skip(kVariable)) return after_wind ? NoReport::no_speed : NoReport::no_group;
      w.light_and_variable = true;
      return NoReport::none;
    }
    double together = -1.0;
    if (skip(kVariable)) {
      sector();
    } else {
      const std::size_t start = at;
      const int from = direction(together);
      if (from < 0) return NoReport::no_group;
      // "12/10" in front of a report is no wind unless it says so.
      if (!after_wind && is_number(t, start) && t[start].text.size() > 1 &&
          (t[start].text.size() < 3 || t[start].text.find('/') < 3)) {
        return NoReport::no_group;
      }
      if (from > 360) return NoReport::bad_direction;
      w.from_deg = from;
    }
    for (bool more = true; more;) {
      more = skip(kDegrees) || skip("AT") || skip(kKnots);
      if (is_pause(t, at)) {
        ++at;
        more = true;
      }
      if (skip("TRUE")) {
        w.said_true = true;
        more = true;
      }
      if (skip("MAGNETIC")) {
        w.said_true = false;
        more = true;
      }
      if (w.from_deg && is_one_of(t, at, kVariable)) {
        ++at;
        sector();
        if (w.sector_to_deg == 0.0) return NoReport::bad_group;
        more = true;
      }
    }
    const double value = together >= 0.0 ? together : speed();
    if (value < 0.0) return after_wind || w.from_deg ? NoReport::no_speed : NoReport::no_group;
    take_speed(value);
    if (!w.from_deg) return value > 0.0 ? NoReport::variable : NoReport::none;
    if (w.from_deg == 0.0) {
      if (value > 0.0) return NoReport::bad_direction;
      w.from_deg.reset();
    }
    return NoReport::none;
  }
};

ReportedWind read_at(const Tokens& t, std::size_t at, bool after_wind) {
  Reader r{t, at, {}};
  r.w.why = r.read(after_wind);
  for (std::size_t i = at; i < t.size() && i < at + kMostNamedTokens; ++i) {
    if (i >= r.at && r.w.why == NoReport::none) break;
    if (!r.w.text.empty() && !t[i].text.empty() && !t[i].glued) r.w.text += ' ';
    r.w.text += t[i].text;
  }
  r.w.text = named_group(r.w.text);
  return r.w;
}

}  // namespace

ReportedWind read_spoken_wind(std::string_view text) {
  const Hearing h = hear(text);
  ReportedWind found;
  for (std::size_t i = 0; i < h.tokens.size(); ++i) {
    if (!is_one_of(h.tokens, i, kWind)) continue;
    found = read_at(h.tokens, i + 1, true);
    if (found.why != NoReport::no_group) return found;
  }
  return read_at(h.tokens, 0, false);
}

}  // namespace core
