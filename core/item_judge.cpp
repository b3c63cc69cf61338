// What an answer is worth: right or not, why, and what comes of it in flight.
#include "core/clearance.h"
#include "core/explain.h"
#include "core/item_answer.h"
#include "core/item_parts.h"
#include "core/words.h"
#include "core/worked_case.h"

namespace core {
namespace {

/// The scenario that flies the answer to the item's last step.
Scenario flown_answer(const DrillItem& item, const Step& step, const Answer& a) {
  Scenario s = item.scenario;
  switch (item.skill) {
    case Skill::entry:
      s.entry = static_cast<EntryKind>(a.choice);
      break;
    case Skill::heading:
      s.heading_deg = a.number;
      break;
    case Skill::wind:
      return lap_of(s, lap_heading_for(s, a.number), make_setup(s).published_s);
    case Skill::timing: {
      s = parse_link(item.right_link).scenario;
      s.time_s = std::fmin(a.number, kMostOutboundS);
      break;
    }
    case Skill::clearance:
      s.inbound_course_deg = a.number;
      s.turns = a.side.value_or(step.turns);
      break;
  }
  return s;
}

/// As part of a sentence: without a full stop of its own.
std::string came_of(const WorkedCase& c) {
  std::string came = c.flown.rollout.exists ? headline(c) : reason(c.flown.stop);
  if (came.ends_with('.')) came.pop_back();
  return came;
}

/// How an entry ends: when it is established, or where it rolls out.
std::string entry_end(const WorkedCase& c) {
  for (const EntryCase& e : c.entries) {
    if (!e.flown) continue;
    const std::optional<double> on_course = e.on_course_s();
    if (on_course) return phrase("core.item.flown.on_course", {{"time", minutes(*on_course)}});
  }
  return came_of(c);
}

std::string flown_words(const DrillItem& item, const WorkedCase& yours, const WorkedCase& right) {
  if (item.skill == Skill::clearance) return std::string(word("core.item.flown.hold"));
  const bool timing = item.skill == Skill::timing;
  if (timing && yours.flown.rollout.exists && right.flown.rollout.exists) {
    return phrase("core.item.flown.inbound", {{"yours", minutes(yours.flown.rollout.inbound_s)},
                                              {"right", minutes(right.flown.rollout.inbound_s)}});
  }
  const bool entry = item.skill == Skill::entry;
  return phrase(item.skill == Skill::wind ? "core.item.flown.lap"
                : entry                   ? "core.item.flown.entry"
                                          : "core.item.flown.two",
                {{"yours", entry ? entry_end(yours) : came_of(yours)},
                 {"right", entry ? entry_end(right) : came_of(right)}});
}

}  // namespace

Judged judge(const DrillItem& item, int at, std::string_view text) {
  Judged out;
  if (at < 0 || at >= static_cast<int>(item.steps.size())) {
    out.why_unreadable = word("core.answer.none");
    return out;
  }
  const Step& step = item.steps[static_cast<std::size_t>(at)];
  const std::optional<Answer> a = read_answer(step, text, out.why_unreadable);
  if (!a) return out;
  out.readable = true;
  out.right = accepts(step, *a);
  out.right_text = step.right_text;
  out.right_link = item.right_link;
  const std::string given = answer_text(step, *a);
  const bool same = given == step.right_text;
  const bool other_entry = out.right && step.kind == StepKind::choice && !same;
  const char* verdict = other_entry ? "core.item.judged.also"
                        : out.right ? same ? "core.item.judged.exact" : "core.item.judged.right"
                                    : "core.item.judged.wrong";
  out.words.push_back(phrase(verdict, {{"yours", given}, {"right", step.right_text}}));
  std::string mistake = out.right ? std::string() : mistake_words(item, step, *a);
  if (!mistake.empty()) out.words.push_back(std::move(mistake));
  out.words.push_back(step.worked);
  if (at + 1 < static_cast<int>(item.steps.size())) return out;

  if (item.skill == Skill::clearance) {
    for (std::string& s : decode_steps(read_clearance(item.question))) {
      out.words.push_back(std::move(s));
    }
  }
  const Scenario flown = flown_answer(item, step, *a);
  out.student_link = write_link(flown);
  if (same) return out;
  out.words.push_back(
      flown_words(item, work_out(flown), work_out(parse_link(item.right_link).scenario)));
  return out;
}

}  // namespace core
