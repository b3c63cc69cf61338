// The debrief in words: every sentence is chosen by the numbers that it states.
#include "core/debrief.h"
#include "core/explain.h"
#include "core/trade_words.h"
#include "core/words.h"

namespace core {
namespace {

std::string nm(double value) { return fixed(std::abs(value), 1); }
std::string whole(double value) { return fixed(std::abs(value), 0); }
/// A count of seconds in words: "1 second", "12 seconds".
std::string seconds(double value) {
  const std::string n = whole(value);
  return phrase(n == "1" ? "core.debrief.second" : "core.debrief.seconds", {{"n", n}});
}
/// Nothing to the whole number that would be said.
bool none(double value) { return std::abs(value) < 0.5; }
/// Nothing to the tenth that would be said.
bool none_nm(double value) { return std::abs(value) < 0.05; }

class Writer {
 public:
  Writer(const Setup& u, const Debrief& d) : u_(u), d_(d) {}

  std::vector<DebriefLine> lines() {
    const FlownRound* e = d_.entry();
    if (!d_.passage) {
      add("entry", "core.debrief.no_fix", {{"nm", fixed(kPassageNm, 0)}});
    } else if (e) {
      entry(*e);
      heading(*e);
      clock(*e);
      outbound(*e);
      roll_out(*e);
      intercept(*e);
      inbound(*e);
      for (std::size_t i = 1; i < d_.rounds.size(); ++i) lap(static_cast<int>(i), d_.rounds[i]);
    }
    wind();
    next(e);
    return std::move(lines_);
  }

 private:
  void add(std::string_view about, const char* key, std::initializer_list<Filling> fillings = {}) {
    // What belongs together is one paragraph.
    const std::string text = phrase(key, fillings);
    if (!lines_.empty() && lines_.back().about == about) {
      lines_.back().text += " " + text;
    } else {
      lines_.push_back({about, text});
    }
  }

  void entry(const FlownRound& e) {
    if (d_.passage->distance_nm > kOnCourseNm) {
      add("entry", "core.debrief.early", {{"nm", nm(d_.passage->distance_nm)}});
    }
    if (!e.outbound) {
      const double heading = u_.arrival.heading_deg;
      add("entry", "core.debrief.no_outbound", {{"heading", degrees_3(heading)}});
      return;
    }
    const double late_s = e.outbound->begun_s - e.start_s;
    if (late_s >= kClockWorthS && !none(e.outbound->turned_deg)) {
      add("entry", "core.debrief.late_turn", {{"seconds", seconds(late_s)}});
    }
    if (!e.inbound) {
      add("entry", "core.debrief.outbound_only",
          {{"turn", turn(e.outbound->turned_deg)},
           {"heading", degrees_3(e.outbound->heading_deg)}});
      return;
    }
    const char* key = d_.kind ? "core.debrief.entry" : "core.debrief.entry.none";
    add("entry", key,
        {{"entry", std::string(label_of(d_.compared, u_.scenario.book))},
         {"first", turn(e.outbound->turned_deg)},
         {"heading", degrees_3(e.outbound->heading_deg)},
         {"second", turn(e.inbound->turned_deg)}});
    if (!u_.sector) return;
    const bool either = u_.sector->also != u_.sector->kind;
    const std::string arrival = degrees_3(u_.arrival.heading_deg);
    add("entry",
        d_.kind && d_.acceptable
            ? (either ? "core.debrief.entry.either" : "core.debrief.entry.good")
        : either ? "core.debrief.entry.called_either"
                 : "core.debrief.entry.called",
        {{"arrival", arrival},
         {"called", std::string(label_of(u_.sector->kind, u_.scenario.book))},
         {"also", std::string(label_of(u_.sector->also, u_.scenario.book))}});
  }

  void heading(const FlownRound& e) {
    if (!e.outbound) return;
    const std::string flown = degrees_3(e.outbound->heading_deg);
    if (d_.rule) {
      add("heading", "core.debrief.heading.rule",
          {{"heading", flown}, {"rule", degrees_3(d_.rule->heading_deg)}});
    } else {
      add("heading", "core.debrief.heading", {{"heading", flown}});
    }
    if (!d_.exact.exists()) {
      add("heading", "core.debrief.heading.no_exact", {{"why", reason(d_.exact.why)}});
      return;
    }
    const double off = wrap_180(e.outbound->heading_deg - d_.exact.heading_deg);
    const char* key = none(off)                           ? "core.debrief.heading.same"
                      : std::abs(off) <= kHeadingWorthDeg ? "core.debrief.heading.near"
                                                          : "core.debrief.heading.off";
    add("heading", key,
        {{"exact", degrees_3(d_.exact.heading_deg)},
         {"off", whole(off)},
         {"side", side_text(off)}});
  }

