// core/svg.h - a diagram as SVG text.
#pragma once

#include <string>

#include "core/diagram.h"

namespace core {

/// The diagram as one <svg> element. Every mark carries its role as a class and the
/// paint of `theme` as presentation attributes, so it stands alone and a page's style
/// sheet (theme_css) can repaint it. No script, no style attribute, no link.
[[nodiscard]] std::string write_svg(const Diagram& diagram, Theme theme, std::string_view title);

/// Style rules for the classes in both page themes and forced colours, scoped to
/// `.picture`: light by default, dark by data-theme or by preference.
[[nodiscard]] std::string theme_css();

}  // namespace core
