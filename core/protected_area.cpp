#include "core/protected_area.h"

#include "core/words.h"

namespace core {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
/// Steps of the still-air lines, degrees of turn: between two circles the wrap then cuts
/// the line by r (1 - cos 2.5), a thousandth of the radius.
constexpr double kTemplateStepDeg = 5.0;
/// The same for the entries, whose many lines overlap.
constexpr double kEntryStepDeg = 15.0;
constexpr double kOffsetEntryDeg = 30.0;
/// Beyond inbound, the parallel entry turns on to an intercept.
constexpr double kInterceptDeg = 30.0;
/// A leg of 50 NM, the longest that a link can ask for, takes less at any holding speed.
constexpr double kMostAreaOutboundS = 3600.0;

std::size_t index(int i) { return static_cast<std::size_t>(i); }

/// Aircraft in still air in the hold's frame, with the time it has flown since the fix.
struct Still {
  Vec2 at{0.0, 0.0};
  double delta_deg = 180.0;  ///< inbound
  double s = 0.0;
};

/// Flies the still-air lines and wraps a drift circle about each of their points.
class Drawer {
 public:
  Drawer(const TemplateTerms& terms, double tolerance_nm, CircleWrap& wrap, double step_deg)
      : t_(terms), tolerance_nm_(tolerance_nm), wrap_(wrap), step_deg_(step_deg) {}

  void mark(const Still& a) { wrap_.add(a.at, a.s * t_.w_nm_s + tolerance_nm_); }
  void straight(Still& a, double seconds) {
    a.at = a.at + hold_frame_unit(a.delta_deg) * (seconds * t_.v_nm_s);
    a.s += seconds;
    mark(a);
  }
  /// `angle_deg` > 0 turns the way the pattern does.
  void turn(Still& a, double angle_deg) {
    const int steps = static_cast<int>(std::ceil(std::abs(angle_deg) / step_deg_));
    const Still start = a;
    for (int i = 1; i <= steps; ++i) {
      a = turned(start, angle_deg * i / steps);
      mark(a);
    }
  }
  [[nodiscard]] Still turned(const Still& a, double angle_deg) const {
    const SinCos from = sincos_deg(a.delta_deg);
    const SinCos to = sincos_deg(a.delta_deg + angle_deg);
    const double r = angle_deg >= 0.0 ? t_.radius_nm : -t_.radius_nm;
    return {a.at + Vec2{to.sin - from.sin, to.cos - from.cos} * r, a.delta_deg + angle_deg,
            a.s + std::abs(angle_deg) / t_.rate_deg_s};
  }

