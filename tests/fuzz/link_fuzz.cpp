// The link language: any text is a scenario and problems, and what is written is read back.
#include <algorithm>

#include "core/words.h"
#include "tests/fuzz/must.h"

using namespace core;
using fuzz::must;

namespace {

/// A scenario's own text: each value in its key, the whole as a link.
void must_come_back(const Scenario& s) {
  must(s == s, "no number of a scenario is NaN");
  const std::string link = write_link(s);
  must(link.size() < 2000, "a written link is short", link);
  must(std::all_of(link.begin(), link.end(), [](char c) { return c > ' ' && c <= '~'; }),
       "a written link is printable", link);
  fuzz::must_be_plain(link, {});
  const ParsedLink again = parse_link(link);
  must(again.problems.empty(), "a written link has no problem", link);
  must(again.scenario == s, "a written link gives the scenario back", link);
  must(write_link(again.scenario) == link, "and is written the same again", link);
}

void must_set(Scenario s, std::string_view key, std::string_view value) {
  const Scenario before = s;
  Problem problem;
  if (set_value(s, key, value, problem)) {
    must_come_back(s);
    return;
  }
  must(s == before, "a refused value changes nothing", value);
  fuzz::must_be_problems({problem}, 1, std::string(key).append(value));
  bool known = false;
  for (std::size_t i = 0; i < key_count(); ++i) known = known || key_name(i) == key;
  must(problem.key == (known ? std::string(key) : quotable(key)), "a problem names its field",
       problem.key);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const ParsedLink read = parse_link(text);
  fuzz::must_be_problems(read.problems, key_count() + 24, text);
  must_come_back(read.scenario);
  std::string_view rest = text;
  for (int i = 0; i < 4 && !rest.empty(); ++i) {
    const std::size_t end = rest.find('&');
    const std::string_view pair = rest.substr(0, end);
    const std::size_t equals = pair.find('=');
    must_set(read.scenario, pair.substr(0, equals),
             equals == std::string_view::npos ? std::string_view() : pair.substr(equals + 1));
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  }
  return 0;
}
