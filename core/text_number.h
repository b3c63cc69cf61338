// core/text_number.h - plain decimal numbers, the same on every machine and locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace core {

/// Decimal number: optional sign, digits, optional fraction after '.' or ','. No
/// exponent; at most 9 digits before the mark and 6 counted after it, so that the
/// result is a multiple of 1e-6 and write_number gives it back exactly.
[[nodiscard]] std::optional<double> read_number(std::string_view text);

/// Shortest form with at most 6 decimals.
[[nodiscard]] std::string write_number(double value);

/// "m:ss", "m:ss.s" or plain seconds. Seconds after a colon must be below 60.
[[nodiscard]] std::optional<double> read_time(std::string_view text);
/// "m:ss" with the fraction that it needs.
[[nodiscard]] std::string write_time(double seconds);
/// "hh:mm" of minutes of the day, 0 to 1439.
[[nodiscard]] std::string write_clock(int minutes_of_day);

}  // namespace core
