// The clearance reader: the inbound course on the chart in the first line, then any text.
#include "core/clearance.h"

#include "core/text_number.h"
#include "core/words.h"
#include "tests/fuzz/must.h"

using namespace core;
using fuzz::must;

namespace {

bool is_direction(double deg) { return deg > 0.0 && deg <= 360.0; }

/// What was concluded, said again by the book, is heard as the same hold.
void must_be_said(const ReadClearance& r) {
  ClearanceSpec spec;
  spec.inbound_deg = *r.inbound_deg;
  spec.turns = *r.turns;
  spec.leg = r.leg;
  spec.fix = "PELDA";
  spec.efc_min = r.heard.efc_min;
  for (const Figures figures : {Figures::numerals, Figures::spoken}) {
    const std::string said = compose_clearance(spec, figures);
    const ReadClearance again = read_clearance(said);
    must(again.contradictions.empty(), "a composed clearance does not contradict itself", said);
    must(again.inbound_deg && std::floor(*r.inbound_deg + 0.5) == *again.inbound_deg,
         "its inbound course is heard", said);
    must(again.turns == r.turns, "its turns are heard", said);
    must(again.heard.efc_min == r.heard.efc_min, "its time is heard", said);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view text = fuzz::text_of(data, size);
  const std::optional<double> chart = read_number(fuzz::take_line(text));
  const ReadClearance r = read_clearance(text, chart);
  must(r.unread.size() <= static_cast<std::size_t>(kMostUnread), "unread words are bounded");
  must(r.problems.size() <= 200 && r.contradictions.size() <= 100, "remarks are bounded");
  for (const auto& p : r.problems) must(!p.text.empty(), "a doubt says what it is");
  for (const auto& c : r.contradictions) must(!c.text.empty(), "a contradiction says what it is");
  must(!text.empty() || r.has(Doubt::nothing), "an empty text is no clearance");
  must(!r.inbound_deg || is_direction(*r.inbound_deg), "inbound is a direction");
  must(!r.line_from_deg || is_direction(*r.line_from_deg), "the line is a direction");
  must(!r.leg || std::isfinite(r.leg->value), "the leg is a number");

  Json json;
  write_clearance(json, r);
  fuzz::must_be_json(json.str(), text, 60000);
  const std::string link = link_of(r);
  const ParsedLink read = parse_link(link);
  must(read.problems.empty(), "the link of a clearance is one that the page takes", link);
  must(!r.inbound_deg || std::abs(read.scenario.inbound_course_deg - *r.inbound_deg) < 1e-6,
       "it has the inbound course", link);
  if (r.inbound_deg && r.turns && r.contradictions.empty()) must_be_said(r);
  return 0;
}
