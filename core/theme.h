// core/theme.h - what each kind of mark looks like: one table for both painters.
//
// Hues are Okabe-Ito (see docs/third-party.md). Every plan differs by line style
// and label as well as by hue. tests/theme_test.cpp computes the contrast of each.
#pragma once

#include <cstdint>

namespace core {

/// What a mark in the picture stands for. The painters look up its paint here.
enum class Role : std::uint8_t {
  paper,          ///< the background itself
  ring,           ///< distance rings and their labels
  streak,         ///< the drifting air
  pattern,        ///< still-air racetrack outline
  pattern_fill,   ///< its area, the holding side
  course,         ///< the inbound course line
  fix,            ///< the holding fix
  air_path,       ///< where the aircraft would be had the air stood still
  no_correction,  ///< plan: still-air heading
  rule,           ///< plan: the chosen rule, while another plan is flown
  exact,          ///< plan: rolls out on course with the published inbound time
  own,            ///< plan: the student's answer, while another plan is flown
  after,          ///< flown track after the roll-out: intercept and laps
  flown,          ///< flown track up to the roll-out
  tick,           ///< 10-second mark on the flown track
  event,          ///< labelled event on the flown track
  miss,           ///< distance off course at the roll-out
  wind,           ///< the wind arrow and its label
  aircraft,       ///< aircraft symbol
  heading,        ///< heading vector at the aircraft
  ground_track,   ///< ground-track vector at the aircraft
  handle,         ///< something to drag
  probe,          ///< the point under the pointer
  text,           ///< plain label
  quiet,          ///< secondary label
  sector,         ///< the edges of the entry sectors, their zones and names
  sector_fill,    ///< the sector that the arrival heading lies in
  other_entry,    ///< the other acceptable entry
  area,           ///< protected area: basic and entry area
  area_buffer,    ///< outer edge of its buffer
  area_fill,      ///< the entry area
  limit,          ///< where to slow down, the limiting radial, the end of a distance leg
  station,        ///< what the hold is built on, and the cone above it
  lap,            ///< a lap's track and its roll-out
  count
};
inline constexpr int kRoleCount = static_cast<int>(Role::count);

enum class Theme : std::uint8_t { light, dark, contrast_light, contrast_dark };

/// Colour as 0xRRGGBB, opacity 0..1; `width_px` is a line's width in CSS pixels.
/// Dashes alternate on, off, in px; all zero is a solid line.
struct Paint {
  std::uint32_t rgb;
  double opacity;
  double width_px;
  double dash_px[4];
};

/// Paint for `role` under `theme`. Unknown roles get plain ink.
[[nodiscard]] Paint paint(Role role, Theme theme);
/// Name used for the role in SVG classes and style sheets, e.g. "no-correction".
[[nodiscard]] const char* role_name(Role role);

}  // namespace core
