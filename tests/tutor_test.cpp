// The tutor walked through whole practices and checks, by the calls that the page makes.
#include "web/tutor.h"

#include <catch2/catch_test_macros.hpp>
#include <string>
#include <vector>

#include "core/json_read.h"
#include "tests/json_check.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;
using web::Tutor;
using Stage = Tutor::Stage;

namespace {

/// A state as the page gets it.
struct Reply {
  JsonValue root;
  explicit Reply(const std::string& text) : root(read_json(text).value) {}
  [[nodiscard]] const JsonValue& at(std::string_view path) const {
    static const JsonValue kNothing;
    const JsonValue* v = &root;
    while (v && !path.empty()) {
      const std::size_t end = std::min(path.find('.'), path.size());
      v = v->find(path.substr(0, end));
      path.remove_prefix(std::min(end + 1, path.size()));
    }
    return v ? *v : kNothing;
  }
  [[nodiscard]] std::string text(std::string_view path) const { return at(path).text; }
  [[nodiscard]] bool yes(std::string_view path) const { return at(path).boolean; }
  [[nodiscard]] int number(std::string_view path) const { return at(path).whole().value_or(-99); }
  [[nodiscard]] bool null(std::string_view path) const {
    return at(path).kind == JsonValue::Kind::null;
  }
};

std::string right_answer(const Tutor& t) {
  return t.item()->steps[static_cast<std::size_t>(t.step())].right_text;
}
/// Readable and wrong for the step asked.
std::string wrong_answer(const Tutor& t) {
  for (const char* text : {"offset", "parallel", "direct", "1", "91", "181", "271", "0", "5",
                           "45 L", "45 R", "9:59", "17 L", "17 R"}) {
    const Judged j = judge(*t.item(), t.step(), text);
    if (j.readable && !j.right) return text;
  }
  FAIL("no wrong answer for step " << t.item()->steps[static_cast<std::size_t>(t.step())].id);
  return {};
}

std::string code_of(std::uint32_t seed) { return Tutor::new_code(seed); }

void begin(Tutor& t, const char* mode, std::uint32_t seed = 7, const char* skills = "") {
  const Reply s(t.begin(mode, code_of(seed), skills));
  REQUIRE(s.text("mode") == mode);
  REQUIRE(s.at("problems").items.empty());
}

/// Answers all steps of the present item, every step right or every step wrong, to the
/// feedback of the last.
void do_item(Tutor& t, bool right) {
  const int number = Reply(t.state()).number("number");
  while (t.stage() == Stage::ask) {
    t.answer(right ? right_answer(t) : wrong_answer(t));
    REQUIRE(t.stage() == Stage::feedback);
    if (t.step() == static_cast<int>(t.item()->steps.size()) - 1) break;
    if (Reply(t.state()).null("judged.counted") == false) break;
    t.next();
  }
  CHECK(Reply(t.state()).number("number") == number);
}

const SkillRecord& record_of(const Tutor& t, Skill skill) {
  return t.record().skills[static_cast<std::size_t>(skill)];
}

/// Practises one skill up to bare questions.
void climb(Tutor& t, const char* skill) {
  begin(t, "practice", 7, skill);
  for (int i = 0; i < 5; ++i) {
    do_item(t, true);
    t.next();
  }
  REQUIRE(Reply(t.state()).text("item.level") == "bare");
}

}  // namespace

TEST_CASE("tutor: nothing runs at first, and odd calls change nothing", "[tutor]") {
  Tutor t;
  const std::string before = t.state();
  CHECK(test::json_fault(before).empty());
  const Reply s(before);
  CHECK(s.text("mode") == "none");
  CHECK(s.text("stage") == "none");
  CHECK(s.null("item"));
  CHECK(s.at("skills").items.size() == static_cast<std::size_t>(kSkills));
  CHECK(t.answer("94") == before);
  CHECK(t.hint() == before);
  CHECK(t.show_me() == before);
  CHECK(t.next() == before);
  CHECK(t.stop() == before);
}

