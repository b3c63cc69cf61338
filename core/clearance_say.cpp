// The sentences about a clearance: one list of fillings for all of them.
#include <utility>

#include "core/clearance_parts.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

std::string eighth_or_empty(const std::optional<int>& eighth) {
  return eighth ? std::string(name_of_eighth(*eighth)) : std::string();
}
std::string number_or_empty(const std::optional<double>& v) {
  return v ? write_number(*v) : std::string();
}
std::string direction_or_empty(const std::optional<double>& deg) {
  return deg ? degrees_3(*deg) : std::string();
}
std::string side_of(double bearing_deg) {
  return std::string(name_of_eighth(nearest_eighth(bearing_deg)));
}
std::string leg_words(const std::optional<Leg>& leg) {
  if (!leg) return {};
  return leg->kind == Leg::Kind::time ? write_time(leg->value) : write_number(leg->value) + " NM";
}

/// "the 265 radial", "the bearing 265 from the station", "the course 085".
std::string line_words(const HeardClearance& h) {
  std::string key = "core.clearance.line.";
  key += name_of(h.reference);
  if (h.reference == Reference::bearing) key += name_of(h.sense);
  return phrase(key, {{"number", digits_3(h.number_deg.value_or(0))}});
}

/// Its name, "the 16 DME fix", or "the fix".
std::string fix_words(const HeardClearance& h) {
  if (!h.fix.empty()) return h.fix;
  return phrase(h.dme_nm ? "core.clearance.fix.dme" : "core.clearance.fix.unnamed",
                {{"dme", number_or_empty(h.dme_nm)}});
}

/// "265° − 180 = 085°"
std::string reciprocal_sum(double deg) {
  return degrees_3(deg) + (deg > 180.0 ? " − 180 = " : " + 180 = ") + degrees_3(deg + 180.0);
}

}  // namespace

std::string say(const ReadClearance& r, std::string_view key, double pattern_deg,
                std::string_view said) {
  const HeardClearance& h = r.heard;
  const double back = pattern_deg + 180.0;
  const int now = h.now_min.value_or(0);
  const int efc = h.efc_min.value_or(0);
  std::string full = "core.clearance.";
  full += key;
  return phrase(full,
                {{"said", std::string(said)},
                 {"pattern", degrees_3(pattern_deg)},
                 {"side", side_of(pattern_deg)},
                 {"back", degrees_3(back)},
                 {"back_side", side_of(back)},
                 {"word", h.direction ? std::string(kEighthWords[*h.direction]) : std::string()},
                 {"named", eighth_or_empty(h.direction)},
                 {"other_named", eighth_or_empty(h.other_direction)},
                 {"middle", degrees_3(45.0 * h.direction.value_or(0))},
                 {"fix", fix_words(h)},
                 {"line", line_words(h)},
                 {"other", digits_3(h.other_number_deg.value_or(0))},
                 {"sum", reciprocal_sum(h.number_deg.value_or(0))},
                 {"inbound_said", degrees_3(h.inbound_said_deg.value_or(0))},
                 {"from", direction_or_empty(r.line_from_deg)},
                 {"inbound", direction_or_empty(r.inbound_deg)},
                 {"charted", direction_or_empty(r.charted_inbound_deg)},
                 {"route", h.route},
                 {"dme", number_or_empty(h.dme_nm)},
                 {"end", number_or_empty(r.outbound_end_dme_nm)},
                 {"leg", leg_words(h.leg)},
                 {"other_leg", leg_words(h.other_leg)},
                 {"miles", write_number(h.leg ? h.leg->value : 0.0)},
                 {"efc", write_clock(efc)},
                 {"now", write_clock(now)},
                 {"wait", write_number((efc - now + 1440) % 1440)},
                 {"speed", number_or_empty(h.max_ias_kt)}});
}

namespace {

template <typename Kind>
void add_once(std::vector<Remark<Kind>>& remarks, Kind kind, std::string text) {
  int of_kind = 0;
  for (const Remark<Kind>& one : remarks) {
    if (one.kind == kind && (one.text == text || ++of_kind == kMostRemarks)) return;
  }
  remarks.push_back({kind, std::move(text)});
}

}  // namespace

void add(ReadClearance& r, Contradiction kind, double pattern_deg, std::string_view variant) {
  std::string key = "contradiction.";
  key += name_of(kind);
  key += variant;
  add_once(r.contradictions, kind, say(r, key, pattern_deg));
}

void add(ReadClearance& r, Doubt kind, double pattern_deg, std::string_view said,
         std::string_view variant) {
  std::string key = "problem.";
  key += name_of(kind);
  key += variant;
  add_once(r.problems, kind, say(r, key, pattern_deg, said));
}

}  // namespace core