 private:
  const TemplateTerms& t_;
  double tolerance_nm_;
  CircleWrap& wrap_;
  double step_deg_;
};

constexpr double kLateS = kReactionS + kBankEstablishS;  // 11 s

/// Steps 3.3.2.2.2 (from memory): latest and earliest outbound turn, outbound legs five
/// degrees either way, short and long, and the inbound turn from each of their ends.
void draw_template(const TemplateTerms& t, Drawer& d,
                   std::array<TemplatePoint, ProtectedArea::kTemplatePoints>& points) {
  int count = 0;
  const auto name = [&](const char* letter, const Still& a) {
    points[index(count++)] = {letter, a.at, a.s * t.w_nm_s};
  };
  Still a;
  d.mark(a);
  name("a", a);
  Still b = a;
  d.straight(b, kBankEstablishS);
  name("b", b);
  Still c = a;
  d.straight(c, kLateS);
  name("c", c);
  name("d", d.turned(c, 45.0));
  name("e", d.turned(c, 90.0));
  name("f", d.turned(c, 135.0));
  Still g = c;
  d.turn(g, 180.0);
  name("g", g);
  Still h = b;
  d.turn(h, 270.0);
  name("h", h);
  // i1, i2 on the line away from the inbound track, i3, i4 on the one toward it; those on
  // the headings between have no letter.
  constexpr const char* kEnds[] = {"i1", "i2", "i3", "i4"};
  constexpr double kShares[] = {-1.0, 1.0, -0.5, 0.0, 0.5};
  Still ends[10];
  for (int k = 0; k < 10; ++k) {
    Still i = g;
    i.delta_deg += kHeadingToleranceDeg * kShares[k / 2];
    // Late, the leg is timing and the pilot's delay longer; early, as much shorter as the
    // turn to outbound had been late.
    d.straight(i, k % 2 == 0 ? t.t_s - kTimingS + kBankEstablishS : t.t_s + kTimingS + kLateS);
    if (k < 4) name(kEnds[k], i);
    // The inbound turn is drawn from the nominal outbound heading: its centre lies square
    // to the nominal leg.
    i.delta_deg = g.delta_deg;
    ends[k] = i;
  }
  name("j", d.turned(ends[1], 45.0));
  name("k", d.turned(ends[1], 90.0));
  name("l", d.turned(ends[3], 90.0));
  name("m", d.turned(ends[3], 135.0));
  name("n3", d.turned(ends[2], 180.0));
  name("n4", d.turned(ends[3], 180.0));
  for (Still& i : ends) d.turn(i, 180.0);
}

/// How far the inbound turn of a direct or offset entry is drawn, from outbound: as XE has
/// it (195 = 90 + 105). From there on the aircraft flies the pattern, whose own inbound
/// turn the template has.
constexpr double kInboundTurnDeg = 105.0;

/// One entry, flown late: on for 11 s, round to outbound, out for the time and its
/// tolerance with five degrees of heading either way, and into the inbound turn.
void draw_entry(const TemplateTerms& t, Drawer& d, double arrival_deg, EntryKind kind) {
  for (const double error : {-kHeadingToleranceDeg, 0.0, kHeadingToleranceDeg}) {
    Still a;
    a.delta_deg = arrival_deg;
    d.straight(a, kLateS);
    double outbound = 0.0;
    double turn = 0.0;
    double back = kInboundTurnDeg;
    switch (kind) {
      case EntryKind::direct:
        turn = turn_angle(-arrival_deg);
        break;
      case EntryKind::offset:
        outbound = -kOffsetEntryDeg;
        turn = outbound - arrival_deg;
        back += kOffsetEntryDeg;
        break;
      case EntryKind::parallel:
        turn = -arrival_deg;
        back = -(180.0 + kInterceptDeg);
        break;
    }
    d.turn(a, turn);
    a.delta_deg = outbound + error;
    d.straight(a, t.t_s + kTimingS + kBankEstablishS);
    a.delta_deg = outbound;
    d.turn(a, back);
  }
}

void draw_entries(const TemplateTerms& t, Drawer& d) {
  constexpr int kArrivals = 36;
  for (int i = 0; i < kArrivals; ++i) {
    const double delta = 360.0 / kArrivals * i - 180.0;
    const bool offset = delta >= -70.0 && delta <= 0.0;
    const bool parallel = delta >= 0.0 && delta <= 110.0;
    // On a boundary both neighbours are flown.
    if (offset) draw_entry(t, d, delta, EntryKind::offset);
    if (parallel) draw_entry(t, d, delta, EntryKind::parallel);
    if (delta <= -70.0 || delta >= 110.0) draw_entry(t, d, delta, EntryKind::direct);
  }
}

bool within(double v, double low, double high) { return v >= low && v <= high; }

NoArea check(const AreaInputs& in) {
  if (!within(in.altitude_ft, -1000.0, 45000.0)) return NoArea::bad_altitude;
  if (!within(in.ias_kt, 40.0, 600.0)) return NoArea::bad_speed;
  if (!within(in.outbound_s, kBankEstablishS, kMostAreaOutboundS)) return NoArea::bad_time;
  if (!within(in.bank_deg, 1.0, 60.0)) return NoArea::bad_turn;
  if (!within(in.isa_deviation_c, -100.0, 100.0)) return NoArea::bad_altitude;
  if (!within(in.fix_tolerance_nm, 0.0, 50.0)) return NoArea::bad_tolerance;
  return NoArea::none;
}

struct Least {
  double nm = std::numeric_limits<double>::infinity();
  double at_s = 0.0;
  void take(double v, double t) {
    // Of equals the first: rounding must not choose between laps that are alike.
    constexpr double kAlikeNm = 1e-9;
    if (v >= nm - kAlikeNm) return;
    nm = v;
    at_s = t;
  }
};

/// Least distance inside over one piece from `from_s` after its start. On a straight the
/// distance inside a convex line is concave, so an end is least; a turn is searched.
void least_on(const Segment& s, double from_s, const Outline& outline, Least& least) {
  const auto f = [&](double t) { return inside_nm(outline, s.position_at(t)); };
  const double span = s.duration_s - from_s;
  const int steps = s.straight()
                        ? (s.even() ? 1 : 12)
                        : static_cast<int>(std::ceil(std::abs(s.rate_deg_s) * span / 6.0)) + 1;
  const double h = span / steps;
  int best = 0;
  double best_nm = f(from_s);
  for (int i = 1; i <= steps; ++i) {
    const double v = f(i < steps ? from_s + h * i : s.duration_s);
    if (v >= best_nm) continue;
    best_nm = v;
    best = i;
  }
  const double before = least.nm;
  least.take(best_nm, s.start_s + from_s + h * best);
  // The distance changes no faster than the aircraft moves: where the least sample is out
  // of reach of the least so far, so is all between the samples.
  if (steps == 1 || best_nm - (s.speed_nm_s + length(s.wind_nm_s)) * h > before) return;
  constexpr double kGolden = 0.6180339887498949;
  double a = from_s + h * (best > 0 ? best - 1 : 0);
  double b = from_s + h * (best < steps ? best + 1 : steps);
  double x1 = b - kGolden * (b - a);
  double x2 = a + kGolden * (b - a);
  double f1 = f(x1);
  double f2 = f(x2);
  for (int i = 0; i < 28; ++i) {
    if (f1 < f2) {
      b = x2;
      x2 = x1;
      f2 = f1;
      x1 = b - kGolden * (b - a);
      f1 = f(x1);
    } else {
      a = x1;
      x1 = x2;
      f1 = f2;
      x2 = a + kGolden * (b - a);
      f2 = f(x2);
    }
  }
  least.take(f1, s.start_s + x1);
  least.take(f2, s.start_s + x2);
}

Least least_inside(const Outline& outline, const Track& track) {
  Least least;
  for (const Segment& s : track) {
    if (s.end_s() < 0.0) continue;
    least_on(s, s.start_s < 0.0 ? -s.start_s : 0.0, outline, least);
  }
  return least;
}

std::string distance(double nm) { return fixed(std::abs(nm), std::abs(nm) < 0.095 ? 2 : 1); }

}  // namespace