  /// Where the entry's clock starts by the scenario.
  enum class Starts { fix, level, abeam };
  [[nodiscard]] Starts starts() const {
    if (d_.compared == EntryKind::direct) return Starts::abeam;
    return u_.scenario.timer == Timer::fix ? Starts::fix : Starts::level;
  }

  void clock(const FlownRound& e) {
    if (!e.outbound) return;
    if (!e.clock_s) {
      add("clock", "core.debrief.clock.none");
      return;
    }
    const double after_fix_s = *e.clock_s - e.start_s;
    add("clock",
        none(after_fix_s)   ? "core.debrief.clock.fix"
        : after_fix_s > 0.0 ? "core.debrief.clock.after_fix"
                            : "core.debrief.clock.before_fix",
        {{"seconds", seconds(after_fix_s)}});
    const double after_level_s = *e.clock_s - e.outbound->level_s;
    if (!none(after_level_s)) {
      add("clock",
          after_level_s > 0.0 ? "core.debrief.clock.after_level"
                              : "core.debrief.clock.before_level",
          {{"seconds", seconds(after_level_s)}});
    } else {
      add("clock", "core.debrief.clock.level");
    }
    const char* const keys[] = {"core.debrief.clock.by_fix", "core.debrief.clock.by_level",
                                "core.debrief.clock.by_abeam"};
    add("clock", keys[static_cast<int>(starts())]);
  }

  void outbound(const FlownRound& e) {
    if (!e.outbound) return;
    if (!e.inbound) {
      add("outbound", "core.debrief.not_inbound", {{"time", minutes(d_.end_s - e.start_s)}});
      return;
    }
    const char* const keys[] = {"core.debrief.outbound.fix", "core.debrief.outbound.level",
                                "core.debrief.outbound.abeam"};
    add("outbound", keys[static_cast<int>(starts())], {{"time", minutes(e.inbound->outbound_s)}});
    if (e.clock_s) {
      add("outbound", "core.debrief.outbound.watch",
          {{"watch", minutes(e.inbound->begun_s - *e.clock_s)}});
    }
    if (d_.exact.exists()) {
      add("outbound", "core.debrief.outbound.exact", {{"exact", minutes(d_.exact.time_s)}});
    }
  }

  void roll_out(const FlownRound& e) {
    if (!e.inbound) return;
    if (!e.rollout.exists) {
      add("roll-out", "core.debrief.no_roll_out");
      return;
    }
    miss(e);
    if (d_.exact_rollout.exists && d_.compared != EntryKind::parallel) {
      add("roll-out", "core.debrief.roll_out.exact", {{"to_go", nm(d_.exact_rollout.to_go_nm)}});
    }
  }

  void miss(const FlownRound& r) {
    const Rollout& o = r.rollout;
    const char* key = none_nm(o.cross_nm) ? "core.debrief.roll_out.on"
                      : o.cross_nm < 0.0  ? "core.debrief.roll_out.past"
                                          : "core.debrief.roll_out.short";
    add("roll-out", key, {{"heading", degrees_3(r.rollout_heading_deg)}, {"nm", nm(o.cross_nm)}});
    add("roll-out",
        o.to_go_nm > 0.0 ? "core.debrief.roll_out.to_go" : "core.debrief.roll_out.behind",
        {{"to_go", nm(o.to_go_nm)}});
  }

  void intercept(const FlownRound& e) {
    if (!e.rollout.exists || e.rollout.to_go_nm <= 0.0) return;
    if (e.intercept_deg >= 5.0) {
      add("intercept", "core.debrief.intercept", {{"angle", whole(e.intercept_deg)}});
    } else {
      add("intercept", "core.debrief.intercept.none");
    }
    if (e.on_course_s) {
      const double after_s = *e.on_course_s - e.rollout.at_s;
      add("intercept",
          after_s < 1.0 ? "core.debrief.intercept.at_once" : "core.debrief.intercept.on",
          {{"time", minutes(after_s)}});
    } else {
      add("intercept", "core.debrief.intercept.never");
    }
  }

  void inbound(const FlownRound& e) {
    if (!e.rollout.exists) return;
    if (!e.fix) {
      add("inbound", e.rollout.to_go_nm > 0.0 ? "core.debrief.inbound.not_yet"
                                              : "core.debrief.inbound.behind");
      return;
    }
    add("inbound", "core.debrief.inbound", {{"time", minutes(e.fix->inbound_s)}});
    if (none_nm(e.fix->cross_nm)) {
      add("inbound", "core.debrief.inbound.over");
    } else {
      add("inbound",
          e.fix->cross_nm > 0.0 ? "core.debrief.inbound.holding"
                                : "core.debrief.inbound.nonholding",
          {{"nm", nm(e.fix->cross_nm)}});
    }
    if (u_.leg.kind == Leg::Kind::distance) {
      add("inbound", "core.debrief.inbound.distance",
          {{"flown", nm(e.rollout.to_go_nm)}, {"wanted", nm(u_.leg.value)}});
      return;
    }
    const double over_s = e.fix->inbound_s - u_.leg.value;
    add("inbound",
        none(over_s)   ? "core.debrief.inbound.as_wanted"
        : over_s > 0.0 ? "core.debrief.inbound.long"
                       : "core.debrief.inbound.short",
        {{"wanted", minutes(u_.leg.value)}, {"seconds", seconds(over_s)}});
  }

