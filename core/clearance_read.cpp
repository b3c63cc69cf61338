// Hears a clearance: finds its pieces among the words, and draws no conclusions.
#include "core/clearance_parts.h"
#include "core/spoken.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

using Text = std::string_view;

constexpr std::size_t kMostNameWords = 4;
constexpr std::size_t kMostNameBytes = 40;
constexpr std::size_t kMostWordBytes = 24;  // of an unread word, as shown
constexpr std::size_t kNone = ~std::size_t{0};

// Lists of words, each with a space before and behind it.
constexpr Text kLegWords = " LEG LEGS ";
constexpr Text kMiles = " MILE MILES NM NMI ";
constexpr Text kMinutes = " MINUTE MINUTES MIN MINS ";
constexpr Text kSeconds = " SECOND SECONDS SEC SECS ";
constexpr Text kPatternWords = " TURN TURNS PATTERN HOLD HOLDING CIRCUIT ORBIT ";
/// Read without a meaning of their own.
constexpr Text kFillers =
    " THE A AN AND IS ARE OF TO AT OVER ON BY MAKE YOUR DEGREE DEGREES MAGNETIC PATTERN ";
/// Not part of a name, and what follows is not either.
constexpr Text kNameEnds =
    " VIA MAINTAIN THEN UNTIL DUE DELAY DELAYS TRAFFIC CROSS DESCEND CLIMB FOR WITH AFTER WHEN "
    "BEFORE ADVISE REPORT CONTACT SQUAWK UPON EXPECT CLEARED IN AS FROM FLY HEADING TURN LEFT "
    "RIGHT MAXIMUM TIME INBOUND OUTBOUND LEG LEGS BETWEEN ALTITUDE FEET KNOTS THAT YOU IF NO ";

bool among(Text list, Text w) {
  for (std::size_t at = list.find(w); at != Text::npos; at = list.find(w, at + 1)) {
    if (at > 0 && list[at - 1] == ' ' && list[at + w.size()] == ' ') return true;
  }
  return false;
}

class Reader {
 public:
  Reader(const std::vector<Token>& tokens, ReadClearance& out)
      : t_(tokens), r_(out), h_(out.heard), used_(tokens.size(), '\0') {}

  void run() {
    while (i_ < t_.size()) {
      if (t_[i_].kind == Token::Kind::pause) {
        enter(Naming::none);
        ++i_;
        continue;
      }
      if (glued_to_name()) continue;
      if (hold() || bare_direction() || limit() || published() || efc() || now() || speed() ||
          turns() || route() || figure() || worded_line() || worded_leg() || aid()) {
        continue;
      }
      other();
    }
    enter(Naming::none);
    finish();
  }

 private:
  /// Whose name the next unknown words are.
  enum class Naming {
    none,
    fix,             ///< HOLD WEST OF ...
    limit,           ///< CLEARED TO ...
    station_before,  ///< ON THE ... 265 RADIAL
    station_after,   ///< 265 RADIAL OF ...
  };
  using Words = std::vector<std::size_t>;

  [[nodiscard]] bool is(std::size_t j, Text list) const {
    return j < t_.size() && t_[j].kind == Token::Kind::word && among(list, t_[j].text);
  }
  [[nodiscard]] std::size_t skip(std::size_t j, Text list) const {
    while (is(j, list)) ++j;
    return j;
  }
  [[nodiscard]] bool pause_at(std::size_t j) const {
    return j >= t_.size() || t_[j].kind == Token::Kind::pause;
  }
  /// The tokens up to `j` are understood.
  bool take(std::size_t j) {
    for (; i_ < j && i_ < t_.size(); ++i_) used_[i_] = 1;
    return true;
  }

