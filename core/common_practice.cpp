#include "core/common_practice.h"

#include "core/explain.h"
#include "core/practice_text.h"

namespace core {
namespace {

constexpr double kOffsetDeg = 30.0;
constexpr double kLeastCrosswindKt = 1.0;
constexpr double kMoreWindKt = 5.0;
/// Two minutes to two and a half where the ratio TAS to groundspeed asks for one and a
/// half: twice and three times what the ratio adds.
constexpr double kLeastExtension = 2.0;
constexpr double kMostExtension = 3.0;

std::string key_of(PracticeId id, std::string_view part) {
  std::string key = "core.practice.";
  key += name_of(id);
  key += '.';
  key += part;
  for (char& c : key) {
    if (c == '-') c = '_';
  }
  return key;
}

PracticeItem item_of(PracticeId id) {
  PracticeItem item;
  item.id = id;
  item.title = word(key_of(id, "title"));
  item.says = std::string(word(key_of(id, "says"))) + " " +
              std::string(word(id == PracticeId::triple ? "core.practice.source.aim"
                                                        : "core.practice.source.common"));
  return item;
}

std::string seconds_text(double s) { return fixed(s, 1) + " s"; }

/// A time outbound; before the clock starts it is negative.
std::string time_text(double s) {
  return s < 0.0 ? phrase("core.practice.before_clock", {{"seconds", fixed(-s, 0)}}) : minutes(s);
}

/// Verdict on a heading by what it rolls out to.
void judge_heading(PracticeItem& item, const Rollout& r) {
  const double off = item.exact ? wrap_180(*item.exact - *item.value) : 0.0;
  item.miss = r.cross_nm;
  const std::string miss = cross_text(r.cross_nm, kGoodRolloutNm);
  const std::string limit = fixed(kGoodRolloutNm, 2);
  if (r.to_go_nm <= 0.0) {
    item.words = word("core.practice.verdict.past_fix");
  } else if (std::abs(r.cross_nm) > kGoodRolloutNm) {
    item.words = phrase("core.practice.verdict.miss", {{"miss", miss}, {"limit", limit}});
    if (item.exact && std::abs(off) >= 0.5) {
      item.words += " " + phrase("core.practice.verdict.further",
                                 {{"degrees", fixed(std::abs(off), 0)}, {"side", side_text(off)}});
    }
  } else if (std::abs(off) > kGoodHeadingDeg) {
    item.words =
        phrase("core.practice.verdict.heading", {{"miss", miss},
                                                 {"degrees", size_text(off, kGoodHeadingDeg, 0)},
                                                 {"limit", fixed(kGoodHeadingDeg, 0)}});
  } else {
    item.good = true;
    item.words = phrase("core.practice.verdict.good", {{"miss", miss}, {"limit", limit}});
  }
}

std::string inbound_text(double inbound_s, double published_s, bool& good) {
  const double late = inbound_s - published_s;
  good = std::abs(late) <= kGoodInboundS;
  if (inbound_s <= 0.0) return std::string(word("core.practice.verdict.past_fix"));
  const std::string size = size_text(late, kGoodInboundS, 1);
  if (size == "0.0") {
    return phrase("core.practice.verdict.time_exact", {{"published", minutes(published_s)}});
  }
  const char* key =
      good ? (late > 0.0 ? "core.practice.verdict.time_good_long"
                         : "core.practice.verdict.time_good_short")
           : (late > 0.0 ? "core.practice.verdict.time_long" : "core.practice.verdict.time_short");
  return phrase(key, {{"inbound", seconds_text(inbound_s)},
                      {"seconds", size},
                      {"published", minutes(published_s)},
                      {"limit", fixed(kGoodInboundS, 0)}});
}

/// Works the practices out one by one; what they share is here.
class Practices {
 public:
  Practices(const WorkedCase& c, const LapStudy& study)
      : c_(c), u_(c.setup), study_(study), timed_(c.setup) {
    timed_.scenario.laps = 0;
    timed_.scenario.time_s = u_.published_s;  // by the clock, also where the leg is a distance
  }
  std::vector<PracticeItem> all();

