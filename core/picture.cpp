#include "core/picture.h"

#include "core/artist.h"

namespace core {

void Artist::north() {
  Item& label =
      w_.label(Role::quiet, o_.view.to_nm({16.0, 18.0}), word("core.pic.north"), kSmallPx, false);
  label.align = Align::left;
  labels_.block({0.0, 0.0, 150.0, 30.0});
  if (o_.tools) labels_.block({o_.view.width_px - 62.0, 0.0, o_.view.width_px, 138.0});
}

void Artist::draw() {
  if (o_.hand) return hand();
  const bool told = o_.flight && !o_.until_s;
  streaks();
  rings();
  north();
  area();
  sectors();
  pattern();
  course();
  limits();
  // Lines first, so that every label knows what it should not cover; the miss is
  // placed before the lesser labels because it matters most.
  if (!far() && o_.flight) plan_lines();
  if (o_.flight) other_entry();
  beside();
  flown();
  wind();
  captions();
  keep_handles_clear();
  fix();
  if (!far()) {
    if (told) miss();
    handles();
    if (told) flown_label();
  }
  beside_label();
  sector_labels();
  if (told) other_entry_label();
  limit_labels();
  if (!far() && told) {
    lap_labels();
    plan_labels();
    ticks_and_events();
    air_label();
  }
  area_labels();
  ring_labels();
  aircraft();
  probe();
}

void draw_picture(const WorkedCase& worked, const PictureOptions& options, Diagram& out) {
  out.view = options.view;
  out.items.clear();
  out.points.clear();
  out.text.clear();
  if (!options.layers.area || options.area) {
    Artist(worked, options, out).draw();
    return;
  }
  const ProtectedArea area = area_of(worked.setup);
  PictureOptions with_area = options;
  with_area.area = &area;
  Artist(worked, with_area, out).draw();
}

}  // namespace core
