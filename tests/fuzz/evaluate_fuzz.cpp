// evaluate() of anything: the first byte chooses the report's parts and whether the picture is
// drawn too; the rest is the link.
#include "core/evaluate.h"

#include <limits>

#include "core/explain.h"
#include "core/picture.h"
#include "core/svg.h"
#include "tests/fuzz/must.h"

using namespace core;
using fuzz::must;

namespace {

bool finite(Vec2 v) { return std::isfinite(v.x) && std::isfinite(v.y); }

void must_be_rollout(const Rollout& r) {
  must(!r.exists || (std::isfinite(r.cross_nm) && std::isfinite(r.to_go_nm) &&
                     std::isfinite(r.inbound_s) && std::isfinite(r.at_s) && finite(r.at)),
       "a roll-out has numbers");
}

void must_be_flight(const Flight& f) {
  must(f.lap_count >= 0 && f.lap_count <= Flight::kMostLaps, "laps are bounded");
  must(f.event_count >= 0 && f.event_count <= Flight::kMostEvents, "events are bounded");
  must(std::isfinite(f.entry_time_s) && std::isfinite(f.intercept_flown_deg), "an entry");
  must_be_rollout(f.rollout);
  // A lap that was begun and not ended has events as well.
  const int begun = f.lap_count + (f.stop == Stop::none ? 0 : 1);
  for (int i = 0; i < f.event_count; ++i) {
    const Event& e = f.events[static_cast<unsigned>(i)];
    must(std::isfinite(e.at_s) && finite(e.at) && std::isfinite(e.heading_deg), "an event");
    must(e.lap <= begun, "an event is of a lap that is begun");
  }
  for (int i = 0; i < f.lap_count; ++i) {
    const Lap& l = f.laps[static_cast<unsigned>(i)];
    must(std::isfinite(l.start_s) && std::isfinite(l.outbound_s) && l.outbound_s >= 0.0, "a lap");
    must_be_rollout(l.rollout);
  }
  for (const Segment& g : f.track) {
    must(std::isfinite(g.start_s) && std::isfinite(g.duration_s) && g.duration_s >= 0.0 &&
             finite(g.position_at(g.duration_s)),
         "a piece of the track");
  }
}

/// `least_s`: a lap's turn inbound may have to begin before its clock.
void must_be_exact(const ExactPlan& p, double least_s) {
  must(!p.exists() || (p.heading_deg > 0.0 && p.heading_deg <= 360.0 && p.time_s >= least_s &&
                       p.time_s <= kMostOutboundS + 1e-6 && p.straight_s >= 0.0),
       "an exact plan has a heading and a time");
}

void must_be_drawn(const WorkedCase& c, std::string_view heard) {
  PictureOptions o;
  o.view = fitted(c, 320.0, 240.0);
  Diagram d;
  draw_picture(c, o, d);
  for (const Vec2 p : d.points) must(finite(p), "the picture's points are numbers");
  const std::string svg = write_svg(d, Theme::light, picture_summary(c));
  must(svg.size() < 1000000, "a picture is bounded");
  fuzz::must_be_plain(svg, heard);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const unsigned choice = data[0];
  const std::string_view link = fuzz::text_of(data + 1, size - 1);
  ReportParts parts;
  // As letters, so that seeds can be written: 'a' is the least, 'o' all of it.
  parts.more = (choice & 2U) != 0;
  // The area costs more than all the rest: for one text in thirty-two.
  parts.area = (choice & 4U) != 0 && size % 32 == 0;
  parts.study = (choice & 8U) != 0;
  parts.flight = (choice & 1U) != 0;

  ParsedLink read = parse_link(link);
  const WorkedCase c = work_out(read.scenario);
  must(c.rows.size() <= static_cast<std::size_t>(kPlans), "plans are bounded");
  must_be_flight(c.flown);
  for (const PlanRow& row : c.rows) must_be_flight(row.flight);
  for (const EntryCase& entry : c.entries) must_be_flight(entry.flight);
  for (const ExactPlan* p : {&c.heading_for_time, &c.heading_and_time, &c.time_for_heading})
    must_be_exact(*p, 0.0);
  must_be_exact(c.lap, std::numeric_limits<double>::lowest());
  const std::string answer = evaluate(c, read.problems, parts);
  fuzz::must_be_json(answer, link, 400000);
  must(fuzz::has(answer, "\"link\":\"" + write_link(c.setup.scenario) + "\""), "its own link");
  if (choice & 16U) must_be_drawn(c, link);
  return 0;
}
