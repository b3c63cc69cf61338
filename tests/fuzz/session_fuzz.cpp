// The session led by a text: a word a line, as a person would use fields, handles, links, undo,
// the clock and a flight by hand. What is no command is passed over.
#include "web/session.h"

#include "core/text_number.h"
#include "tests/fuzz/must.h"

using namespace core;
using fuzz::must;

namespace {

constexpr int kMostCommands = 40;

std::string_view take_word(std::string_view& rest) {
  const std::size_t end = rest.find(' ');
  const std::string_view word = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  return word;
}

/// Numbers as the page's events have them; what is none is 0.
double take_number(std::string_view& rest) {
  const std::string_view word = take_word(rest);
  if (word == "nan") return std::nan("");
  if (word == "inf") return HUGE_VAL;
  return read_number(word).value_or(0.0);
}
int take_small(std::string_view& rest) {
  const double n = take_number(rest);
  return std::abs(n) < 1000.0 ? static_cast<int>(n) : 0;
}

void follow(web::Session& s, std::string_view line) {
  const std::string_view command = take_word(line);
  if (command == "open") s.open(line);
  if (command == "visit") s.visit(line);
  if (command == "back") s.back();
  if (command == "lock") {
    const std::string_view keys = line.substr(0, line.find('|'));
    s.lock(keys, line.substr(keys.size() < line.size() ? keys.size() + 1 : line.size()));
  }
  if (command == "set" || command == "type") {
    const std::string_view key = take_word(line);
    s.set(key, line, command == "type");
  }
  if (command == "choose") s.choose(line);
  if (command == "undo") s.undo();
  if (command == "redo") s.redo();
  if (command == "reset") s.reset();
  if (command == "resize") {
    const double width = take_number(line);
    s.resize(width, take_number(line));
  }
  if (command == "fit") s.fit();
  if (command == "zoom") {
    const double x = take_number(line);
    const double y = take_number(line);
    s.zoom(x, y, take_number(line));
  }
  if (command == "pointer") {
    const int phase = take_small(line);
    const int id = take_small(line);
    const double x = take_number(line);
    const double y = take_number(line);
    if (phase >= 0 && phase <= 4) s.pointer(static_cast<web::Phase>(phase), id, x, y, line == "1");
  }
  if (command == "grip") {
    // Takes hold of a handle where it is, and draws it by so many pixels.
    const int handle = take_small(line);
    const double x = take_number(line);
    const double y = take_number(line);
    if (handle < 0 || handle >= kHandles) return;
    const std::optional<Vec2> at = s.handle_px(static_cast<Handle>(handle));
    if (!at) return;
    s.pointer(web::Phase::down, 1, at->x, at->y, false);
    s.pointer(web::Phase::move, 1, at->x + x, at->y + y, false);
    s.pointer(web::Phase::up, 1, at->x + x, at->y + y, false);
  }
  if (command == "layer") {
    const bool on = take_word(line) == "on";
    s.layer(line, on);
  }
  if (command == "beside") s.beside(line, "A - 7");
  if (command == "flight") s.show_flight(line == "on");
  if (command == "grow") s.grow_flight();
  if (command == "handles") s.show_handles(line == "on");
  if (command == "play") s.play();
  if (command == "pause") s.pause();
  if (command == "seek") s.seek(take_number(line));
  if (command == "step") s.step(take_small(line));
  if (command == "speed") s.speed(take_number(line));
  if (command == "tick") s.tick(take_number(line));
  if (command == "fly") s.fly_start({line != "hidden", {}});
  if (command == "bug") {
    const double heading = take_number(line);
    s.fly_bug(heading, take_small(line));
  }
  if (command == "turn") s.fly_turn(take_small(line));
  if (command == "level") s.fly_level();
  if (command == "clock") s.fly_clock();
  if (command == "end") s.fly_end();
  if (command == "leave") s.fly_leave();
}

void must_be_whole(web::Session& s, std::string_view heard) {
  const web::Live live = s.live();
  for (const double* n = &live.t_s; n <= &live.phase; ++n) {
    must(std::isfinite(*n), "the readings are numbers");
  }
  for (int h = 0; h < kHandles; ++h) {
    const std::optional<Vec2> at = s.handle_px(static_cast<Handle>(h));
    must(!at || (std::isfinite(at->x) && std::isfinite(at->y)), "a handle has a place");
  }
  const std::string link = s.link();
  const ParsedLink read = parse_link(link);
  must(read.problems.empty() && read.scenario == s.scenario(), "the link is the scene", link);
  for (const Vec2 p : s.diagram().points) {
    must(std::isfinite(p.x) && std::isfinite(p.y), "the picture's points are numbers");
  }
  must(s.diagram().points.size() < 200000, "a picture is bounded");
  fuzz::must_be_plain(s.picture_words(), heard);
  fuzz::must_be_json(s.fly_state(), heard, 20000);
  fuzz::must_be_json(s.fly_debrief(), heard, 200000);
  fuzz::must_be_json(s.needle(), heard, 20000);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view all = fuzz::text_of(data, size);
  std::string_view text = all;
  web::Session s;
  s.resize(320.0, 240.0);
  for (int i = 0; i < kMostCommands && !text.empty(); ++i) follow(s, fuzz::take_line(text));
  must_be_whole(s, all);
  // The costly words, for one text in eight.
  if (size % 8 == 0) {
    fuzz::must_be_json(s.report(size % 16 == 0), all, 400000);
    fuzz::must_be_plain(s.svg(), all);
  }
  // Undone to its beginning, the history is at its beginning.
  for (int i = 0; i < kMostCommands + 1 && s.can_undo(); ++i) s.undo();
  must(!s.can_undo(), "a history is not longer than what was done");
  must(parse_link(s.link()).problems.empty(), "its first scene is one", s.link());
  return 0;
}
