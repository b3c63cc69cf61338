// The JSON writer, and the strict reader that the tests judge it with.
#include "core/json.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstdlib>
#include <limits>

#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"

using core::Json;

TEST_CASE("json check: takes what is JSON", "[json]") {
  for (const char* good :
       {"null", " true ", "-0.5e+3", "0", "\"\"", "[]", "{}", "[1,2,[3]]", "{\"a\":{\"b\":[null]}}",
        "\"\\u00e9\\n\\\"\"", "\"\xc3\xa9 \xe2\x88\x92 \xf0\x9f\x8c\xac\""}) {
    INFO(good);
    CHECK(test::json_fault(good).empty());
  }
}

TEST_CASE("json check: refuses what is not", "[json]") {
  for (const char* bad : {"",
                          "nan",
                          "NaN",
                          "inf",
                          "Infinity",
                          "-inf",
                          "01",
                          "+1",
                          "1.",
                          ".5",
                          "1e",
                          "[1,]",
                          "[,1]",
                          "{\"a\":1,}",
                          "{a:1}",
                          "{\"a\" 1}",
                          "\"",
                          "\"\x01\"",
                          "\"\\x\"",
                          "\"\\u12g4\"",
                          "1 2",
                          "[1 2]",
                          "{\"a\":1,\"a\":2}",
                          "\"\xff\"",
                          "\"\xc3\"",
                          "\"\xed\xa0\x80\"",
                          "\"\xc0\x80\"",
                          "tru",
                          "'a'"}) {
    INFO(bad);
    CHECK_FALSE(test::json_fault(bad).empty());
  }
}

TEST_CASE("json: objects and arrays in order", "[json]") {
  Json j;
  j.open_object().field("a", 1).key("b").open_array().number(1.5).null().open_object();
  j.close_object().open_array().close_array().close_array();
  j.field("c", true).field("d", "x").field("e", false).key("f").null().close_object();
  CHECK(j.str() == R"({"a":1,"b":[1.5,null,{},[]],"c":true,"d":"x","e":false,"f":null})");
  CHECK(test::json_fault(j.str()).empty());
}

TEST_CASE("json: texts are escaped", "[json]") {
  Json j;
  std::string all;
  for (int c = 0; c < 0x80; ++c) all += static_cast<char>(c);
  j.text(all);
  CHECK(test::json_fault(j.str()).empty());
  Json quotes;
  quotes.text("a\"b\\c\n\x1f");
  CHECK(quotes.str() == "\"a\\\"b\\\\c\\u000a\\u001f\"");
}

TEST_CASE("json: numbers come back to the last bit", "[json][property]") {
  test::Random r(701);
  test::Tally tally;
  for (int i = 0; i < 100000; ++i) {
    const double exponent = r.between(-20.0, 20.0);
    const double sign = r.chance(0.5) ? 1.0 : -1.0;
    const double v = r.chance(0.3) ? r.decimal(-500.0, 500.0) : sign * std::pow(10.0, exponent);
    Json j;
    j.number(v);
    tally.check(std::strtod(j.str().c_str(), nullptr) == v && test::json_fault(j.str()).empty(),
                [&] { return j.str(); });
  }
  tally.settle(100000);
}

TEST_CASE("json: what is not finite is null", "[json][seam]") {
  for (const double v :
       {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
        -std::numeric_limits<double>::infinity()}) {
    Json j;
    j.number(v);
    CHECK(j.str() == "null");
  }
  Json whole;
  whole.open_array().number(60.0).number(-0.0).number(-7.0).number(1e14).close_array();
  CHECK(whole.str() == "[60,0,-7,100000000000000]");
}
