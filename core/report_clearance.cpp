#include "core/clearance.h"
#include "core/report.h"
#include "core/words.h"

namespace core {

void write_clearance_of(Json& j, const WorkedCase& c) {
  const Scenario& s = c.setup.scenario;
  ClearanceSpec spec;
  spec.inbound_deg = s.inbound_course_deg;
  spec.turns = s.turns;
  spec.leg = s.leg;
  spec.fix = s.fix_name[0] ? std::string(s.fix_name.data()) : std::string(word("core.pic.fix"));
  spec.station = s.station.place;
  spec.dme_nm = s.station.dme_nm;
  spec.aid = s.aid;
  spec.efc_min = s.further_clearance_min;
  if (s.speed_rule == SpeedRule::faa_charted) spec.max_ias_kt = s.charted_kias;
  const std::string text = compose_clearance(spec);
  j.key("clearance").open_object().field("text", text);
  j.field("spoken", compose_clearance(spec, Figures::spoken));
  spec.published = true;
  j.field("published", compose_clearance(spec));
  j.key("steps").open_array();
  for (const std::string& step : decode_steps(read_clearance(text))) j.text(step);
  j.close_array().close_object();
}

}  // namespace core
