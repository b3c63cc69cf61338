// The common mistakes, known by their values. Each sentence says what the value is, never
// what the student thought. List and reasons: docs/practice.md "Common mistakes".
#include <cmath>

#include "core/item_answer.h"
#include "core/item_parts.h"
#include "core/practice_text.h"
#include "core/words.h"

namespace core {
namespace {

/// A value is known as a mistake's up to so many degrees or seconds, the slip of rounding.
/// Our own choice.
constexpr double kKnownWithin = 1.0;

/// The value that a mistake leads to, and what is said of it.
struct Mistake {
  double value;
  const char* key;
};

double named(const DrillItem& item, std::string_view id) {
  for (const Step& s : item.steps) {
    if (s.id == id) return s.value;
  }
  return 0.0;
}

/// The nearest of them, the first of equals; none where none is near.
template <std::size_t N>
const char* nearest(const Mistake (&mistakes)[N], double value, bool circle) {
  const char* key = nullptr;
  double least = kKnownWithin;
  for (const Mistake& m : mistakes) {
    const double off = std::abs(circle ? wrap_180(value - m.value) : value - m.value);
    if (off < least || (off == least && !key)) {
      least = off;
      key = m.key;
    }
  }
  return key;
}

const char* mistaken_heading(const DrillItem& item, double value) {
  const double outbound = named(item, "outbound");
  const double base = named(item, "thirty");
  const double held = wrap_180(named(item, "heading") - base);
  const double across = wrap_360(2.0 * outbound - base);
  const Mistake mistakes[] = {
      {base, "core.item.mistake.no_correction"},
      {base - held, "core.item.mistake.correction_side"},
      {across + held, "core.item.mistake.thirty_side"},
      {across, "core.item.mistake.thirty_side_bare"},
      {outbound + held, "core.item.mistake.no_thirty"},
      {outbound, "core.item.mistake.outbound"},
      {base + held + 180.0, "core.item.mistake.reciprocal"},
  };
  return nearest(mistakes, value, true);
}

const char* mistaken_direction(const DrillItem& item, const Step& step, double value) {
  if (step.id == "thirty") {
    const double outbound = named(item, "outbound");
    const Mistake mistakes[] = {{2.0 * outbound - step.value, "core.item.mistake.thirty_across"},
                                {step.value + 180.0, "core.item.mistake.reciprocal"}};
    return nearest(mistakes, value, true);
  }
  const Mistake mistakes[] = {{step.value + 180.0, step.id == "line"
                                                       ? "core.item.mistake.line_reversed"
                                                       : "core.item.mistake.inbound"}};
  return nearest(mistakes, value, true);
}

/// The size is right and the side is the other.
bool only_side(const Step& step, double value) {
  return value * step.value < 0.0 && std::abs(value + step.value) <= step.tolerance;
}

const char* mistaken_time(const DrillItem& item, const Step& step, double value) {
  if (step.id == "next") {
    // The last lap: what was flown, and so the same seconds put on the wrong side of it.
    const double outbound = parse_link(item.link).scenario.time_s.value_or(step.value);
    const double other = 2.0 * outbound - step.value;
    const Mistake mistakes[] = {
        {other, step.value > outbound ? "core.item.mistake.longer" : "core.item.mistake.shorter"},
        {outbound, "core.item.mistake.unchanged"}};
    return nearest(mistakes, value, false);
  }
  if (step.id != "time") return nullptr;
  const Setup u = make_setup(item.scenario);
  const Mistake mistakes[] = {
      {u.published_s, "core.item.mistake.still_air"},
      {u.published_s * named(item, "groundspeed") / u.tas_kt, "core.item.mistake.fraction"}};
  return nearest(mistakes, value, false);
}

const char* mistaken_entry(const DrillItem& item, const Answer& a) {
  Scenario mirrored = item.scenario;
  mirrored.turns = mirrored.turns == Side::left ? Side::right : Side::left;
  const Setup u = make_setup(mirrored);
  const bool other_turns = u.sector && a.choice == static_cast<int>(u.sector->kind);
  return other_turns ? "core.item.mistake.mirrored" : nullptr;
}

const char* mistaken_hold(const Step& step, const Answer& a) {
  const double off = std::abs(wrap_180(a.number - step.value));
  if (off <= kKnownWithin && a.side != step.turns) return "core.item.mistake.turns";
  if (off >= 180.0 - kKnownWithin) return "core.item.mistake.hold_reversed";
  return nullptr;
}

const char* key_of_mistake(const DrillItem& item, const Step& step, const Answer& a) {
  switch (step.kind) {
    case StepKind::choice:
      return mistaken_entry(item, a);
    case StepKind::direction:
      return step.id == "heading" ? mistaken_heading(item, a.number)
                                  : mistaken_direction(item, step, a.number);
    case StepKind::correction:
      if (!only_side(step, a.number)) return nullptr;
      return step.id == "off" ? "core.item.mistake.off_side" : "core.item.mistake.wind_side";
    case StepKind::seconds:
      return mistaken_time(item, step, a.number);
    case StepKind::hold:
      return mistaken_hold(step, a);
    case StepKind::degrees:
    case StepKind::knots:
      break;
  }
  return nullptr;
}

}  // namespace

std::string mistake_words(const DrillItem& item, const Step& step, const Answer& answer) {
  const char* key = key_of_mistake(item, step, answer);
  if (!key) return {};
  const double sign = sign_of(item.scenario.turns);
  return phrase(key, {{"turns", side_text(sign)},
                      {"other_turns", side_text(-sign)},
                      {"yours", answer_text(step, answer)},
                      {"side", step.kind == StepKind::correction ? side_text(step.value)
                                                                 : side_text(-sign)}});
}

}  // namespace core
