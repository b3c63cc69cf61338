// web/core_exports.cpp - the core module's boundary: the only file that knows both
// the session and the page. Texts go in and out by buffers in this module's memory;
// web/core.mjs is the other side.
#include <cstdint>
#include <optional>

#include "core/clearance.h"
#include "core/evaluate.h"
#include "core/explain.h"
#include "core/svg.h"
#include "core/text_number.h"
#include "core/wind_report.h"
#include "web/session.h"
#include "web/text_port.h"
#include "web/tutor.h"

namespace {

web::Live g_live;
/// Whether what stands in core-more.wasm may be called; see core/apart.h.
bool g_more = true;

/// Made on first use: a worker that only evaluates pays nothing for it.
web::Session& session() {
  static web::Session instance;
  return instance;
}

/// As above: only who practises pays for it.
web::Tutor& tutor() {
  static web::Tutor instance;
  return instance;
}

/// The text is split at the first line feed where a call takes two.
std::string_view first_line() { return std::string_view(g_in).substr(0, g_in.find('\n')); }
std::string_view second_line() {
  const std::size_t at = g_in.find('\n');
  return at == std::string::npos ? std::string_view() : std::string_view(g_in).substr(at + 1);
}

}  // namespace

/// Bumped whenever a signature or a layout changes; core.mjs refuses another.
EXPORTED int core_abi() { return 1; }

/// Of a module in two parts: whether the second is there.
EXPORTED void core_more(int is_there) { g_more = is_there != 0; }

EXPORTED void evaluate_text() {
  core::ReportParts parts;
  parts.more = g_more;
  g_out = core::evaluate(g_in, parts);
}
/// A clearance in the second line and after, the inbound course on the chart in the first
/// (empty: not known).
EXPORTED void clearance_text() {
  const std::optional<double> chart = core::read_number(first_line());
  core::Json json;
  core::write_clearance(json, core::read_clearance(second_line(), chart));
  g_out = json.take();
}
/// Kind, link text (for altitude and variation) and the report, a line each; the report may
/// have more.
EXPORTED void wind_report_text() {
  const std::string_view rest = second_line();
  const std::size_t end = rest.find('\n');
  const core::Scenario s = core::parse_link(rest.substr(0, end)).scenario;
  const std::string_view text =
      end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  core::Json json;
  core::write_wind_report(
      json, core::read_wind_report(first_line(), text, s.altitude_ft, s.variation_east_deg));
  g_out = json.take();
}
EXPORTED void report_kinds_text() {
  core::Json json;
  core::write_report_kinds(json);
  g_out = json.take();
}
EXPORTED void theme_css_text() { g_out = core::theme_css(); }

/// The scenario's picture, fitted to the size; `time_s` NaN: with no aircraft.
EXPORTED void svg_text(double width_px, double height_px, int theme, double time_s, int handles) {
  const core::WorkedCase worked = core::work_out(core::parse_link(g_in).scenario);
  core::PictureOptions o;
  o.handles = handles != 0;
  o.view =
      core::fitted(worked, width_px > 40.0 ? width_px : 40.0, height_px > 40.0 ? height_px : 40.0);
  o.wind_corner = core::emptiest_corner(worked, o.view, false);
  if (time_s == time_s) {
    o.time_s = time_s;
    o.air_s = time_s;
  }
  core::Diagram d;
  core::draw_picture(worked, o, d);
  g_out = core::write_svg(d, static_cast<core::Theme>(theme & 3), core::picture_summary(worked));
}

