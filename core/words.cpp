#include "core/words.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>

#include "core/word_table.h"

namespace core {

namespace {

/// Empty where the texts have no such key.
std::string_view find(std::string_view texts, std::string_view key) {
  if (!texts.ends_with(kEndOfText)) return {};  // its words have not come yet
  const auto key_at = [&](std::size_t start) {
    return texts.substr(start, texts.find(kEndOfKey, start) - start);
  };
  // Halved at the first key behind the middle: searched forward, which libraries do in words of
  // many bytes. What is left begins in the first half: few, one after the other.
  for (;;) {
    const std::size_t start = texts.find(kEndOfText, texts.size() / 2) + 1;
    if (start >= texts.size()) break;
    if (key_at(start) > key) {
      texts = texts.substr(0, start);
    } else {
      texts.remove_prefix(start);
    }
  }
  while (!texts.empty()) {
    const std::size_t end = texts.find(kEndOfText);
    if (key_at(0) == key) return texts.substr(key.size() + 1, end - key.size() - 1);
    texts.remove_prefix(end + 1);
  }
  return {};
}

}  // namespace

std::string_view word(std::string_view key) {
  for (const std::string_view texts : {kWordTable.first, kWordTable.more}) {
    const std::string_view found = find(texts, key);
    if (found.data()) return found;
  }
  return key;
}

std::string phrase(std::string_view key, std::initializer_list<Filling> fillings) {
  const std::string_view text = word(key);
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t open = std::min(text.find('{', i), text.size());
    out += text.substr(i, open - i);
    i = open;
    if (i == text.size()) break;
    const std::size_t close = text.find('}', i);
    if (close != std::string_view::npos) {
      const std::string_view name = text.substr(i + 1, close - i - 1);
      const Filling* match = nullptr;
      for (const Filling& f : fillings) {
        if (f.name == name) match = &f;
      }
      if (match) {
        out += match->value;
        i = close + 1;
        continue;
      }
    }
    out += text[i++];
  }
  return out;
}

std::string quotable(std::string_view text) {
  std::string out;
  char before = ' ';
  for (const char c : text.substr(0, 24)) {
    const auto byte = static_cast<unsigned char>(c);
    // The rest of a character in UTF-8; what stands alone is no rest.
    const bool goes_on = (byte & 0xC0U) == 0x80U && static_cast<unsigned char>(before) >= 0x80U;
    if (!goes_on) out += c >= ' ' && c <= '~' ? c : '?';
    before = c;
  }
  if (text.size() > 24) out += "…";
  return out;
}

std::string fixed(double value, int decimals) {
  assert(std::isfinite(value));
  if (!std::isfinite(value)) return "–";
  double scale = 1.0;
  for (int i = 0; i < decimals; ++i) scale *= 10.0;
  const double rounded = std::floor(std::abs(value) * scale + 0.5);
  if (rounded > 9e15) return "–";
  auto n = static_cast<std::uint64_t>(rounded);
  std::string digits;
  for (int i = 0; n > 0 || i <= decimals; ++i) {
    if (i == decimals && decimals > 0) digits.insert(0, 1, '.');
    digits.insert(0, 1, static_cast<char>('0' + n % 10));
    n /= 10;
  }
  return value < 0.0 && rounded > 0.0 ? "−" + digits : digits;
}

std::string digits_3(double direction_deg) {
  double whole = std::floor(std::fmod(direction_deg, 360.0) + 0.5);
  if (!std::isfinite(whole)) return "–";
  if (whole <= 0.0) whole += 360.0;
  std::string s = fixed(whole, 0);
  while (s.size() < 3) s.insert(0, 1, '0');
  return s;
}

std::string degrees_3(double direction_deg) { return digits_3(direction_deg) + "°"; }

std::string side_text(double right) {
  return std::string(word(right > 0.0 ? "core.right" : "core.left"));
}

std::string minutes(double seconds) {
  if (!std::isfinite(seconds)) return "–";
  const double whole = std::floor(std::abs(seconds) + 0.5);
  const double m = std::floor(whole / 60.0);
  const double s = whole - 60.0 * m;
  return (seconds < 0.0 && whole > 0.0 ? "−" : "") + fixed(m, 0) + (s < 10.0 ? ":0" : ":") +
         fixed(s, 0);
}

}  // namespace core
