// web/study_exports.cpp - the boundary of the study module: maps over all winds, and clouds of
// what cannot be known, for a worker of the page. web/study.mjs is the other side.
#include <cstdint>

#include "core/contour.h"
#include "core/map_image.h"
#include "core/map_json.h"
#include "web/text_port.h"

namespace {

core::Setup g_setup;
core::MapStudy g_map;
core::MapImage g_image;
std::vector<float> g_lines;

/// Kinds count from 0; anything else is the first.
template <class Kind>
Kind kind(int number, int count) {
  return static_cast<Kind>(number >= 0 && number < count ? number : 0);
}

}  // namespace

/// Bumped whenever a signature or a layout changes; study.mjs refuses another.
EXPORTED int study_abi() { return 1; }

/// The scene that all else is about: a link.
EXPORTED void study_scene() { g_setup = core::make_setup(core::parse_link(g_in).scenario); }

/// `less` below 0: none.
EXPORTED void study_map_begin(int mapped, int plan, int less, double most_kt, double tolerance_nm,
                              int finest) {
  core::MapChoice c;
  c.mapped = kind<core::Mapped>(mapped, core::kMappedKinds);
  c.plan = kind<core::MapPlan>(plan, core::kMapPlans);
  if (less >= 0) c.less = kind<core::MapPlan>(less, core::kMapPlans);
  c.most_kt = most_kt >= 1.0 && most_kt <= 150.0 ? most_kt : core::MapChoice{}.most_kt;
  c.tolerance_nm = tolerance_nm > 0.0 ? tolerance_nm : core::MapChoice{}.tolerance_nm;
  g_map.begin(g_setup, c, finest);
}
/// Whether nothing is left to do.
EXPORTED int study_map_work(int winds) { return g_map.work(winds) ? 1 : 0; }

/// Pixels, `size_px` square; null while there is no map.
EXPORTED const std::uint8_t* study_map_image(int size_px, int theme) {
  const std::vector<std::uint8_t>& px =
      g_image.draw(g_map, size_px, static_cast<core::Theme>(theme & 3));
  return px.empty() ? nullptr : px.data();
}

/// Contour lines as numbers: level, 1 where closed, count of points, then x and y of each.
EXPORTED const float* study_map_lines() {
  g_lines.clear();
  for (const double level : g_map.contour_levels()) {
    for (const core::ContourLine& line : core::contour(g_map.field(), level)) {
      g_lines.push_back(static_cast<float>(level));
      g_lines.push_back(line.closed ? 1.0F : 0.0F);
      g_lines.push_back(static_cast<float>(line.points.size()));
      for (const core::Vec2 p : line.points) {
        g_lines.push_back(static_cast<float>(p.x));
        g_lines.push_back(static_cast<float>(p.y));
      }
    }
  }
  return g_lines.data();
}
EXPORTED int study_map_lines_size() { return static_cast<int>(g_lines.size()); }

/// The map's value in a wind, magnetic, by single flights; NaN where there is none.
EXPORTED double study_map_value(double from_deg, double kt) {
  return core::map_value(g_map.setup(), g_map.choice(), {core::wrap_360(from_deg), kt});
}

/// What there is to say of the map.
EXPORTED void study_map_info() {
  core::Json json;
  core::write_map(json, g_map);
  g_out = json.take();
}

/// Colours of the scale from one reach below its middle to one above, and of the rules.
EXPORTED void study_map_colours(int theme) {
  core::Json json;
  core::write_map_colours(json, g_map.choice().mapped, static_cast<core::Theme>(theme & 3));
  g_out = json.take();
}
