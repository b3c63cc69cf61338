// Words and figures as they are said on the radio.
#include "core/spoken.h"

#include <catch2/catch_test_macros.hpp>
#include <string>

#include "core/text_number.h"
#include "tests/random.h"
#include "tests/tally.h"

using namespace core;

namespace {

/// Tokens in one line: words, figures, | for a pause, + before what is glued.
std::string tokens(std::string_view text) {
  std::string out;
  for (const Token& t : hear(text).tokens) {
    if (!out.empty()) out += ' ';
    if (t.glued) out += '+';
    out += t.kind == Token::Kind::pause ? "|" : t.text;
  }
  return out;
}
/// The first figure and how many tokens it took: "265/3"; "-" where there is none.
std::string first_figure(std::string_view text) {
  const Hearing h = hear(text);
  const std::optional<Figure> f = figure_at(h.tokens, 0);
  return f ? f->text + "/" + std::to_string(f->next) : "-";
}

std::string random_text(test::Random& r, int length) {
  constexpr std::string_view kWords[] = {"hundred", "and a half", "point", "one", "niner", "ten",
                                         "sixty",   "1/2",        "18:45", "265", "V",     "D M E"};
  std::string s;
  while (static_cast<int>(s.size()) < length) {
    if (r.chance(0.5)) {
      s += kWords[r.below(12)];
    } else {
      s += static_cast<char>(r.below(256));
    }
    if (r.chance(0.5)) s += ' ';
  }
  return s;
}

}  // namespace

TEST_CASE("spoken: words, figures and pauses", "[spoken]") {
  CHECK(tokens("Hold west of abc, on the 265 radial.") == "HOLD WEST OF ABC | ON THE 265 RADIAL |");
  CHECK(tokens("five-mile legs") == "FIVE MILE LEGS");
  CHECK(tokens("V12 1845Z 10NM") == "V +12 1845 +Z 10 +NM");
  CHECK(tokens("d m e V O R n.d.b") == "DME VOR N | +D | +B");
  CHECK(tokens("ABC VOR/DME ndb/dme VOR/X") == "ABC VOR/DME NDB/DME VOR X");
  CHECK(tokens("18:45 16.5 1/2 16. 5:") == "18:45 16.5 1/2 16 | 5");
  CHECK(tokens("a\xc3\xa9\x01\x80z  \t ,,;\n(") == "A Z |");
  CHECK(tokens("") == "");
  CHECK(tokens(", , ,") == "");
}

TEST_CASE("spoken: figures", "[spoken]") {
  CHECK(first_figure("265") == "265/1");
  CHECK(first_figure("two six five radial") == "265/3");
  CHECK(first_figure("2 6 5") == "265/3");
  CHECK(first_figure("zero three zero") == "030/3");
  CHECK(first_figure("tree fower fife ait niner oh") == "345890/6");
  CHECK(first_figure("ten") == "10/1");
  CHECK(first_figure("forty five") == "45/2");
  CHECK(first_figure("two hundred") == "200/2");
  CHECK(first_figure("two hundred and sixty five") == "265/5");
  CHECK(first_figure("two hundred five") == "205/3");
  CHECK(first_figure("two sixty-five") == "265/3");
  CHECK(first_figure("one ten") == "110/2");
  CHECK(first_figure("three sixty radial") == "360/2");
  CHECK(first_figure("one point five") == "1.5/3");
  CHECK(first_figure("one zero decimal two five") == "10.25/5");
  CHECK(first_figure("one and a half minute") == "1.5/4");
  CHECK(first_figure("1 1/2") == "1.5/2");
  CHECK(first_figure("1/2") == "0.5/1");
  CHECK(first_figure("18:45") == "18:45/1");
  CHECK(first_figure("point five") == "-");
  CHECK(first_figure("radial") == "-");
  CHECK(first_figure("3/4") == "-");
  CHECK(first_figure("1234567") == "-");
  CHECK(first_figure("") == "-");
  CHECK(figure_at(hear("030").tokens, 0)->whole_digits == 3);
  CHECK(figure_at(hear("030").tokens, 0)->value == 30.0);
  CHECK_FALSE(figure_at({}, 7));
}

TEST_CASE("spoken: what is spelled is heard again", "[spoken][property]") {
  CHECK(spelled("265") == "TWO SIX FIVE");
  CHECK(spelled("18:45") == "ONE EIGHT FOUR FIVE");
  CHECK(spelled("9.5") == "NINER POINT FIVE");
  CHECK(spelled("") == "");
  test::Random r(4101);
  test::Tally tally;
  for (int i = 0; i < 20000; ++i) {
    const double v = r.stepped(0.0, 9999.0, 0.5);
    const std::string text = write_number(v);
    const std::string said = spelled(text);
    const std::optional<Figure> f = figure_at(hear(said).tokens, 0);
    tally.check(f && f->text == text && f->value == v, [&] { return said; });
  }
  tally.settle(20000);
}

TEST_CASE("spoken: clock times", "[spoken]") {
  CHECK(clock_minutes("1845") == 18 * 60 + 45);
  CHECK(clock_minutes("845") == 8 * 60 + 45);
  CHECK(clock_minutes("18:45") == 18 * 60 + 45);
  CHECK(clock_minutes("0000") == 0);
  CHECK(clock_minutes("2359") == 1439);
  for (const char* bad :
       {"2400", "1860", "45", "12345", "1:845", "18:4", ":45", "18.5", "", "-845"}) {
    INFO(bad);
    CHECK_FALSE(clock_minutes(bad));
  }
}

TEST_CASE("spoken: any bytes are heard within the limits", "[spoken][hostile]") {
  test::Random r(4102);
  test::Tally tally;
  for (int i = 0; i < 3000; ++i) {
    const std::string text = random_text(r, r.below(3000));
    const Hearing h = hear(text);
    bool clean = h.tokens.size() <= kMostSpokenTokens;
    for (const Token& t : h.tokens) {
      for (const char c : t.text) clean = clean && c > ' ' && c <= 'Z';
      clean = clean && (t.kind == Token::Kind::pause) == t.text.empty();
    }
    tally.check(clean, [&] { return text; });
    tally.check(h.cut || text.size() <= kMostSpokenBytes, [&] { return text; });
    for (std::size_t at = 0; at <= h.tokens.size(); ++at) {
      const std::optional<Figure> f = figure_at(h.tokens, at);
      if (!f) continue;
      tally.check(f->next > at && f->next <= h.tokens.size() && f->value >= 0.0 &&
                      f->value <= 999999.999 && f->whole_digits <= 6,
                  [&] { return f->text + " in " + text; });
    }
  }
  tally.settle(10000);
  const Hearing long_one = hear(std::string(100000, '7'));
  CHECK(long_one.cut);
  CHECK(long_one.tokens.empty());
  std::string many;
  for (int i = 0; i < 40000; ++i) many += "a ";
  CHECK(hear(many).cut);
  CHECK(hear(many).tokens.size() == kMostSpokenTokens);
  CHECK(hear(std::string(100000, ',')).tokens.empty());
}
