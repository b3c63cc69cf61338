// Whole pictures, mark by mark, and all sentences of answers, as they were when they were last
// looked at: what moves, changes or goes missing without anybody wanting it is noticed. A change
// that is meant is written, and its difference read, with: cd tests/golden &&
// ../../build/native/core_tests "[.golden-write]"
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <cstdio>
#include <sstream>
#include <string>
#include <vector>

#include "core/evaluate.h"
#include "core/explain.h"
#include "core/picture.h"
#include "core/scenario.h"
#include "core/svg.h"
#include "tests/golden.h"

using namespace core;

namespace {

constexpr char kGolden[] =
#include "tests/golden/pictures.inc"
    ;

constexpr char kGoldenWords[] =
#include "tests/golden/words.inc"
    ;

constexpr char kGoldenSvg[] =
#include "tests/golden/svg.inc"
    ;

struct Scene {
  const char* link;
  double width_px, height_px;
  bool all;  ///< every layer, else those that are on at first
};
// Invented, so that each kind of mark is in one of them.
constexpr Scene kScenes[] = {
    {"", 880, 640, false},
    {"", 880, 640, true},
    {"inbound=220&turns=left&wind=310/35", 700, 700, true},
    {"entry=parallel&wind=050/20&tas=120", 640, 480, true},
    {"entry=direct&arrive=80&wind=180/25&laps=3&multiple=exact", 900, 600, true},
    {"leg=5nm&measure=dme&station=10to&altitude=9000&wind=270/40", 880, 640, true},
    {"leg=4nm&station=12from&radial=100&wind=200/15&entry=direct", 880, 640, true},
    {"wind=000/0", 360, 300, false},
    {"inbound=10&wind=100/60&ias=90", 360, 300, true},
};

/// Numbers are written to a tenth of a pixel or degree.
std::string text_of_picture() {
  std::string out;
  char line[400];
  for (const Scene& scene : kScenes) {
    const Scenario s = parse_link(scene.link).scenario;
    const WorkedCase worked = work_out(s);
    PictureOptions options;
    for (int i = 0; i < kLayers && scene.all; ++i) {
      *layer_by_name(options.layers, layer_name(i)) = true;
    }
    options.view = fitted(worked, scene.width_px, scene.height_px, options.layers);
    options.wind_corner = emptiest_corner(worked, options.view, false, options.layers);
    options.time_s = 70.0;
    options.air_s = 11.0;
    options.active = Handle::wind;
    Diagram d;
    draw_picture(worked, options, d);
    out += std::string("scene ") + scene.link + "\n";
    for (const Item& i : d.items) {
      Vec2 sum{0.0, 0.0};
      for (std::uint32_t k = 0; k < i.count; ++k) {
        sum = sum + options.view.to_px(d.points[i.first + k]);
      }
      const Vec2 from = i.count ? options.view.to_px(d.points[i.first]) : Vec2{0.0, 0.0};
      const Vec2 middle = i.count ? sum * (1.0 / i.count) : Vec2{0.0, 0.0};
      std::snprintf(line, sizeof line,
                    "%d %d %d%d%d%d %u  %.1f %.1f %.1f %.1f  %.2f %.1f %.1f %.1f %.2f %.2f  ",
                    static_cast<int>(i.shape), static_cast<int>(i.role), static_cast<int>(i.align),
                    i.emphasis, i.size_in_nm, i.halo, i.count, from.x, from.y, middle.x, middle.y,
                    static_cast<double>(i.size), static_cast<double>(i.angle_deg),
                    static_cast<double>(i.offset_x_px), static_cast<double>(i.offset_y_px),
                    static_cast<double>(i.opacity), static_cast<double>(i.width_scale));
      out += line + std::string(d.text_of(i)) + "\n";
    }
  }
  return out;
}

/// What is written of a diagram: in light, with every layer; small and in high contrast.
std::string written() {
  std::string out;
  for (const Scene& scene : {kScenes[1], kScenes[8]}) {
    const WorkedCase worked = work_out(parse_link(scene.link).scenario);
    PictureOptions options;
    for (int i = 0; i < kLayers; ++i) *layer_by_name(options.layers, layer_name(i)) = true;
    options.view = fitted(worked, scene.width_px, scene.height_px, options.layers);
    options.time_s = 70.0;
    Diagram d;
    draw_picture(worked, options, d);
    out += write_svg(d, scene.width_px < 400.0 ? Theme::contrast_dark : Theme::light,
                     picture_summary(worked));
  }
  return out;
}

/// Every text of an answer that has a space in it (names of fields and codes have none), and what
/// the picture with all its layers says.
std::string sentences() {
  std::string out;
  for (const Scene& scene : kScenes) {
    out += std::string("scene ") + scene.link + "\n";
    const std::string json = evaluate(scene.link);
    for (std::size_t at = json.find('"'); at != std::string::npos; at = json.find('"', at)) {
      std::size_t end = at + 1;
      while (json[end] != '"') end += json[end] == '\\' ? 2 : 1;
      const std::string text = json.substr(at + 1, end - at - 1);
      if (text.find(' ') != std::string::npos) out += text + "\n";
      at = end + 1;
    }
    const Scenario s = parse_link(scene.link).scenario;
    PictureOptions options;
    for (int i = 0; i < kLayers; ++i) *layer_by_name(options.layers, layer_name(i)) = true;
    out += picture_words(work_out(s), options) + "\n";
  }
  return out;
}

/// Whether two lines are the same, numbers within what rounding can do. Sines differ in their
/// last bits from one machine to another.
bool alike(const std::string& a, const std::string& b) {
  if (a == b) return true;
  std::istringstream left{a};
  std::istringstream right{b};
  std::string l;
  std::string r;
  while (true) {
    const bool more = static_cast<bool>(left >> l);
    if (more != static_cast<bool>(right >> r)) return false;
    if (!more) return true;
    if (l == r) continue;
    if (l.find('.') == std::string::npos || r.find('.') == std::string::npos) return false;
    char* end_l = nullptr;
    char* end_r = nullptr;
    const double x = std::strtod(l.c_str(), &end_l);
    const double y = std::strtod(r.c_str(), &end_r);
    if (*end_l != 0 || *end_r != 0 || !(std::abs(x - y) < 0.11)) return false;
  }
}

}  // namespace

TEST_CASE("golden pictures: every mark is as it was when it was last looked at",
          "[picture][golden]") {
  for (const Scene& scene : kScenes) {
    const ParsedLink read = parse_link(scene.link);
    for (const Problem& p : read.problems) FAIL_CHECK(p.message);
  }
  test::must_be_golden(text_of_picture(), kGolden, 300, "scene", alike);
  CHECK_FALSE(alike("1 2  3.0 word", "1 2  3.2 word"));
  CHECK_FALSE(alike("1 2  3.0 word", "1 3  3.0 word"));
  CHECK(alike("1 2  3.0 word", "1 2  3.1 word"));
}

TEST_CASE("golden SVG: a picture is written as it was when it was last looked at",
          "[picture][svg][golden]") {
  test::must_be_golden(written(), kGoldenSvg, 100, "<svg");
}

TEST_CASE("golden words: every sentence of an answer is as it was when it was last read",
          "[words][golden]") {
  test::must_be_golden(sentences(), kGoldenWords, 300, "scene");
}

TEST_CASE("write the golden pictures and words", "[.golden-write]") {
  test::write_golden("pictures.inc", text_of_picture());
  test::write_golden("svg.inc", written());
  test::write_golden("words.inc", sentences());
}
