// The case of an item, drawn from a set's ranges or fixed cases. Integers alone choose; what
// is computed only turns down cases that cannot be asked.
#include <cmath>

#include "core/item_parts.h"
#include "core/words.h"

namespace core {
namespace {

/// Draws before a case is taken that misses the set's wishes. The rarest wish, one entry near
/// its boundaries, fits one arrival in about 45.
constexpr int kMostDraws = 2000;

int pick(const IntRange& range, Seeded& random) {
  return range.from + range.step * random.below(range.count());
}

/// One of the bits that are set, evenly.
unsigned pick_bit(unsigned bits, int count, Seeded& random) {
  int set = 0;
  for (int i = 0; i < count; ++i) set += static_cast<int>((bits >> static_cast<unsigned>(i)) & 1U);
  int at = random.below(set);
  for (int i = 0; i < count; ++i) {
    if (((bits >> static_cast<unsigned>(i)) & 1U) != 0U && at-- == 0) {
      return static_cast<unsigned>(i);
    }
  }
  return 0;
}

/// One of the invented names of the catalogue.
FixName draw_name(Seeded& random) {
  const std::string_view all = word("core.item.fixes");
  int count = 1;
  for (const char c : all) count += c == ' ' ? 1 : 0;
  std::size_t at = 0;
  for (int skip = random.below(count); skip > 0; --skip) at = all.find(' ', at) + 1;
  FixName name{};
  for (std::size_t i = 0; i + 1 < name.size() && at < all.size() && all[at] != ' '; ++i, ++at) {
    name[i] = all[at];
  }
  return name;
}

/// Which entries a skill asks about. The heading and the outbound time by groundspeed are
/// those of the offset entry; the others do not look at the arrival.
unsigned entries_for(const QuestionSet& set, Skill skill) {
  return skill == Skill::entry ? set.entries : 1U << static_cast<unsigned>(EntryKind::offset);
}

Scenario drawn_once(const QuestionSet& set, Seeded& random) {
  Scenario s;
  s.inbound_course_deg = wrap_360(pick(set.inbound_deg, random));
  s.turns = static_cast<Side>(pick_bit(set.turns, 2, random));
  s.altitude_ft = pick(set.altitude_ft, random);
  s.speed_kt = pick(set.ias_kt, random);
  s.wind_from_deg = wrap_360(pick(set.wind_from_deg, random));
  s.wind_kt = pick(set.wind_kt, random);
  s.arrival_course_deg = 1 + random.below(360);
  return s;
}

/// A fixed case that the skill can be asked about, where there is one.
Scenario fixed_case(const QuestionSet& set, Skill skill, Seeded& random) {
  std::vector<const Scenario*> fit;
  for (const Scenario& s : set.cases) {
    if (skill != Skill::heading || make_setup(s).entry == EntryKind::offset) fit.push_back(&s);
  }
  const bool any = !fit.empty();
  const auto count = static_cast<int>(any ? fit.size() : set.cases.size());
  const auto at = static_cast<std::size_t>(random.below(count));
  Scenario s = any ? *fit[at] : set.cases[at];
  if (!any) s.entry = EntryKind::offset;
  // What the item asks for is not given.
  s.heading_deg.reset();
  s.time_s.reset();
  s.laps = 0;
  s.adjust = Adjust::seconds;  // second for second, docs/practice.md
  if (skill == Skill::timing || skill == Skill::wind) {
    // These are flown by the clock.
    if (s.leg && s.leg->kind == Leg::Kind::distance) s.leg.reset();
    s.radial_deg.reset();
  }
  return s;
}

}  // namespace

bool boundary_fits(Boundary rule, double boundary_deg) {
  const bool near = boundary_deg <= kNearDeg;
  const bool away = boundary_deg >= kAwayDeg;
  return rule == Boundary::away ? away : rule == Boundary::near ? near : near || away;
}

Scenario draw_case(const QuestionSet& set, Skill skill, Seeded& random) {
  if (!set.cases.empty()) return fixed_case(set, skill, random);
  const FixName name = draw_name(random);
  const bool arrives = skill == Skill::entry || skill == Skill::heading || skill == Skill::timing;
  const unsigned entries = entries_for(set, skill);
  const auto wanted = static_cast<EntryKind>(pick_bit(entries, kEntryKinds, random));
  const Boundary rule = skill == Skill::entry ? set.boundary : Boundary::away;
  Scenario s;
  for (int i = 0; i < kMostDraws; ++i) {
    s = drawn_once(set, random);
    const Setup u = make_setup(s);
    if (!u.arrival.exists || !u.inbound.exists || !u.outbound.exists) continue;
    if (!arrives || (u.sector->kind == wanted && boundary_fits(rule, u.sector->boundary_deg))) {
      break;
    }
  }
  s.fix_name = name;
  if (skill != Skill::entry) s.entry = EntryKind::offset;
  return s;
}

Scenario lap_of(const Scenario& scene, double heading_deg, double outbound_s) {
  Scenario s = scene;
  s.entry = EntryKind::direct;
  s.arrival_course_deg = s.inbound_course_deg;
  s.heading_deg = wrap_360(heading_deg);
  s.time_s = outbound_s;
  return s;
}

double lap_heading_for(const Scenario& scene, double inbound_wca_deg) {
  return wrap_360(scene.inbound_course_deg + 180.0 - scene.multiple * inbound_wca_deg);
}

}  // namespace core
