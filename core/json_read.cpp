#include "core/json_read.h"

#include "core/words.h"

namespace core {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

void append_utf8(std::string& out, unsigned code) {
  const auto byte = [&](unsigned b) { out += static_cast<char>(static_cast<unsigned char>(b)); };
  if (code < 0x80U) {
    byte(code);
  } else if (code < 0x800U) {
    byte(0xC0U | (code >> 6U));
    byte(0x80U | (code & 0x3FU));
  } else if (code < 0x10000U) {
    byte(0xE0U | (code >> 12U));
    byte(0x80U | ((code >> 6U) & 0x3FU));
    byte(0x80U | (code & 0x3FU));
  } else {
    byte(0xF0U | (code >> 18U));
    byte(0x80U | ((code >> 12U) & 0x3FU));
    byte(0x80U | ((code >> 6U) & 0x3FU));
    byte(0x80U | (code & 0x3FU));
  }
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {
    constexpr std::string_view kMark = "\xEF\xBB\xBF";
    if (text_.substr(0, kMark.size()) == kMark) at_ = kMark.size();
  }

  JsonRead read() {
    JsonRead out;
    if (text_.size() > kMostJsonBytes) {
      out.error = phrase("core.json.long", {{"bytes", fixed(kMostJsonBytes / 1024.0, 0)}});
      return out;
    }
    skip();
    bool good = value(out.value, 0);
    if (good) {
      skip();
      if (at_ != text_.size()) good = fail("core.json.more");
    }
    if (!good) {
      out.value = {};
      out.error = said();
    }
    return out;
  }

 private:
  [[nodiscard]] bool over() const { return at_ >= text_.size(); }
  [[nodiscard]] char here() const { return over() ? '\0' : text_[at_]; }

  void skip() {
    while (!over()) {
      const char c = text_[at_];
      if (c != ' ' && c != '\n' && c != '\r' && c != '\t') return;
      ++at_;
    }
  }

  /// The first fault is the one that is told.
  bool fail(const char* why) {
    if (!why_) why_ = why;
    return false;
  }

  [[nodiscard]] std::string said() const {
    int line = 1;
    int column = 1;
    for (std::size_t i = 0; i < at_ && i < text_.size(); ++i) {
      if (text_[i] == '\n') {
        ++line;
        column = 1;
      } else {
        ++column;
      }
    }
    return phrase("core.json.at", {{"line", fixed(line, 0)},
                                   {"column", fixed(column, 0)},
                                   {"why", std::string(word(why_ ? why_ : "core.json.value"))}});
  }

  bool literal(std::string_view name) {
    if (text_.substr(at_, name.size()) != name) return fail("core.json.value");
    at_ += name.size();
    return true;
  }

  bool value(JsonValue& out, int depth) {  // NOLINT(misc-no-recursion): bounded by kMostJsonDepth
    if (depth >= kMostJsonDepth) return fail("core.json.deep");
    if (++values_ > kMostJsonValues) return fail("core.json.many");
    if (over()) return fail("core.json.end");
    switch (here()) {
      case '{':
        return object(out, depth);
      case '[':
        return array(out, depth);
      case '"':
        out.kind = JsonValue::Kind::text;
        return string(out.text);
      case 't':
        out.kind = JsonValue::Kind::boolean;
        out.boolean = true;
        return literal("true");
      case 'f':
        out.kind = JsonValue::Kind::boolean;
        return literal("false");
      case 'n':
        return literal("null");
      default:
        return number(out);
    }
  }

  bool object(JsonValue& out, int depth) {  // NOLINT(misc-no-recursion)
    out.kind = JsonValue::Kind::object;
    ++at_;
    skip();
    if (here() == '}') {
      ++at_;
      return true;
    }
    for (;;) {
      JsonMember& member = out.members.emplace_back();
      if (here() != '"') return fail(over() ? "core.json.end" : "core.json.name");
      if (!string(member.name)) return false;
      skip();
      if (here() != ':') return fail("core.json.colon");
      ++at_;
      skip();
      if (!value(member.value, depth + 1)) return false;
      skip();
      if (here() == '}') {
        ++at_;
        return true;
      }
      if (here() != ',') return fail(over() ? "core.json.end" : "core.json.comma");
      ++at_;
      skip();
    }
  }

  bool array(JsonValue& out, int depth) {  // NOLINT(misc-no-recursion)
    out.kind = JsonValue::Kind::array;
    ++at_;
    skip();
    if (here() == ']') {
      ++at_;
      return true;
    }
    for (;;) {
      if (!value(out.items.emplace_back(), depth + 1)) return false;
      skip();
      if (here() == ']') {
        ++at_;
        return true;
      }
      if (here() != ',') return fail(over() ? "core.json.end" : "core.json.comma");
      ++at_;
      skip();
    }
  }

  bool digits() {
    if (!is_digit(here())) return fail("core.json.value");
    while (is_digit(here())) ++at_;
    return true;
  }

  bool number(JsonValue& out) {
    const std::size_t start = at_;
    out.kind = JsonValue::Kind::number;
    if (here() == '-') ++at_;
    if (here() == '0') {
      ++at_;
    } else if (!digits()) {
      return false;
    }
    if (here() == '.') {
      ++at_;
      if (!digits()) return false;
    }
    if (here() == 'e' || here() == 'E') {
      ++at_;
      if (here() == '+' || here() == '-') ++at_;
      if (!digits()) return false;
    }
    out.text = text_.substr(start, at_ - start);
    return true;
  }

  bool four_hex(unsigned& code) {
    code = 0;
    for (int i = 0; i < 4; ++i, ++at_) {
      const char c = here();
      unsigned digit = 0;
      if (is_digit(c)) {
        digit = static_cast<unsigned>(c - '0');
      } else if (c >= 'a' && c <= 'f') {
        digit = static_cast<unsigned>(c - 'a') + 10U;
      } else if (c >= 'A' && c <= 'F') {
        digit = static_cast<unsigned>(c - 'A') + 10U;
      } else {
        return fail("core.json.escape");
      }
      code = code * 16U + digit;
    }
    return true;
  }

  /// Behind "\u": one code, or two that make one.
  bool unicode(std::string& out) {
    unsigned code = 0;
    if (!four_hex(code)) return false;
    if (code >= 0xDC00U && code < 0xE000U) return fail("core.json.escape");
    if (code >= 0xD800U && code < 0xDC00U) {
      unsigned low = 0;
      if (text_.substr(at_, 2) != "\\u") return fail("core.json.escape");
      at_ += 2;
      if (!four_hex(low)) return false;
      if (low < 0xDC00U || low >= 0xE000U) return fail("core.json.escape");
      code = 0x10000U + ((code - 0xD800U) << 10U) + (low - 0xDC00U);
    }
    append_utf8(out, code);
    return true;
  }

  bool string(std::string& out) {
    ++at_;
    while (!over()) {
      const char c = text_[at_];
      if (c == '"') {
        ++at_;
        return true;
      }
      if (static_cast<unsigned char>(c) < 0x20U) return fail("core.json.control");
      ++at_;
      if (c != '\\') {
        out += c;
        continue;
      }
      constexpr std::string_view kEscapes = "\"\\/bfnrt";
      constexpr std::string_view kMeant = "\"\\/\b\f\n\r\t";
      const char e = here();
      const std::size_t k = over() ? std::string_view::npos : kEscapes.find(e);
      if (k != std::string_view::npos) {
        out += kMeant[k];
        ++at_;
      } else if (e == 'u') {
        ++at_;
        if (!unicode(out)) return false;
      } else {
        return fail("core.json.escape");
      }
    }
    return fail("core.json.end");
  }

  std::string_view text_;
  std::size_t at_ = 0;
  int values_ = 0;
  const char* why_ = nullptr;
};

}  // namespace

const JsonValue* JsonValue::find(std::string_view name) const {
  for (std::size_t i = members.size(); i-- > 0;) {
    if (members[i].name == name) return &members[i].value;
  }
  return nullptr;
}

std::optional<int> JsonValue::whole() const {
  if (kind != Kind::number) return std::nullopt;
  std::string_view digits = text;
  const bool negative = !digits.empty() && digits.front() == '-';
  if (negative) digits.remove_prefix(1);
  if (digits.empty() || digits.size() > 10) return std::nullopt;
  long long n = 0;
  for (const char c : digits) {
    if (!is_digit(c)) return std::nullopt;
    n = n * 10 + (c - '0');
  }
  if (n > 2000000000) return std::nullopt;
  return static_cast<int>(negative ? -n : n);
}

JsonRead read_json(std::string_view text) { return Reader(text).read(); }

}  // namespace core