  Words* words() {
    switch (naming_) {
      case Naming::fix:
        return &fix_;
      case Naming::limit:
        return &limit_;
      case Naming::station_before:
      case Naming::station_after:
        return &station_;
      case Naming::none:
        break;
    }
    return nullptr;
  }
  void enter(Naming next) {
    if (naming_ == Naming::station_after) name_station();
    if (naming_ == Naming::station_before) station_.clear();
    // A second fix is not a longer name of the first.
    if (next == Naming::fix && !fix_.empty()) next = Naming::none;
    if (next == Naming::limit && !limit_.empty()) next = Naming::none;
    naming_ = next;
  }
  [[nodiscard]] std::string joined(const Words& words) const {
    std::string out;
    for (std::size_t k = 0; k < words.size(); ++k) {
      const Token& token = t_[words[k]];
      const bool letters = k > 0 && token.text.size() == 1 && t_[words[k - 1]].text.size() == 1;
      if (k > 0 && !token.glued && !letters) out += ' ';
      out += token.text;
    }
    return out.size() > kMostNameBytes ? std::string() : out;
  }
  std::string named(const Words& words) {
    const std::string name = joined(words);
    if (!name.empty()) {
      for (const std::size_t w : words) used_[w] = 1;
    }
    return name;
  }
  void name_station() {
    if (h_.station.empty()) h_.station = named(station_);
    station_.clear();
  }

  /// Adds the token at i_ to the name that is being said.
  bool to_name() {
    Words* name = words();
    if (!name) return false;
    // Letters said one by one are one word.
    std::size_t count = 0;
    for (const std::size_t w : *name) {
      if (!t_[w].glued && (t_[w].text.size() > 1 || count == 0)) ++count;
    }
    if (count >= kMostNameWords || name->size() >= 3 * kMostNameWords) return false;
    name->push_back(i_++);
    return true;
  }
  /// The figures of a name, as in D12.
  bool glued_to_name() {
    const Words* name = words();
    if (!name || name->empty() || name->back() + 1 != i_) return false;
    const Token& token = t_[i_];
    return token.glued && token.kind == Token::Kind::number && to_name();
  }

  std::optional<int> direction_at(std::size_t& j) const {
    if (j >= t_.size() || t_[j].kind != Token::Kind::word) return std::nullopt;
    constexpr Text kShort[] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
    const Text w = t_[j].text;
    for (int e = 0; e < kEighths; ++e) {
      if (w != kEighthWords[e] && w != kShort[e]) continue;
      ++j;
      if (e % 4 == 0) {  // NORTH EAST in two words
        if (is(j, " EAST ")) return ++j, e == 0 ? 1 : 3;
        if (is(j, " WEST ")) return ++j, e == 0 ? 7 : 5;
      }
      return e;
    }
    return std::nullopt;
  }
  void set_direction(int e) {
    if (!h_.direction) {
      h_.direction = e;
    } else if (*h_.direction != e && !h_.other_direction) {
      h_.other_direction = e;
    }
  }

  bool hold() {
    if (!is(i_, " HOLD HOLDING ") || is(i_ + 1, " SHORT POSITION ")) return false;
    h_.hold = true;
    std::size_t j = skip(i_ + 1, " TO THE ");
    const std::optional<int> e = direction_at(j);
    if (!e) {
      const bool place = is(i_ + 1, " AT OVER ");
      take(i_ + 1 + (place ? 1 : 0));
      enter(place ? Naming::fix : Naming::none);
      return true;
    }
    set_direction(*e);
    const bool of = is(j, " OF FROM ");
    take(j + (of ? 1 : 0));
    enter(of ? Naming::fix : Naming::none);
    return true;
  }
  /// "West of ABC" without HOLD before it. A distance in front makes it a place: "5 miles
  /// west of ABC".
  bool bare_direction() {
    if (i_ > 0 && !pause_at(i_ - 1) && !used_[i_ - 1]) return false;
    std::size_t j = i_;
    const std::optional<int> e = direction_at(j);
    if (!e || !is(j, " OF ")) return false;
    set_direction(*e);
    take(j + 1);
    enter(Naming::fix);
    return true;
  }
  bool limit() {
    std::size_t j = i_;
    if (is(j, " CLEARED PROCEED ")) {
      j = skip(j + 1, " DIRECT TO ");
      if (j == i_ + 1) return false;
    } else if (is(j, " CLEARANCE ") && is(j + 1, " LIMIT ")) {
      j += 2;
    } else {
      return false;
    }
    take(j);
    enter(Naming::limit);
    return true;
  }
  bool published() {
    const std::size_t j = i_ + (is(i_, " AS ") ? 1 : 0);
    if (!is(j, " PUBLISHED CHARTED DEPICTED ")) return false;
    h_.published = true;
    enter(Naming::none);
    return take(j + 1);
  }

