// The reader of JSON text.
#include "core/json_read.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/json.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;
using Kind = JsonValue::Kind;

namespace {

std::string error_of(std::string_view text) { return read_json(text).error; }

}  // namespace

TEST_CASE("json: every kind of value (RFC 8259)", "[json-read]") {
  const JsonRead r = read_json(
      "\xEF\xBB\xBF {\"a\": [1, -2.5e3, true, false, null], \"b\": {\"c\": \"x\"}, \"b\": 7} ");
  REQUIRE(r.ok());
  const JsonValue* a = r.value.find("a");
  REQUIRE(a);
  REQUIRE(a->items.size() == 5);
  CHECK(a->items[0].whole() == 1);
  CHECK(a->items[1].text == "-2.5e3");
  CHECK_FALSE(a->items[1].whole());
  CHECK(a->items[2].boolean);
  CHECK(a->items[3].kind == Kind::boolean);
  CHECK(a->items[4].kind == Kind::null);
  CHECK(r.value.find("b")->whole() == 7);  // the last of a name counts
  CHECK(r.value.find("d") == nullptr);
}

TEST_CASE("json: escapes, and pairs of them", "[json-read]") {
  const JsonRead r = read_json(R"("\"\\\/\b\f\n\r\t\u00b0\u2013\ud83d\ude00")");
  REQUIRE(r.ok());
  CHECK(r.value.text == "\"\\/\b\f\n\r\t°–😀");
  for (const char* bad : {R"("\ud83d")", R"("\ude00")", R"("\ud83dx")", R"("\u12")", R"("\x41")",
                          R"("\ud83d\u0041")"}) {
    CAPTURE(bad);
    CHECK(error_of(bad).find("backslash") != std::string::npos);
  }
}

TEST_CASE("json: what is no JSON is told with its place", "[json-read]") {
  CHECK(error_of("{\n \"a\": tru\n}") == "Line 2, column 7: a value was expected here.");
  for (const char* bad :
       {"",        " ",        "{",          "[",       "[1",       "[1,", "[1,]",  "{\"a\"",
        "{\"a\":", "{\"a\":1", "{\"a\":1,}", "{a:1}",   "01",       "-",   "1.",    "1e",
        ".5",      "+1",       "'a'",        "\"a",     "\"a\nb\"", "nul", "[1] 2", "{\"a\" 1}",
        "[1 2]",   "NaN",      "Infinity",   "/* */ 1", "\xEF\xBB"}) {
    CAPTURE(bad);
    const JsonRead r = read_json(bad);
    CHECK_FALSE(r.ok());
    CHECK(r.error.rfind("Line ", 0) == 0);
    CHECK(r.value.kind == Kind::null);
  }
}

TEST_CASE("json: bounds", "[json-read]") {
  CHECK(read_json(std::string(15, '[') + std::string(15, ']')).ok());
  CHECK_FALSE(read_json(std::string(kMostJsonDepth + 1, '[')).ok());
  CHECK_FALSE(read_json(std::string(kMostJsonBytes + 1, ' ')).ok());
  std::string many = "[0";
  for (int i = 0; i < kMostJsonValues; ++i) many += ",0";
  CHECK_FALSE(read_json(many + "]").ok());
}

TEST_CASE("json: whole numbers", "[json-read]") {
  const auto whole = [](const char* text) { return read_json(text).value.whole(); };
  CHECK(whole("2000000000") == 2000000000);
  CHECK(whole("-2000000000") == -2000000000);
  CHECK_FALSE(whole("2000000001"));
  CHECK_FALSE(whole("99999999999999999999"));
  CHECK_FALSE(whole("1.0"));
  CHECK_FALSE(whole("1e2"));
  CHECK_FALSE(whole("\"1\""));
  CHECK(whole("-0") == 0);
}

TEST_CASE("json: reads what the writer writes, and no mutation of it hangs or throws",
          "[json-read][property]") {
  test::Random r(5101);
  test::Tally tally;
  for (int i = 0; i < 2000; ++i) {
    Json j;
    std::string text;
    for (int k = r.below(12); k > 0; --k) text += static_cast<char>(1 + r.below(127));
    const double number = r.between(-1e6, 1e6);
    j.open_object().field("t", text).field("n", number).key("l").open_array();
    j.boolean(true).null().close_array().close_object();
    std::string written = j.take();
    const JsonRead read = read_json(written);
    tally.check(read.ok() && read.value.find("t")->text == text &&
                    std::stod(read.value.find("n")->text) == number,
                [&] { return written; });
    const auto at = static_cast<std::size_t>(r.below(static_cast<int>(written.size())));
    written[at] = static_cast<char>(r.below(256));
    const JsonRead hurt = read_json(written);
    tally.check(hurt.ok() == hurt.error.empty(), [&] { return written; });
  }
  tally.settle(4000);
}