std::string_view name_of(NoArea why) {
  constexpr std::string_view kNames[] = {"none",     "bad-altitude",  "bad-speed",    "bad-time",
                                         "bad-turn", "bad-tolerance", "nothing-flown"};
  return kNames[static_cast<int>(why)];
}

ProtectedArea protected_area(const AreaInputs& in) {
  ProtectedArea area;
  area.inputs = in;
  area.why = check(in);
  if (!area.exists()) return area;
  area.terms =
      template_terms(in.ias_kt, in.altitude_ft, in.outbound_s, in.isa_deviation_c, in.bank_deg);
  CircleWrap wrap;
  Drawer basic(area.terms, in.fix_tolerance_nm, wrap, kTemplateStepDeg);
  draw_template(area.terms, basic, area.points);
  area.basic = wrap.outline(in.hold);
  Drawer entries(area.terms, in.fix_tolerance_nm, wrap, kEntryStepDeg);
  draw_entries(area.terms, entries);
  area.entry = wrap.outline(in.hold);
  area.buffer = buffer_edge(area, kBufferNm);
  const Vec2 x = in.hold.outbound_axis();
  const Vec2 y = in.hold.holding_axis();
  for (TemplatePoint& p : area.points) p.at = x * p.at.x + y * p.at.y;
  return area;
}

