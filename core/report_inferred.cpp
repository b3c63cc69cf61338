#include "core/infer.h"
#include "core/report.h"

namespace core {

void write_inferred_wind(Json& j, const WorkedCase& c) {
  const Seen& seen = c.setup.scenario.seen;
  j.key("inferred");
  if (!seen.cross_nm && !seen.inbound_s && !seen.wca_deg) {
    j.null();
    return;
  }
  Observed observed;
  observed.cross_nm = seen.cross_nm;
  observed.inbound_s = seen.inbound_s;
  observed.held_wca_deg = seen.wca_deg;
  write_inferred(j, c.setup, c.flown, observed);
}

}  // namespace core
