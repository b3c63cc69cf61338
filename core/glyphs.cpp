// core/glyphs.cpp - outlines of the symbols in the picture.
#include <cstddef>

#include "core/diagram.h"

namespace core {
namespace {

/// Equilateral, its side one unit, its centre of area on the anchor.
constexpr Vec2 kFix[] = {{0.0, 0.57735}, {0.5, -0.288675}, {-0.5, -0.288675}};

/// A light single from above: one unit from spinner to tail, one unit of span.
constexpr Vec2 kAircraft[] = {
    {0.0, 0.5},      {0.026, 0.486},   {0.05, 0.44},     {0.063, 0.37},    {0.069, 0.17},
    {0.44, 0.128},   {0.478, 0.116},   {0.5, 0.086},     {0.5, 0.05},      {0.484, 0.026},
    {0.452, 0.014},  {0.069, -0.03},   {0.056, -0.14},   {0.031, -0.328},  {0.172, -0.366},
    {0.19, -0.384},  {0.195, -0.412},  {0.187, -0.438},  {0.168, -0.452},  {0.02, -0.455},
    {0.0, -0.5},     {-0.02, -0.455},  {-0.168, -0.452}, {-0.187, -0.438}, {-0.195, -0.412},
    {-0.19, -0.384}, {-0.172, -0.366}, {-0.031, -0.328}, {-0.056, -0.14},  {-0.069, -0.03},
    {-0.452, 0.014}, {-0.484, 0.026},  {-0.5, 0.05},     {-0.5, 0.086},    {-0.478, 0.116},
    {-0.44, 0.128},  {-0.069, 0.17},   {-0.063, 0.37},   {-0.05, 0.44},    {-0.026, 0.486}};

/// A square on its corner.
constexpr Vec2 kStation[] = {{0.0, 0.6}, {0.6, 0.0}, {0.0, -0.6}, {-0.6, 0.0}};

constexpr Vec2 kHead[] = {{0.0, 0.5}, {0.42, -0.5}, {0.0, -0.28}, {-0.42, -0.5}};

template <std::size_t n>
constexpr GlyphPath path(const Vec2 (&points)[n], bool filled) {
  return {points, static_cast<int>(n), filled};
}

}  // namespace

GlyphPath glyph_path(std::string_view name) {
  if (name == "fix") return path(kFix, false);
  if (name == "aircraft") return path(kAircraft, true);
  if (name == "head") return path(kHead, true);
  if (name == "station") return path(kStation, false);
  return {};
}

}  // namespace core
