#include "core/picture.h"

#include "core/artist.h"

namespace core {

void Artist::draw() {
  streaks();
  rings();
  Item& north =
      w_.label(Role::quiet, o_.view.to_nm({16.0, 18.0}), word("core.pic.north"), kSmallPx, false);
  north.align = Align::left;
  labels_.block({0.0, 0.0, 150.0, 30.0});
  if (o_.tools) labels_.block({o_.view.width_px - 62.0, 0.0, o_.view.width_px, 138.0});
  pattern();
  course();
  // Lines first, so that every label knows what it should not cover; the miss is
  // placed before the lesser labels because it matters most.
  plan_lines();
  flown();
  wind();
  keep_handles_clear();
  fix();
  miss();
  handles();
  flown_label();
  plan_labels();
  ticks_and_events();
  air_label();
  ring_labels();
  aircraft();
  probe();
}

void draw_picture(const WorkedCase& worked, const PictureOptions& options, Diagram& out) {
  out.view = options.view;
  out.items.clear();
  out.points.clear();
  out.text.clear();
  Artist(worked, options, out).draw();
}

}  // namespace core
