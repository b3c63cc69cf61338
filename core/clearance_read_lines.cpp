// Hears the numbers of a clearance: the line to hold on, the DME distance, the leg.
#include "core/clearance_reader.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

// Lists of words, each with a space before and behind it.
constexpr std::string_view kLegWords = " LEG LEGS ";
constexpr std::string_view kMiles = " MILE MILES NM NMI ";
constexpr std::string_view kMinutes = " MINUTE MINUTES MIN MINS ";
constexpr std::string_view kSeconds = " SECOND SECONDS SEC SECS ";

}  // namespace

bool ClearanceReader::route() {
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

std::optional<Reference> ClearanceReader::line_kind(std::size_t j) const {
  if (is(j, " RADIAL AZIMUTH ")) return Reference::radial;
  if (is(j, " BEARING ")) return Reference::bearing;
  if (is(j, " COURSE TRACK ")) return Reference::course;
  return std::nullopt;
}

Sense ClearanceReader::sense_at(std::size_t j) const {
  return is(j, " INBOUND ") ? Sense::to : is(j, " OUTBOUND ") ? Sense::from : Sense::unsaid;
}

void ClearanceReader::line(Reference kind, Sense sense, const Figure& f, std::size_t j) {
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
  // OF THE ABC 265 RADIAL: the name is the station's, whatever the fix is.
  const Words* name = words();
  if (name && !name->empty() && naming_ != Naming::station_after) name_before_line_ = true;
  take(j);
  set_line(kind, sense, f, on);
  if (of) {
    enter(Naming::station_after);
  } else if (on || naming_ == Naming::station_after) {
    enter(Naming::none);
  }
}

void ClearanceReader::name_station_before() {
  if (naming_ == Naming::station_before && !station_.empty()) name_station();
}

void ClearanceReader::set_line(Reference kind, Sense sense, const Figure& f, bool on) {
  if (f.value > 360.0 || f.whole_digits < 1 || f.value != std::floor(f.value)) {
    add(r_, Doubt::bad_direction, 0.0, f.text);
    return;
  }
  const int deg = f.value > 0.0 ? static_cast<int>(f.value) : 360;
  if (f.whole_digits < 3) {
    add(r_, Doubt::short_direction, deg, f.text);
  }
  const bool line_before = h_.reference == Reference::radial || h_.reference == Reference::bearing;
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
    add(r_, Doubt::spare_line, 0.0, digits_3(spare));
  }
}

void ClearanceReader::put_line(Reference kind, Sense sense, int deg, bool on) {
  h_.reference = kind;
  h_.sense = sense;
  h_.number_deg = deg;
  line_on_ = on;
}

void ClearanceReader::set_leg(Leg::Kind kind, double value, const std::string& said) {
  const Leg leg{kind, kind == Leg::Kind::time ? std::floor(value + 0.5) : value};
  if (!in_range(leg)) {
    add(r_, Doubt::bad_leg, 0.0, said);
  } else if (!h_.leg) {
    h_.leg = leg;
  } else if (!(*h_.leg == leg)) {
    h_.other_leg = leg;
  }
}

std::optional<ClearanceReader::Length> ClearanceReader::length(const Figure& f,
                                                               std::size_t& j) const {
  const std::size_t nautical = j + (is(j, " NAUTICAL ") ? 1 : 0);
  if (is(nautical, kMiles) || is(j, " DME ")) {
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

bool ClearanceReader::dme_fix(const Figure& f, std::size_t j) {
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

bool ClearanceReader::figure() {
  const std::optional<Figure> f = figure_at(t_, i_);
  if (!f) {
    if (t_[i_].kind == Token::Kind::number) stray_end_ = i_ + 1;
    return false;
  }
  // Half a number is another number: "2 65 RADIAL" is not the 65 radial.
  if (stray_end_ != i_ && (line_after(*f) || measure(*f))) return true;
  // THREE RIVERS is a name.
  if (f->next == i_ + 1 && t_[i_].kind == Token::Kind::word && to_name()) {
    stray_end_ = i_;
    return true;
  }
  i_ = f->next;
  stray_end_ = i_;
  enter(Naming::none);
  return true;
}

bool ClearanceReader::line_after(const Figure& f) {
  std::size_t j = skip(f.next, " DEGREE DEGREES MAGNETIC ");
  const Sense sense = sense_at(j);
  if (sense != Sense::unsaid) ++j;
  const std::optional<Reference> kind = line_kind(j);
  if (!kind || (*kind == Reference::radial && sense != Sense::unsaid)) return false;
  line(*kind, sense, f, j + 1);
  return true;
}

bool ClearanceReader::where_leg_ends() const {
  if (i_ < 2) return false;
  if (is(i_ - 1, " TO ")) return is(i_ - 2, " OUTBOUND LEG LEGS ");
  return i_ > 2 && is(i_ - 1, " AT ") && is(i_ - 2, " INBOUND ") && is(i_ - 3, " TURN ");
}

bool ClearanceReader::measure(const Figure& f) {
  std::size_t j = f.next;
  // But for 6 DME LEGS, which is their length.
  if (is(j, " DME ") && !is(j + 1, kLegWords)) return !where_leg_ends() && dme_fix(f, j);
  const bool alone = i_ == 0 || pause_at(i_ - 1);
  if (is(j, kLegWords)) {
    if (f.text.find(':') == Text::npos) {
      add(r_, Doubt::bad_leg, 0.0, f.text);
      enter(Naming::none);
      return take(j + 1);
    }
  }
  const std::optional<Length> l = length(f, j);
  if (!l) return false;
  if (l->kind == Leg::Kind::distance && is(j, " DME FIX ")) return dme_fix(f, j);
  // 2 MINUTE OUTBOUND LEGS
  const bool sided = is(j, " INBOUND OUTBOUND ") && is(j + 1, kLegWords);
  if (sided && is(j, " OUTBOUND ") && l->kind == Leg::Kind::time) h_.leg_is_outbound = true;
  if (sided) ++j;
  const bool leg = is(j, kLegWords);
  if (!leg && !(alone && pause_at(j))) return false;
  set_leg(l->kind, l->value, f.text);
  enter(Naming::none);
  return take(j + (leg ? 1 : 0));
}

bool ClearanceReader::worded_line() {
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

bool ClearanceReader::worded_leg() {
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

}  // namespace core
