// tests/json_check.h - a strict reader of JSON text (RFC 8259), for tests only.
//
// Accepts exactly one value: no trailing commas, no NaN or Infinity, no control
// characters, only well-formed UTF-8, no key twice in one object.
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace test {

class JsonCheck {
 public:
  explicit JsonCheck(std::string_view text) : text_(text) {}

  /// Empty where the text is valid JSON, else what is wrong and where.
  std::string fault() {
    space();
    value(0);
    space();
    if (fault_.empty() && at_ != text_.size()) fail("text after the value");
    return fault_;
  }
  [[nodiscard]] long long numbers() const { return numbers_; }

 private:
  void fail(const char* what) {
    if (fault_.empty()) fault_ = std::string(what) + " at byte " + std::to_string(at_);
    at_ = text_.size();
  }
  [[nodiscard]] int peek() const {
    return at_ < text_.size() ? static_cast<unsigned char>(text_[at_]) : -1;
  }
  int next() {
    const int c = peek();
    if (c >= 0) ++at_;
    return c;
  }
  void space() {
    while (peek() == ' ' || peek() == '\n' || peek() == '\r' || peek() == '\t') ++at_;
  }
  static bool digit(int c) { return c >= '0' && c <= '9'; }

  void word(std::string_view w) {
    if (text_.substr(at_, w.size()) != w) return fail("unknown word");
    at_ += w.size();
  }

  void digits() {
    if (!digit(peek())) return fail("digit wanted");
    while (digit(peek())) ++at_;
  }

  void number() {
    ++numbers_;
    if (peek() == '-') ++at_;
    if (peek() == '0') {
      ++at_;
      if (digit(peek())) return fail("leading zero");
    } else {
      digits();
    }
    if (peek() == '.') {
      ++at_;
      digits();
    }
    if (peek() == 'e' || peek() == 'E') {
      ++at_;
      if (peek() == '+' || peek() == '-') ++at_;
      digits();
    }
  }

  // The bytes after the first one of a character of more than one.
  void utf8(int lead) {
    int more = 0;
    int low = 0x80;
    int high = 0xbf;
    if (lead >= 0xc2 && lead <= 0xdf) {
      more = 1;
    } else if (lead >= 0xe0 && lead <= 0xef) {
      more = 2;
      if (lead == 0xe0) low = 0xa0;
      if (lead == 0xed) high = 0x9f;
    } else if (lead >= 0xf0 && lead <= 0xf4) {
      more = 3;
      if (lead == 0xf0) low = 0x90;
      if (lead == 0xf4) high = 0x8f;
    } else {
      return fail("stray byte");
    }
    for (int i = 0; i < more; ++i) {
      const int c = next();
      if (c < (i ? 0x80 : low) || c > (i ? 0xbf : high)) return fail("broken UTF-8");
    }
  }

  // As it is written: one key written in two ways would pass for two.
  std::string_view string() {
    const std::size_t start = at_ + 1;
    if (next() != '"') {
      fail("string wanted");
      return {};
    }
    for (;;) {
      const int c = next();
      if (c < 0) {
        fail("string without end");
        return {};
      }
      if (c == '"') break;
      if (c < 0x20) fail("control character");
      if (c == '\\') {
        const int e = next();
        if (e == 'u') {
          for (int i = 0; i < 4; ++i) {
            const int h = next();
            const int l = h | 32;
            if (!digit(h) && !(l >= 'a' && l <= 'f')) fail("four hexadecimal digits wanted");
          }
        } else if (e < 0 || std::string_view("\"\\/bfnrt").find(static_cast<char>(e)) ==
                                std::string_view::npos) {
          fail("unknown escape");
        }
      } else if (c >= 0x80) {
        utf8(c);
      }
    }
    return text_.substr(start, at_ - 1 - start);
  }

  void array(int depth) {
    ++at_;
    space();
    if (peek() == ']') {
      ++at_;
      return;
    }
    for (;;) {
      value(depth);
      space();
      const int c = next();
      if (c == ']') return;
      if (c != ',') return fail("comma or ] wanted");
      space();
    }
  }

  void object(int depth) {
    ++at_;
    space();
    if (peek() == '}') {
      ++at_;
      return;
    }
    std::set<std::string_view> keys;
    for (;;) {
      if (!keys.insert(string()).second) return fail("key twice");
      space();
      if (next() != ':') return fail("colon wanted");
      space();
      value(depth);
      space();
      const int c = next();
      if (c == '}') return;
      if (c != ',') return fail("comma or } wanted");
      space();
    }
  }

  void value(int depth) {
    if (depth > 64) return fail("too deep");
    switch (peek()) {
      case '{':
        return object(depth + 1);
      case '[':
        return array(depth + 1);
      case '"':
        string();
        return;
      case 't':
        return word("true");
      case 'f':
        return word("false");
      case 'n':
        return word("null");
      default:
        number();
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::string fault_;
  long long numbers_ = 0;
};

inline std::string json_fault(std::string_view text) { return JsonCheck(text).fault(); }

}  // namespace test