  /// A clock time at `j`: 1845, 18:45, one eight four five, eighteen forty-five. Moves `j`.
  std::optional<int> clock_at(std::size_t& j, std::string& said) const {
    const std::optional<Figure> f = figure_at(t_, j);
    if (!f) return std::nullopt;
    j = f->next;
    said = f->text;
    if (said.size() == 2) {
      const std::optional<Figure> rest = figure_at(t_, j);
      if (rest && rest->text.size() == 2) {
        said += rest->text;
        j = rest->next;
      }
    }
    return clock_minutes(said);
  }
  bool efc() {
    std::size_t j = i_;
    if (is(j, " EFC ")) {
      ++j;
    } else if (is(j, " EXPECT ") && is(j + 1, " FURTHER APPROACH ONWARD ") &&
               is(j + 2, " CLEARANCE ")) {
      j += 3;
    } else {
      return false;
    }
    enter(Naming::none);
    j = skip(j, " TIME AT IS BY ");
    std::string said;
    std::size_t end = j;
    const std::optional<int> at = clock_at(end, said);
    if (at) {
      if (!h_.efc_min) h_.efc_min = at;
      return take(skip(end, " ZULU Z UTC HOURS "));
    }
    // A figure that is no time is read and reported; a word is left for others.
    const std::size_t read = said.empty() ? j : end;
    if (said.empty() && !pause_at(j)) said = t_[j].text;
    add(r_, Doubt::bad_time,
        phrase(said.empty() ? "core.clearance.problem.no_time" : "core.clearance.problem.bad_time",
               {{"said", said.substr(0, kMostWordBytes)}}));
    return take(read);
  }
  bool now() {
    if (!is(i_, " TIME ")) return false;
    std::size_t j = skip(i_ + 1, " NOW IS ");
    std::string said;
    const std::optional<int> at = clock_at(j, said);
    if (!at) return false;
    h_.now_min = at;
    enter(Naming::none);
    return take(skip(j, " ZULU Z UTC HOURS "));
  }
  bool speed() {
    if (!is(i_, " MAXIMUM MAX ")) return false;
    std::size_t j = skip(i_ + 1, " HOLDING INDICATED AIR ");
    if (!is(j, " AIRSPEED SPEED ")) return false;
    j = skip(j + 1, " IS OF ");
    enter(Naming::none);
    const std::optional<Figure> f = figure_at(t_, j);
    if (!f) return take(j);
    if (f->value >= kLeastSpeedKt && f->value <= kMostSpeedKt) {
      h_.max_ias_kt = f->value;
    } else {
      add(r_, Doubt::bad_speed, phrase("core.clearance.problem.bad_speed", {{"said", f->text}}));
    }
    return take(skip(f->next, " KNOTS KNOT KT KTS INDICATED "));
  }

  void set_turns(Side side) {
    if (h_.turns && *h_.turns != side) h_.both_turns = true;
    h_.turns = side;
  }
  bool turns() {
    std::size_t j = i_;
    if (is(j, " NONSTANDARD ") || (is(j, " NON ") && is(j + 1, " STANDARD "))) {
      set_turns(Side::left);
      enter(Naming::none);
      return take(skip(j + (is(j, " NON ") ? 2 : 1), kPatternWords));
    }
    if (is(j, " STANDARD ")) {
      if (is(j + 1, kLegWords)) return take(j + 2);
      if (!is(j + 1, kPatternWords) && !is(j + 1, " LEFT RIGHT ")) return false;
      set_turns(Side::right);
      enter(Naming::none);
      return take(j + 1 + (is(j + 1, kPatternWords) ? 1U : 0U));
    }
    std::size_t side = kNone;
    if (is(j, " LEFT RIGHT ")) {
      side = j;
      j = skip(j + 1, " HAND HANDED ");
      if (!is(j, kPatternWords)) return false;
      // RIGHT HOLD WEST begins with the hold's own word.
      if (!is(j, " HOLD HOLDING ")) ++j;
    } else if (is(j, " TURNS ")) {
      j = skip(j + 1, " TO THE ARE ALL ");
      if (!is(j, " LEFT RIGHT ")) return false;
      side = j++;
    } else {
      return false;
    }
    set_turns(is(side, " LEFT ") ? Side::left : Side::right);
    enter(Naming::none);
    return take(j);
  }

