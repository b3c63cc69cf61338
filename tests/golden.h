// tests/golden.h - texts kept as they were when they were last looked at, line by line.
#pragma once

#include <catch2/catch_test_macros.hpp>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>

namespace test {

using Alike = bool (*)(const std::string& now, const std::string& golden);
inline bool same_line(const std::string& a, const std::string& b) { return a == b; }

/// Every line of `now` against the golden one; tells of the first five that are not alike, each
/// under the last line that begins with `heading`.
inline void must_be_golden(const std::string& now, const char* golden, int at_least,
                           std::string_view heading, Alike alike = same_line) {
  std::istringstream is{now};
  std::istringstream was{golden};
  std::string a;
  std::string b;
  std::string about;
  int lines = 0;
  int apart = 0;
  while (apart < 5 && std::getline(was, b)) {
    REQUIRE(std::getline(is, a));
    ++lines;
    if (b.starts_with(heading)) about = b;
    if (alike(a, b)) continue;
    ++apart;
    UNSCOPED_INFO(about << "\n  now:    " << a << "\n  golden: " << b);
  }
  CHECK(apart == 0);
  if (apart == 0) CHECK_FALSE(std::getline(is, a));
  CHECK(lines > at_least);
}

/// The file that a test includes.
inline void write_golden(const char* name, const std::string& text) {
  std::ofstream file(name);
  std::istringstream lines{text};
  std::string line;
  while (std::getline(lines, line)) file << "R\"line(" << line << ")line\" \"\\n\"\n";
}

}  // namespace test