TEST_CASE("tutor: what cannot begin says why", "[tutor]") {
  Tutor t;
  const Reply mode(t.begin("exam", code_of(1), ""));
  CHECK(mode.text("mode") == "none");
  REQUIRE(mode.at("problems").items.size() == 1);
  CHECK(mode.at("problems").items[0].find("message")->text.find("exam") != std::string::npos);
  for (const char* code : {"", "?", "ABCDEFGHIJ", "\xff\xfe"}) {
    const Reply bad(t.begin("practice", code, ""));
    CHECK(bad.text("mode") == "none");
    REQUIRE(bad.at("problems").items.size() == 1);
    CHECK(bad.at("problems").items[0].find("key")->text == "code");
    CHECK(bad.at("problems").items[0].find("message")->text.size() > 10);
  }
  // A skill that is not known is named, the others are practised.
  const Reply some(t.begin("practice", code_of(1), "timing,landing"));
  CHECK(some.text("mode") == "practice");
  CHECK(some.at("problems").items.size() == 1);
  CHECK(some.text("item.skill") == "timing");
}

TEST_CASE("tutor: the ladder from the worked example to the bare question", "[tutor]") {
  for (const char* skill : {"entry", "heading", "wind", "timing", "clearance"}) {
    Tutor t;
    t.today(20000);
    begin(t, "practice", 11, skill);
    INFO(skill);
    Reply s(t.state());
    CHECK(s.text("item.level") == "worked");
    CHECK(s.text("stage") == "read");
    CHECK(s.yes("can.next"));
    CHECK_FALSE(s.yes("can.answer"));
    for (const JsonValue& step : s.at("item.steps").items) {
      CHECK(step.find("state")->text == "given");
      CHECK_FALSE(step.find("worked")->text.empty());
    }
    const char* const levels[] = {"one-blank", "one-blank", "all-blank", "all-blank", "bare"};
    t.next();
    for (const char* level : levels) {
      CHECK(Reply(t.state()).text("item.level") == level);
      CHECK(Reply(t.state()).text("item.skill") == skill);
      if (std::string(level) == "bare") break;
      do_item(t, true);
      const Reply over(t.state());
      CHECK(over.yes("judged.counted") == (std::string(level) == "all-blank"));
      CHECK_FALSE(over.text("judged.counted_words").empty());
      t.next();
    }
    // Down again, two by two.
    for (const char* level : {"bare", "bare", "all-blank", "all-blank", "one-blank", "one-blank"}) {
      CHECK(Reply(t.state()).text("item.level") == level);
      do_item(t, false);
      t.next();
    }
    CHECK(Reply(t.state()).text("item.level") == "worked");
  }
}

TEST_CASE("tutor: nothing that is asked can be read from the state", "[tutor]") {
  // While a step is asked, neither it nor a later one shows its sum or its value.
  test::Tally tally;
  Tutor t;
  begin(t, "practice", 12);
  test::Random random(4301);
  for (int i = 0; i < 300; ++i) {
    if (t.stage() == Stage::ask) {
      const Reply s(t.state());
      const auto& steps = s.at("item.steps").items;
      const int asked = s.number("item.asked");
      for (int k = 0; k < static_cast<int>(steps.size()); ++k) {
        const JsonValue& step = steps[static_cast<std::size_t>(k)];
        const bool closed = step.find("worked")->kind == JsonValue::Kind::null &&
                            step.find("right_text")->kind == JsonValue::Kind::null;
        const bool silent = step.find("ask")->kind == JsonValue::Kind::null;
        const auto what = [&] { return t.state(); };
        if (k >= asked) tally.check(closed, what);
        if (k > asked) tally.check(silent, what);
        if (k == asked) tally.check(!silent, what);
        if (s.text("item.level") == "bare") tally.check(closed, what);
      }
      tally.check(s.null("judged"), [&] { return t.state(); });
      t.answer(random.chance(0.8) ? right_answer(t) : wrong_answer(t));
    } else {
      t.next();
    }
  }
  tally.settle(400);
}

TEST_CASE("tutor: the first try counts, an unreadable one is none", "[tutor]") {
  Tutor t;
  t.today(20000);
  climb(t, "wind");
  const int before = record_of(t, Skill::wind).counted;
  const Reply odd(t.answer("what?"));
  CHECK(odd.text("stage") == "ask");
  CHECK_FALSE(odd.yes("judged.readable"));
  CHECK_FALSE(odd.text("judged.why_unreadable").empty());
  CHECK(odd.null("judged.right_text"));
  CHECK(record_of(t, Skill::wind).counted == before);

  const Reply wrong(t.answer(wrong_answer(t)));
  CHECK(wrong.text("stage") == "feedback");
  CHECK_FALSE(wrong.yes("judged.right"));
  CHECK(wrong.yes("judged.counted"));
  CHECK_FALSE(wrong.text("judged.right_text").empty());
  CHECK_FALSE(wrong.at("judged.words").items.empty());
  CHECK_FALSE(wrong.text("judged.student_link").empty());
  CHECK_FALSE(wrong.text("judged.right_link").empty());
  const SkillRecord after = record_of(t, Skill::wind);
  CHECK(after.counted == before + 1);

  const Reply again(t.answer(right_answer(t)));
  CHECK(again.yes("judged.again"));
  CHECK(again.yes("judged.right"));
  CHECK_FALSE(again.yes("judged.counted"));
  CHECK(record_of(t, Skill::wind) == after);
}

