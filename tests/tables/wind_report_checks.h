// tests/tables/wind_report_checks.h - groups of the winds aloft forecast, true and magnetic.
#pragma once

#include <cmath>

#include "core/wind_report.h"
#include "tests/tables/check.h"

namespace test {

inline double aloft_from(const char* group) {
  return core::decode_aloft_group(group).wind.from_deg.value_or(std::nan(""));
}
inline double aloft_kt(const char* group) {
  return core::decode_aloft_group(group).wind.speed_kt.value_or(std::nan(""));
}
inline double aloft_c(const char* group) {
  return core::decode_aloft_group(group).temperature_c.value_or(std::nan(""));
}
/// 1 where the kind's direction is true, 0 where it is magnetic.
inline double is_true(core::ReportKind kind) { return core::facts_of(kind).is_true ? 1.0 : 0.0; }

inline constexpr const char* kAwh27 = "FAA-H-8083-28B (AWH) 27.2";
inline constexpr const char* kAwh27Misprint =
    "FAA-H-8083-28B (AWH) 27.2; its table's header misprints the group as 550252";
inline constexpr const char* kPhak16Compass = "FAA-H-8083-25C (PHAK) ch. 16, compass heading";

inline const Check kWindReportChecks[] = {
    {"M01", "731960, direction", 230, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("731960"); }},
    {"M01", "731960, speed", 119, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("731960"); }},
    {"M01", "731960, temperature", -60, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("731960"); }},
    {"M02", "7799, direction", 270, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("7799"); }},
    {"M02", "7799, speed", 199, 0, Unit::kt, kAwh27, Mark::seen, [] { return aloft_kt("7799"); }},
    {"M02", "7799, that or more (1: yes)", 1, 0, Unit::ratio, kAwh27, Mark::seen,
     [] { return core::decode_aloft_group("7799").wind.at_least ? 1.0 : 0.0; }},
    {"M03", "9900, light and variable (1: yes)", 1, 0, Unit::ratio, kAwh27, Mark::seen,
     [] { return core::decode_aloft_group("9900").wind.light_and_variable ? 1.0 : 0.0; }},
    {"M04", "2242-18, direction", 220, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("2242-18"); }},
    {"M04", "2242-18, speed", 42, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("2242-18"); }},
    {"M04", "2242-18, temperature", -18, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("2242-18"); }},
    {"M05", "750252, direction", 250, 0, Unit::direction, kAwh27Misprint, Mark::seen,
     [] { return aloft_from("750252"); }},
    {"M05", "750252, speed", 102, 0, Unit::kt, kAwh27Misprint, Mark::seen,
     [] { return aloft_kt("750252"); }},
    {"M05", "750252, temperature", -52, 0, Unit::celsius, kAwh27Misprint, Mark::seen,
     [] { return aloft_c("750252"); }},
    {"M06", "compass heading: magnetic heading 021, deviation +2", 23, 0, Unit::direction,
     kPhak16Compass, Mark::seen,
     [] { return core::compass_from_magnetic(core::magnetic_from_true(28, 7), 2); }},
    {"6.1", "2018+00, direction", 200, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("2018+00"); }},
    {"6.1", "2018+00, speed", 18, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("2018+00"); }},
    {"6.1", "2018+00, temperature", 0, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("2018+00"); }},
    {"6.1", "1709+06, direction", 170, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("1709+06"); }},
    {"6.1", "1709+06, speed", 9, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("1709+06"); }},
    {"6.1", "1709+06, temperature", 6, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("1709+06"); }},
    {"6.1", "2130-06, speed", 30, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("2130-06"); }},
    {"6.1", "2361-30, temperature", -30, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("2361-30"); }},
    {"6.1", "247242, direction", 240, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("247242"); }},
    {"6.1", "247242, speed", 72, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("247242"); }},
    {"6.1", "247242, temperature", -42, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("247242"); }},
    {"6.1", "258848, speed", 88, 0, Unit::kt, kAwh27, Mark::seen,
     [] { return aloft_kt("258848"); }},
    {"6.1", "258848, temperature", -48, 0, Unit::celsius, kAwh27, Mark::seen,
     [] { return aloft_c("258848"); }},
    {"6.1", "7545, direction", 250, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("7545"); }},
    {"6.1", "7545, speed", 145, 0, Unit::kt, kAwh27, Mark::seen, [] { return aloft_kt("7545"); }},
    {"6.1", "7345, direction", 230, 0, Unit::direction, kAwh27, Mark::seen,
     [] { return aloft_from("7345"); }},
    {"6", "METAR: true (1: yes)", 1, 0, Unit::ratio, "FAA-H-8083-28B (AWH) 24.3", Mark::seen,
     [] { return is_true(core::ReportKind::metar); }},
    {"6", "TAF: true (1: yes)", 1, 0, Unit::ratio, "FAA-H-8083-28B (AWH) 27.4.2.5", Mark::seen,
     [] { return is_true(core::ReportKind::taf); }},
    {"6", "winds aloft: true (1: yes)", 1, 0, Unit::ratio, "FAA-H-8083-28B (AWH) 27.2.1.1.1",
     Mark::seen, [] { return is_true(core::ReportKind::winds_aloft); }},
    {"6", "ATIS: magnetic (0: yes)", 0, 0, Unit::ratio, "AIM 4-2-10", Mark::seen,
     [] { return is_true(core::ReportKind::atis); }},
    {"6", "tower: magnetic (0: yes)", 0, 0, Unit::ratio, "AIM 4-2-10", Mark::seen,
     [] { return is_true(core::ReportKind::tower); }},
    {"6", "station by telephone: magnetic (0: yes)", 0, 0, Unit::ratio,
     "FAA-H-8083-28B (AWH) 24.3.1.2, note", Mark::seen,
     [] { return is_true(core::ReportKind::station_phone); }},
    {"6.2", "wind true 310, variation 7 east: magnetic", 303, 0, Unit::direction, kPhak16Compass,
     Mark::derived,
     [] { return *core::read_wind_report("metar", "31012KT", 4000, 7).magnetic_deg; }},
};

}  // namespace test
