// tests/fuzz/must.h - what every fuzz target holds the core to.
//
// A target is one file with LLVMFuzzerTestOneInput; tests/fuzz/run.sh builds and runs them.
#pragma once

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "core/scenario.h"
#include "tests/json_check.h"

namespace fuzz {

/// Ends the program where something does not hold; the fuzzer keeps the input.
inline void must(bool good, const char* what, std::string_view text = {}) {
  if (good) return;
  std::fprintf(stderr, "does not hold: %s\n%.*s\n", what, static_cast<int>(text.size()),
               text.data());
  std::abort();
}

inline bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// Whether `word` stands in the text with no letter beside it.
inline bool has_word(std::string_view text, std::string_view word) {
  const auto letter = [&](std::size_t at) {
    const char c = at < text.size() ? text[at] : ' ';
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  };
  for (std::size_t at = text.find(word); at != std::string_view::npos;
       at = text.find(word, at + 1)) {
    if (!(at > 0 && letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

inline bool is_utf8(std::string_view text) {
  std::string quoted = "\"";
  // In place of all else a letter, so that bytes apart do not come together.
  for (const char c : text) quoted += static_cast<unsigned char>(c) >= 0x80U ? c : 'a';
  return test::json_fault(quoted + "\"").empty();
}

/// No number that is none, as C's printf would write it, and no text of the catalogue with
/// an open place. `heard`: what came in, which a text may repeat.
inline void must_be_plain(std::string_view text, std::string_view heard) {
  for (const std::string_view word : {"nan", "inf", "infinity"}) {
    must(!has_word(text, word) || has(heard, word) || has(heard, "%"), "no NaN or Infinity", text);
  }
  must(!has(text, "\"core.") || has(heard, "core."), "every text is in the catalogue", text);
}

/// `heard` comes as UTF-8 from the page's own boundary (web/text_port.h); what is none is read
/// all the same, and titles go out as they came in.
inline void must_be_json(std::string_view text, std::string_view heard, std::size_t most_bytes) {
  std::string fault = test::json_fault(text);
  if ((has(fault, "UTF-8") || has(fault, "stray")) && !is_utf8(heard)) fault.clear();
  must(fault.empty(), fault.c_str(), text);
  must(text.size() <= most_bytes, "an answer is bounded", text);
  must_be_plain(text, heard);
}

/// Each problem names its field and says something; there are not more than `most`.
inline void must_be_problems(const std::vector<core::Problem>& problems, std::size_t most,
                             std::string_view heard) {
  must(problems.size() <= most, "problems are bounded");
  for (const core::Problem& p : problems) {
    must(!p.message.empty() && p.message.size() < 1000, "a problem says what it is", p.message);
    must(p.key.size() < 200, "a field's name is short", p.key);
    for (const std::string_view open : {"{key}", "{value}", "{allowed}", "{used}"}) {
      // What was said is told as it was said, by a link's escapes or by JSON's perhaps.
      const bool said = has(heard, open) || has(heard, "%") || has(heard, "\\");
      must(said || !has(p.message, open), "no open place in a message", p.message);
    }
  }
}

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// Takes the text up to the next line feed off the front.
inline std::string_view take_line(std::string_view& rest) {
  const std::size_t end = rest.find('\n');
  const std::string_view line = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  return line;
}

}  // namespace fuzz