TEST_CASE("tutor: hints and shown answers do not count", "[tutor]") {
  Tutor t;
  climb(t, "timing");
  const SkillRecord before = record_of(t, Skill::timing);
  const int hints = Reply(t.state()).number("item.hints_left");
  CHECK(hints >= 1);
  for (int i = 1; i <= hints; ++i) {
    CHECK(Reply(t.state()).yes("can.hint"));
    const Reply s(t.hint());
    CHECK(s.at("item.hints").items.size() == static_cast<std::size_t>(i));
    CHECK(s.at("item.hints").items.back().text.find("core.") == std::string::npos);
    CHECK_FALSE(s.yes("item.counts"));
  }
  CHECK_FALSE(Reply(t.hint()).yes("can.hint"));
  const Reply hinted(t.answer(right_answer(t)));
  CHECK(hinted.yes("judged.right"));
  CHECK_FALSE(hinted.yes("judged.counted"));
  CHECK(record_of(t, Skill::timing).counted == before.counted);
  CHECK(record_of(t, Skill::timing).level == before.level);

  t.next();
  const Reply shown(t.show_me());
  CHECK(shown.text("stage") == "feedback");
  CHECK(shown.yes("judged.shown"));
  CHECK(shown.null("judged.right"));
  CHECK_FALSE(shown.yes("judged.counted"));
  CHECK_FALSE(shown.text("judged.right_text").empty());
  CHECK_FALSE(shown.at("judged.words").items.empty());
  CHECK(record_of(t, Skill::timing).counted == before.counted);
  CHECK(record_of(t, Skill::timing).run == -1);
}

TEST_CASE("tutor: steps one at a time, each with its feedback", "[tutor]") {
  Tutor t;
  begin(t, "practice", 13, "heading");
  t.next();
  for (int i = 0; i < 2; ++i) {
    do_item(t, true);
    t.next();
  }
  REQUIRE(Reply(t.state()).text("item.level") == "all-blank");
  const int steps = static_cast<int>(t.item()->steps.size());
  REQUIRE(steps >= 2);
  // The first wrong, the others right: each is judged by itself, the item is wrong.
  for (int k = 0; k < steps; ++k) {
    CHECK(t.step() == k);
    const Reply s(t.answer(k == 0 ? wrong_answer(t) : right_answer(t)));
    CHECK(s.yes("judged.right") == (k > 0));
    const auto& seen = s.at("item.steps").items;
    CHECK(seen[static_cast<std::size_t>(k)].find("state")->text == (k > 0 ? "right" : "wrong"));
    CHECK_FALSE(seen[static_cast<std::size_t>(k)].find("worked")->text.empty());
    CHECK(s.null("judged.counted") == (k + 1 < steps));
    if (k + 1 < steps) t.next();
  }
  CHECK(record_of(t, Skill::heading).counted == 1);
  CHECK(record_of(t, Skill::heading).right == 0);
}

TEST_CASE("tutor: one who knows becomes Secure in all five, and Kept the next day", "[tutor]") {
  Tutor t;
  t.today(20000);
  begin(t, "practice", 14);
  const auto all = [&](Status at_least) {
    for (int s = 0; s < kSkills; ++s) {
      if (status_of(t.record().skills[static_cast<std::size_t>(s)], static_cast<Skill>(s)) <
          at_least) {
        return false;
      }
    }
    return true;
  };
  int items = 0;
  while (!all(Status::secure) && items < 120) {
    do_item(t, true);
    t.next();
    ++items;
  }
  INFO(t.progress());
  // Five skills, a worked example, two with one blank and eight that count: 55 at the least.
  CHECK(items >= 55);
  CHECK(items < 110);
  CHECK_FALSE(all(Status::kept));
  // A day later from the kept file, in another browser.
  Tutor later;
  REQUIRE(Reply(later.take_progress(t.progress())).yes("taken"));
  later.today(20001);
  begin(later, "practice", 14);
  int more = 0;
  while (more < 80) {
    do_item(later, true);
    later.next();
    ++more;
    bool kept = true;
    const Reply seen(later.state());
    for (const JsonValue& row : seen.at("skills").items) {
      kept = kept && row.find("status")->text == "kept";
    }
    if (kept) break;
  }
  CHECK(more >= 25);
  CHECK(more < 80);
}

