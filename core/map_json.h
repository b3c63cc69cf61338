// core/map_json.h - what there is to say of a map, for the page.
#pragma once

#include "core/json.h"
#include "core/map_study.h"
#include "core/theme.h"

namespace core {

/// An object: what is mapped and by whose plan; the grid that is done; `share`, of winds that are
/// good enough; `range`, the values that are (an open end is null); `spread`, how far
/// the values lie from the middle; `rules`, with the best rule the
/// share of winds of each; `wind`, the scene's own with its value.
void write_map(Json& json, const MapStudy& study);
/// `scale`: colours from one reach below the middle to one above, evenly; `rules`.
void write_map_colours(Json& json, Mapped mapped, Theme theme);

}  // namespace core
