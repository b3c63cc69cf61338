// web/study_exports.cpp - the boundary of the study module: maps over all winds, and clouds of
// what cannot be known, for a worker of the page. web/study.mjs is the other side.
#include <cstdint>

#include "core/cloud_paint.h"
#include "core/contour.h"
#include "core/map_image.h"
#include "core/map_json.h"
#include "core/rule_study.h"
#include "core/sensitivity.h"
#include "web/text_port.h"

namespace {

core::Setup g_setup;
core::MapStudy g_map;
core::MapImage g_image;
core::Cloud g_cloud;
core::CloudDensity g_density;
int g_density_of = 0;  ///< flights that it was made of
std::vector<std::uint8_t> g_cloud_pixels;
std::vector<float> g_lines;

void begin_line(double level, bool closed, std::size_t count) {
  g_lines.push_back(static_cast<float>(level));
  g_lines.push_back(closed ? 1.0F : 0.0F);
  g_lines.push_back(static_cast<float>(count));
}
void add_points(const std::vector<core::Vec2>& points) {
  for (const core::Vec2 p : points) {
    g_lines.push_back(static_cast<float>(p.x));
    g_lines.push_back(static_cast<float>(p.y));
  }
}

/// Of all flights that were flown.
const core::CloudDensity& density() {
  if (g_density_of != g_cloud.drawn()) {
    g_density = core::density_of(g_cloud);
    g_density_of = g_cloud.drawn();
  }
  return g_density;
}

core::CloudInk ink(unsigned rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16U), static_cast<std::uint8_t>(rgb >> 8U),
          static_cast<std::uint8_t>(rgb)};
}

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
    for (const core::LevelLine& line : core::contour(g_map.field(), level)) {
      begin_line(level, line.closed, line.points.size());
      add_points(line.points);
    }
  }
  return g_lines.data();
}
/// Numbers of whatever lines were asked for last.
EXPORTED int study_lines_size() { return static_cast<int>(g_lines.size()); }

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

/// What cannot be known, in the order of core::Unknown: name, usual spread and widest.
EXPORTED void study_cloud_unknowns() {
  core::Json json;
  json.open_array();
  for (int i = 0; i < core::kUnknowns; ++i) {
    const auto unknown = static_cast<core::Unknown>(i);
    json.open_object().field("name", core::name_of(unknown));
    json.field("usual", core::Cloud::kUsual[unknown]);
    json.field("widest", core::Cloud::kWidest[unknown]).close_object();
  }
  json.close_array();
  g_out = json.take();
}
/// A new cloud of the scene's own plan; spreads in the order of core::Unknown.
EXPORTED void study_cloud_begin(double wind_from_deg, double wind_kt, double heading_deg,
                                double clock_s, double speed_kt, double turn_start_s,
                                unsigned seed) {
  g_cloud.set(g_setup, {{wind_from_deg, wind_kt, heading_deg, clock_s, speed_kt, turn_start_s}},
              seed);
  g_density_of = -1;
}
EXPORTED void study_cloud_fly(int count) { g_cloud.fly_more(count); }
/// Eight flights for each.
EXPORTED void study_cloud_share(int count) { g_cloud.share_more(count); }
EXPORTED void study_cloud_info(double tolerance_nm) {
  g_out = core::cloud_json(g_cloud, tolerance_nm);
}
/// Pixels of the view, as a canvas takes them; null where there is none. Inks 0xRRGGBB.
EXPORTED const std::uint8_t* study_cloud_image(double centre_x_nm, double centre_y_nm,
                                               double px_per_nm, int width_px, int height_px,
                                               unsigned rollouts, unsigned tracks,
                                               int track_count) {
  const core::Viewport view{{centre_x_nm, centre_y_nm},
                            px_per_nm,
                            static_cast<double>(width_px),
                            static_cast<double>(height_px)};
  core::paint_cloud(g_cloud, density(), view, ink(rollouts), ink(tracks), track_count,
                    g_cloud_pixels);
  return g_cloud_pixels.empty() ? nullptr : g_cloud_pixels.data();
}
/// Outlines of the areas that hold half and 95 % of the roll-outs: share, 1, count of points, then
/// x and y of each, NM.
EXPORTED const float* study_cloud_lines() {
  g_lines.clear();
  for (const double share : {0.5, 0.95}) {
    for (const core::Ring& ring : core::outlines_holding(g_cloud, density(), share)) {
      begin_line(share, true, ring.size());
      add_points(ring);
    }
  }
  return g_lines.data();
}

EXPORTED void study_sensitivity() { g_out = core::sensitivity_json(g_setup); }

/// Of all scenes: takes a second or so.
EXPORTED void study_rules() {
  core::Json json;
  core::write_rule_study(json, core::study_rules());
  g_out = json.take();
}
