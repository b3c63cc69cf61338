// Hears a clearance: the hold, its side, fix, turns, times, and whatever is left.
#include "core/clearance_reader.h"

namespace core {
namespace {

using Text = std::string_view;

constexpr std::size_t kMostNameWords = 4;
constexpr std::size_t kMostNameBytes = 40;
constexpr std::size_t kMostWordBytes = 24;  // of an unread word, as shown

// Lists of words, each with a space before and behind it.
constexpr Text kPatternWords = " TURN TURNS PATTERN HOLD HOLDING CIRCUIT ORBIT ";
/// Read without a meaning of their own.
constexpr Text kFillers =
    " THE A AN AND IS ARE OF TO AT OVER ON BY MAKE YOUR DEGREE DEGREES MAGNETIC PATTERN ";
/// Not part of a name, and what follows is not either.
constexpr Text kNameEnds =
    " VIA MAINTAIN THEN UNTIL DUE DELAY DELAYS TRAFFIC CROSS DESCEND CLIMB FOR WITH AFTER WHEN "
    "BEFORE ADVISE REPORT CONTACT SQUAWK UPON EXPECT CLEARED IN AS FROM FLY HEADING TURN LEFT "
    "RIGHT MAXIMUM TIME INBOUND OUTBOUND LEG LEGS ALTITUDE FEET KNOTS THAT YOU IF NO ";

bool among(Text list, Text w) {
  for (std::size_t at = list.find(w); at != Text::npos; at = list.find(w, at + 1)) {
    if (at > 0 && list[at - 1] == ' ' && list[at + w.size()] == ' ') return true;
  }
  return false;
}

}  // namespace

void ClearanceReader::run() {
  while (i_ < t_.size()) {
    if (t_[i_].kind == Token::Kind::pause) {
      enter(Naming::none);
      ++i_;
      continue;
    }
    if (is(i_, " BETWEEN ")) {  // two distances: neither is the fix's
      enter(Naming::none);
      while (!pause_at(i_)) ++i_;
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

bool ClearanceReader::is(std::size_t j, Text list) const {
  return j < t_.size() && t_[j].kind == Token::Kind::word && among(list, t_[j].text);
}

std::size_t ClearanceReader::skip(std::size_t j, Text list) const {
  while (is(j, list)) ++j;
  return j;
}

bool ClearanceReader::pause_at(std::size_t j) const {
  return j >= t_.size() || t_[j].kind == Token::Kind::pause;
}

bool ClearanceReader::take(std::size_t j) {
  for (; i_ < j && i_ < t_.size(); ++i_) used_[i_] = 1;
  return true;
}

ClearanceReader::Words* ClearanceReader::words() {
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

void ClearanceReader::enter(Naming next) {
  if (naming_ == Naming::station_after) name_station();
  if (naming_ == Naming::station_before) station_.clear();
  // A second fix is not a longer name of the first.
  if (next == Naming::fix && !fix_.empty()) next = Naming::none;
  if (next == Naming::limit && !limit_.empty()) next = Naming::none;
  naming_ = next;
}

std::string ClearanceReader::joined(const Words& words) const {
  std::string out;
  for (std::size_t k = 0; k < words.size(); ++k) {
    const Token& token = t_[words[k]];
    const bool letters = k > 0 && token.text.size() == 1 && t_[words[k - 1]].text.size() == 1;
    if (k > 0 && !token.glued && !letters) out += ' ';
    out += token.text;
  }
  return out.size() > kMostNameBytes ? std::string() : out;
}

std::string ClearanceReader::named(const Words& words) {
  std::string name = joined(words);
  if (!name.empty()) {
    for (const std::size_t w : words) used_[w] = 1;
  }
  return name;
}

void ClearanceReader::name_station() {
  if (h_.station.empty()) h_.station = named(station_);
  station_.clear();
}

bool ClearanceReader::to_name() {
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

bool ClearanceReader::glued_to_name() {
  const Words* name = words();
  if (!name || name->empty() || name->back() + 1 != i_) return false;
  const Token& token = t_[i_];
  return token.glued && token.kind == Token::Kind::number && to_name();
}

std::optional<int> ClearanceReader::direction_at(std::size_t& j) const {
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

void ClearanceReader::set_direction(int e) {
  if (!h_.direction) {
    h_.direction = e;
  } else if (*h_.direction != e && !h_.other_direction) {
    h_.other_direction = e;
  }
}

bool ClearanceReader::hold() {
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

bool ClearanceReader::bare_direction() {
  if (i_ > 0 && !pause_at(i_ - 1) && !used_[i_ - 1]) return false;
  std::size_t j = i_;
  const std::optional<int> e = direction_at(j);
  if (!e || !is(j, " OF ")) return false;
  set_direction(*e);
  take(j + 1);
  enter(Naming::fix);
  return true;
}

bool ClearanceReader::limit() {
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

bool ClearanceReader::published() {
  const std::size_t j = i_ + (is(i_, " AS ") ? 1 : 0);
  if (!is(j, " PUBLISHED CHARTED DEPICTED ")) return false;
  h_.published = true;
  enter(Naming::none);
  return take(j + 1);
}

std::optional<int> ClearanceReader::clock_at(std::size_t& j, std::string& said) const {
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

bool ClearanceReader::efc() {
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
  add(r_, Doubt::bad_time, 0.0, said.substr(0, kMostWordBytes), said.empty() ? ".none" : "");
  return take(read);
}

bool ClearanceReader::now() {
  if (!is(i_, " TIME ")) return false;
  std::size_t j = skip(i_ + 1, " NOW IS ");
  std::string said;
  const std::optional<int> at = clock_at(j, said);
  if (!at) return false;
  h_.now_min = at;
  enter(Naming::none);
  return take(skip(j, " ZULU Z UTC HOURS "));
}

bool ClearanceReader::speed() {
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
    add(r_, Doubt::bad_speed, 0.0, f->text);
  }
  return take(skip(f->next, " KNOTS KNOT KT KTS INDICATED "));
}

void ClearanceReader::set_turns(Side side) {
  if (h_.turns && *h_.turns != side) h_.both_turns = true;
  h_.turns = side;
}

bool ClearanceReader::turns() {
  std::size_t j = i_;
  if (is(j, " NONSTANDARD ") || (is(j, " NON ") && is(j + 1, " STANDARD "))) {
    set_turns(Side::left);
    enter(Naming::none);
    return take(skip(j + (is(j, " NON ") ? 2 : 1), kPatternWords));
  }
  if (is(j, " STANDARD ")) {
    if (is(j + 1, " LEG LEGS ")) return take(j + 2);
    if (!is(j + 1, kPatternWords) && !is(j + 1, " LEFT RIGHT ")) return false;
    set_turns(Side::right);
    enter(Naming::none);
    return take(j + 1 + (is(j + 1, kPatternWords) ? 1U : 0U));
  }
  std::size_t side = kNowhere;
  const bool after_pause = j == 0 || pause_at(j - 1);
  if (is(j, " LEFT RIGHT L R LEFTHAND RIGHTHAND ")) {
    side = j;
    j = skip(j + 1, " HAND HANDED ");
    if (is(j, kPatternWords)) {
      // RIGHT HOLD WEST begins with the hold's own word.
      if (!is(j, " HOLD HOLDING ")) ++j;
    } else if (!after_pause || !pause_at(j) || is(side, " L R ")) {
      return false;  // between two pauses the side is enough, but for a letter
    }
  } else if (is(j, " TURNS ") || (h_.hold && after_pause && is(j, " TURN "))) {
    // TURN LEFT, a HEADING is no turn of the hold.
    const bool one = is(j, " TURN ");
    j = skip(j + 1, " TO THE ARE ALL ");
    if (!is(j, " LEFT RIGHT ") || (one && !pause_at(j + 1))) return false;
    side = j++;
  } else {
    return false;
  }
  set_turns(is(side, " LEFT L LEFTHAND ") ? Side::left : Side::right);
  enter(Naming::none);
  return take(j);
}

bool ClearanceReader::aid() {
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

void ClearanceReader::other() {
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

void ClearanceReader::finish() {
  const std::string limit = named(limit_);
  h_.fix = named(fix_);
  if (h_.fix.empty()) h_.fix = limit;
  if (name_before_line_ && h_.dme_nm) {
    if (h_.station.empty()) h_.station = h_.fix;
    h_.fix.clear();
  }
  if (h_.reference == Reference::none && !h_.route.empty()) h_.reference = Reference::route;
  if (h_.reference == Reference::radial && !h_.aid) h_.aid = Aid::vor;
  for (std::size_t k = 0; k < t_.size(); ++k) {
    if (used_[k] || t_[k].kind == Token::Kind::pause) continue;
    if (++r_.unread_count > kMostUnread) continue;
    const std::string& text = t_[k].text;
    r_.unread.push_back(text.size() > kMostWordBytes ? text.substr(0, kMostWordBytes) + "…" : text);
  }
}

void hear_clearance(std::string_view text, ReadClearance& r) {
  const Hearing hearing = hear(text);
  if (hearing.cut) {
    add(r, Doubt::cut);
  }
  ClearanceReader(hearing.tokens, r).run();
}

}  // namespace core
