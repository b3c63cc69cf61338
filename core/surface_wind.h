// core/surface_wind.h - the wind group of METAR and TAF: dddffKT, dddffGffKT, VRBffKT.
//
// Speed and gust have two or three figures; units KT, MPS and KMH. 00000 is calm. P before
// the figures (P99KT, P49MPS) means more than these: from memory, not in the sources seen.
#pragma once

#include "core/reported_wind.h"

namespace core {

/// One group. Never fails: `why` says what is wrong with it.
[[nodiscard]] ReportedWind decode_wind_group(std::string_view group);

/// The wind of a report from group `at` up to group `end`: the first group that is meant
/// as one, right or wrong, with the sector dddVddd behind it. Remarks, wind shear groups
/// and what follows a forecast of change are not looked at.
[[nodiscard]] ReportedWind wind_in(const std::vector<std::string>& groups, std::size_t at,
                                   std::size_t end);

/// A TAF's wind and the period it is for.
struct WindPeriod {
  std::string label;  ///< as written: "1412/1512", "FM141800", "TEMPO 1418/1422"; may be empty
  ReportedWind wind;
};
inline constexpr std::size_t kMostPeriods = 24;
/// The periods that state a wind, right or wrong, in the report's order.
[[nodiscard]] std::vector<WindPeriod> taf_periods(const std::vector<std::string>& groups);

/// Whether `group` is a validity, ddhh/ddhh.
[[nodiscard]] inline bool is_validity(std::string_view group) {
  return has_form(group, "dddd/dddd");
}

}  // namespace core
