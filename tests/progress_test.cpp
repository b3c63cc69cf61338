// The progress file: written in one way, read field by field, whatever stands in it.
#include "core/progress.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/seed_code.h"
#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// A code that the reader takes.
std::string code_for(std::uint32_t number) { return write_class_code({1, number}); }

SkillRecord lived(test::Random& random, Skill skill) {
  SkillRecord r;
  int day = 20000 + random.below(100);
  const int items = random.below(60);
  const double knows = random.unit();
  for (int k = 0; k < items; ++k) {
    if (random.chance(0.1)) day += 1 + random.below(3);
    Outcome o;
    o.right = random.chance(knows);
    o.hinted = random.chance(0.05);
    o.shown = random.chance(0.05);
    o.met = static_cast<unsigned>(random.below(128));
    o.day = random.chance(0.02) ? kNoDay : day;
    record(r, skill, r.level, o);
  }
  return r;
}

CheckTally tally_of(test::Random& random) {
  CheckTally tally;
  for (int i = 0; i < kCheckItems; ++i) {
    const auto skill = static_cast<Skill>(i % 4);
    tally.add(skill, random.chance(0.6));
  }
  return tally;
}

Progress lived_through(std::uint64_t seed) {
  test::Random random(seed);
  Progress p;
  for (int s = 0; s < kSkills; ++s) {
    p.skills[static_cast<std::size_t>(s)] = lived(random, static_cast<Skill>(s));
  }
  const int checks = random.below(6);
  for (int i = 0; i < checks; ++i) {
    CheckRecord c;
    c.set_id = i % 2 == 0 ? "mixed" : "one-wind";
    c.set_version = 1 + random.below(2);
    c.code = code_for(static_cast<std::uint32_t>(random.below(4)));
    c.best = tally_of(random);
    c.day = random.chance(0.3) ? kNoDay : 20000 + random.below(50);
    add_check(p, c);
  }
  if (random.chance(0.5)) {
    OpenCheck o;
    o.set_id = "mixed";
    o.code = code_for(9);
    o.answered = random.below(12);
    o.right = static_cast<unsigned>(random.bits()) & ((1U << o.answered) - 1U);
    p.open_check = o;
  }
  return p;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

bool names(const ReadProgress& read, const std::string& field) {
  for (const Problem& p : read.problems) {
    if (p.key == field && p.message.find(field) != std::string::npos) return true;
  }
  return false;
}

std::string wrap(const std::string& fields) {
  return "{\"format\":\"holding-practice\",\"version\":1" + (fields.empty() ? "" : "," + fields) +
         "}";
}
std::string skill_text(const std::string& fields) {
  return wrap("\"skills\":{\"wind\":{" + fields + "}}");
}

}  // namespace

TEST_CASE("progress: what is written is read again, to the byte", "[progress]") {
  test::Tally tally;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    const Progress p = lived_through(seed);
    const std::string text = write_progress(p);
    const ReadProgress read = read_progress(text);
    const auto what = [&] {
      return text + (read.problems.empty() ? "" : " " + read.problems[0].message);
    };
    tally.check(test::json_fault(text).empty(), what);
    tally.check(read.usable && read.problems.empty(), what);
    tally.check(read.progress.skills == p.skills, what);
    tally.check(write_progress(read.progress) == text, what);
    tally.check(text.size() < 4096, what);
  }
  tally.settle(2000);
}

TEST_CASE("progress: nothing is a progress too, and an empty file of the format", "[progress]") {
  const std::string empty = write_progress({});
  CHECK(read_progress(empty).problems.empty());
  const ReadProgress bare = read_progress(wrap(""));
  CHECK(bare.usable);
  CHECK(bare.problems.empty());
  CHECK(write_progress(bare.progress) == empty);
}

TEST_CASE("progress: what is no progress file is refused, and says why", "[progress]") {
  for (const std::string& text :
       {std::string(), std::string("{"), std::string("[]"), std::string("null"), std::string("{}"),
        std::string("{\"format\":\"another\"}"), std::string("{\"format\":1}"),
        std::string("{\"format\":\"holding-practice\",}"), std::string(1000000, '['),
        std::string(300000, ' ') + wrap(""), std::string("\0\xff", 2)}) {
    const ReadProgress read = read_progress(text);
    INFO(text.substr(0, 40));
    CHECK_FALSE(read.usable);
    REQUIRE(read.problems.size() == 1);
    CHECK(read.problems[0].message.size() > 20);
    CHECK(read.problems[0].message.find("core.") == std::string::npos);
    CHECK(write_progress(read.progress) == write_progress({}));
  }
}

