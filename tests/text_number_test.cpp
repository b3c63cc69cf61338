// Numbers and times as a link writes them.
#include "core/text_number.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>

#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("number: what is read", "[text]") {
  struct Row {
    const char* text;
    double value;
  };
  for (const Row& row : {Row{"0", 0.0}, Row{"15", 15.0}, Row{"015", 15.0}, Row{"000000007", 7.0},
                         Row{"+10", 10.0}, Row{"-10", -10.0}, Row{"1.5", 1.5}, Row{"1,5", 1.5},
                         Row{".5", 0.5}, Row{"5.", 5.0}, Row{"-.25", -0.25}, Row{"0.1", 0.1},
                         Row{"0.0000019", 0.000001}, Row{"123456789.123456", 123456789.123456}}) {
    INFO(row.text);
    REQUIRE(read_number(row.text).has_value());
    CHECK(*read_number(row.text) == row.value);
  }
  CHECK_FALSE(std::signbit(*read_number("-0")));
}

TEST_CASE("number: what is refused", "[text]") {
  for (const char* bad : {"",    " ",  "+",   "-",    ".",          ",",        "+.",    "--1",
                          "+-1", "1-", "1e3", "0x10", "nan",        "inf",      "1.2.3", "1.2,3",
                          "1 2", " 1", "1 ",  "1kt",  "1234567890", "\xd9\xa3", "1\n",   "½"}) {
    INFO(bad);
    CHECK_FALSE(read_number(bad).has_value());
  }
  CHECK_FALSE(read_number(std::string_view("1\0", 2)).has_value());
}

TEST_CASE("number: written and read back exactly", "[text][property]") {
  test::Random r(801);
  test::Tally tally;
  for (int i = 0; i < 200000; ++i) {
    const double size = std::pow(10.0, r.between(-6.0, 8.9));
    const double v = r.decimal(-size, size);
    const std::string text = write_number(v);
    const std::optional<double> back = read_number(text);
    tally.check(back && *back == v, [&] { return text; });
    tally.check(text.find("-0") != 0 || text.find('.') != std::string::npos, [&] { return text; });
    tally.check(text.find('.') == std::string::npos || text.back() != '0', [&] { return text; });
  }
  tally.settle(600000);
  CHECK(write_number(0.0) == "0");
  CHECK(write_number(-0.0) == "0");
  CHECK(write_number(-1e-9) == "0");
  CHECK(write_number(0.1 + 0.2) == "0.3");
  CHECK(write_number(-12.5) == "-12.5");
  CHECK(write_number(100.0) == "100");
  CHECK(write_number(std::nan("")) == "0");
}

TEST_CASE("time: what is read", "[text]") {
  struct Row {
    const char* text;
    double seconds;
  };
  for (const Row& row : {Row{"1:00", 60.0}, Row{"0:00", 0.0}, Row{"0:59.9", 59.9}, Row{"90", 90.0},
                         Row{"10:00", 600.0}, Row{"1:5", 65.0}, Row{"01:05", 65.0},
                         Row{"1:05,5", 65.5}, Row{"75.5", 75.5}, Row{"0", 0.0}}) {
    INFO(row.text);
    REQUIRE(read_time(row.text).has_value());
    CHECK(*read_time(row.text) == row.seconds);
  }
  for (const char* bad : {"", ":", "1:", ":30", "1:60", "1:99", "-1:00", "1:-5", "+1:00", "1:+5",
                          "1.5:00", "1:00:00", "1;00", "a:00", "1:0a", "1: 00", "1 :00"}) {
    INFO(bad);
    CHECK_FALSE(read_time(bad).has_value());
  }
}

TEST_CASE("time: written and read back exactly, in either form", "[text][property]") {
  test::Random r(802);
  test::Tally tally;
  for (int i = 0; i < 200000; ++i) {
    const double seconds = r.decimal(0.0, 700.0);
    const std::string text = write_time(seconds);
    const std::optional<double> back = read_time(text);
    tally.check(back && *back == seconds, [&] { return text; });
    const std::optional<double> plain = read_time(write_number(seconds));
    tally.check(plain && *plain == seconds, [&] { return text; });
    tally.check(text.find(':') != std::string::npos && text.find(":6") == std::string::npos,
                [&] { return text; });
  }
  tally.settle(400000);
  CHECK(write_time(60.0) == "1:00");
  CHECK(write_time(0.0) == "0:00");
  CHECK(write_time(65.5) == "1:05.5");
  CHECK(write_time(119.9999999) == "2:00");
  CHECK(write_time(600.0) == "10:00");
}
