// The check: its order, its score, and the interval that says how far to believe it.
#include "core/check.h"

#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

#include "tests/tally.h"

using namespace core;

TEST_CASE("check: three of each core skill, the same never twice running", "[check]") {
  test::Tally tally;
  for (std::uint32_t seed = 0; seed < 2000; ++seed) {
    const auto order = check_order({"mixed", 1, seed}, kAllSkills);
    std::array<int, kSkills> of{};
    for (std::size_t i = 0; i < order.size(); ++i) {
      ++of[static_cast<std::size_t>(order[i])];
      if (i > 0) tally.check(order[i] != order[i - 1], [&] { return std::to_string(seed); });
    }
    tally.check(of == std::array<int, kSkills>{3, 3, 3, 3, 0},
                [&] { return std::to_string(seed); });
  }
  tally.settle(2000 * 12);
}

TEST_CASE("check: a set with fewer skills shares the twelve out evenly", "[check]") {
  for (SkillBits in = 0; in <= kAllSkills; ++in) {
    const SkillBits asked = check_skills(in);
    int skills = 0;
    for (int s = 0; s < kSkills; ++s) skills += static_cast<int>((asked >> s) & 1U);
    REQUIRE(skills > 0);
    const auto order = check_order({"some", 3, 99}, in);
    std::array<int, kSkills> of{};
    for (std::size_t i = 0; i < order.size(); ++i) {
      ++of[static_cast<std::size_t>(order[i])];
      if (i > 0 && skills > 1) CHECK(order[i] != order[i - 1]);
    }
    for (int s = 0; s < kSkills; ++s) {
      const bool in_check = ((asked >> s) & 1U) != 0U;
      CHECK(of[static_cast<std::size_t>(s)] == (in_check ? kCheckItems / skills : 0));
    }
  }
  CHECK(check_skills(bit_of(Skill::clearance)) == bit_of(Skill::clearance));
  CHECK(check_skills(kAllSkills) == kCoreSkills);
}

TEST_CASE("check: the seed decides the order, and nothing else does", "[check]") {
  const DrawKey key = {"mixed", 1, 12345};
  CHECK(check_order(key, kAllSkills) == check_order(key, kAllSkills));
  int same = 0;
  for (std::uint32_t seed = 0; seed < 100; ++seed) {
    if (check_order({"mixed", 1, seed}, kAllSkills) == check_order(key, kAllSkills)) ++same;
  }
  CHECK(same <= 1);
  // Each skill opens the check about as often: a quarter of 2000, five deviations of 19.4.
  std::array<int, kSkills> first{};
  for (std::uint32_t seed = 0; seed < 2000; ++seed) {
    ++first[static_cast<std::size_t>(check_order({"mixed", 1, seed}, kAllSkills)[0])];
  }
  for (int s = 0; s < 4; ++s) CHECK(std::abs(first[static_cast<std::size_t>(s)] - 500) < 97);
}

TEST_CASE("check: score is a hundred times the share, rounded", "[check]") {
  // By hand: 100 r / 12 = 0, 8.33, 16.67, 25, 33.33, 41.67, 50, 58.33, 66.67, 75, 83.33, 91.67.
  const int scores[] = {0, 8, 17, 25, 33, 42, 50, 58, 67, 75, 83, 92, 100};
  for (int right = 0; right <= 12; ++right) CHECK(check_score(right, 12) == scores[right]);
  CHECK(check_score(1, 8) == 13);  // 12.5 is rounded up
  CHECK(check_score(3, 0) == 0);
  CHECK(check_score(20, 12) == 100);
  CHECK(check_score(-1, 12) == 0);
}

TEST_CASE("check: Wilson's interval solves its own equation", "[check][wilson]") {
  // Derived in docs/practice.md: the ends are the rates q at which the observed share p lies
  // 1.96 standard errors off: (p - q)^2 = z^2 q (1 - q) / n.
  test::Tally tally;
  for (int n = 1; n <= 200; ++n) {
    for (int right = 0; right <= n; ++right) {
      const ShareRange range = wilson_95(right, n);
      const double p = static_cast<double>(right) / n;
      const auto what = [&] { return std::to_string(right) + " of " + std::to_string(n); };
      for (const double q : {range.low, range.high}) {
        const double left = (p - q) * (p - q);
        const double wanted = 1.959964 * 1.959964 * q * (1.0 - q) / n;
        tally.check(std::abs(left - wanted) < 1e-9, what);
      }
      tally.check(range.low >= 0.0 && range.high <= 1.0, what);
      tally.check(range.low <= p && p <= range.high && range.low < range.high, what);
      // What is right in one is wrong in the other.
      const ShareRange mirror = wilson_95(n - right, n);
      tally.check(std::abs(mirror.low - (1.0 - range.high)) < 1e-12, what);
    }
  }
  tally.settle(100000);
}

TEST_CASE("check: the words of the result", "[check][wilson][words]") {
  // Own arithmetic by the formula, to the whole percent (docs/practice.md):
  struct Row {
    int right;
    const char* range;
  };
  const Row rows[] = {{12, "76–100"}, {10, "55–95"}, {6, "25–75"}, {0, "0–24"}};
  for (const Row& row : rows) {
    const std::string words = check_words(row.right, 12);
    CHECK(words == std::to_string(row.right) +
                       " of 12 right. With 12 questions the true rate is plausibly " + row.range +
                       " %.");
  }
}

TEST_CASE("check: the tally adds up", "[check]") {
  CheckTally tally;
  tally.add(Skill::entry, true);
  tally.add(Skill::entry, false);
  tally.add(Skill::timing, true);
  CHECK(tally.all() == 3);
  CHECK(tally.all_right() == 2);
  CHECK(tally.of[0] == 2);
  CHECK(tally.right[0] == 1);
}
