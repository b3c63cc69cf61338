// Random numbers of practice, and the codes that say their seed.
#include "core/seeded.h"

#include <array>
#include <catch2/catch_test_macros.hpp>
#include <set>
#include <string>
#include <vector>

#include "core/seed_code.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

TEST_CASE("seeded: splitmix64's published first numbers", "[seeded]") {
  // First outputs for the seed 1234567, as published beside Vigna's splitmix64.c by several
  // ports (from memory).
  Seeded s(1234567);
  CHECK(s.bits() == 6457827717110365317ULL);
  CHECK(s.bits() == 3203168211198807973ULL);
  CHECK(s.bits() == 9817491932198370423ULL);
}

TEST_CASE("seeded: below() is even and within its range", "[seeded]") {
  Seeded s(stream_of("mixed", 1, 7, 0));
  std::array<int, 7> count{};
  for (int i = 0; i < 70000; ++i) ++count[static_cast<std::size_t>(s.below(7))];
  // 10,000 each with a standard deviation of 92.6; five of them.
  for (const int n : count) CHECK(std::abs(n - 10000) < 463);
  CHECK(s.below(1) == 0);
  CHECK(s.below(0) == 0);
  CHECK(s.below(-4) == 0);
  for (int i = 0; i < 1000; ++i) {
    const int n = s.between(-3, 3);
    CHECK((n >= -3 && n <= 3));
  }
}

TEST_CASE("seeded: every order of three comes up", "[seeded]") {
  std::set<std::string> seen;
  for (int i = 0; i < 200; ++i) {
    std::string order = "abc";
    Seeded(stream_of("x", 1, 1, i)).shuffle(order);
    seen.insert(order);
  }
  CHECK(seen.size() == 6);
}

TEST_CASE("seeded: streams differ by every part of their name", "[seeded]") {
  std::set<std::uint64_t> seen;
  for (const char* id : {"mixed", "still-air", "a", "b"}) {
    for (const int version : {1, 2}) {
      for (std::uint32_t seed = 0; seed < 50; ++seed) {
        for (int item = 0; item < 50; ++item) seen.insert(stream_of(id, version, seed, item));
      }
    }
  }
  CHECK(seen.size() == 4U * 2U * 50U * 50U);
}

TEST_CASE("code: every seed can be said and read again", "[code]") {
  test::Tally tally;
  std::string why;
  for (std::uint32_t seed = 0; seed < kSeeds; ++seed) {
    const std::string code = write_class_code({kGenerator, seed});
    const std::optional<ClassCode> read = read_class_code(code, why);
    tally.check(code.size() == 5 && read && read->seed == seed && read->generator == kGenerator,
                [&] { return code + ": " + why; });
  }
  tally.settle(kSeeds);
}

TEST_CASE("code: every single wrong character is found", "[code]") {
  constexpr std::string_view kFigures = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  test::Random r(5201);
  test::Tally tally;
  std::string why;
  for (int i = 0; i < 500; ++i) {
    const std::string code =
        write_class_code({kGenerator, static_cast<std::uint32_t>(r.below(kSeeds))});
    for (std::size_t at = 0; at < code.size(); ++at) {
      for (const char c : kFigures) {
        if (c == code[at]) continue;
        std::string wrong = code;
        wrong[at] = c;
        tally.check(!read_class_code(wrong, why) && !why.empty(), [&] { return wrong; });
      }
    }
  }
  tally.settle(500 * 5 * 31);
}

TEST_CASE("code: forgiving where people are, plain where they are wrong", "[code]") {
  std::string why;
  const std::string code = write_class_code({kGenerator, 33});
  std::string spaced = code;
  spaced.insert(2, " -");
  for (char& c : spaced) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  REQUIRE(read_class_code(spaced, why));
  CHECK(read_class_code(spaced, why)->seed == 33);
  CHECK_FALSE(read_class_code("", why));
  CHECK(why.find("0 characters") != std::string::npos);
  CHECK_FALSE(read_class_code("12#45", why));
  CHECK(why.find("12#45") != std::string::npos);
  CHECK_FALSE(read_class_code("1234567890123456789", why));
  CHECK_FALSE(read_class_code(write_class_code({kGenerator + 1, 33}), why));
  CHECK(why.find("another version") != std::string::npos);
}