TEST_CASE("tutor: practice rules hold in the tutor too", "[tutor]") {
  Tutor t;
  begin(t, "practice", 15);
  test::Random random(4302);
  std::vector<std::string> skills;
  std::vector<bool> missed;
  std::vector<std::string> questions;
  for (int i = 0; i < 150; ++i) {
    const Reply s(t.state());
    skills.push_back(s.text("item.skill"));
    questions.push_back(s.text("item.question"));
    const bool wrong = random.chance(0.3) && t.stage() == Stage::ask;
    do_item(t, !wrong);
    missed.push_back(wrong);
    CHECK(Reply(t.state()).number("number") == i + 1);
    t.next();
  }
  test::Tally tally;
  for (std::size_t k = 2; k < skills.size(); ++k) {
    tally.check(skills[k] != skills[k - 1] || skills[k] != skills[k - 2],
                [&] { return skills[k]; });
  }
  for (std::size_t k = 0; k + 6 < skills.size(); ++k) {
    if (!missed[k]) continue;
    std::size_t back = k + 1;
    while (back < skills.size() && skills[back] != skills[k]) ++back;
    tally.check(back - k >= 3 && back - k <= 5, [&] { return skills[k]; });
  }
  tally.settle(150);
}

TEST_CASE("tutor: a whole check", "[tutor][check]") {
  Tutor t;
  t.today(20010);
  begin(t, "check", 16);
  std::array<int, kSkills> of{};
  for (int k = 0; k < kCheckItems; ++k) {
    Reply s(t.state());
    CHECK(s.number("number") == k + 1);
    CHECK(s.number("of") == kCheckItems);
    CHECK(s.text("item.level") == "bare");
    CHECK(s.yes("item.counts"));
    CHECK_FALSE(s.yes("can.hint"));
    CHECK_FALSE(s.yes("can.show_me"));
    ++of[static_cast<std::size_t>(t.item()->skill)];
    const std::string before = t.state();
    CHECK(t.hint() == before);
    CHECK(t.show_me() == before);
    CHECK(t.next() == before);
    CHECK(Reply(t.answer("?")).text("stage") == "ask");
    const bool right = k != 3 && k != 8;
    s = Reply(t.answer(right ? right_answer(t) : wrong_answer(t)));
    CHECK(s.yes("judged.right") == right);
    CHECK_FALSE(s.text("judged.right_text").empty());
    CHECK_FALSE(s.yes("can.answer"));
    // One answer each.
    const std::string judged = t.state();
    CHECK(t.answer(right_answer(t)) == judged);
    // Who leaves after the last answer has a result all the same.
    CHECK(s.null("result") == (k < 11));
    t.next();
  }
  CHECK(of == std::array<int, kSkills>{3, 3, 3, 3, 0});
  const Reply done(t.state());
  CHECK(done.text("stage") == "done");
  CHECK(done.number("result.right") == 10);
  CHECK(done.number("result.of") == 12);
  CHECK(done.number("result.score") == 83);
  CHECK(done.number("result.low_percent") == 55);
  CHECK(done.number("result.high_percent") == 95);
  CHECK(done.text("result.words") ==
        "10 of 12 right. With 12 questions the true rate is plausibly 55–95 %.");
  CHECK(done.at("result.skills").items.size() == 4);
  CHECK(done.number("result.tries") == 1);
  CHECK(t.next() == t.state());
  // A check leaves the rows of practice alone.
  for (const SkillRecord& r : t.record().skills) CHECK(r == SkillRecord{});
  REQUIRE(t.record().checks.size() == 1);
  CHECK(t.record().checks[0].best.all_right() == 10);
  CHECK(t.record().checks[0].day == 20010);
  CHECK_FALSE(t.record().open_check.has_value());

  // Again: two tries, the better one is kept.
  t.today(20011);
  begin(t, "check", 16);
  for (int k = 0; k < kCheckItems; ++k) {
    t.answer(wrong_answer(t));
    t.next();
  }
  const Reply second(t.state());
  CHECK(second.number("result.right") == 0);
  CHECK(second.number("result.tries") == 2);
  CHECK(second.number("result.best") == 10);
  CHECK(t.record().checks[0].day == 20010);
}