  void lap(int number, const FlownRound& r) {
    const std::string n = std::to_string(number);
    if (!r.inbound) {
      add("lap", "core.debrief.lap.open",
          {{"lap", n}, {"heading", degrees_3(r.outbound->heading_deg)}});
      return;
    }
    add("lap", "core.debrief.lap",
        {{"lap", n},
         {"heading", degrees_3(r.outbound->heading_deg)},
         {"time", minutes(r.inbound->outbound_s)}});
    if (!r.rollout.exists) {
      add("lap", "core.debrief.lap.no_roll_out");
      return;
    }
    const double cross = r.rollout.cross_nm;
    add("lap",
        none_nm(cross) ? "core.debrief.lap.on"
        : cross < 0.0  ? "core.debrief.lap.past"
                       : "core.debrief.lap.short",
        {{"nm", nm(cross)}});
    if (r.fix) add("lap", "core.debrief.lap.inbound", {{"time", minutes(r.fix->inbound_s)}});
  }

  void wind() {
    if (d_.wind.speed_kt < 0.5) {
      add("wind", "core.debrief.wind.calm");
    } else {
      add("wind", "core.debrief.wind",
          {{"from", degrees_3(d_.wind.from_deg)}, {"kt", whole(d_.wind.speed_kt)}});
    }
    if (u_.scenario.later_wind) {
      add("wind", "core.debrief.wind.changes", {{"kt", whole(u_.scenario.later_wind->speed_kt)}});
    }
    const double carried = length(d_.drift_nm);
    if (d_.drift_s > 0.0 && !none_nm(carried)) {
      add("wind", "core.debrief.wind.did",
          {{"nm", nm(carried)}, {"toward", degrees_3(direction_of(d_.drift_nm))}});
    }
    if (u_.inbound.exists && u_.outbound.exists && d_.wind.speed_kt >= 0.5) {
      const double wca = u_.inbound.wca_deg;
      add("wind", none(wca) ? "core.debrief.wind.along" : "core.debrief.wind.across",
          {{"wca", whole(wca)},
           {"side", side_text(wca)},
           {"out", whole(u_.outbound.groundspeed_kt)},
           {"in", whole(u_.inbound.groundspeed_kt)}});
    }
  }

  /// One thing to do next: the first that is wrong in the order in which a flight is flown.
  void next(const FlownRound* e) {
    const auto say = [&](const char* key, std::initializer_list<Filling> fillings = {}) {
      add("next", key, fillings);
    };
    if (!u_.arrival.exists || !e) return say("core.debrief.next.fix");
    if (d_.passage->distance_nm > kMissWorthNm) return say("core.debrief.next.wait");
    const std::string called =
        u_.sector ? std::string(label_of(u_.sector->kind, u_.scenario.book)) : std::string();
    const std::string exact_heading =
        d_.exact.exists() ? degrees_3(d_.exact.heading_deg) : std::string();
    if (!e->outbound) return say("core.debrief.next.outbound", {{"called", called}});
    if (!e->inbound) return say("core.debrief.next.inbound");
    if (u_.sector && !(d_.kind && d_.acceptable)) {
      return say("core.debrief.next.entry", {{"called", called}});
    }
    if (!e->clock_s) return say("core.debrief.next.clock");
    if (!e->rollout.exists) return say("core.debrief.next.roll_out");
    if (d_.exact.exists()) {
      const double off = wrap_180(e->outbound->heading_deg - d_.exact.heading_deg);
      if (std::abs(off) > kHeadingWorthDeg) {
        return say("core.debrief.next.heading",
                   {{"exact", exact_heading}, {"time", minutes(d_.exact.time_s)}});
      }
      const double over_s = e->inbound->outbound_s - d_.exact.time_s;
      const bool missed =
          std::abs(e->rollout.cross_nm) > kMissWorthNm && d_.compared != EntryKind::parallel;
      if (std::abs(over_s) > kClockWorthS || missed) {
        return say("core.debrief.next.time",
                   {{"exact", exact_heading}, {"time", minutes(d_.exact.time_s)}});
      }
    }
    if (e->rollout.to_go_nm > 0.0 && !e->on_course_s) {
      return say("core.debrief.next.intercept", {{"angle", whole(u_.scenario.intercept_deg)}});
    }
    if (!e->fix) return say("core.debrief.next.fly_on");
    const double over_s = e->fix->inbound_s - u_.leg.value;
    if (u_.leg.kind == Leg::Kind::time && std::abs(over_s) > kInboundWorthS) {
      return say(over_s > 0.0 ? "core.debrief.next.shorter" : "core.debrief.next.longer",
                 {{"seconds", seconds(over_s)}});
    }
    say(d_.rounds.size() > 1 ? "core.debrief.next.other_wind" : "core.debrief.next.lap");
  }