AreaInputs area_inputs(const Setup& u, const SpeedLimit& limit, double fix_tolerance_nm) {
  AreaInputs in;
  in.hold = u.hold;
  in.ias_kt = limit.ias_kt;
  in.altitude_ft = u.scenario.altitude_ft;
  in.outbound_s = u.published_s;
  in.fix_tolerance_nm = fix_tolerance_nm;
  if (u.leg.kind == Leg::Kind::distance) {
    const TemplateTerms t = template_terms(in.ias_kt, in.altitude_ft, 60.0);
    in.outbound_s = u.leg.value / t.v_nm_s;
  }
  return in;
}

ProtectedArea area_of(const Setup& u) {
  const Scenario& s = u.scenario;
  return protected_area(
      area_inputs(u, greatest_holding_speed(speed_rule_of(s), s.altitude_ft, s.charted_kias)));
}

Outline buffer_edge(const ProtectedArea& area, double nm) {
  return widened(area.entry, area.inputs.hold, nm);
}

InsideBy inside_by_nm(const ProtectedArea& area, const Flight& flight) {
  InsideBy by{area.why, kNaN, kNaN, kNaN, kNaN, kNaN, kNaN};
  if (!area.exists()) return by;
  if (flight.track.size() == 0 || flight.track.end_s() < 0.0) {
    by.why = NoArea::nothing_flown;
    return by;
  }
  const Least basic = least_inside(area.basic, flight.track);
  const Least entry = least_inside(area.entry, flight.track);
  const Least buffer = least_inside(area.buffer, flight.track);
  return {NoArea::none, basic.nm, basic.at_s, entry.nm, entry.at_s, buffer.nm, buffer.at_s};
}

std::string_view caption_of_area() { return word("core.area.caption"); }

std::string reason(NoArea why) {
  constexpr const char* kKeys[] = {"core.area.none.none",         "core.area.none.bad_altitude",
                                   "core.area.none.bad_speed",    "core.area.none.bad_time",
                                   "core.area.none.bad_turn",     "core.area.none.bad_tolerance",
                                   "core.area.none.nothing_flown"};
  return std::string(word(kKeys[static_cast<int>(why)]));
}

std::string area_words(const ProtectedArea& area) {
  if (!area.exists()) return reason(area.why);
  const AreaInputs& in = area.inputs;
  return phrase("core.area.drawn_for", {{"ias", fixed(in.ias_kt, 0)},
                                        {"altitude", fixed(in.altitude_ft, 0)},
                                        {"tas", fixed(area.terms.tas_kt, 0)},
                                        {"wind", fixed(area.terms.wind_kt, 0)},
                                        {"bank", fixed(in.bank_deg, 0)},
                                        {"deviation", fixed(in.isa_deviation_c, 0)},
                                        {"time", minutes(in.outbound_s)}});
}

std::string inside_words(const InsideBy& by) {
  if (!by.exists()) return reason(by.why);
  if (by.basic_nm >= 0.0) {
    return phrase("core.area.inside_basic",
                  {{"nm", distance(by.basic_nm)}, {"time", minutes(by.basic_at_s)}});
  }
  if (by.entry_nm >= 0.0) {
    return phrase("core.area.inside_entry", {{"out", distance(by.basic_nm)},
                                             {"time", minutes(by.basic_at_s)},
                                             {"nm", distance(by.entry_nm)}});
  }
  if (by.buffer_nm >= 0.0) {
    return phrase("core.area.in_buffer", {{"out", distance(by.entry_nm)},
                                          {"time", minutes(by.entry_at_s)},
                                          {"nm", distance(by.buffer_nm)}});
  }
  return phrase("core.area.beyond",
                {{"out", distance(by.buffer_nm)}, {"time", minutes(by.buffer_at_s)}});
}

std::string faa_wind_words(double altitude_ft) {
  const std::optional<double> w = faa_design_wind_kt(altitude_ft);
  if (!w) return {};
  return phrase("core.area.faa_wind",
                {{"wind", fixed(*w, 0)}, {"altitude", fixed(altitude_ft, 0)}});
}

}  // namespace core
