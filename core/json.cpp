#include "core/json.h"

#include <cmath>
#include <cstdio>

namespace core {

void Json::separate() {
  if (!first_) out_ += ',';
  first_ = false;
}

Json& Json::open(char bracket) {
  separate();
  out_ += bracket;
  first_ = true;
  return *this;
}

Json& Json::close(char bracket) {
  out_ += bracket;
  first_ = false;
  return *this;
}

Json& Json::raw(std::string_view value) {
  separate();
  out_ += value;
  return *this;
}

Json& Json::key(std::string_view name) {
  text(name);
  out_ += ':';
  first_ = true;  // the value follows without a comma
  return *this;
}

Json& Json::text(std::string_view value) {
  constexpr char kHex[] = "0123456789abcdef";
  separate();
  out_ += '"';
  std::size_t plain = 0;  // what is still to be written as it is begins here
  for (std::size_t i = 0; i < value.size(); ++i) {
    const char c = value[i];
    const auto u = static_cast<unsigned char>(c);
    if (c != '"' && c != '\\' && u >= 0x20) continue;
    out_ += value.substr(plain, i - plain);
    plain = i + 1;
    out_ += '\\';
    if (u >= 0x20) {
      out_ += c;
    } else {
      out_ += "u00";
      out_ += kHex[u >> 4];
      out_ += kHex[u & 15];
    }
  }
  out_ += value.substr(plain);
  out_ += '"';
  return *this;
}

Json& Json::number(double value) {
  if (!std::isfinite(value)) return null();
  char digits[32];
  // Whole numbers stay whole: 60, not 60.000000000000000. All else in full.
  const bool whole = value == std::floor(value) && std::abs(value) < 1e15;
  std::snprintf(digits, sizeof digits, whole ? "%.0f" : "%.17g", value == 0.0 ? 0.0 : value);
  return raw(digits);
}

}  // namespace core
