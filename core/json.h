// core/json.h - writes JSON text: objects in order, doubles in full, nothing else.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace core {

/// Appends to one string. Numbers that are not finite are written as null, so that
/// the text is always valid JSON.
class Json {
 public:
  Json& open_object() { return open('{'); }
  Json& close_object() { return close('}'); }
  Json& open_array() { return open('['); }
  Json& close_array() { return close(']'); }
  Json& key(std::string_view name);
  Json& text(std::string_view value);
  Json& number(double value);
  Json& boolean(bool value) { return raw(value ? "true" : "false"); }
  Json& null() { return raw("null"); }

  Json& field(std::string_view name, double value) { return key(name).number(value); }
  Json& field(std::string_view name, int value) { return key(name).number(value); }
  /// null where absent.
  Json& field(std::string_view name, std::optional<double> value) {
    return value ? key(name).number(*value) : key(name).null();
  }
  /// null where empty.
  Json& text_or_null(std::string_view name, std::string_view value) {
    return value.empty() ? key(name).null() : key(name).text(value);
  }
  Json& field(std::string_view name, bool value) { return key(name).boolean(value); }
  Json& field(std::string_view name, std::string_view value) { return key(name).text(value); }
  Json& field(std::string_view name, const char* value) { return key(name).text(value); }

  [[nodiscard]] const std::string& str() const { return out_; }
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  Json& open(char bracket);
  Json& close(char bracket);
  Json& raw(std::string_view value);
  void separate();

  std::string out_;
  bool first_ = true;  ///< nothing yet in the innermost object or array
};

}  // namespace core
