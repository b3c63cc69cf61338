// web/view.cpp - what the page may call of the painter.
//
// The module holds nothing of the lesson: the page copies a diagram's bytes into the
// three buffers and asks for one frame. Nothing runs in between. After a lost WebGL
// context the page makes a new canvas and a new instance of this module.
#include <emscripten/emscripten.h>

#include <cmath>
#include <string_view>
#include <vector>

#include "core/diagram.h"
#include "core/theme.h"
#include "web/view_paint.h"
#include "web/view_window.h"

namespace {

constexpr int kMaxBytes = 1 << 24;  // of one buffer; a busy diagram has a hundredth of it

view::Window g_window;
double g_dpr = 1.0;
int g_frames = 0;

/// Records that the page fills in as bytes; `count` of them are whole.
template <typename Record>
struct Buffer {
  std::vector<Record> records;
  std::size_t count = 0;

  /// Room for `bytes`. Null, and no records, for a size that makes no sense.
  char* room(int bytes) {
    count = bytes < 0 || bytes > kMaxBytes ? 0 : static_cast<std::size_t>(bytes) / sizeof(Record);
    records.resize(count + 1);
    return bytes < 0 || bytes > kMaxBytes ? nullptr : reinterpret_cast<char*>(records.data());
  }
};
Buffer<core::Item> g_items;
Buffer<core::Vec2> g_points;
Buffer<char> g_text;

/// Pixel ratios between a quarter and eight; anything else is taken for 1.
double sound_ratio(double dpr) { return dpr >= 0.25 && dpr <= 8.0 ? dpr : 1.0; }

int device_pixels(double css, double dpr) {
  return css > 0.0 && css < 1e5 ? static_cast<int>(std::lround(css * dpr)) : 1;
}

}  // namespace

extern "C" {

/// Bumped when an argument list or a record of core/diagram.h changes.
EMSCRIPTEN_KEEPALIVE int view_abi() { return 1; }

/// Takes hold of #canvas: 1, or 0 where there is no WebGL.
EMSCRIPTEN_KEEPALIVE int view_start(double dpr) {
  if (g_window.started()) return 1;
  g_dpr = sound_ratio(dpr);
  return g_window.start() ? 1 : 0;
}

/// Size of the picture in CSS pixels. The backing store follows, rounded.
EMSCRIPTEN_KEEPALIVE void view_size(double css_width, double css_height, double dpr) {
  if (!g_window.started()) return;
  g_dpr = sound_ratio(dpr);
  g_window.resize(device_pixels(css_width, g_dpr), device_pixels(css_height, g_dpr));
}

/// Room for the diagram's items, points and text; the bytes are copied in by the page.
/// The address holds until the next call.
EMSCRIPTEN_KEEPALIVE char* view_items(int bytes) { return g_items.room(bytes); }
EMSCRIPTEN_KEEPALIVE char* view_points(int bytes) { return g_points.room(bytes); }
EMSCRIPTEN_KEEPALIVE char* view_text(int bytes) { return g_text.room(bytes); }

/// Paints one frame. `theme` is core::Theme; the centre is in NM, the scale in CSS
/// pixels a NM.
EMSCRIPTEN_KEEPALIVE void view_paint(int theme, double centre_x, double centre_y,
                                     double px_per_nm) {
  if (!g_window.started() || g_window.width() == 0) return;
  view::Frame frame;
  frame.theme = theme >= 0 && theme <= 3 ? static_cast<core::Theme>(theme) : core::Theme::light;
  frame.centre = {centre_x, centre_y};
  frame.px_per_nm = px_per_nm;
  frame.dpr = g_dpr;
  frame.width = g_window.width();
  frame.height = g_window.height();
  view::Scene scene;
  scene.items = g_items.records.data();
  scene.item_count = g_items.count;
  scene.points = g_points.records.data();
  scene.point_count = g_points.count;
  scene.text = std::string_view(g_text.records.data(), g_text.count);
  const view::Letters& letters = g_window.letters(g_dpr, scene.text);
  view::paint(g_window.begin(), letters, scene, frame);
  g_window.end(core::paint(core::Role::paper, frame.theme).rgb);
  ++g_frames;
}

/// Makes the letters that the first picture did without, so that no later one waits for them.
EMSCRIPTEN_KEEPALIVE void view_all_letters() {
  if (g_window.started()) g_window.all_letters();
}

/// Frames painted since the module was loaded.
EMSCRIPTEN_KEEPALIVE int view_frames() { return g_frames; }

/// Gives the canvas up, which is left empty.
EMSCRIPTEN_KEEPALIVE void view_stop() {
  if (g_window.started()) g_window.stop();
}

}  // extern "C"
