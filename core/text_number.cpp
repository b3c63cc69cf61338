#include "core/text_number.h"

#include <cmath>
#include <cstdint>

namespace core {
namespace {
constexpr double kMicro = 1e6;
bool is_digit(char c) { return c >= '0' && c <= '9'; }
}  // namespace

std::optional<double> read_number(std::string_view text) {
  std::size_t i = 0;
  bool negative = false;
  if (i < text.size() && (text[i] == '+' || text[i] == '-')) negative = text[i++] == '-';
  std::int64_t micro = 0;
  int whole_digits = 0;
  int fraction_digits = 0;
  for (; i < text.size() && is_digit(text[i]); ++i) {
    if (++whole_digits > 9) return std::nullopt;
    micro = micro * 10 + (text[i] - '0');
  }
  if (i < text.size() && (text[i] == '.' || text[i] == ',')) {
    for (++i; i < text.size() && is_digit(text[i]); ++i) {
      if (fraction_digits == 6) continue;  // read, but finer than anything flown
      micro = micro * 10 + (text[i] - '0');
      ++fraction_digits;
    }
    if (fraction_digits == 0 && whole_digits == 0) return std::nullopt;
  }
  if (i != text.size() || whole_digits + fraction_digits == 0) return std::nullopt;
  for (; fraction_digits < 6; ++fraction_digits) micro *= 10;
  return static_cast<double>(negative ? -micro : micro) / kMicro;
}

std::string write_number(double value) {
  if (!std::isfinite(value) || std::abs(value) > 1e9) return "0";
  const auto micro = static_cast<std::uint64_t>(std::floor(std::abs(value) * kMicro + 0.5));
  std::uint64_t whole = micro / 1000000;
  std::string out;
  do {
    out.insert(0, 1, static_cast<char>('0' + whole % 10));
    whole /= 10;
  } while (whole > 0);
  std::uint64_t fraction = micro % 1000000;
  if (fraction > 0) {
    std::string digits;
    for (int i = 0; i < 6; ++i, fraction /= 10) {
      digits.insert(0, 1, static_cast<char>('0' + fraction % 10));
    }
    while (digits.back() == '0') digits.pop_back();
    out += '.';
    out += digits;
  }
  return value < 0.0 && micro > 0 ? "-" + out : out;
}

std::optional<double> read_time(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos) return read_number(text);
  const std::string_view m = text.substr(0, colon);
  const std::string_view s = text.substr(colon + 1);
  if (m.empty() || s.empty() || !is_digit(m[0]) || !is_digit(s[0])) return std::nullopt;
  if (m.find_first_of(".,") != std::string_view::npos) return std::nullopt;
  const std::optional<double> mins = read_number(m);
  const std::optional<double> secs = read_number(s);
  if (!mins || !secs || *secs >= 60.0) return std::nullopt;
  // To the nearest micro-second as read_number has it, so that 65.1 and 1:05.1 are one number.
  return std::floor((*mins * 60.0 + *secs) * kMicro + 0.5) / kMicro;
}

std::string write_time(double seconds) {
  const double m = std::floor(seconds / 60.0);
  // Through micro-seconds, so that 119.9999999 does not become 1:60.
  double s = std::floor((seconds - 60.0 * m) * kMicro + 0.5) / kMicro;
  const double carry = s >= 60.0 ? 1.0 : 0.0;
  s -= 60.0 * carry;
  return write_number(m + carry) + (s < 10.0 ? ":0" : ":") + write_number(s);
}

std::string write_clock(int minutes_of_day) {
  const auto two = [](int n) {
    return std::string(1, static_cast<char>('0' + n / 10)) + static_cast<char>('0' + n % 10);
  };
  return two(minutes_of_day / 60) + ":" + two(minutes_of_day % 60);
}

}  // namespace core
