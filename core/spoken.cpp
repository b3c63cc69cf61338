#include "core/spoken.h"

#include "core/text_number.h"

namespace core {
namespace {

using Text = std::string_view;

constexpr std::size_t kMostFigures = 6;
constexpr std::size_t kMostDecimals = 3;

struct Numeral {
  Text word;
  int value;
};
constexpr Numeral kFigures[] = {{"ZERO", 0},  {"OH", 0},   {"ONE", 1},   {"TWO", 2},
                                {"THREE", 3}, {"TREE", 3}, {"FOUR", 4},  {"FOWER", 4},
                                {"FIVE", 5},  {"FIFE", 5}, {"SIX", 6},   {"SEVEN", 7},
                                {"EIGHT", 8}, {"AIT", 8},  {"NINER", 9}, {"NINE", 9}};
constexpr Numeral kTeens[] = {{"TEN", 10},      {"ELEVEN", 11},  {"TWELVE", 12},  {"THIRTEEN", 13},
                              {"FOURTEEN", 14}, {"FIFTEEN", 15}, {"SIXTEEN", 16}, {"SEVENTEEN", 17},
                              {"EIGHTEEN", 18}, {"NINETEEN", 19}};
constexpr Numeral kTens[] = {{"TWENTY", 20}, {"THIRTY", 30},  {"FORTY", 40},  {"FIFTY", 50},
                             {"SIXTY", 60},  {"SEVENTY", 70}, {"EIGHTY", 80}, {"NINETY", 90}};
/// How `spelled` says them.
constexpr Text kSaid[] = {"ZERO", "ONE", "TWO",   "THREE", "FOUR",
                          "FIVE", "SIX", "SEVEN", "EIGHT", "NINER"};

template <std::size_t N>
int value_of(const Numeral (&list)[N], Text word) {
  for (const Numeral& n : list) {
    if (n.word == word) return n.value;
  }
  return -1;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

bool is_word(const std::vector<Token>& t, std::size_t i, Text word) {
  return i < t.size() && t[i].kind == Token::Kind::word && t[i].text == word;
}

/// A single figure at `i`, or -1.
int single(const std::vector<Token>& t, std::size_t i) {
  if (i >= t.size()) return -1;
  if (t[i].kind == Token::Kind::word) return value_of(kFigures, t[i].text);
  return t[i].kind == Token::Kind::number && t[i].text.size() == 1 ? t[i].text[0] - '0' : -1;
}

/// Single figures from `i` on, in numerals; moves `i` behind them.
std::string figures(const std::vector<Token>& t, std::size_t& i, std::size_t most) {
  std::string out;
  for (; out.size() < most; ++i) {
    const int v = single(t, i);
    if (v < 0) break;
    out += static_cast<char>('0' + v);
  }
  return out;
}

/// "forty-five" and the like below a hundred; -1 where there is none.
int below_hundred(const std::vector<Token>& t, std::size_t& i) {
  if (i >= t.size() || t[i].kind != Token::Kind::word) return -1;
  const int teen = value_of(kTeens, t[i].text);
  if (teen >= 0) {
    ++i;
    return teen;
  }
  int v = value_of(kTens, t[i].text);
  if (v < 0) return -1;
  ++i;
  const int unit = single(t, i);
  if (unit > 0) {
    v += unit;
    ++i;
  }
  return v;
}

/// The numerals of one number token, where it is a plain whole or decimal number.
bool plain_number(const std::string& text) { return text.find_first_of(":/") == Text::npos; }

/// "and a half", "1/2": true moves `i` behind it.
bool half(const std::vector<Token>& t, std::size_t& i) {
  if (i < t.size() && t[i].kind == Token::Kind::number && t[i].text == "1/2") {
    ++i;
    return true;
  }
  if (!is_word(t, i, "AND")) return false;
  std::size_t j = i + 1;
  if (is_word(t, j, "A") || is_word(t, j, "ONE")) ++j;
  if (!is_word(t, j, "HALF")) return false;
  i = j + 1;
  return true;
}

/// Words that are spelled out letter by letter on the radio.
void join_letters(std::vector<Token>& t) {
  constexpr Text kSpelt[] = {"VOR", "DME", "NDB", "EFC"};
  std::vector<Token> out;
  for (std::size_t i = 0; i < t.size(); ++i) {
    bool joined = false;
    for (const Text word : kSpelt) {
      joined = i + 2 < t.size();
      for (std::size_t k = 0; joined && k < 3; ++k) joined = is_word(t, i + k, word.substr(k, 1));
      if (joined) {
        out.push_back({Token::Kind::word, std::string(word), t[i].glued});
        i += 2;
        break;
      }
    }
    if (!joined) out.push_back(t[i]);
  }
  t.swap(out);
}

}  // namespace

Hearing hear(std::string_view text) {
  Hearing h;
  if (text.size() > kMostSpokenBytes) {
    // Not in the middle of a word: half a number is another number.
    const std::size_t cut = text.find_last_of(" ,;\n", kMostSpokenBytes);
    text = text.substr(0, cut == Text::npos ? 0 : cut);
    h.cut = true;
  }
  std::size_t end_of_last = 0;
  for (std::size_t i = 0; i < text.size();) {
    if (h.tokens.size() == kMostSpokenTokens) {
      h.cut = true;
      break;
    }
    const std::size_t start = i;
    Token token{Token::Kind::pause, {}, start > 0 && start == end_of_last};
    if (is_letter(text[i])) {
      token.kind = Token::Kind::word;
      while (i < text.size() && (is_letter(text[i]) || text[i] == '\'')) {
        token.text += capital(text[i++]);
      }
      // VOR/DME and NDB/DME are one aid, not a DME distance.
      if ((token.text == "VOR" || token.text == "NDB") && i + 4 <= text.size() && text[i] == '/' &&
          capital(text[i + 1]) == 'D' && capital(text[i + 2]) == 'M' &&
          capital(text[i + 3]) == 'E') {
        token.text += "/DME";
        i += 4;
      }
    } else if (is_digit(text[i])) {
      token.kind = Token::Kind::number;
      while (i < text.size() && is_digit(text[i])) {
        token.text += text[i++];
        const bool mark =
            i + 1 < text.size() && (text[i] == '.' || text[i] == ':' || text[i] == '/');
        if (mark && is_digit(text[i + 1])) token.text += text[i++];
      }
    } else {
      const char c = text[i++];
      if (c != ',' && c != ';' && c != '.' && c != '\n' && c != '(' && c != ')') continue;
      if (h.tokens.empty() || h.tokens.back().kind == Token::Kind::pause) continue;
      token.glued = false;
    }
    end_of_last = i;
    h.tokens.push_back(token);
  }
  join_letters(h.tokens);
  return h;
}

std::optional<Figure> figure_at(const std::vector<Token>& t, std::size_t at) {
  if (at >= t.size()) return std::nullopt;
  std::size_t i = at;
  std::string text;
  if (t[at].kind == Token::Kind::number && t[at].text.size() > 1) {
    text = t[i++].text;
    if (text == "1/2") return Figure{i, "0.5", 0.5, 1};
    if (text.find('/') != Text::npos) return std::nullopt;
    if (text.find(':') != Text::npos) return Figure{i, text, 0.0, 0};
  } else {
    text = figures(t, i, kMostFigures);
    if (text.size() == 1 && is_word(t, i, "HUNDRED")) {
      int v = 100 * (text[0] - '0');
      if (is_word(t, ++i, "AND") && !is_word(t, i + 1, "A")) ++i;
      const int rest = below_hundred(t, i);
      const int unit = rest < 0 ? single(t, i) : -1;
      if (rest > 0) v += rest;
      if (unit > 0) {
        v += unit;
        ++i;
      }
      text = write_number(v);
    } else if (text.size() == 1 && t[at].kind == Token::Kind::word) {
      // TWO SIXTY-FIVE, ONE TWENTY: a figure before a pair.
      const int pair = below_hundred(t, i);
      if (pair >= 0) text += write_number(pair);
    } else if (text.empty()) {
      const int v = below_hundred(t, i);
      if (v < 0) return std::nullopt;
      text = write_number(v);
    }
  }
  if (text.find('.') == Text::npos) {
    if (is_word(t, i, "POINT") || is_word(t, i, "DECIMAL")) {
      std::size_t j = i + 1;
      std::string decimals = figures(t, j, kMostDecimals);
      if (decimals.empty() && j < t.size() && t[j].kind == Token::Kind::number &&
          t[j].text.size() <= kMostDecimals && plain_number(t[j].text)) {
        decimals = t[j++].text;
      }
      if (!decimals.empty() && decimals.find('.') == Text::npos) {
        text += "." + decimals;
        i = j;
      }
    } else if (half(t, i)) {
      text += ".5";
    }
  }
  const std::size_t mark = text.find('.');
  const std::size_t whole = mark == Text::npos ? text.size() : mark;
  if (whole > kMostFigures) return std::nullopt;
  const std::optional<double> value = read_number(text);
  if (!value) return std::nullopt;
  return Figure{i, text, *value, static_cast<int>(whole)};
}

std::string spelled(std::string_view numerals) {
  std::string out;
  for (const char c : numerals) {
    if (!is_digit(c) && c != '.') continue;
    if (!out.empty()) out += ' ';
    out += is_digit(c) ? kSaid[c - '0'] : Text("POINT");
  }
  return out;
}

std::optional<int> clock_minutes(std::string_view numerals) {
  std::string digits;
  for (std::size_t i = 0; i < numerals.size(); ++i) {
    const char c = numerals[i];
    if (c == ':' && i + 3 == numerals.size() && i > 0) continue;
    if (!is_digit(c)) return std::nullopt;
    digits += c;
  }
  if (digits.size() < 3 || digits.size() > 4) return std::nullopt;
  int v = 0;
  for (const char c : digits) v = 10 * v + (c - '0');
  const int hour = v / 100;
  const int minute = v % 100;
  if (hour > 23 || minute > 59) return std::nullopt;
  return 60 * hour + minute;
}

}  // namespace core