TEST_CASE("tutor: one code, one check, whatever came before", "[tutor][check]") {
  const auto questions = [](Tutor& t, std::uint32_t seed) {
    begin(t, "check", seed);
    std::vector<std::string> all;
    for (int k = 0; k < kCheckItems; ++k) {
      const Reply s(t.state());
      all.push_back(s.text("item.skill") + s.text("item.question") + s.text("item.link"));
      t.answer(k % 2 == 0 ? right_answer(t) : wrong_answer(t));
      t.next();
    }
    return all;
  };
  Tutor fresh;
  Tutor used;
  begin(used, "practice", 17);
  for (int i = 0; i < 40; ++i) {
    do_item(used, i % 3 != 0);
    used.next();
  }
  const auto first = questions(fresh, 17);
  CHECK(questions(used, 17) == first);
  CHECK(questions(fresh, 17) == first);
  CHECK(questions(fresh, 18) != first);
  for (std::size_t i = 1; i < first.size(); ++i) CHECK(first[i] != first[i - 1]);
  // Each entry once among the three entry items.
  Tutor t;
  for (std::uint32_t seed = 1; seed <= 12; ++seed) {
    unsigned entries = 0;
    unsigned winds = 0;
    begin(t, "check", seed);
    for (int k = 0; k < kCheckItems; ++k) {
      const unsigned met = met_in(t.item()->scenario);
      if (t.item()->skill == Skill::entry) entries |= met & 7U;
      if (t.item()->skill == Skill::wind) winds |= met & (kMetWindLeft | kMetWindRight);
      t.answer(right_answer(t));
      t.next();
    }
    CHECK(entries == 7U);
    CHECK(winds == (kMetWindLeft | kMetWindRight));
  }
}

TEST_CASE("tutor: a check that was left goes on where it stood", "[tutor][check]") {
  Tutor t;
  begin(t, "check", 19);
  for (int k = 0; k < 5; ++k) {
    t.answer(k == 2 ? wrong_answer(t) : right_answer(t));
    t.next();
  }
  const std::string question = Reply(t.state()).text("item.question");
  Tutor reloaded;
  REQUIRE(Reply(reloaded.take_progress(t.progress())).yes("taken"));
  begin(reloaded, "check", 19);
  CHECK(Reply(reloaded.state()).number("number") == 6);
  CHECK(Reply(reloaded.state()).text("item.question") == question);
  for (int k = 5; k < kCheckItems; ++k) {
    reloaded.answer(right_answer(reloaded));
    reloaded.next();
  }
  CHECK(Reply(reloaded.state()).number("result.right") == 11);
  // Another code begins anew, and the first one is then over.
  begin(t, "check", 20);
  CHECK(Reply(t.state()).number("number") == 1);
  begin(t, "check", 19);
  CHECK(Reply(t.state()).number("number") == 1);
}

TEST_CASE("tutor: sets are chosen, and a bad one changes nothing", "[tutor]") {
  Tutor t;
  CHECK(test::json_fault(t.sets()).empty());
  const JsonRead sets = read_json(t.sets());
  REQUIRE_FALSE(sets.value.items.empty());
  for (const JsonValue& set : sets.value.items) {
    const Reply used(t.use_set(set.find("id")->text));
    CHECK(used.yes("usable"));
    CHECK(used.text("id") == set.find("id")->text);
    CHECK(used.at("problems").items.empty());
  }
  begin(t, "practice");
  const std::string before = t.state();
  for (const char* bad : {"no-such-set", "", "[", "null"}) {
    const Reply refused(t.use_set(bad));
    CHECK_FALSE(refused.yes("usable"));
    CHECK_FALSE(refused.at("problems").items.empty());
    CHECK(t.state() == before);
  }
  // Another set ends what was running.
  t.use_set("mixed");
  CHECK(Reply(t.state()).text("mode") == "none");
}