  static std::string turn(double turned_deg) {
    if (none(turned_deg)) return std::string(word("core.debrief.no_turn"));
    return phrase("core.debrief.turn",
                  {{"side", side_text(turned_deg)}, {"deg", whole(turned_deg)}});
  }

  const Setup& u_;
  const Debrief& d_;
  std::vector<DebriefLine> lines_;
};

void write_rollout(Json& j, std::string_view name, const Rollout& r) {
  j.key(name);
  if (!r.exists) {
    j.null();
    return;
  }
  j.open_object()
      .field("cross_nm", r.cross_nm)
      .field("to_go_nm", r.to_go_nm)
      .field("at_s", r.at_s)
      .close_object();
}

void write_round(Json& j, const FlownRound& r) {
  j.open_object().field("start_s", r.start_s);
  const auto outbound = [&](double FlownRound::Outbound::*field) {
    return r.outbound ? std::optional<double>((*r.outbound).*field) : std::nullopt;
  };
  const auto inbound = [&](double FlownRound::Inbound::*field) {
    return r.inbound ? std::optional<double>((*r.inbound).*field) : std::nullopt;
  };
  const auto fix = [&](double FlownRound::Fix::*field) {
    return r.fix ? std::optional<double>((*r.fix).*field) : std::nullopt;
  };
  j.field("heading_deg", outbound(&FlownRound::Outbound::heading_deg));
  j.field("first_turn_deg", outbound(&FlownRound::Outbound::turned_deg));
  j.field("level_s", outbound(&FlownRound::Outbound::level_s));
  j.field("abeam_s", r.abeam_s);
  j.field("clock_s", r.clock_s);
  j.field("turn_s", inbound(&FlownRound::Inbound::begun_s));
  j.field("turn_deg", inbound(&FlownRound::Inbound::turned_deg));
  j.field("outbound_s", inbound(&FlownRound::Inbound::outbound_s));
  write_rollout(j, "rollout", r.rollout);
  j.field("on_course_s", r.on_course_s);
  j.field("fix_s", fix(&FlownRound::Fix::at_s));
  j.field("fix_cross_nm", fix(&FlownRound::Fix::cross_nm));
  j.field("inbound_s", fix(&FlownRound::Fix::inbound_s));
  j.close_object();
}

}  // namespace

std::vector<DebriefLine> debrief_lines(const Setup& setup, const Debrief& debrief) {
  return Writer(setup, debrief).lines();
}

void write_debrief(Json& j, const Setup& setup, const Debrief& d) {
  j.open_object().field("end_s", d.end_s).key("kind");
  d.kind ? j.text(name_of(*d.kind)) : j.null();
  j.field("acceptable", d.acceptable)
      .field("compared", name_of(d.compared))
      .field("entry_label", label_of(d.compared, setup.scenario.book));
  j.field("passage_nm", d.passage ? std::optional<double>(d.passage->distance_nm) : std::nullopt);
  j.key("rule");
  if (d.rule) {
    j.open_object()
        .field("heading_deg", d.rule->heading_deg)
        .field("time_s", d.rule->time_s)
        .close_object();
  } else {
    j.null();
  }
  j.key("exact");
  if (d.exact.exists()) {
    j.open_object().field("heading_deg", d.exact.heading_deg).field("time_s", d.exact.time_s);
    write_rollout(j, "rollout", d.exact_rollout);
    j.close_object();
  } else {
    j.null();
  }
  j.key("rounds").open_array();
  for (const FlownRound& r : d.rounds) write_round(j, r);
  j.close_array();
  j.key("wind")
      .open_object()
      .field("from_deg", d.wind.from_deg)
      .field("speed_kt", d.wind.speed_kt)
      .close_object();
  j.field("wanted_s", setup.leg.kind == Leg::Kind::time ? std::optional<double>(setup.leg.value)
                                                        : std::nullopt);
  j.key("lines").open_array();
  for (const DebriefLine& line : d.lines) {
    j.open_object().field("about", line.about).field("text", line.text).close_object();
  }
  j.close_array().close_object();
}

}  // namespace core
