#include "core/svg.h"

#include "core/words.h"

namespace core {
namespace {

/// Two decimals of a pixel: finer than any screen, short in the text.
std::string number(double v) {
  if (!std::isfinite(v)) return "0";
  const bool negative = v < 0.0;
  double hundredths = std::floor(std::abs(v) * 100.0 + 0.5);
  if (hundredths > 1e9) hundredths = 1e9;
  auto n = static_cast<unsigned long>(hundredths);
  std::string out;
  const auto digits = [](unsigned long k) {
    std::string d;
    do {
      d.insert(0, 1, static_cast<char>('0' + k % 10));
      k /= 10;
    } while (k > 0);
    return d;
  };
  out = digits(n / 100);
  if (n % 100 != 0) {
    out += '.';
    out += static_cast<char>('0' + n / 10 % 10);
    if (n % 10 != 0) out += static_cast<char>('0' + n % 10);
  }
  return negative && n > 0 ? "-" + out : out;
}

std::string colour(std::uint32_t rgb) {
  constexpr char kHex[] = "0123456789abcdef";
  std::string out = "#";
  for (int shift = 20; shift >= 0; shift -= 4) out += kHex[(rgb >> shift) & 15U];
  return out;
}

/// "14 7.5"; empty for a solid line.
std::string dash_list(const Paint& p) {
  std::string dashes;
  if (p.dash_px[0] + p.dash_px[1] <= 0.0) return dashes;
  for (int k = 0; k < 4 && (k < 2 || p.dash_px[2] + p.dash_px[3] > 0.0); ++k) {
    if (k) dashes += ' ';
    dashes += number(p.dash_px[k]);
  }
  return dashes;
}

void escape(std::string_view text, std::string& out) {
  for (const char c : text) {
    switch (c) {
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '&':
        out += "&amp;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
}

class Writer {
 public:
  Writer(const Diagram& d, Theme theme) : d_(d), theme_(theme) {}
  std::string write(std::string_view title);

 private:
  void attribute(std::string_view name, std::string_view value) {
    out_ += ' ';
    out_ += name;
    out_ += "=\"";
    out_ += value;
    out_ += '"';
  }
  void attribute(std::string_view name, double value) { attribute(name, number(value)); }
  void open(std::string_view element, const Item& i, std::string_view kind);
  void stroke(const Item& i);
  void fill(const Item& i);
  void points(const Item& i);
  void item(const Item& i);
  void label(const Item& i);
  void glyph(const Item& i);
  void arrow(const Item& i);
  [[nodiscard]] Vec2 at(const Item& i, std::uint32_t k = 0) const {
    return d_.view.to_px(d_.points[i.first + k]);
  }

  const Diagram& d_;
  Theme theme_;
  std::string out_;
};

void Writer::open(std::string_view element, const Item& i, std::string_view kind) {
  out_ += '<';
  out_ += element;
  attribute("class", std::string("r-") + role_name(i.role) + " " + std::string(kind));
}

void Writer::stroke(const Item& i) {
  const Paint p = paint(i.role, theme_);
  attribute("fill", "none");
  attribute("stroke", colour(p.rgb));
  attribute("stroke-width", p.width_px * static_cast<double>(i.width_scale));
  const double opacity = p.opacity * static_cast<double>(i.opacity);
  if (opacity < 1.0) attribute("stroke-opacity", opacity);
  attribute("stroke-linecap", "round");
  attribute("stroke-linejoin", "round");
  const std::string dashes = i.shape == Shape::polyline ? dash_list(p) : std::string();
  if (!dashes.empty()) attribute("stroke-dasharray", dashes);
}

void Writer::fill(const Item& i) {
  const Paint p = paint(i.role, theme_);
  attribute("fill", colour(p.rgb));
  // Labels and marks are read, so only areas take the paint's faintness.
  const bool area = i.shape == Shape::polygon;
  const double opacity = (area ? p.opacity : 1.0) * static_cast<double>(i.opacity);
  if (opacity < 1.0) attribute("fill-opacity", opacity);
}

void Writer::points(const Item& i) {
  std::string list;
  for (std::uint32_t k = 0; k < i.count; ++k) {
    const Vec2 p = at(i, k);
    if (k) list += ' ';
    list += number(p.x);
    list += ',';
    list += number(p.y);
  }
  attribute("points", list);
}

void Writer::label(const Item& i) {
  const Vec2 p =
      at(i) + Vec2{static_cast<double>(i.offset_x_px), static_cast<double>(i.offset_y_px)};
  open("text", i, i.halo ? "s-label s-halo" : "s-label");
  attribute("x", p.x);
  // The offset is to the middle of the letters; the baseline lies below it.
  const double size = static_cast<double>(i.size);
  attribute("y", p.y + 0.35 * size);
  attribute("font-size", size);
  if (i.emphasis == Emphasis::strong) attribute("font-weight", "600");
  if (i.align != Align::left) attribute("text-anchor", i.align == Align::centre ? "middle" : "end");
  if (i.angle_deg != 0.0F) {
    attribute("transform", "rotate(" + number(static_cast<double>(i.angle_deg)) + " " +
                               number(p.x) + " " + number(p.y) + ")");
  }
  fill(i);
  if (i.halo) {
    attribute("stroke", colour(paint(Role::paper, theme_).rgb));
    attribute("stroke-width", 3.5);
    attribute("stroke-linejoin", "round");
    attribute("paint-order", "stroke");
  }
  out_ += '>';
  escape(d_.text_of(i), out_);
  out_ += "</text>\n";
}

void Writer::glyph(const Item& i) {
  const GlyphPath path = glyph_path(d_.text_of(i));
  if (path.count == 0) return;
  const Vec2 p = at(i);
  open("polygon", i, path.filled ? "s-disc" : "s-ring s-hollow");
  std::string list;
  for (int k = 0; k < path.count; ++k) {
    if (k) list += ' ';
    list += number(path.points[k].x * static_cast<double>(i.size));
    list += ',';
    list += number(-path.points[k].y * static_cast<double>(i.size));
  }
  attribute("points", list);
  attribute("transform", "translate(" + number(p.x) + " " + number(p.y) + ") rotate(" +
                             number(static_cast<double>(i.angle_deg)) + ")");
  if (path.filled) {
    fill(i);
  } else {
    stroke(i);
    // Hollow, but what lies under it must not run through it.
    out_.replace(out_.rfind("fill=\"none\""), 11,
                 "fill=\"" + colour(paint(Role::paper, theme_).rgb) + "\"");
  }
  out_ += "/>\n";
}

void Writer::arrow(const Item& i) {
  const Vec2 tail = at(i);
  const Vec2 tip = at(i, 1);
  const double l = length(tip - tail);
  if (!(l > 0.0)) return;
  const Vec2 unit = (tip - tail) * (1.0 / l);
  const double head = std::fmin(static_cast<double>(i.size), l);
  const Vec2 square = {-unit.y, unit.x};
  const Vec2 neck = tip - unit * (0.8 * head);
  open("line", i, "s-line");
  attribute("x1", tail.x);
  attribute("y1", tail.y);
  attribute("x2", neck.x);
  attribute("y2", neck.y);
  stroke(i);
  out_ += "/>\n";
  open("polygon", i, "s-disc");
  std::string list;
  for (const Vec2 p : {tip, tip - unit * head + square * (0.42 * head), neck,
                       tip - unit * head - square * (0.42 * head)}) {
    if (!list.empty()) list += ' ';
    list += number(p.x) + "," + number(p.y);
  }
  attribute("points", list);
  fill(i);
  out_ += "/>\n";
}

void Writer::item(const Item& i) {
  switch (i.shape) {
    case Shape::polyline:
      open("polyline", i, "s-line");
      points(i);
      stroke(i);
      break;
    case Shape::polygon:
      open("polygon", i, "s-area");
      points(i);
      fill(i);
      break;
    case Shape::ring:
    case Shape::disc: {
      const Vec2 p = at(i);
      open("circle", i, i.shape == Shape::ring ? "s-ring" : "s-disc");
      attribute("cx", p.x);
      attribute("cy", p.y);
      attribute("r", static_cast<double>(i.size) * (i.size_in_nm ? d_.view.px_per_nm : 1.0));
      i.shape == Shape::ring ? stroke(i) : fill(i);
      break;
    }
    case Shape::glyph:
      glyph(i);
      return;
    case Shape::arrow:
      arrow(i);
      return;
    case Shape::label:
      label(i);
      return;
  }
  out_ += "/>\n";
}

std::string Writer::write(std::string_view title) {
  out_.reserve(32768);
  const std::string w = number(d_.view.width_px);
  const std::string h = number(d_.view.height_px);
  out_ +=
      "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"picture-svg\" role=\"img\" viewBox=\"0 0 ";
  out_ += w + " " + h + "\" width=\"" + w + "\" height=\"" + h +
          "\" font-family=\"Lesson Text, Inter, system-ui, sans-serif\">\n";
  out_ += "<title>";
  escape(title, out_);
  out_ += "</title>\n<rect class=\"r-paper s-area\" width=\"100%\" height=\"100%\" fill=\"" +
          colour(paint(Role::paper, theme_).rgb) + "\"/>\n";
  for (const Item& i : d_.items) item(i);
  out_ += "</svg>\n";
  return std::move(out_);
}

void rules(std::string_view scope, Theme theme, std::string& out) {
  for (int k = 0; k < kRoleCount; ++k) {
    const auto role = static_cast<Role>(k);
    const Paint p = paint(role, theme);
    const std::string name = std::string(scope) + " .r-" + role_name(role);
    const std::string rgb = colour(p.rgb);
    out.append(name).append(".s-line,").append(name).append(".s-ring{stroke:");
    out.append(rgb).append("}\n");
    out.append(name).append(".s-disc,").append(name).append(".s-area,");
    out.append(name).append(".s-label{fill:").append(rgb).append("}\n");
  }
  const std::string paper = colour(paint(Role::paper, theme).rgb);
  out += std::string(scope) + " .s-halo{stroke:" + paper + "}\n";
  out += std::string(scope) + " .s-hollow{fill:" + paper + "}\n";
}

}  // namespace

std::string write_svg(const Diagram& diagram, Theme theme, std::string_view title) {
  return Writer(diagram, theme).write(title);
}

std::string theme_css() {
  std::string out;
  // Samples of the lines, beside the plans' names: the same width and dashes.
  for (int k = 0; k < kRoleCount; ++k) {
    const Paint p = paint(static_cast<Role>(k), Theme::light);
    out += std::string(".swatch .r-") + role_name(static_cast<Role>(k)) +
           ".s-line{fill:none;stroke-linecap:round;stroke-width:" + number(p.width_px);
    const std::string dashes = dash_list(p);
    if (!dashes.empty()) out += ";stroke-dasharray:" + dashes;
    out += "}\n";
  }
  rules(".picture", Theme::light, out);
  rules(":root[data-theme=\"dark\"] .picture", Theme::dark, out);
  out += "@media (prefers-color-scheme: dark){\n";
  rules(":root:not([data-theme=\"light\"]) .picture", Theme::dark, out);
  out += "}\n@media (forced-colors: active){\n";
  // Three times :root: no choice of theme outranks the person's own two colours.
  rules(":root:root:root .picture", Theme::contrast_light, out);
  out += "}\n@media (forced-colors: active) and (prefers-color-scheme: dark){\n";
  rules(":root:root:root .picture", Theme::contrast_dark, out);
  out += "}\n";
  return out;
}

}  // namespace core