TEST_CASE("tutor: progress is taken, refused, cleared", "[tutor]") {
  Tutor t;
  climb(t, "entry");
  const std::string kept = t.progress();
  const std::string state = t.state();
  const Reply refused(t.take_progress("not a file"));
  CHECK_FALSE(refused.yes("taken"));
  CHECK(refused.at("problems").items.size() == 1);
  CHECK(t.state() == state);
  t.clear_progress();
  CHECK(Reply(t.state()).text("mode") == "none");
  CHECK(t.progress() == Tutor().progress());
  CHECK(Reply(t.take_progress(kept)).yes("taken"));
  CHECK(t.progress() == kept);
}

TEST_CASE("tutor: any calls in any order leave a sound state", "[tutor]") {
  test::Random random(4303);
  test::Tally tally;
  for (int run = 0; run < 25; ++run) {
    Tutor t;
    for (int k = 0; k < 80; ++k) {
      std::string out;
      switch (random.below(14)) {
        case 0:
          out = t.begin(random.chance(0.6) ? "practice" : "check",
                        code_of(static_cast<std::uint32_t>(random.below(3))),
                        random.chance(0.7) ? "" : "wind,timing");
          break;
        case 1:
          out = t.hint();
          break;
        case 2:
          out = t.show_me();
          break;
        case 3:
          out = random.chance(0.2) ? t.stop() : t.state();
          break;
        case 4:
          t.today(random.below(30000) - 10);
          out = t.state();
          break;
        case 5: {
          std::string noise;
          for (int i = random.below(300); i > 0; --i) noise += static_cast<char>(random.below(128));
          out = t.answer(noise);
          break;
        }
        case 6:
          out = t.take_progress(t.progress());
          break;
        case 7:
        case 8:
        case 9:
          out = t.stage() == Stage::ask ? t.answer(right_answer(t)) : t.next();
          break;
        default:
          out = t.next();
      }
      const auto what = [&] { return out; };
      tally.check(test::json_fault(out).empty(), what);
      tally.check(out.find("\"core.") == std::string::npos, what);
      const Reply s(t.state());
      const bool item = s.at("item").kind == JsonValue::Kind::object;
      tally.check(item == (t.stage() != Stage::none && t.stage() != Stage::done), what);
      tally.check(s.yes("can.answer") || s.yes("can.next") || !item, what);
      tally.check(read_progress(t.progress()).problems.empty(), what);
    }
  }
  tally.settle(25 * 80 * 5);
}

namespace {

/// Whether two items ask the same, by all that a person reads of them.
void same_item(const JsonValue& on_sheet, const DrillItem& item) {
  CHECK(on_sheet.find("question")->text == item.question);
  CHECK(on_sheet.find("ask")->text == item.steps.back().ask);
  CHECK(on_sheet.find("right_text")->text == item.steps.back().right_text);
  CHECK(on_sheet.find("skill")->text == name_of(item.skill));
  REQUIRE(on_sheet.find("steps")->items.size() == item.steps.size());
  for (std::size_t i = 0; i < item.steps.size(); ++i) {
    CHECK(on_sheet.find("steps")->items[i].find("worked")->text == item.steps[i].worked);
  }
}

}  // namespace

TEST_CASE("tutor: a sheet has the items of the check with its code", "[tutor][sheet]") {
  for (const char* set : {"mixed", "clearances", "boundaries"}) {
    Tutor t;
    t.use_set(set);
    for (const std::uint32_t seed : {1U, 77U, 65535U}) {
      const Reply sheet(t.sheet(code_of(seed), kCheckItems));
      CHECK(sheet.at("problems").items.empty());
      CHECK(sheet.text("code") == code_of(seed));
      CHECK(sheet.text("set.id") == set);
      const std::vector<JsonValue>& items = sheet.at("items").items;
      REQUIRE(items.size() == static_cast<std::size_t>(kCheckItems));
      begin(t, "check", seed);
      for (const JsonValue& item : items) {
        INFO(set << " " << seed << " " << item.find("number")->whole().value_or(0));
        REQUIRE(t.item());
        same_item(item, *t.item());
        do_item(t, true);
        t.next();
      }
      CHECK(t.stage() == Stage::done);
    }
  }
}