TEST_CASE("progress: a bad field is named, replaced, and nothing else is lost", "[progress]") {
  Progress p = lived_through(77);
  p.skills[static_cast<std::size_t>(Skill::wind)] = {};
  SkillRecord& r = p.skills[static_cast<std::size_t>(Skill::wind)];
  r.asked = 30;
  r.level = Level::bare;
  r.run = 1;
  r.window = 0xef;
  r.counted = 20;
  r.right = 17;
  r.met = kMetWindLeft | kMetWindRight;
  r.secure_day = 20001;
  r.later_day = 20003;
  r.later_tries = 5;
  r.later_right = 4;
  r.kept_day = 20003;
  const std::string good = write_progress(p);
  REQUIRE(read_progress(good).problems.empty());
  struct Row {
    const char* from;
    const char* to;
    const char* field;
  };
  const Row rows[] = {
      {"\"asked\":30", "\"asked\":-1", "asked"},
      {"\"asked\":30", "\"asked\":30.5", "asked"},
      {"\"asked\":30", "\"asked\":\"30\"", "asked"},
      {"\"asked\":30", "\"asked\":1e300", "asked"},
      {"\"asked\":30", "\"asked\":19", "asked"},
      {"\"asked\":30", "\"asked\":null", "asked"},
      {"\"run\":1,\"last\":\"11101111\"", "\"run\":2,\"last\":\"11101111\"", "run"},
      {"\"run\":1,\"last\":\"11101111\"", "\"run\":[1],\"last\":\"11101111\"", "run"},
      {"\"last\":\"11101111\",\"counted\":20", "\"last\":\"11101111\",\"counted\":7", "counted"},
      {"\"counted\":20,\"right\":17", "\"counted\":20,\"right\":20", "right"},
      {"\"counted\":20,\"right\":17", "\"counted\":20,\"right\":6", "right"},
      {"\"secure_day\":20001", "\"secure_day\":\"today\"", "secure_day"},
      {"\"later_day\":20003,\"later_tries\":5", "\"later_day\":20001,\"later_tries\":5",
       "later_day"},
      {"\"later_tries\":5,\"later_right\":4", "\"later_tries\":3,\"later_right\":4", "later_right"},
      {"\"later_tries\":5,\"later_right\":4", "\"later_tries\":6,\"later_right\":4", "later_tries"},
      {"\"kept_day\":20003", "\"kept_day\":20001", "kept_day"},
      {"\"kept_day\":20003", "\"kept_day\":20004", "kept_day"},
      {"\"kept_day\":20003", "\"kept_day\":20003,\"extra\":1", "extra"},
  };
  for (const Row& row : rows) {
    const ReadProgress read = read_progress(replaced(good, row.from, row.to));
    INFO(row.to);
    REQUIRE(read.usable);
    REQUIRE_FALSE(read.problems.empty());
    CHECK(names(read, std::string("skills.wind.") + row.field));
    for (int s = 0; s < kSkills; ++s) {
      const auto at = static_cast<std::size_t>(s);
      if (static_cast<Skill>(s) != Skill::wind) CHECK(read.progress.skills[at] == p.skills[at]);
    }
    CHECK(read.progress.checks.size() == p.checks.size());
    // What is taken is sound: it writes and reads without a problem.
    CHECK(read_progress(write_progress(read.progress)).problems.empty());
  }
}

TEST_CASE("progress: what is used instead", "[progress]") {
  const auto wind = [](const std::string& fields) {
    return read_progress(skill_text(fields)).progress.skills[static_cast<std::size_t>(Skill::wind)];
  };
  CHECK(wind("\"last\":\"101\"").counted == 3);
  CHECK(wind("\"last\":\"101\"").right == 2);
  CHECK(wind("\"last\":\"101\"").window == 5U);
  CHECK(wind("\"last\":\"101\"").asked == 3);
  CHECK(wind("\"last\":\"101\",\"counted\":9").counted == 3);
  CHECK(wind("\"last\":\"111111110\"").counted == 0);
  CHECK(wind("\"last\":\"11x\"").counted == 0);
  CHECK(wind("\"level\":\"bare\"").level == Level::bare);
  CHECK(wind("\"level\":\"expert\"").level == Level::worked);
  CHECK(wind("\"level\":2").level == Level::worked);
  CHECK(wind("\"met\":[\"wind-left\",\"nowhere\",3]").met == kMetWindLeft);
  CHECK(wind("\"met\":\"wind-left\"").met == 0U);
  CHECK(wind("\"kept_day\":20000").kept_day == kNoDay);
  CHECK(wind("\"later_tries\":3").later_tries == 0);
  const ReadProgress odd = read_progress(wrap("\"skills\":{\"wind\":7,\"entry\":{\"run\":1}}"));
  CHECK(odd.progress.skills[0].run == 1);
  CHECK(names(odd, "skills.wind"));
  CHECK(names(read_progress(wrap("\"skills\":[]")), "skills"));
  CHECK(names(read_progress(wrap("\"skills\":{\"landing\":{}}")), "skills.landing"));
}

