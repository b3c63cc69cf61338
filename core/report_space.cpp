#include "core/explain.h"
#include "core/limits.h"
#include "core/needles.h"
#include "core/protected_area.h"
#include "core/report.h"
#include "core/trade_words.h"

namespace core {
namespace {

void write_finite(Json& j, std::string_view key, double value) {
  j.key(key).number(value);  // not finite: null
}

void write_table(Json& j, SpeedRule rule, const SpeedLimit& now) {
  j.open_object()
      .field("rule", name_of(rule))
      .field("book", rulebook_of(rule) == Rulebook::faa ? "faa" : "icao")
      .field("label", label_of(rule));
  j.key("rows").open_array();
  for (const SpeedBand& band : speed_bands(rule)) {
    j.open_object();
    write_finite(j, "above_ft", band.above_ft);
    write_finite(j, "up_to_ft", band.up_to_ft);
    write_finite(j, "ias_kt", band.ias_kt);
    write_finite(j, "mach", band.mach);
    const bool applies = now.exists() && now.applied == rule &&
                         now.band.above_ft == band.above_ft && now.band.up_to_ft == band.up_to_ft;
    j.field("now", applies).close_object();
  }
  j.close_array().close_object();
}

}  // namespace

void write_limits(Json& j, const WorkedCase& c) {
  const Setup& u = c.setup;
  const SpeedRule rule = speed_rule_of(u.scenario);
  const SpeedCheck check = check_speed(u, rule, u.scenario.charted_kias);
  j.key("limits").open_object().field("rule", name_of(rule)).field("label", label_of(rule));
  write_finite(j, "speed_kt", check.limit.ias_kt);
  write_finite(j, "mach",
               check.limit.exists() && check.limit.by_mach
                   ? check.limit.band.mach
                   : std::numeric_limits<double>::quiet_NaN());
  j.field("ias_kt", check.ias_kt);
  write_finite(j, "margin_kt", check.margin_kt);
  j.field("within", check.within()).field("words", speed_words(check));
  const SlowDown slow = slow_down_point(u);
  j.key("slow_down");
  if (slow.why == Stop::none) {
    j.open_object()
        .field("distance_nm", slow.distance_nm)
        .field("before_fix_s", slow.before_fix_s)
        .field("words", slow_down_words(slow))
        .close_object();
  } else {
    j.null();
  }
  const RateCheck rate = check_rate(u);
  j.key("rate")
      .open_object()
      .field("limited", rate.limited)
      .field("turn_rate_deg_s", rate.turn.rate_deg_s)
      .field("standard_bank_deg", rate.standard_bank_deg)
      .field("crossover_tas_kt", rate.crossover_tas_kt)
      .field("words", rate_words(rate))
      .close_object();
  j.key("tables").open_array();
  for (const SpeedRule each :
       {SpeedRule::faa, SpeedRule::icao, SpeedRule::icao_turbulence, SpeedRule::icao_cat_ab}) {
    // Of each table the line for this altitude, whichever is asked for.
    write_table(j, each, greatest_holding_speed(each, u.scenario.altitude_ft));
  }
  j.close_array();
  j.key("exceptions").open_array();
  for (const std::string& line : faa_exception_words()) j.text(line);
  j.close_array();
  j.field("bank_words", bank_books_words()).close_object();
}

void write_displays(Json& j, const WorkedCase& c) {
  const Setup& u = c.setup;
  const NavScene scene = nav_scene(u);
  constexpr std::string_view kAids[] = {"vor", "ndb", "satellite"};
  j.key("displays")
      .open_object()
      .field("aid", kAids[static_cast<int>(scene.aid)])
      .field("scale", name_of(scene.scale))
      .field("scale_label", label_of(scene.scale))
      .field("cone_nm", cone_radius_nm(scene.aid, scene.height_ft))
      .field("cone_words", cone_words(scene));
  j.key("moments").open_array();
  if (c.flown.track.size() > 0) {
    for (const NeedleMoment& m : needle_moments(scene, c.flown)) {
      j.open_object()
          .field("name", name_of(m.event))
          .field("label", label_of(m.event))
          .field("at_s", m.at_s)
          .close_object();
    }
  }
  j.close_array();
  std::string words;
  if (u.inbound.exists && u.scenario.station.place == Station::Place::at_fix) {
    words = abeam_words(u.hold, flown_lap_heading(c));
  }
  j.field("words", words).close_object();
}

void write_area(Json& j, const WorkedCase& c, bool wanted) {
  j.key("area");
  if (!wanted) {
    j.null();
    return;
  }
  const Setup& u = c.setup;
  const ProtectedArea area = area_of(u);
  j.open_object().field("exists", area.exists()).field("caption", caption_of_area());
  j.key("why");
  area.exists() ? j.null() : j.text(reason(area.why));
  j.field("words", area.exists() ? area_words(area) : reason(area.why));
  const InsideBy inside = inside_by_nm(area, c.flown);
  j.key("inside");
  if (inside.exists()) {
    j.open_object()
        .field("basic_nm", inside.basic_nm)
        .field("entry_nm", inside.entry_nm)
        .field("buffer_nm", inside.buffer_nm)
        .close_object();
  } else {
    j.null();
  }
  j.field("inside_words", inside_words(inside))
      .field("faa_wind_words", faa_wind_words(u.scenario.altitude_ft))
      .close_object();
}

std::string needle_text(const WorkedCase& c, double t_s) {
  const Track& track = c.flown.track;
  if (track.size() == 0) return "null";
  return needle_text(c.setup, track.position_at(t_s), track.heading_at(t_s));
}

std::string needle_text(const Setup& u, Vec2 at, double heading_deg) {
  Json j;
  const NavScene scene = nav_scene(u);
  const Indications now = indications(scene, at, heading_deg);
  const CourseNeedle& needle = now.course;
  j.open_object()
      .field("deflection", needle.deflection)
      .field("dots", needle.deflection * kDots)
      .field("flag", name_of(needle.flag))
      .field("reversed", needle.reversed)
      .field("reliable", needle.reliable)
      .field("course_deg", scene.course_deg)
      .field("heading_deg", heading_deg)
      .field("bearing_deg", now.bearing.magnetic_deg)
      .field("relative_deg", now.bearing.relative_deg)
      .field("bearing_reliable", now.bearing.reliable)
      .field("dme_nm", now.dme.slant_nm)
      .field("ground_nm", now.dme.ground_nm);
  // An NDB drives a bearing pointer and nothing else.
  std::string words = scene.aid == Aid::ndb ? std::string() : course_words(scene, needle) + " ";
  words += bearing_words(now.bearing);
  if (scene.aid != Aid::ndb) words += " " + dme_words(scene, now.dme);
  j.field("words", words).close_object();
  return j.take();
}

}  // namespace core
