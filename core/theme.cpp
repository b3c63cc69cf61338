// core/theme.cpp - the table of paints.
//
// All strokes are drawn with round caps and joins, so a dash looks one line width
// longer than it is written here, and {0.01, gap} makes round dots. Labels are set in
// a role's colour without its opacity: a faint line may have a label that reads well.
//
// Contrast, by the WCAG 2 formula, against the paper of the same theme: every colour
// is at least 4.5:1, and a line that means something at least 3:1 as drawn (colour,
// opacity and paper together), also where it runs over areas. Rings and streaks only
// decorate and may be fainter, and so may the areas: their edges are lines. Letters have
// a halo of paper, so that paper is what they stand on.
#include "core/theme.h"

#include <cstddef>

namespace core {
namespace {

/// One role: its colours on light paper and on dark, and how its lines are drawn.
struct Row {
  const char* name;
  std::uint32_t light;
  std::uint32_t dark;
  double opacity_light;
  double opacity_dark;
  double width_px;
  double dash_px[4];
};

constexpr std::uint32_t kInk = 0x1d2433;
constexpr std::uint32_t kInkOnDark = 0xece7dc;
/// Okabe-Ito blue, and its sky blue where the paper is dark.
constexpr std::uint32_t kBlue = 0x0072b2;
constexpr std::uint32_t kBlueOnDark = 0x56b4e9;
/// A reddish purple kept for the wind alone.
constexpr std::uint32_t kWind = 0x7b2d6b;
constexpr std::uint32_t kWindOnDark = 0xdc9fd6;

// clang-format off
constexpr Row kRows[kRoleCount] = {
    // name           light     dark        opacity      width  dashes
    {"paper",         0xfbfaf7, 0x12161f,   1.0,  1.0,   1.0,   {}},
    {"ring",          0x656c7c, 0x9aa0ad,   0.3,  0.3,   1.0,   {}},
    {"streak",        kWind,    kWindOnDark, 0.2, 0.24,  1.1,   {}},
    {"pattern",       0x656c7c, 0x9aa0ad,   0.85, 0.8,   1.3,   {}},
    {"pattern-fill",  0x2f5fa0, 0x8fb0dc,   0.06, 0.08,  0.0,   {}},
    {"course",        kInk,     kInkOnDark, 0.8,  0.75,  1.2,   {}},
    {"fix",           kInk,     kInkOnDark, 1.0,  1.0,   2.0,   {}},
    {"air-path",      0x3d6f94, 0x7fb2d6,   0.85, 0.7,   0.9,   {}},
    {"no-correction", 0x636977, 0xa7acb8,   1.0,  1.0,   2.6,   {0.01, 5.6}},
    {"rule",          0xa8417f, 0xe08bbd,   1.0,  1.0,   2.2,   {11.0, 5.5, 0.01, 5.5}},
    {"exact",         0x007858, 0x33c79d,   1.0,  1.0,   2.6,   {14.0, 7.5}},
    {"own",           0x8a5a00, 0xe6a52e,   1.0,  1.0,   2.4,   {4.5, 6.0}},
    {"after",         kBlue,    kBlueOnDark, 0.8, 0.75,  2.0,   {}},
    {"flown",         kBlue,    kBlueOnDark, 1.0, 1.0,   3.6,   {}},
    {"tick",          kBlue,    kBlueOnDark, 1.0, 1.0,   1.4,   {}},
    {"event",         0x0a4a72, 0xa9d8f5,   1.0,  1.0,   1.8,   {}},
    {"miss",          0xb84a00, 0xff8f4a,   1.0,  1.0,   2.4,   {}},
    {"wind",          kWind,    kWindOnDark, 1.0, 1.0,   3.6,   {}},
    {"aircraft",      kInk,     0xfffaf0,   1.0,  1.0,   1.4,   {}},
    {"heading",       kInk,     kInkOnDark, 1.0,  1.0,   1.6,   {4.0, 4.0}},
    {"ground-track",  kBlue,    kBlueOnDark, 1.0, 1.0,   2.0,   {}},
    {"handle",        0x35405a, 0xd3d6de,   1.0,  1.0,   2.0,   {}},
    {"probe",         kInk,     kInkOnDark, 1.0,  1.0,   1.5,   {}},
    {"text",          kInk,     kInkOnDark, 1.0,  1.0,   1.2,   {}},
    {"quiet",         0x5b6272, 0xa7acb8,   1.0,  1.0,   1.2,   {}},
    {"sector",        0x3f5f6b, 0x9cc3cf,   0.9,  0.85,  1.3,   {}},
    {"sector-fill",   0x3f5f6b, 0x9cc3cf,   0.09, 0.12,  0.0,   {}},
    {"other-entry",   0x5a47b0, 0xb6a8f5,   1.0,  1.0,   2.4,   {16.0, 6.0, 3.0, 6.0}},
    {"area",          0x5d6340, 0xb6bb92,   1.0,  1.0,   1.6,   {}},
    {"area-buffer",   0x5d6340, 0xb6bb92,   1.0,  1.0,   1.6,   {0.01, 5.0}},
    {"area-fill",     0x5d6340, 0xb6bb92,   0.08, 0.09,  0.0,   {}},
    {"limit",         0x7a4a2a, 0xe0b48c,   1.0,  1.0,   1.8,   {7.0, 5.0}},
    {"station",       kInk,     kInkOnDark, 1.0,  1.0,   1.6,   {}},
    {"lap",           kBlue,    kBlueOnDark, 1.0, 1.0,   2.2,   {}},
};
// clang-format on

constexpr Row kUnknown = {"text", kInk, kInkOnDark, 1.0, 1.0, 1.2, {}};

const Row& row_of(Role role) {
  const auto index = static_cast<std::size_t>(role);
  return index < static_cast<std::size_t>(kRoleCount) ? kRows[index] : kUnknown;
}

/// Two colours and nothing between: no area, and lines that were faint become thin.
Paint two_colours(Role role, const Row& row, std::uint32_t ink, std::uint32_t paper) {
  const bool faint = row.opacity_light < 0.5;
  Paint p = {role == Role::paper ? paper : ink, 1.0, faint ? 0.5 : row.width_px, {}};
  if (row.width_px == 0.0) p.opacity = 0.0;  // an area
  for (int i = 0; i < 4; ++i) p.dash_px[i] = row.dash_px[i];
  return p;
}

}  // namespace

Paint paint(Role role, Theme theme) {
  const Row& row = row_of(role);
  if (theme == Theme::contrast_light) return two_colours(role, row, 0x000000, 0xffffff);
  if (theme == Theme::contrast_dark) return two_colours(role, row, 0xffffff, 0x000000);
  const bool dark = theme == Theme::dark;
  Paint p = {
      dark ? row.dark : row.light, dark ? row.opacity_dark : row.opacity_light, row.width_px, {}};
  for (int i = 0; i < 4; ++i) p.dash_px[i] = row.dash_px[i];
  return p;
}

const char* role_name(Role role) { return row_of(role).name; }

}  // namespace core