TEST_CASE("progress: checks and the open check", "[progress]") {
  const std::string code = code_for(5);
  const std::string which = "\"set\":\"mixed\",\"set_version\":1,\"code\":\"" + code + "\"";
  const std::string best =
      "\"best\":{\"entry\":[3,3],\"heading\":[2,3],\"wind\":[3,3],\"timing\":[1,3]}";
  const auto checks = [&](const std::string& list) {
    return read_progress(wrap("\"checks\":" + list));
  };
  const ReadProgress good = checks("[{" + which + ",\"tries\":2," + best + ",\"day\":20005}]");
  CHECK(good.problems.empty());
  REQUIRE(good.progress.checks.size() == 1);
  CHECK(good.progress.checks[0].best.all_right() == 9);
  CHECK(good.progress.checks[0].tries == 2);

  struct Row {
    std::string list;
    const char* field;
    std::size_t left;
  };
  const std::string one = "{" + which + "," + best + "}";
  const Row rows[] = {
      {"{}", "checks", 0},
      {"[1]", "checks[0]", 0},
      {"[{}," + one + "]", "checks[0].set", 1},
      {"[" + one + "," + one + "]", "checks[1]", 1},
      {"[" + replaced(one, "[3,3]", "[4,3]") + "," + one + "]", "checks[0].best", 1},
      {"[" + replaced(one, "[3,3]", "[3]") + "," + one + "]", "checks[0].best", 1},
      {"[" + replaced(one, "[3,3]", "[3,4]") + "," + one + "]", "checks[0].best", 1},
      {"[" + replaced(one, "[3,3]", "[-1,3]") + "," + one + "]", "checks[0].best", 1},
      {"[" + replaced(one, "mixed", "../up <b>") + "," + one + "]", "checks[0].set", 1},
      {"[" + replaced(one, code, "00000000") + "," + one + "]", "checks[0].code", 1},
      {"[" + replaced(one, "\"set_version\":1", "\"set_version\":0") + "]", "checks[0].set_version",
       1},
      {"[" + replaced(one, "\"best\"", "\"tries\":0,\"best\"") + "]", "checks[0].tries", 1},
  };
  for (const Row& row : rows) {
    const ReadProgress read = checks(row.list);
    INFO(row.list);
    CHECK(read.usable);
    CHECK(names(read, row.field));
    CHECK(read.progress.checks.size() == row.left);
  }

  const auto open = [&](const std::string& text) {
    return read_progress(wrap("\"open_check\":" + text));
  };
  const ReadProgress begun = open("{" + which + ",\"right\":\"1101\"}");
  CHECK(begun.problems.empty());
  REQUIRE(begun.progress.open_check.has_value());
  CHECK(begun.progress.open_check->answered == 4);
  CHECK(begun.progress.open_check->right == 0xbU);
  CHECK(open("null").problems.empty());
  CHECK(names(open("5"), "open_check"));
  // Twelve answered is a finished check, not an open one.
  CHECK(names(open("{" + which + ",\"right\":\"110111011101\"}"), "open_check.right"));
  CHECK_FALSE(open("{\"set\":\"mixed\",\"right\":\"1\"}").progress.open_check.has_value());
}

TEST_CASE("progress: files of other versions", "[progress]") {
  const std::string text = write_progress(lived_through(31));
  // Newer: what is known is read, what is not is no fault of its own, and one line says so.
  const std::string newer =
      replaced(replaced(text, "\"version\":1", "\"version\":2,\"theme\":\"x\""), "\"asked\"",
               "\"pace\":3,\"asked\"");
  const ReadProgress read = read_progress(newer);
  CHECK(read.usable);
  REQUIRE(read.problems.size() == 1);
  CHECK(names(read, "version") == false);  // the sentence speaks of the format, not of the key
  CHECK(read.problems[0].key == "version");
  CHECK(read.problems[0].message.find('2') != std::string::npos);
  CHECK(write_progress(read.progress) == text);
  // Older: fields that it did not have are what they are at first.
  const ReadProgress older =
      read_progress("{\"format\":\"holding-practice\",\"skills\":{\"wind\":{\"last\":\"1101\"}}}");
  CHECK(older.problems.empty());
  CHECK(older.progress.skills[static_cast<std::size_t>(Skill::wind)].right == 3);
  for (const char* odd : {"0", "-3", "1.5", "\"1\"", "null", "1e99"}) {
    const ReadProgress bad =
        read_progress(replaced(text, "\"version\":1", std::string("\"version\":") + odd));
    INFO(odd);
    CHECK(bad.usable);
    CHECK(bad.problems.size() == 1);
    CHECK(write_progress(bad.progress) == text);
  }
}

