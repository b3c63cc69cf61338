// core/words.h - the catalogue of the words that the core writes.
//
// Texts stand in assets/words/ (keys "core.*"), a file for each language, from which the build
// makes core/word_table.h's table. Templates carry {name} placeholders.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace core {

/// A value for a placeholder.
struct Filling {
  std::string_view name;
  std::string value;
};

/// Text for `key`, or the key itself where the catalogue has none (a test looks
/// for that).
[[nodiscard]] std::string_view word(std::string_view key);

/// The same as a string of its own.
[[nodiscard]] inline std::string text_of(std::string_view key) { return std::string(word(key)); }

/// Text for `key` with its placeholders filled. Unknown placeholders stay.
[[nodiscard]] std::string phrase(std::string_view key, std::initializer_list<Filling> fillings);

/// What a message may repeat of a stranger's text: short, printable ASCII, one ? for each other
/// character.
[[nodiscard]] std::string quotable(std::string_view text);

/// Number with a fixed count of decimals, rounded half away from zero, never "-0",
/// and a true minus sign. Not finite: an en dash.
[[nodiscard]] std::string fixed(double value, int decimals);
/// Direction as three digits and a degree sign; 360 for north.
[[nodiscard]] std::string degrees_3(double direction_deg);
/// Direction as three digits without the sign.
[[nodiscard]] std::string digits_3(double direction_deg);
/// "right" where positive, else "left".
[[nodiscard]] std::string side_text(double right);
/// Time as m:ss, rounded to the second; a minus sign in front where negative.
[[nodiscard]] std::string minutes(double seconds);

}  // namespace core