  /// V12, VICTOR 12, LOCALIZER, where no direction is said with it.
  bool route() {
    const bool on = naming_ == Naming::station_before;
    if (on && is(i_, " LOCALIZER AIRWAY ROUTE ")) {
      h_.route = t_[i_].text;
      return take(skip(i_ + 1, " COURSE "));
    }
    if (!is(i_, " V VICTOR J JET ") && !(on && is(i_, " Q QUEBEC T TANGO "))) return false;
    const std::optional<Figure> f = figure_at(t_, i_ + 1);
    if (!f || f->text.size() > 4 || line_kind(skip(f->next, " DEGREE DEGREES "))) return false;
    h_.route = t_[i_].text.substr(0, 1) + f->text;
    return take(f->next);
  }

  [[nodiscard]] std::optional<Reference> line_kind(std::size_t j) const {
    if (is(j, " RADIAL AZIMUTH ")) return Reference::radial;
    if (is(j, " BEARING ")) return Reference::bearing;
    if (is(j, " COURSE TRACK ")) return Reference::course;
    return std::nullopt;
  }
  /// INBOUND or OUTBOUND at `j`.
  [[nodiscard]] Sense sense_at(std::size_t j) const {
    return is(j, " INBOUND ") ? Sense::to : is(j, " OUTBOUND ") ? Sense::from : Sense::unsaid;
  }

  /// Words behind the number and its kind: TO, FROM, OF a station; then the end.
  void line(Reference kind, Sense sense, const Figure& f, std::size_t j) {
    const bool on = naming_ == Naming::station_before;
    if (kind != Reference::radial && sense == Sense::unsaid) {
      sense = sense_at(j);
      if (sense != Sense::unsaid) ++j;
    }
    const bool of = is(j, " OF FROM TO ");
    if (of && kind != Reference::radial && sense == Sense::unsaid && !is(j, " OF ")) {
      sense = is(j, " TO ") ? Sense::to : Sense::from;
      // A course FROM a station is a line that leaves it, like a radial.
      if (sense == Sense::from) kind = Reference::bearing;
    }
    if (of) ++j;
    name_station_before();
    take(j);
    set_line(kind, sense, f, on);
    if (of) {
      enter(Naming::station_after);
    } else if (on || naming_ == Naming::station_after) {
      enter(Naming::none);
    }
  }
  void name_station_before() {
    if (naming_ == Naming::station_before && !station_.empty()) name_station();
  }
  void set_line(Reference kind, Sense sense, const Figure& f, bool on) {
    if (f.value > 360.0 || f.whole_digits < 1 || f.value != std::floor(f.value)) {
      add(r_, Doubt::bad_direction,
          phrase("core.clearance.problem.bad_direction", {{"said", f.text}}));
      return;
    }
    const int deg = f.value > 0.0 ? static_cast<int>(f.value) : 360;
    if (f.whole_digits < 3) {
      add(r_, Doubt::short_direction,
          phrase("core.clearance.problem.short_direction",
                 {{"said", f.text}, {"taken", digits_3(deg)}}));
    }
    const bool line_before =
        h_.reference == Reference::radial || h_.reference == Reference::bearing;
    const bool inbound = kind == Reference::course && sense == Sense::to;
    if (inbound && line_before) {
      h_.inbound_said_deg = deg;
    } else if (!h_.number_deg) {
      put_line(kind, sense, deg, on);
    } else if (!line_before && kind != Reference::course && h_.sense == Sense::to) {
      h_.inbound_said_deg = h_.number_deg;
      put_line(kind, sense, deg, on);
    } else if (*h_.number_deg == deg && h_.reference == kind) {
      return;
    } else if (on && line_on_) {
      h_.other_number_deg = deg;
    } else {
      const int spare = on ? *h_.number_deg : deg;
      if (on) put_line(kind, sense, deg, on);
      add(r_, Doubt::spare_line,
          phrase("core.clearance.problem.spare_line", {{"number", digits_3(spare)}}));
    }
  }
  void put_line(Reference kind, Sense sense, int deg, bool on) {
    h_.reference = kind;
    h_.sense = sense;
    h_.number_deg = deg;
    line_on_ = on;
  }

