#include "core/diagram.h"

namespace core {

Item& DiagramWriter::item(Shape shape, Role role) {
  Item& i = d_.items.emplace_back();
  i.shape = shape;
  i.role = role;
  i.first = static_cast<std::uint32_t>(d_.points.size());
  return i;
}

Item& DiagramWriter::line(Role role, Vec2 a, Vec2 b) {
  Item& i = item(Shape::polyline, role);
  d_.points.push_back(a);
  d_.points.push_back(b);
  i.count = 2;
  return i;
}

Item& DiagramWriter::mark(Shape shape, Role role, Vec2 at, double size) {
  Item& i = item(shape, role);
  d_.points.push_back(at);
  i.count = 1;
  i.size = static_cast<float>(size);
  return i;
}

Item& DiagramWriter::arrow(Role role, Vec2 tail, Vec2 tip, double head_px) {
  Item& i = line(role, tail, tip);
  i.shape = Shape::arrow;
  i.size = static_cast<float>(head_px);
  return i;
}

Item& DiagramWriter::glyph(Role role, Vec2 at, std::string_view name, double size_px,
                           double angle_deg) {
  Item& i = mark(Shape::glyph, role, at, size_px);
  i.angle_deg = static_cast<float>(angle_deg);
  set_text(i, name);
  return i;
}

Item& DiagramWriter::label(Role role, Vec2 at, std::string_view text, double size_px, bool strong) {
  Item& i = mark(Shape::label, role, at, size_px);
  i.emphasis = strong ? Emphasis::strong : Emphasis::plain;
  i.halo = 1;
  set_text(i, text);
  return i;
}

void DiagramWriter::set_text(Item& i, std::string_view text) {
  i.text_first = static_cast<std::uint32_t>(d_.text.size());
  i.text_count = static_cast<std::uint32_t>(text.size());
  d_.text += text;
}

}  // namespace core
