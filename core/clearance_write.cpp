// Composes a clearance. Its words are the phraseology itself, which is English whatever the
// page's language is and which read_clearance knows: they are not in the catalogue.
#include "core/clearance_parts.h"
#include "core/spoken.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

constexpr std::size_t kMostSpecNameBytes = 24;

std::string clean_name(std::string_view name) {
  std::string out;
  for (char c : name) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    const bool kept = (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (kept) {
      out += c;
    } else if ((c == ' ' || c == '-') && !out.empty() && out.back() != ' ') {
      out += ' ';
    }
    if (out.size() == kMostSpecNameBytes) break;
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

double tenths(double v) { return std::floor(v * 10.0 + 0.5) / 10.0; }

struct Composer {
  Figures figures;
  std::string out;

  Composer& say(std::string_view text) {
    if (text.empty()) return *this;
    if (!out.empty()) out += ' ';
    out += text;
    return *this;
  }
  Composer& number(const std::string& numerals) {
    return say(figures == Figures::spoken ? spelled(numerals) : numerals);
  }
  Composer& comma() {
    out += ',';
    return *this;
  }

  void leg(const Leg& leg) {
    if (leg.kind == Leg::Kind::distance) {
      comma().number(write_number(tenths(leg.value))).say("MILE LEGS");
      return;
    }
    const int s = static_cast<int>(std::floor(leg.value + 0.5));
    const int rest = s % 60;
    const int whole = s / 60;
    comma();
    if (s > 60 && rest == 30) {
      number(write_number(whole) + ".5").say("MINUTE LEGS");
      return;
    }
    if (s >= 60) number(write_number(whole)).say("MINUTE");
    if (rest > 0) number(write_number(rest)).say("SECOND");
    say("LEGS");
  }
};

}  // namespace

std::string compose_clearance(const ClearanceSpec& spec, Figures figures) {
  if (!std::isfinite(spec.inbound_deg)) return {};
  const double inbound = wrap_360(std::floor(wrap_360(spec.inbound_deg) + 0.5));
  const double pattern = wrap_360(inbound + 180.0);
  const Station::Place station = spec.aid == Aid::satellite ? Station::Place::at_fix : spec.station;
  const double dme = tenths(spec.dme_nm);
  if (station != Station::Place::at_fix && !(dme > 0.0 && dme <= kMostDmeNm)) return {};
  const std::string fix = clean_name(spec.fix);

  Composer c{figures, {}};
  if (spec.published && !fix.empty()) c.say("CLEARED TO").say(fix).comma();
  c.say("HOLD").say(kEighthWords[nearest_eighth(pattern)]);
  if (spec.published) {
    c.comma().say("AS PUBLISHED");
  } else {
    if (spec.aid == Aid::satellite) {
      c.say("OF THE").say(fix).say("WAYPOINT");
    } else if (station != Station::Place::at_fix) {
      c.say("OF THE").say(fix).number(write_number(dme)).say("DME FIX");
    } else if (!fix.empty()) {
      c.say("OF").say(fix);
    }
    c.say("ON THE");
    const double line = station == Station::Place::behind ? inbound : pattern;
    const std::string name =
        station == Station::Place::at_fix ? std::string() : clean_name(spec.station_name);
    switch (spec.aid) {
      case Aid::satellite:
        c.number(digits_3(inbound)).say("COURSE");
        break;
      case Aid::ndb:
        c.number(digits_3(line)).say("BEARING FROM THE").say(name).say("NDB");
        break;
      case Aid::vor:
        c.say(name).number(digits_3(line)).say("RADIAL");
        break;
    }
    if (spec.leg && in_range(*spec.leg)) c.leg(*spec.leg);
    if (spec.turns == Side::left) c.comma().say("LEFT TURNS");
    if (spec.turns == Side::right && spec.say_right_turns) c.comma().say("RIGHT TURNS");
  }
  if (spec.efc_min && *spec.efc_min >= 0 && *spec.efc_min < 24 * 60) {
    std::string time = write_clock(*spec.efc_min);
    time.erase(2, 1);
    c.comma().say("EXPECT FURTHER CLEARANCE").number(time);
  }
  if (spec.max_ias_kt && *spec.max_ias_kt >= kLeastSpeedKt && *spec.max_ias_kt <= kMostSpeedKt) {
    c.comma().say("MAXIMUM HOLDING AIRSPEED IS").number(fixed(*spec.max_ias_kt, 0)).say("KNOTS");
  }
  return c.out + '.';
}

}  // namespace core