  void set_leg(Leg::Kind kind, double value, const std::string& said) {
    const Leg leg{kind, kind == Leg::Kind::time ? std::floor(value + 0.5) : value};
    if (!in_range(leg)) {
      add(r_, Doubt::bad_leg, phrase("core.clearance.problem.bad_leg", {{"said", said}}));
    } else if (!h_.leg) {
      h_.leg = leg;
    } else if (!(*h_.leg == leg)) {
      h_.other_leg = leg;
    }
  }
  /// Length with its unit at `f`: its value in the unit of the kind. Moves `j` behind it.
  struct Length {
    Leg::Kind kind;
    double value;
  };
  [[nodiscard]] std::optional<Length> length(const Figure& f, std::size_t& j) const {
    const std::size_t nautical = j + (is(j, " NAUTICAL ") ? 1 : 0);
    if (is(nautical, kMiles)) {
      j = nautical + 1;
      return Length{Leg::Kind::distance, f.value};
    }
    if (f.text.find(':') != Text::npos) {
      const std::optional<double> s = read_time(f.text);
      if (!s) return std::nullopt;
      j = skip(j, kMinutes);
      return Length{Leg::Kind::time, *s};
    }
    if (is(j, kSeconds)) {
      ++j;
      return Length{Leg::Kind::time, f.value};
    }
    if (!is(j, kMinutes)) return std::nullopt;
    ++j;
    double s = 60.0 * f.value;
    const std::size_t k = skip(j, " AND ");
    const std::optional<Figure> more = figure_at(t_, k);
    if (more && is(more->next, kSeconds)) {
      s += more->value;
      j = more->next + 1;
    }
    return Length{Leg::Kind::time, s};
  }

  bool dme_fix(const Figure& f, std::size_t j) {
    if (!(f.value > 0.0 && f.value <= kMostDmeNm)) return false;
    if (h_.dme_nm && *h_.dme_nm != f.value) return false;
    h_.dme_nm = f.value;
    take(skip(j, " DME FIX "));
    if (naming_ != Naming::fix && naming_ != Naming::limit) enter(Naming::none);
    if (is(i_, " OF FROM ")) {
      take(i_ + 1);
      enter(Naming::station_after);
    }
    return true;
  }
  bool figure() {
    const std::optional<Figure> f = figure_at(t_, i_);
    if (!f) {
      if (t_[i_].kind == Token::Kind::number) stray_end_ = i_ + 1;
      return false;
    }
    // Half a number is another number: "2 65 RADIAL" is not the 65 radial.
    if (stray_end_ != i_ && (line_after(*f) || measure(*f))) return true;
    // THREE RIVERS is a name.
    const bool name = naming_ == Naming::fix || naming_ == Naming::limit;
    if (name && f->next == i_ + 1 && t_[i_].kind == Token::Kind::word && to_name()) return true;
    i_ = f->next;
    stray_end_ = i_;
    enter(Naming::none);
    return true;
  }
  bool line_after(const Figure& f) {
    std::size_t j = skip(f.next, " DEGREE DEGREES MAGNETIC ");
    const Sense sense = sense_at(j);
    if (sense != Sense::unsaid) ++j;
    const std::optional<Reference> kind = line_kind(j);
    if (!kind || (*kind == Reference::radial && sense != Sense::unsaid)) return false;
    line(*kind, sense, f, j + 1);
    return true;
  }
  bool measure(const Figure& f) {
    std::size_t j = f.next;
    if (is(j, " DME ")) return dme_fix(f, j);
    const bool alone = i_ == 0 || pause_at(i_ - 1);
    if (is(j, kLegWords)) {
      if (f.text.find(':') == Text::npos) {
        add(r_, Doubt::bad_leg, phrase("core.clearance.problem.bad_leg", {{"said", f.text}}));
        enter(Naming::none);
        return take(j + 1);
      }
    }
    const std::optional<Length> l = length(f, j);
    if (!l) return false;
    if (l->kind == Leg::Kind::distance && is(j, " DME FIX ")) return dme_fix(f, j);
    const bool leg = is(j, kLegWords);
    if (!leg && !(alone && pause_at(j))) return false;
    set_leg(l->kind, l->value, f.text);
    enter(Naming::none);
    return take(j + (leg ? 1 : 0));
  }

