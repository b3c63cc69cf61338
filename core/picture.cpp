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
  const bool area_on = o_.layers.area && o_.area && o_.area->exists();
  const bool beside_on = o_.beside && !far();
  if (area_on) area();
  if (o_.layers.sectors) sectors();
  pattern();
  course();
  if (o_.layers.limits) limits();
  // Lines first, so that every label knows what it should not cover; the miss is
  // placed before the lesser labels because it matters most.
  if (!far() && o_.flight) plan_lines();
  if (o_.flight && o_.layers.other_entry) other_entry();
  if (beside_on) beside();
  flown();
  wind();
  if (o_.layers.area || o_.layers.sectors || o_.layers.other_entry) captions();
  keep_handles_clear();
  fix();
  if (!far()) {
    if (told && o_.layers.miss) miss();
    handles();
    if (told) flown_label();
  }
  if (beside_on && !o_.until_s) beside_label();
  if (o_.layers.sectors) sector_labels();
  if (told && o_.layers.other_entry) other_entry_label();
  if (o_.layers.limits) limit_labels();
  if (!far() && told) {
    lap_labels();
    plan_labels();
    ticks_and_events();
    air_label();
  }
  if (area_on) area_labels();
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