TEST_CASE("progress: hostile files are bounded", "[progress]") {
  std::string many = "{\"format\":\"holding-practice\"";
  for (int i = 0; i < 5000; ++i) many += ",\"k" + std::to_string(i) + "\":" + std::to_string(i);
  many += "}";
  const ReadProgress read = read_progress(many);
  CHECK(read.problems.size() <= kMostProgressProblems + 1);
  for (const Problem& p : read.problems) CHECK(p.message.size() < 300);

  std::string checks = "\"checks\":[";
  const std::string best = "\"best\":{\"entry\":[12,12]}";
  int made = 0;
  for (int i = 0; i < 400; ++i) {
    if (made++ > 0) checks += ",";
    checks += "{\"set\":\"mixed\",\"set_version\":" + std::to_string(i + 1) + ",\"code\":\"" +
              code_for(1) + "\"," + best + "}";
  }
  const ReadProgress long_list = read_progress(wrap(checks + "]"));
  CHECK(long_list.usable);
  CHECK(long_list.progress.checks.size() == kMostChecks);
  CHECK(names(long_list, "checks[" + std::to_string(kMostChecks) + "]"));
  const ReadProgress long_name = read_progress(
      wrap("\"" + std::string(100000, 'x') + "\":\"" + std::string(100000, 'y') + "\""));
  REQUIRE(long_name.problems.size() == 1);
  CHECK(long_name.problems[0].message.size() < 300);
}

TEST_CASE("progress: broken texts never break the reader", "[progress]") {
  // Bytes changed, taken out and put in, in valid files.
  test::Random random(4201);
  test::Tally tally;
  int usable = 0;
  for (int round = 0; round < 3000; ++round) {
    std::string text = write_progress(lived_through(1 + static_cast<std::uint64_t>(round % 40)));
    const int cuts = 1 + random.below(4);
    for (int c = 0; c < cuts; ++c) {
      const auto at = static_cast<std::size_t>(random.below(static_cast<int>(text.size())));
      const int how = random.below(4);
      if (how == 0) text[at] = static_cast<char>(random.below(256));
      if (how == 1) text.erase(at, 1 + static_cast<std::size_t>(random.below(8)));
      if (how == 2) text.insert(at, 1, "0123456789-.,:[]{}\"e"[random.below(20)]);
      if (how == 3) text[at] = "0123456789"[random.below(10)];
      if (text.empty()) break;
    }
    const ReadProgress read = read_progress(text);
    usable += read.usable ? 1 : 0;
    tally.check(read.usable || read.problems.size() == 1, [&] { return text; });
    const std::string again = write_progress(read.progress);
    const ReadProgress sound = read_progress(again);
    tally.check(sound.problems.empty() && write_progress(sound.progress) == again,
                [&] { return text + "\n" + again; });
  }
  tally.settle(6000);
  CHECK(usable > 300);
}

TEST_CASE("progress: the best of a check is kept, and its tries", "[progress]") {
  Progress p;
  test::Random random(4202);
  CheckRecord c;
  c.set_id = "mixed";
  c.code = code_for(3);
  c.day = 20000;
  const auto with_right = [](int right) {
    CheckTally t;
    for (int i = 0; i < kCheckItems; ++i) t.add(static_cast<Skill>(i % 4), i < right);
    return t;
  };
  int best = -1;
  for (int tries = 1; tries <= 20; ++tries) {
    const int right = random.below(13);
    best = std::max(best, right);
    c.best = with_right(right);
    c.day = 20000 + tries;
    const CheckRecord& kept = add_check(p, c);
    CHECK(kept.tries == tries);
    CHECK(kept.best.all_right() == best);
  }
  CHECK(p.checks.size() == 1);
  // Another version of the set is another check.
  c.set_version = 2;
  add_check(p, c);
  CHECK(p.checks.size() == 2);
  // The one longest ago goes first.
  for (int i = 0; i < 60; ++i) {
    c.set_version = 3 + i;
    c.day = 21000 + i;
    add_check(p, c);
  }
  CHECK(p.checks.size() == kMostChecks);
  CHECK(find_check(p, "mixed", 1, c.code) == nullptr);
  CHECK(find_check(p, "mixed", 62, c.code) != nullptr);
}
