// core/item_parts.h - shared by item*.cpp: the case drawn, and its steps.
#pragma once

#include "core/item_answer.h"
#include "core/plan.h"
#include "core/seeded.h"

namespace core {

/// Outbound times between which the next lap is asked for, seconds. Our own choice.
inline constexpr double kLeastNextS = 15.0;
inline constexpr double kMostNextS = 180.0;

/// Whether the arrival may be asked for by the set's boundary rule.
[[nodiscard]] bool boundary_fits(Boundary rule, double boundary_deg);

/// A case for the skill, and the item's stream behind it. Every triangle exists.
[[nodiscard]] Scenario draw_case(const QuestionSet& set, Skill skill, Seeded& random);

/// Direct entry from along the inbound course: a lap that begins over the fix, on
/// `heading_deg` for `outbound_s`.
[[nodiscard]] Scenario lap_of(const Scenario& scene, double heading_deg, double outbound_s);
/// Outbound heading of a lap that is corrected three times an inbound correction, the other
/// way (docs/theory.md "Rules of thumb").
[[nodiscard]] double lap_heading_for(const Scenario& scene, double inbound_wca_deg);

/// Fills question, link, right_link and steps of an item whose scenario is drawn.
void ask_entry(DrillItem& item);
void ask_heading(DrillItem& item);
void ask_wind(DrillItem& item);
/// False, and nothing asked, where the next lap could not be timed within kLeastNextS and
/// kMostNextS.
[[nodiscard]] bool ask_lap(DrillItem& item, Seeded& random);
void ask_groundspeed(DrillItem& item);
void ask_clearance(DrillItem& item, Seeded& random);

/// What a wrong answer is, where it is the value of a common mistake: a sentence; else empty.
[[nodiscard]] std::string mistake_words(const DrillItem& item, const Step& step,
                                        const Answer& answer);

}  // namespace core
