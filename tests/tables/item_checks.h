// tests/tables/item_checks.h - how far off an answer of practice may be, as items have it.
#pragma once

#include "core/item.h"
#include "tests/tables/check.h"

namespace test {

/// Tolerance of a step of an item of the mixed set, by its name.
inline double asked_tolerance(core::Skill skill, const char* id) {
  const core::QuestionSet set;
  for (int k = 0; k < 60; ++k) {
    for (const core::Step& s : core::make_item(set, 1, k, skill).steps) {
      if (s.id == id) return s.tolerance;
    }
  }
  return -1.0;
}

inline constexpr const char* kAskedPractice = "common practice, no source";

inline const Check kItemChecks[] = {
    {"M07", "practice, entry heading: right within", 10.0, 0.0, Unit::deg,
     "FAA-S-ACS-8C, Task III.B", Mark::seen,
     [] { return asked_tolerance(core::Skill::heading, "heading"); }},
    {"P1", "practice, wind correction: right within", 3.0, 0.0, Unit::deg, kAskedPractice,
     Mark::practice, [] { return asked_tolerance(core::Skill::wind, "correction"); }},
    {"P2", "practice, outbound time: right within", 5.0, 0.0, Unit::s, kAskedPractice,
     Mark::practice, [] { return asked_tolerance(core::Skill::timing, "next"); }},
    {"P3", "practice, crosswind: right within", 3.0, 0.0, Unit::kt, kAskedPractice, Mark::practice,
     [] { return asked_tolerance(core::Skill::wind, "crosswind"); }},
    {"P4", "practice, groundspeed: right within", 5.0, 0.0, Unit::kt, kAskedPractice,
     Mark::practice, [] { return asked_tolerance(core::Skill::timing, "groundspeed"); }},
};

}  // namespace test
