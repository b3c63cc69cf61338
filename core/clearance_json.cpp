#include "core/clearance_parts.h"
#include "core/text_number.h"

namespace core {
namespace {

std::string time_or_empty(const std::optional<int>& minutes_of_day) {
  return minutes_of_day ? write_clock(*minutes_of_day) : std::string();
}
std::string_view turns_name(const std::optional<Side>& side) {
  return side ? name_of(*side) : std::string_view();
}
std::string_view station_name(const std::optional<Station::Place>& station) {
  constexpr std::string_view kNames[] = {"fix", "ahead", "behind"};
  return station ? kNames[static_cast<int>(*station)] : std::string_view();
}
void leg_fields(Json& j, const std::optional<Leg>& leg) {
  const bool time = leg && leg->kind == Leg::Kind::time;
  j.field("leg_s", time ? std::optional<double>(leg->value) : std::nullopt);
  j.field("leg_nm", leg && !time ? std::optional<double>(leg->value) : std::nullopt);
}
void direction_field(Json& j, std::string_view key, const std::optional<int>& eighth) {
  j.text_or_null(key, eighth ? name_of_eighth(*eighth) : std::string_view());
}

void write_heard(Json& j, const HeardClearance& h) {
  j.open_object();
  j.field("hold", h.hold);
  j.field("published", h.published);
  direction_field(j, "direction", h.direction);
  j.text_or_null("fix", h.fix);
  j.text_or_null("reference",
                 h.reference == Reference::none ? std::string_view() : name_of(h.reference));
  j.text_or_null("sense", h.sense == Sense::unsaid ? std::string_view() : name_of(h.sense));
  j.field("number_deg", h.number_deg);
  j.field("inbound_said_deg", h.inbound_said_deg);
  j.text_or_null("station", h.station);
  j.text_or_null("route", h.route);
  j.field("dme_nm", h.dme_nm);
  leg_fields(j, h.leg);
  j.text_or_null("turns", turns_name(h.turns));
  j.text_or_null("efc", time_or_empty(h.efc_min));
  j.text_or_null("now", time_or_empty(h.now_min));
  j.field("max_ias_kt", h.max_ias_kt);
  j.text_or_null("aid", h.aid ? name_of(*h.aid) : std::string_view());
  j.close_object();
}

template <class Kind>
void texts(Json& j, std::string_view key, const std::vector<Remark<Kind>>& remarks) {
  j.key(key).open_array();
  for (const Remark<Kind>& r : remarks) j.text(r.text);
  j.close_array();
}
void texts(Json& j, std::string_view key, const std::vector<std::string>& lines) {
  j.key(key).open_array();
  for (const std::string& line : lines) j.text(line);
  j.close_array();
}

}  // namespace

void write_clearance(Json& j, const ReadClearance& r) {
  j.open_object();
  j.key("heard");
  write_heard(j, r.heard);
  j.field("inbound_deg", r.inbound_deg);
  j.text_or_null("turns", turns_name(r.turns));
  leg_fields(j, r.leg);
  j.text_or_null("station", station_name(r.station));
  j.field("outbound_end_dme_nm", r.outbound_end_dme_nm);
  j.text_or_null("efc", time_or_empty(r.heard.efc_min));
  texts(j, "steps", decode_steps(r));
  texts(j, "contradictions", r.contradictions);
  texts(j, "problems", r.problems);
  texts(j, "unread", r.unread);
  j.field("link", std::string_view(link_of(r)));
  j.close_object();
}

}  // namespace core