 private:
  [[nodiscard]] Rollout entry_rollout(const Setup& u, double heading_deg);
  [[nodiscard]] double off_course(double heading_deg) const {
    return wrap_180(heading_deg - u_.hold.outbound_course_deg());
  }
  void entry_heading(PracticeId id);
  void first_minute();
  void slow_outbound();
  void lap_heading_item(PracticeId id, double heading_deg);
  void lap_time_item(PracticeId id, double outbound_s);
  void lap_times();

  const WorkedCase& c_;
  const Setup& u_;
  const LapStudy& study_;
  Setup timed_;
  Flight flight_;
  double lap_heading_deg_ = 360.0;  ///< that timing is judged on: exact, else triple
  LapFit lap_fit_;
  std::vector<PracticeItem> items_;
};

Rollout Practices::entry_rollout(const Setup& u, double heading_deg) {
  fly(u, {u.entry, heading_deg, u.published_s}, flight_);
  return flight_.rollout;
}

void Practices::entry_heading(PracticeId id) {
  const bool once = id == PracticeId::arrival_once;
  const HeadingRule rule = once ? HeadingRule::drift_once : HeadingRule::still_air;
  const std::optional<double> heading = rule_heading(u_, rule);
  if (!heading) return;
  const Rollout r = entry_rollout(timed_, *heading);
  if (!r.exists) return;
  PracticeItem item = item_of(id);
  item.value = *heading;
  const double base = u_.hold.outbound_course_deg();
  if (once) {
    const double still = wrap_360(base - u_.turn_sign * kOffsetDeg);
    const bool none = fixed(std::abs(u_.arrival.wca_deg), 0) == "0";
    item.today =
        phrase(none ? "core.practice.arrival_once.none" : "core.practice.arrival_once.today",
               {{"held", correction_text(u_.arrival.wca_deg)},
                {"base", degrees_3(still)},
                {"heading", degrees_3(*heading)}});
  } else {
    item.today = phrase("core.practice.round_thirty.today", {{"outbound", degrees_3(base)},
                                                             {"turns", side_text(u_.turn_sign)},
                                                             {"heading", degrees_3(*heading)}});
    // tan(a/2) = r / (V T): docs/theory.md "Two facts of still air".
    const double leg_nm = u_.tas_kt * kNmPerSecondPerKnot * u_.published_s;
    item.exactly =
        phrase("core.practice.round_thirty.still",
               {{"angle", fixed(2.0 * kRadToDeg * std::atan2(u_.turn.radius_nm, leg_nm), 1)},
                {"time", minutes(u_.published_s)}}) +
        " ";
  }
  const ExactPlan& exact = c_.heading_for_time;
  if (exact.exists()) {
    item.exact = exact.heading_deg;
    const double off = off_course(exact.heading_deg);
    item.exactly += phrase(fixed(std::abs(off), 0) == "0" ? "core.practice.exact_heading_on"
                                                          : "core.practice.exact_heading",
                           {{"heading", degrees_3(exact.heading_deg)},
                            {"off", correction_text(off)},
                            {"time", minutes(u_.published_s)}});
  } else {
    item.exactly += reason(exact.why);
  }
  judge_heading(item, r);
  items_.push_back(item);
}

void Practices::first_minute() {
  const std::optional<EntryPlan> plan = scenario_plan(u_);
  if (!plan) return;
  const Rollout r = entry_rollout(timed_, plan->heading_deg);
  if (!r.exists) return;
  PracticeItem item = item_of(PracticeId::first_minute);
  const Scenario& s = u_.scenario;
  item.value = u_.published_s;
  item.miss = r.cross_nm;
  const double crosswind_kt = -dot(u_.holding_axis, u_.wind.velocity_kt());
  const WindReading reading = read_rollout(r.cross_nm, crosswind_kt);
  constexpr std::string_view kReadings[] = {
      "core.practice.first_minute.as_allowed", "core.practice.first_minute.stronger",
      "core.practice.first_minute.weaker", "core.practice.first_minute.nothing"};
  item.today = phrase(kReadings[static_cast<int>(reading)],
                      {{"heading", degrees_3(plan->heading_deg)},
                       {"time", minutes(u_.published_s)},
                       {"miss", cross_text(r.cross_nm, kGoodRolloutNm)},
                       {"from", std::string(word(crosswind_kt > 0.0 ? "core.side.holding"
                                                                    : "core.side.nonholding"))}});
  // Without a correction nothing was allowed for; every other plan knows today's wind.
  const bool allowed_none =
      !s.heading_deg && (u_.entry == EntryKind::offset ? s.rule == HeadingRule::still_air
                                                       : s.multiple == 0.0 && !s.exact_multiple);
  const bool across = std::abs(crosswind_kt) >= kLeastCrosswindKt;
  const WindReading truth = !across        ? WindReading::nothing
                            : allowed_none ? WindReading::stronger
                                           : WindReading::as_allowed;
  item.exactly = phrase(allowed_none ? "core.practice.first_minute.none_allowed"
                                     : "core.practice.first_minute.all_allowed",
                        {{"wind", degrees_3(u_.wind.from_deg)},
                         {"speed", fixed(u_.wind.speed_kt, 0)},
                         {"cross", fixed(std::abs(crosswind_kt), 0)}});
  if (across) {
    // The same heading and clock in a little more wind: what the side can really tell.
    Scenario more = timed_.scenario;
    const double speed = u_.wind.speed_kt + kMoreWindKt;
    refer_winds_to_magnetic(more);
    more.wind_from_deg = u_.wind.from_deg;
    more.wind_kt = speed;
    more.entry = u_.entry;
    const Setup v = make_setup(more);
    const Rollout then =
        v.arrival.exists && v.inbound.exists ? entry_rollout(v, plan->heading_deg) : Rollout{};
    if (then.exists) {
      const double moved = then.cross_nm - r.cross_nm;
      item.exactly +=
          " " + phrase("core.practice.first_minute.more",
                       {{"more", fixed(kMoreWindKt, 0)},
                        {"nm", fixed(std::abs(moved), 2)},
                        {"side", std::string(word(moved > 0.0 ? "core.side.holding"
                                                              : "core.side.nonholding"))}});
    }
  }
  item.good = reading == truth && across;
  const char* key =
      !across     ? "core.practice.first_minute.calm"
      : item.good ? (truth == WindReading::stronger ? "core.practice.first_minute.true_stronger"
                                                    : "core.practice.first_minute.true")
      : reading == WindReading::as_allowed ? "core.practice.first_minute.hidden"
      : allowed_none                       ? "core.practice.first_minute.false_none"
      : reading == WindReading::stronger   ? "core.practice.first_minute.false_stronger"
                                           : "core.practice.first_minute.false_weaker";
  item.words = phrase(key, {{"miss", cross_text(r.cross_nm, kGoodRolloutNm)},
                            {"limit", fixed(kGoodRolloutNm, 2)},
                            {"cross", fixed(std::abs(crosswind_kt), 0)}});
  items_.push_back(item);
}

void Practices::slow_outbound() {
  const double published = u_.published_s;
  const double by_speed = published * u_.tas_kt / u_.outbound.groundspeed_kt;
  const bool slow = by_speed > published;
  const double added = slow ? by_speed - published : 0.0;
  const double least = published + kLeastExtension * added;
  const double most =
      std::fmin(published + kMostExtension * added, std::fmax(least, kMostOutboundS));
  const Rollout short_one = lap_rollout(u_, lap_heading_deg_, least);
  const Rollout long_one = lap_rollout(u_, lap_heading_deg_, most);
  if (!short_one.exists || !long_one.exists) return;
  PracticeItem item = item_of(PracticeId::slow_outbound);
  item.least = least;
  item.value = most;
  item.today =
      phrase(slow ? "core.practice.slow_outbound.today" : "core.practice.slow_outbound.fast",
             {{"groundspeed", fixed(u_.outbound.groundspeed_kt, 0)},
              {"tas", fixed(u_.tas_kt, 0)},
              {"by_speed", minutes(by_speed)},
              {"least", minutes(least)},
              {"most", minutes(most)},
              {"published", minutes(published)}});
  if (lap_fit_.exists()) {
    item.exact = lap_fit_.outbound_s;
    item.exactly = phrase(
        "core.practice.exact_lap_time",
        {{"time", time_text(lap_fit_.outbound_s)}, {"heading", degrees_3(lap_heading_deg_)}});
    if (u_.entry == EntryKind::offset && c_.heading_and_time.exists()) {
      item.exactly += " " + phrase("core.practice.slow_outbound.entry",
                                   {{"time", minutes(c_.heading_and_time.time_s)}});
    }
  } else {
    item.exactly = reason(lap_fit_.why);
  }
  const double low = short_one.inbound_s - published;
  const double high = long_one.inbound_s - published;
  if (least > kMostOutboundS) {
    item.words = word("core.practice.verdict.too_long");
  } else if (slow && lap_fit_.exists() && low <= 0.0 && high >= 0.0) {
    item.miss = 0.0;
    item.good = true;
    item.words = word("core.practice.slow_outbound.between");
  } else {
    const bool late = low > 0.0;
    item.miss = late ? low : high;
    const std::string verdict = inbound_text(published + *item.miss, published, item.good);
    item.words = phrase("core.practice.slow_outbound.with",
                        {{"time", minutes(late ? least : most)}, {"verdict", verdict}});
  }
  items_.push_back(item);
}

void Practices::lap_heading_item(PracticeId id, double heading_deg) {
  PracticeItem item = item_of(id);
  const double wca = u_.inbound.wca_deg;
  item.value = wrap_360(heading_deg);
  const bool instead = id != PracticeId::triple && std::abs(wca) <= kTripledUpToDeg;
  item.today =
      phrase(instead ? "core.practice.lap_heading.instead" : "core.practice.lap_heading.today",
             {{"held", correction_text(wca)},
              {"limit", fixed(kTripledUpToDeg, 0)},
              {"off", correction_text(off_course(heading_deg))},
              {"heading", degrees_3(heading_deg)}});
  if (study_.lap.exists()) {
    item.exact = study_.lap.heading_deg;
    item.exactly = phrase(study_.why == NoMultiple::none ? "core.practice.lap_heading.exact"
                                                         : "core.practice.lap_heading.exact_only",
                          {{"multiple", fixed(study_.exact, 1)},
                           {"off", correction_text(off_course(study_.lap.heading_deg))},
                           {"heading", degrees_3(study_.lap.heading_deg)}});
  } else {
    item.exactly = reason(study_.lap.why);
  }
  const LapFit fit = fit_lap(u_, heading_deg);
  if (fit.exists()) {
    // Flown with the time that gives the wanted inbound leg: only the heading is judged.
    judge_heading(item, {true, fit.cross_nm, 1.0, 0.0, 0.0, {0.0, 0.0}});
  } else {
    item.words = phrase("core.practice.lap_heading.no_time", {{"why", reason(fit.why)}});
  }
  items_.push_back(item);
}

void Practices::lap_time_item(PracticeId id, double outbound_s) {
  const Rollout r = lap_rollout(u_, lap_heading_deg_, outbound_s);
  if (!r.exists) return;
  PracticeItem item = item_of(id);
  item.value = outbound_s;
  item.miss = r.inbound_s - u_.published_s;
  const double headwind_kt = u_.outbound.headwind_kt;
  const std::string_view along =
      word(headwind_kt >= 0.0 ? "core.practice.head" : "core.practice.tail");
  const Rollout first = lap_rollout(u_, lap_heading_deg_, u_.published_s);
  item.today = phrase(key_of(id, "today"), {{"time", minutes(outbound_s)},
                                            {"published", minutes(u_.published_s)},
                                            {"in", fixed(u_.inbound.groundspeed_kt, 0)},
                                            {"out", fixed(u_.outbound.groundspeed_kt, 0)},
                                            {"first", seconds_text(first.inbound_s)},
                                            {"knots", fixed(std::abs(headwind_kt), 0)},
                                            {"along", std::string(along)}});
  if (lap_fit_.exists()) {
    item.exact = lap_fit_.outbound_s;
    item.exactly = phrase(
        "core.practice.exact_lap_time",
        {{"time", time_text(lap_fit_.outbound_s)}, {"heading", degrees_3(lap_heading_deg_)}});
  } else {
    item.exactly = reason(lap_fit_.why);
  }
  if (outbound_s > kMostOutboundS) {
    item.miss.reset();
    item.words = word("core.practice.verdict.too_long");
  } else {
    item.words = inbound_text(r.inbound_s, u_.published_s, item.good);
  }
  items_.push_back(item);
}

void Practices::lap_times() {
  const double published = u_.published_s;
  lap_time_item(PracticeId::ratio_speeds,
                published * u_.inbound.groundspeed_kt / u_.outbound.groundspeed_kt);
  const Rollout first = lap_rollout(u_, lap_heading_deg_, published);
  // Under a second of inbound leg there is nothing to take a ratio to.
  if (first.exists && first.inbound_s >= 1.0) {
    lap_time_item(PracticeId::ratio_last, published * published / first.inbound_s);
  }
  const double headwind_kt = u_.outbound.headwind_kt;
  lap_time_item(PracticeId::half_second, std::fmax(0.0, published + 0.5 * headwind_kt));
  lap_time_item(PracticeId::one_second, std::fmax(0.0, published + headwind_kt));
}

std::vector<PracticeItem> Practices::all() {
  if (!u_.arrival.exists || !u_.inbound.exists) return {};
  items_.reserve(kPractices);
  if (u_.entry == EntryKind::offset) {
    entry_heading(PracticeId::round_thirty);
    entry_heading(PracticeId::arrival_once);
  }
  // The parallel entry rolls out on its way to the course: the side tells nothing.
  if (u_.entry != EntryKind::parallel) first_minute();
  lap_heading_deg_ = study_.lap.exists() ? study_.lap.heading_deg : lap_heading(u_, 3.0);
  lap_fit_ = study_.rows[study_.lap.exists() ? 4 : 3].fit;
  const bool timed = u_.leg.kind == Leg::Kind::time && u_.outbound.exists;
  if (timed) slow_outbound();
  const double wca = u_.inbound.wca_deg;
  const bool beyond = std::abs(wca) > kTripledUpToDeg;
  const double more = wca > 0.0 ? 10.0 : -10.0;
  const double outbound = u_.hold.outbound_course_deg();
  lap_heading_item(PracticeId::triple, lap_heading(u_, 3.0));
  lap_heading_item(PracticeId::twice, lap_heading(u_, beyond ? 2.0 : 3.0));
  lap_heading_item(PracticeId::plus_ten,
                   beyond ? wrap_360(outbound - wca - more) : lap_heading(u_, 3.0));
  if (timed) lap_times();
  return std::move(items_);
}

}  // namespace

std::string_view name_of(PracticeId id) {
  constexpr std::string_view kNames[] = {
      "round-thirty", "arrival-once", "first-minute", "slow-outbound", "triple",    "twice",
      "plus-ten",     "ratio-speeds", "ratio-last",   "half-second",   "one-second"};
  return kNames[static_cast<int>(id)];
}

WindReading read_rollout(double cross_nm, double crosswind_kt) {
  if (std::abs(crosswind_kt) < kLeastCrosswindKt) return WindReading::nothing;
  if (std::abs(cross_nm) <= kGoodRolloutNm) return WindReading::as_allowed;
  const bool downwind = (cross_nm < 0.0) == (crosswind_kt > 0.0);
  return downwind ? WindReading::stronger : WindReading::weaker;
}

std::vector<PracticeItem> common_practice(const WorkedCase& worked, const LapStudy& study) {
  return Practices(worked, study).all();
}

}  // namespace core
