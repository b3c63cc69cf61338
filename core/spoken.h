// core/spoken.h - clearances and wind reports as they are said: words, figures, pauses.
//
// Letters are raised to capitals; figures may be numerals (265) or words (two six five).
// Bytes outside printable ASCII separate words and are never repeated. No input fails and
// the work is bounded: see the limits below.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace core {

inline constexpr std::size_t kMostSpokenBytes = 2000;
inline constexpr std::size_t kMostSpokenTokens = 400;

/// A piece of what was said.
struct Token {
  enum class Kind { word, number, pause };
  Kind kind;
  std::string text;  ///< word: A-Z and '; number: digits with . : / between; pause: empty
  bool glued;        ///< no gap before it, as in V12
};

/// What was heard, and whether all of it was taken.
struct Hearing {
  std::vector<Token> tokens;
  bool cut = false;  ///< longer than the limits: the rest was not read
};
/// Letters said one by one (V-O-R, D-M-E, N-D-B, E-F-C) become the word, and VOR/DME one word.
[[nodiscard]] Hearing hear(std::string_view text);

/// A figure as said.
struct Figure {
  std::size_t next;  ///< the token after it
  std::string text;  ///< numerals; with a colon where it was said as a clock time
  double value;      ///< 0 with a colon
  int whole_digits;  ///< of the whole part, leading zeros counted
};
/// The figure that starts at token `at`: numerals; single figures one after another;
/// ten to ninety-nine and hundreds; a figure before those (two sixty-five); "point" or "decimal";
/// "and a half", 1/2. At most 6 figures before the mark and 3 after it.
[[nodiscard]] std::optional<Figure> figure_at(const std::vector<Token>& tokens, std::size_t at);

/// Numerals, '.' and ':' in words, figure by figure: "265" is TWO SIX FIVE.
[[nodiscard]] std::string spelled(std::string_view numerals);

/// Minutes after midnight of "1845", "845" or "18:45"; none where that is no clock time.
[[nodiscard]] std::optional<int> clock_minutes(std::string_view numerals);

}  // namespace core
