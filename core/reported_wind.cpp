#include "core/reported_wind.h"

namespace core {
namespace {

constexpr std::size_t kMostNamed = 60;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Bytes of the hyphen, dash or minus sign (U+2010 to U+2015, U+2212) at `i`, else 0.
std::size_t dash_at(std::string_view text, std::size_t i) {
  if (i + 2 >= text.size() || text[i] != '\xe2') return 0;
  const char b = text[i + 1];
  const char c = text[i + 2];
  if (b == '\x80' && c >= '\x90' && c <= '\x95') return 3;
  return b == '\x88' && c == '\x92' ? 3 : 0;
}

}  // namespace

std::string_view name_of(NoReport why) {
  constexpr std::string_view kNames[] = {
      "none",         "empty",         "unknown-kind",   "unrecognised", "no-group",
      "bad-group",    "bad-direction", "bad-code",       "bad-speed",    "no-speed",
      "not-reported", "variable",      "levels-unclear", "bad-altitude"};
  return kNames[static_cast<int>(why)];
}

ReportGroups split_report(std::string_view text) {
  ReportGroups out;
  if (text.size() > kMostReportBytes) {
    // Not in the middle of a group: half a number is another number.
    const std::size_t cut = text.find_last_of(" \n", kMostReportBytes);
    text = text.substr(0, cut == std::string_view::npos ? 0 : cut);
    out.cut = true;
  }
  std::string group;
  const auto finish = [&] {
    while (!group.empty() &&
           std::string_view("=.,;").find(group.back()) != std::string_view::npos) {
      group.pop_back();
    }
    if (group.empty()) return;
    if (out.groups.size() < kMostReportGroups) {
      out.groups.push_back(group);
    } else {
      out.cut = true;
    }
    group.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (const std::size_t dash = dash_at(text, i)) {
      group += '-';
      i += dash - 1;
    } else if (c > ' ' && c < '\x7f') {
      group += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    } else {
      finish();
    }
  }
  finish();
  return out;
}

bool has_form(std::string_view text, std::string_view pattern) {
  if (text.size() != pattern.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const char p = pattern[i];
    const bool fits = p == 'd' ? is_digit(c) : p == 's' ? c == '+' || c == '-' : c == p;
    if (!fits) return false;
  }
  return true;
}

int digits_at(std::string_view text, std::size_t at, std::size_t count) {
  int v = 0;
  for (const char c : text.substr(at, count < 9 ? count : 9)) v = 10 * v + (c - '0');
  return v;
}

bool has_digit(std::string_view text) {
  return text.find_first_of("0123456789") != std::string_view::npos;
}

std::string named_group(std::string_view group) {
  std::string out(group.substr(0, kMostNamed));
  if (group.size() > kMostNamed) out += "...";
  return out;
}

}  // namespace core