EXPORTED unsigned session_open() { return session().open(g_in); }
EXPORTED unsigned session_visit() { return session().visit(g_in); }
EXPORTED unsigned session_back() { return session().back(); }
/// Keys and link, a line each.
EXPORTED unsigned session_lock() { return session().lock(first_line(), second_line()); }
EXPORTED unsigned session_set(int midway) {
  return session().set(first_line(), second_line(), midway != 0);
}
EXPORTED unsigned session_choose() { return session().choose(g_in); }
EXPORTED unsigned session_undo() { return session().undo(); }
EXPORTED unsigned session_redo() { return session().redo(); }
EXPORTED unsigned session_reset() { return session().reset(); }
EXPORTED int session_can_undo() { return session().can_undo() ? 1 : 0; }
EXPORTED int session_can_redo() { return session().can_redo() ? 1 : 0; }
EXPORTED void session_link() { g_out = session().link(); }
EXPORTED void session_report() { g_out = session().report(g_more); }
EXPORTED unsigned session_resize(double w, double h) { return session().resize(w, h); }
EXPORTED unsigned session_fit() { return session().fit(); }
EXPORTED unsigned session_zoom(double x, double y, double factor) {
  return session().zoom(x, y, factor);
}
EXPORTED unsigned session_pointer(int phase, int id, double x, double y, int coarse) {
  if (phase < 0 || phase > 4) return 0;
  return session().pointer(static_cast<web::Phase>(phase), id, x, y, coarse != 0);
}
EXPORTED int session_hit(double x, double y, int coarse) {
  return static_cast<int>(session().hit(x, y, coarse != 0));
}
/// Where a handle is, CSS px, as two doubles; null where it has no place.
EXPORTED const double* session_handle(int handle) {
  static double out[2];
  if (handle < 0 || handle >= core::kHandles) return nullptr;
  const std::optional<core::Vec2> at = session().handle_px(static_cast<core::Handle>(handle));
  if (!at) return nullptr;
  out[0] = at->x;
  out[1] = at->y;
  return out;
}
EXPORTED unsigned session_layer(int on) { return session().layer(g_in, on != 0); }
/// Link and label, a line each.
EXPORTED unsigned session_beside() { return session().beside(first_line(), second_line()); }
EXPORTED unsigned session_show_flight(int on) { return session().show_flight(on != 0); }
EXPORTED unsigned session_grow_flight() { return session().grow_flight(); }
EXPORTED unsigned session_show_handles(int on) { return session().show_handles(on != 0); }
/// 1 on, 0 off, -1 no such layer.
EXPORTED int session_layer_on() {
  core::Layers layers = session().layers();
  const bool* const on = core::layer_by_name(layers, g_in);
  return on ? (*on ? 1 : 0) : -1;
}
EXPORTED unsigned session_play() { return session().play(); }
EXPORTED unsigned session_pause() { return session().pause(); }
EXPORTED unsigned session_seek(double t_s) { return session().seek(t_s); }
EXPORTED unsigned session_step(int direction) { return session().step(direction); }
EXPORTED unsigned session_speed(double multiplier) { return session().speed(multiplier); }
EXPORTED unsigned session_tick(double dt_s) { return session().tick(dt_s); }
/// web::Live as doubles, in the order of its fields.
EXPORTED const double* session_live() {
  g_live = session().live();
  return &g_live.t_s;
}
EXPORTED void session_picture_words() { g_out = session().picture_words(); }
EXPORTED void session_needle() { g_out = session().needle(); }
/// Names of the flight's events in order, a space between; Live::phase counts them.
EXPORTED void session_events() {
  const core::Flight& f = session().worked().flown;
  g_out.clear();
  for (int i = 0; i < f.event_count; ++i) {
    if (i) g_out += ' ';
    g_out += core::name_of(f.events[static_cast<unsigned>(i)].kind);
  }
}
/// `seed` counts where `drawn` is not 0.
EXPORTED unsigned session_fly_start(int wind_shown, int drawn, unsigned seed) {
  web::HandOptions options;
  options.wind_shown = wind_shown != 0;
  if (drawn) options.wind_seed = seed;
  return session().fly_start(options);
}
EXPORTED unsigned session_fly_bug(double heading_deg, int way) {
  return session().fly_bug(heading_deg, way);
}
EXPORTED unsigned session_fly_turn(int side) { return session().fly_turn(side); }
EXPORTED unsigned session_fly_level() { return session().fly_level(); }
EXPORTED unsigned session_fly_clock() { return session().fly_clock(); }
EXPORTED unsigned session_fly_end() { return session().fly_end(); }
EXPORTED unsigned session_fly_leave() { return session().fly_leave(); }
EXPORTED void session_fly_state() { g_out = session().fly_state(); }
EXPORTED void session_fly_debrief() { g_out = session().fly_debrief(); }
EXPORTED void session_fly_link() { g_out = session().fly_link(); }

/// `theme` as core::Theme.
EXPORTED void session_svg(int theme) { g_out = session().svg(static_cast<core::Theme>(theme & 3)); }

/// Addresses and byte counts of the picture's items, points and text (six numbers),
/// then width, height, centre x, centre y and scale as doubles behind them.
EXPORTED const void* session_diagram() {
  struct Out {
    std::uintptr_t address[3];
    std::uintptr_t bytes[3];
    double view[5];
  };
  static Out out;
  const core::Diagram& d = session().diagram();
  out.address[0] = reinterpret_cast<std::uintptr_t>(d.items.data());
  out.address[1] = reinterpret_cast<std::uintptr_t>(d.points.data());
  out.address[2] = reinterpret_cast<std::uintptr_t>(d.text.data());
  out.bytes[0] = d.items.size() * sizeof(core::Item);
  out.bytes[1] = d.points.size() * sizeof(core::Vec2);
  out.bytes[2] = d.text.size();
  out.view[0] = d.view.width_px;
  out.view[1] = d.view.height_px;
  out.view[2] = d.view.centre.x;
  out.view[3] = d.view.centre.y;
  out.view[4] = d.view.px_per_nm;
  return &out;
}

// Each tutor call answers with JSON; docs/module.md "The tutor".
EXPORTED void tutor_sets() { g_out = tutor().sets(); }
EXPORTED void tutor_use_set() { g_out = tutor().use_set(g_in); }
/// Mode, code and skills, a line each.
EXPORTED void tutor_begin() {
  const std::string_view rest = second_line();
  const std::size_t end = rest.find('\n');
  const std::string_view skills =
      end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  g_out = tutor().begin(first_line(), rest.substr(0, end), skills);
}
EXPORTED void tutor_state() { g_out = tutor().state(); }
EXPORTED void tutor_answer() { g_out = tutor().answer(g_in); }
EXPORTED void tutor_hint() { g_out = tutor().hint(); }
EXPORTED void tutor_show_me() { g_out = tutor().show_me(); }
EXPORTED void tutor_next() { g_out = tutor().next(); }
EXPORTED void tutor_stop() { g_out = tutor().stop(); }
EXPORTED void tutor_sheet(int count) { g_out = tutor().sheet(g_in, count); }
EXPORTED void tutor_today(int day) { tutor().today(day); }
/// A class code for a number; its low bits count.
EXPORTED void tutor_new_code(std::uint32_t number) { g_out = web::Tutor::new_code(number); }
EXPORTED void tutor_progress() { g_out = tutor().progress(); }
EXPORTED void tutor_take_progress() { g_out = tutor().take_progress(g_in); }
EXPORTED void tutor_clear_progress() { tutor().clear_progress(); }