TEST_CASE("tutor: the key's answers are judged right, and a longer sheet begins alike",
          "[tutor][sheet]") {
  Tutor t;
  for (const char* set : {"mixed", "still-air", "one-wind", "left-turns", "clearances"}) {
    REQUIRE(Reply(t.use_set(set)).yes("usable"));
    for (const std::uint32_t seed : {0U, 5U, 4242U}) {
      const Reply longest(t.sheet(code_of(seed), web::kMostOnSheet));
      const std::vector<JsonValue>& all = longest.at("items").items;
      REQUIRE(all.size() == static_cast<std::size_t>(web::kMostOnSheet));
      const std::vector<DrillItem> made = t.sheet_items(seed, web::kMostOnSheet);
      for (std::size_t k = 0; k < all.size(); ++k) {
        INFO(set << " " << seed << " " << k);
        same_item(all[k], made[k]);
        const int last = static_cast<int>(made[k].steps.size()) - 1;
        const Judged j = judge(made[k], last, all[k].find("right_text")->text);
        CHECK(j.readable);
        CHECK(j.right);
        if (k > 0 && std::string_view(set) != "clearances") {
          CHECK(all[k].find("skill")->text != all[k - 1].find("skill")->text);
        }
      }
      const Reply six(t.sheet(code_of(seed), 6));
      REQUIRE(six.at("items").items.size() == 6);
      for (std::size_t k = 0; k < 6; ++k) same_item(six.at("items").items[k], made[k]);
    }
  }
}

TEST_CASE("tutor: a sheet says what it cannot use, and changes nothing", "[tutor][sheet]") {
  Tutor t;
  begin(t, "practice", 3);
  const std::string before = t.state();
  const std::string kept = t.progress();
  CHECK(Reply(t.sheet("?", 12)).at("problems").items[0].find("key")->text == "code");
  for (const int count : {-1, 0, web::kMostOnSheet + 1}) {
    const std::string text = t.sheet(code_of(3), count);
    CHECK(test::json_fault(text).empty());
    CHECK(Reply(text).at("items").items.empty());
    REQUIRE(Reply(text).at("problems").items.size() == 1);
    CHECK(Reply(text).at("problems").items[0].find("key")->text == "count");
  }
  CHECK(test::json_fault(t.sheet(code_of(3), 24)).empty());
  CHECK(t.state() == before);
  CHECK(t.progress() == kept);
}

TEST_CASE("tutor: a check that is done has its answers, as far as they are remembered",
          "[tutor][sheet]") {
  Tutor first;
  begin(first, "check", 9);
  std::vector<std::string> given;
  const auto step = [&](Tutor& t, int k) {
    const std::string text = k % 3 == 0 ? wrong_answer(t) : right_answer(t);
    given.push_back(text);
    t.answer(text);
    t.next();
  };
  for (int k = 0; k < 5; ++k) step(first, k);
  // Left and gone on with in the same page: nothing is forgotten. As a file: what was given is.
  Tutor second;
  REQUIRE(Reply(second.take_progress(first.progress())).yes("taken"));
  first.stop();
  begin(first, "check", 9);
  begin(second, "check", 9);
  for (int k = 5; k < kCheckItems; ++k) {
    step(first, k);
    second.answer(given.back());
    second.next();
  }
  for (const bool reloaded : {false, true}) {
    const Tutor& t = reloaded ? second : first;
    REQUIRE(t.stage() == Stage::done);
    const Reply s(t.state());
    const std::vector<JsonValue>& rows = s.at("result.answers").items;
    REQUIRE(rows.size() == static_cast<std::size_t>(kCheckItems));
    const std::vector<DrillItem> items = t.sheet_items(9, kCheckItems);
    for (std::size_t k = 0; k < rows.size(); ++k) {
      INFO(reloaded << " " << k);
      CHECK(rows[k].find("number")->whole() == static_cast<int>(k) + 1);
      CHECK(rows[k].find("right")->boolean == (k % 3 != 0));
      CHECK(rows[k].find("right_text")->text == items[k].steps.back().right_text);
      if (reloaded && k < 5) {
        CHECK(rows[k].find("given")->kind == JsonValue::Kind::null);
      } else {
        CHECK(rows[k].find("given")->text == given[k]);
      }
    }
  }
  // Another check begins with none of them.
  begin(first, "check", 10);
  for (int k = 0; k < kCheckItems; ++k) {
    first.answer(right_answer(first));
    first.next();
  }
  const Reply result(first.state());
  for (const JsonValue& row : result.at("result.answers").items) {
    CHECK(row.find("right")->boolean);
  }
}