  /// RADIAL 265, R-265, INBOUND COURSE 085: the kind before the number.
  bool worded_line() {
    std::size_t j = i_;
    const Sense sense = sense_at(j);
    if (sense != Sense::unsaid) ++j;
    const std::optional<Reference> kind =
        is(j, " R ") ? std::optional<Reference>(Reference::radial) : line_kind(j);
    if (!kind || (*kind == Reference::radial && sense != Sense::unsaid)) return false;
    j = skip(j + 1, " OF IS ");
    // Three figures and no more: a leg may follow without a pause.
    std::vector<Token> three;
    for (std::size_t k = j; k < t_.size() && k < j + 3; ++k) three.push_back(t_[k]);
    const std::optional<Figure> f = figure_at(three, 0);
    if (!f) return false;
    line(*kind, sense, *f, skip(j + f->next, " DEGREE DEGREES MAGNETIC "));
    return true;
  }
  /// LEGS 5 MILES, OUTBOUND TIME 1 MINUTE.
  bool worded_leg() {
    if (!is(i_, kLegWords) && !(is(i_, " OUTBOUND ") && is(i_ + 1, " TIME LEG LEGS DISTANCE "))) {
      return false;
    }
    const std::size_t j = skip(i_, " LEG LEGS OUTBOUND LENGTH TIME DISTANCE OF ARE IS ");
    const std::optional<Figure> f = figure_at(t_, j);
    if (!f) return false;
    std::size_t end = f->next;
    const std::optional<Length> l = length(*f, end);
    if (!l) return false;
    // The ICAO form gives the time outbound.
    if (is(i_, " OUTBOUND ") && l->kind == Leg::Kind::time) h_.leg_is_outbound = true;
    set_leg(l->kind, l->value, f->text);
    enter(Naming::none);
    return take(end);
  }

  bool aid() {
    const bool fix = naming_ == Naming::fix || naming_ == Naming::limit;
    std::optional<Aid> said;
    if (is(i_, " VOR VORTAC TACAN VOR/DME ")) said = Aid::vor;
    if (is(i_, " NDB NDB/DME BEACON LOCATOR LOM ")) said = Aid::ndb;
    if (is(i_, " GPS GNSS RNAV SATELLITE WAYPOINT ")) said = Aid::satellite;
    if (said) {
      // The station of the radial counts more than what stands at the fix.
      if (!h_.aid || !fix) h_.aid = said;
      if (fix) (*said == Aid::satellite ? h_.fix_is_waypoint : h_.fix_is_station) = true;
    } else if (is(i_, " INTERSECTION INT FIX ")) {
      if (fix) h_.fix_is_waypoint = true;
    } else if (!is(i_, " DME NAVAID STATION ")) {
      return false;
    }
    return take(i_ + 1);
  }

  void other() {
    const bool letter = is(i_, " A ") && i_ + 1 < t_.size() && t_[i_ + 1].text.size() == 1;
    if (is(i_, kFillers) && !(letter && words())) {
      if (is(i_, " ON ")) {
        enter(Naming::station_before);
      } else if (is(i_, " AT OVER BY ")) {
        enter(Naming::none);
      }
      take(i_ + 1);
      return;
    }
    if (t_[i_].kind == Token::Kind::word && !is(i_, kNameEnds) && to_name()) return;
    enter(Naming::none);
    ++i_;
  }

  void finish() {
    const std::string limit = named(limit_);
    h_.fix = named(fix_);
    if (h_.fix.empty()) h_.fix = limit;
    if (h_.reference == Reference::none && !h_.route.empty()) h_.reference = Reference::route;
    if (h_.reference == Reference::radial && !h_.aid) h_.aid = Aid::vor;
    for (std::size_t k = 0; k < t_.size(); ++k) {
      if (used_[k] || t_[k].kind == Token::Kind::pause) continue;
      if (++r_.unread_count > kMostUnread) continue;
      const std::string& text = t_[k].text;
      r_.unread.push_back(text.size() > kMostWordBytes ? text.substr(0, kMostWordBytes) + "…"
                                                       : text);
    }
  }

  const std::vector<Token>& t_;
  ReadClearance& r_;
  HeardClearance& h_;
  std::vector<char> used_;
  std::size_t i_ = 0;
  std::size_t stray_end_ = kNone;  ///< end of the last number that meant nothing
  Naming naming_ = Naming::none;
  bool line_on_ = false;  ///< the line followed ON: it is the one to hold on
  Words fix_, limit_, station_;
};

}  // namespace

void hear_clearance(std::string_view text, ReadClearance& r) {
  const Hearing hearing = hear(text);
  if (hearing.cut) {
    add(r, Doubt::cut, std::string(word("core.clearance.problem.cut")));
  }
  Reader(hearing.tokens, r).run();
}

}  // namespace core
