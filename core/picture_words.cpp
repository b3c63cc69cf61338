// What the picture has besides the flight, in words: the second half of its text alternative.
#include "core/explain.h"
#include "core/limits.h"
#include "core/picture.h"
#include "core/picture_parts.h"
#include "core/trade_words.h"
#include "core/words.h"

namespace core {
namespace {

void add(std::string& text, std::string_view sentence) {
  if (sentence.empty()) return;
  if (!text.empty()) text += ' ';
  text += sentence;
}

void add_entries(std::string& text, const WorkedCase& c, const PictureOptions& o) {
  if (o.layers.sectors) {
    add(text, word("core.pic.words.sectors"));
    if (o.flight) add(text, sector_reason(c));
  }
  if (!o.layers.other_entry || !o.flight) return;
  for (const EntryCase& e : c.entries) {
    if (!shown_beside(c, e)) continue;
    add(text, phrase("core.pic.words.other_entry",
                     {{"entry", std::string(label_of(e.kind, c.setup.scenario.book))}}));
  }
}

void add_limits(std::string& text, const WorkedCase& c) {
  const SlowDown slow = slow_down_point(c.setup);
  if (slow.why == Stop::none) {
    add(text, phrase("core.pic.words.slow_down", {{"time", minutes(slow.before_fix_s)},
                                                  {"distance", fixed(slow.distance_nm, 1)}}));
  }
  for (const std::string& sentence : station_words(c)) add(text, sentence);
}

}  // namespace

std::string picture_words(const WorkedCase& c, const PictureOptions& o) {
  std::string text;
  if (o.hand) return text;
  if (o.beside) {
    const WorkedCase& other = o.beside->worked;
    add(text, phrase(other.flown.rollout.exists ? "core.pic.words.beside"
                                                : "core.pic.words.beside_unflown",
                     {{"whose", o.beside->label}, {"headline", headline(other)}}));
  }
  if (o.flight && c.flown.lap_count > 0) {
    add(text, phrase(c.flown.lap_count == 1 ? "core.pic.words.lap" : "core.pic.words.laps",
                     {{"laps", fixed(c.flown.lap_count, 0)}}));
  }
  add_entries(text, c, o);
  if (o.layers.limits) add_limits(text, c);
  if (o.layers.area) {
    const bool drawn = !o.area || o.area->exists();
    add(text, drawn ? phrase("core.pic.words.area", {{"caption", text_of("core.area.caption")}})
                    : reason(o.area->why));
  }
  return text;
}

}  // namespace core
