// Numbers in words' form, phrases, and the catalogue behind them.
#include "core/words.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>

#include "core/explain.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("words: fixed decimals", "[words]") {
  CHECK(fixed(0.0, 0) == "0");
  CHECK(fixed(-0.0, 1) == "0.0");
  CHECK(fixed(0.05, 1) == "0.1");
  CHECK(fixed(-0.04, 1) == "0.0");
  CHECK(fixed(-0.06, 1) == "−0.1");
  CHECK(fixed(1.005, 0) == "1");
  CHECK(fixed(9.95, 0) == "10");
  CHECK(fixed(123.456, 2) == "123.46");
  CHECK(fixed(0.5, 0) == "1");
  CHECK(fixed(-0.5, 0) == "−1");
  CHECK(fixed(99.999, 2) == "100.00");
#if defined(NDEBUG)  // where assert() counts, a number that is none ends the program
  CHECK(fixed(std::nan(""), 1) == "–");
#endif
  CHECK(fixed(1e300, 1) == "–");
}

TEST_CASE("words: directions have three digits and know no 000", "[words][seam]") {
  CHECK(digits_3(360.0) == "360");
  CHECK(digits_3(0.0) == "360");
  CHECK(digits_3(359.5) == "360");
  CHECK(digits_3(359.4) == "359");
  CHECK(digits_3(0.4) == "360");
  CHECK(digits_3(0.5) == "001");
  CHECK(digits_3(7.2) == "007");
  CHECK(digits_3(85.0) == "085");
  CHECK(degrees_3(85.0) == "085°");
  CHECK(digits_3(std::nan("")) == "–");
  test::Random r(901);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const double d = r.between(0.0, 360.0);
    const std::string s = digits_3(d);
    tally.check(s.size() == 3 && s != "000", [&] { return s; });
    tally.check(std::abs(wrap_180(std::stod(s) - d)) <= 0.5, [&] { return s; });
  }
  tally.settle(200000);
}

TEST_CASE("words: minutes and seconds", "[words][seam]") {
  CHECK(minutes(0.0) == "0:00");
  CHECK(minutes(59.4) == "0:59");
  CHECK(minutes(59.5) == "1:00");
  CHECK(minutes(119.6) == "2:00");
  CHECK(minutes(65.0) == "1:05");
  CHECK(minutes(-5.0) == "−0:05");
  CHECK(minutes(-0.4) == "0:00");
  CHECK(minutes(3600.0) == "60:00");
  CHECK(minutes(std::nan("")) == "–");
}

TEST_CASE("words: phrases are filled, and fillings are not read again", "[words]") {
  CHECK(word("core.left") == "left");
  CHECK(word("no such key") == "no such key");
  const std::string text =
      phrase("core.problem.unknown", {{"key", "{key}{key}"}, {"other", "never"}});
  CHECK(text.find("{key}{key}") != std::string::npos);
  CHECK(text.find("never") == std::string::npos);
}

TEST_CASE("words: of a stranger's text one mark stands for each character that is not plain",
          "[words]") {
  CHECK(quotable("12 kt") == "12 kt");
  CHECK(quotable("–5°") == "?5?");
  CHECK(quotable("inf\x80\x80inity") == "inf?inity");
  CHECK(quotable("a\nb\x7f") == "a?b?");
  CHECK(quotable("123456789012345678901234") == "123456789012345678901234");
  CHECK(quotable("1234567890123456789012345") == "123456789012345678901234…");
}

TEST_CASE("words: every word that the core asks for is in the catalogue", "[words]") {
  const auto known = [](std::string_view text) { return text.substr(0, 5) != "core."; };
  for (int i = 0; i < kPlans; ++i) CHECK(known(label_of(static_cast<PlanId>(i))));
  for (int i = 0; i <= static_cast<int>(EventKind::fix_missed); ++i) {
    CHECK(known(label_of(static_cast<EventKind>(i))));
  }
  for (int i = 0; i <= static_cast<int>(NoPlan::to_the_fix); ++i) {
    CHECK(known(reason(static_cast<NoPlan>(i))));
    CHECK((i == 0) == reason(static_cast<NoPlan>(i)).empty());
  }
  for (int i = 0; i <= static_cast<int>(Stop::no_exact); ++i) {
    CHECK(known(reason(static_cast<Stop>(i))));
    CHECK((i == 0) == reason(static_cast<Stop>(i)).empty());
  }
  for (std::size_t i = 0; i < key_count(); ++i) {
    const std::string key = "core.allowed." + std::string(key_name(i));
    INFO(key);
    CHECK(word(key) != key);
  }
}
