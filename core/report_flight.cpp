#include "core/common_practice.h"
#include "core/explain.h"
#include "core/lap_study.h"
#include "core/report.h"
#include "core/trade_words.h"

namespace core {
namespace {

void write_sentences(Json& j, std::string_view key, const std::vector<std::string>& sentences) {
  j.key(key).open_array();
  for (const std::string& s : sentences) {
    if (!s.empty()) j.text(s);
  }
  j.close_array();
}

/// DME reading at the end of the outbound leg of a lap (0: the entry); absent before it.
std::optional<double> end_dme_nm(const WorkedCase& c, int lap) {
  for (int i = 0; i < c.flown.event_count; ++i) {
    const Event& e = c.flown.events[static_cast<unsigned>(i)];
    if (e.kind == EventKind::time_up && e.lap == lap)
      return slant_range_nm(length(e.at - c.setup.station), c.setup.height_ft);
  }
  return std::nullopt;
}

void write_entry_case(Json& j, const WorkedCase& c, const EntryCase& e) {
  const Setup& u = c.setup;
  const Flight& f = e.flight;
  j.open_object()
      .field("kind", name_of(e.kind))
      .field("label", label_of(e.kind, u.scenario.book))
      .field("acceptable", e.acceptable)
      .field("in_sector", e.in_sector)
      .field("flown", e.flown);
  j.field("heading_deg", e.exists ? std::optional(f.plan.heading_deg) : std::nullopt);
  const double time_s = f.rollout.exists ? f.entry_time_s : f.plan.time_s;
  j.field("time_s", e.exists ? std::optional(time_s) : std::nullopt);
  const auto turn = [&](std::string_view side_key, std::string_view angle_key, bool exists,
                        const EntryTurn& t) {
    j.key(side_key);
    exists ? j.text(name_of(t.side)) : j.null();
    j.field(angle_key, exists ? std::optional(t.angle_deg) : std::nullopt);
  };
  turn("first_turn", "first_turn_deg", e.exists, e.exists ? first_turn(u, e) : EntryTurn{});
  turn("turn", "turn_deg", f.rollout.exists, f.rollout.exists ? second_turn(u, e) : EntryTurn{});
  j.key("rollout");
  write_rollout(j, f.rollout);
  j.field("on_course_s", e.on_course_s());
  j.field("fix_again_s", e.fix_again_s());
  j.field("fix_missed", f.rollout.exists && f.fix_missed);
  j.key("exact").open_object().field("exists", e.exact.exists());
  j.field("heading_deg", e.exact.exists() ? std::optional(e.exact.heading_deg) : std::nullopt);
  j.field("time_s", e.exact.exists() ? std::optional(e.exact.time_s) : std::nullopt);
  j.key("why");
  e.exact.exists() ? j.null() : j.text(reason(e.exact.why));
  j.close_object();
  j.key("why");
  if (!e.exists) {
    j.text(reason(e.why));
  } else if (!f.rollout.exists) {
    j.text(reason(f.stop));
  } else {
    j.null();
  }
  write_sentences(j, "steps", entry_steps(u, e));
  j.close_object();
}

}  // namespace

void write_rollout(Json& j, const Rollout& r) {
  if (!r.exists) {
    j.null();
    return;
  }
  j.open_object()
      .field("cross_nm", r.cross_nm)
      .field("to_go_nm", r.to_go_nm)
      .field("inbound_s", r.inbound_s)
      .field("at_s", r.at_s)
      .close_object();
}

void write_book(Json& j, const WorkedCase& c) {
  const Rulebook book = c.setup.scenario.book;
  j.key("book").open_object().field("id", name_of(book)).field("label", label_of(book));
  write_sentences(j, "words", book_words(book));
  j.close_object();
}

void write_entries(Json& j, const WorkedCase& c) {
  j.key("entries").open_array();
  for (const EntryCase& e : c.entries) write_entry_case(j, c, e);
  j.close_array();
  j.field("sector_boundary_deg",
          c.setup.sector ? std::optional(c.setup.sector->boundary_deg) : std::nullopt);
}

void write_station(Json& j, const WorkedCase& c) {
  const Setup& u = c.setup;
  constexpr std::string_view kPlaces[] = {"fix", "ahead", "behind"};
  j.key("station")
      .open_object()
      .field("place", kPlaces[static_cast<int>(u.scenario.station.place)])
      .field("ground_nm", length(u.station))
      .field("height_ft", u.height_ft)
      .field("fix_dme_nm", slant_range_nm(length(u.station), u.height_ft));
  j.field("end_dme_nm", end_dme_nm(c, 0));
  write_sentences(j, "words", station_words(c));
  j.close_object();
}

void write_laps(Json& j, const WorkedCase& c) {
  j.key("laps").open_array();
  for (int i = 0; i < c.flown.lap_count; ++i) {
    const Lap& lap = c.flown.laps[static_cast<unsigned>(i)];
    j.open_object()
        .field("outbound_heading_deg", lap.outbound_heading_deg)
        .field("correction_deg",
               wrap_180(lap.outbound_heading_deg - c.setup.hold.outbound_course_deg()))
        .field("wca_deg", lap.wca_deg)
        .field("outbound_s", lap.outbound_s)
        .field("cross_nm", lap.rollout.cross_nm)
        .field("to_go_nm", lap.rollout.to_go_nm)
        .field("inbound_s", lap.rollout.inbound_s)
        .field("ended_by", name_of(lap.ended_by));
    j.field("end_dme_nm", end_dme_nm(c, i + 1));
    j.field("advice", lap_advice(c, i)).close_object();
  }
  j.close_array();
  j.field("timing", timing_words(c));
}

void write_roll(Json& j, const WorkedCase& c) {
  const RollEffect e = roll_effect(c);
  j.key("roll")
      .open_object()
      .field("deg_s", c.setup.scenario.roll_deg_s)
      .field("compared_deg_s", e.roll_deg_s)
      .field("roll_s", e.roll_s);
  j.field("cross_change_nm", e.exists ? std::optional(e.cross_change_nm) : std::nullopt);
  j.field("to_go_change_nm", e.exists ? std::optional(e.to_go_change_nm) : std::nullopt);
  j.field("words", roll_words(c, e)).close_object();
}

void write_wind_model(Json& j, const WorkedCase& c) {
  write_sentences(j, "wind_model", wind_model_words(c.setup));
}

void write_study(Json& j, const WorkedCase& c, bool wanted) {
  if (!wanted) {
    j.key("multiples").null().key("practice").null();
    return;
  }
  const LapStudy study = study_laps(c.setup, c.lap);
  j.key("multiples");
  write_multiples(j, c.setup, study);
  j.key("practice");
  write_practice(j, common_practice(c, study));
}

}  // namespace core
