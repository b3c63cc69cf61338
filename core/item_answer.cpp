#include "core/item_answer.h"

#include <cmath>

#include "core/practice_text.h"
#include "core/text_number.h"

namespace core {
namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string lowered(std::string_view text) {
  std::string out;
  for (const char c : text) out += lower(c);
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

/// Numbers, sides and units; anything else spoils it.
struct Pieces {
  std::string number;
  std::optional<Side> side;
  bool good = true;
};

Pieces pieces_of(std::string_view text) {
  constexpr std::string_view kUnits[] = {"kt", "kts", "knot", "knots",   "deg",  "degrees",
                                         "s",  "sec", "secs", "seconds", "turn", "turns"};
  constexpr std::string_view kDegree = "°";
  Pieces p;
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if ((c >= '0' && c <= '9') || c == ':' || c == '.') {
      const std::size_t end = std::min(text.find_first_not_of("0123456789:.", i), text.size());
      if (!p.number.empty()) p.good = false;
      p.number = text.substr(i, end - i);
      i = end;
    } else if (is_letter(c)) {
      std::size_t end = i;
      while (end < text.size() && is_letter(text[end])) ++end;
      const std::string name = lowered(text.substr(i, end - i));
      i = end;
      const bool left = name == "l" || name == "left";
      if (left || name == "r" || name == "right") {
        if (p.side) p.good = false;
        p.side = left ? Side::left : Side::right;
        continue;
      }
      bool unit = false;
      for (const std::string_view u : kUnits) unit = unit || u == name;
      if (!unit) p.good = false;
    } else if (text.substr(i, kDegree.size()) == kDegree) {
      i += kDegree.size();
    } else {
      if (c != ' ' && c != ',' && c != '\t') p.good = false;
      ++i;
    }
  }
  return p;
}

bool sided(StepKind kind) { return kind == StepKind::correction || kind == StepKind::hold; }

}  // namespace

std::optional<Answer> read_answer(const Step& step, std::string_view text, std::string& why) {
  const std::string_view given = trimmed(text);
  const auto refuse = [&](const char* key) -> std::optional<Answer> {
    why = phrase(key, {{"value", quotable(given)}});
    return std::nullopt;
  };
  if (given.empty()) return refuse("core.answer.empty");
  if (step.kind == StepKind::choice) {
    const std::string wanted = lowered(given);
    for (std::size_t i = 0; i < step.choices.size(); ++i) {
      if (wanted == step.choices[i].value || wanted == lowered(step.choices[i].label)) {
        Answer a;
        a.choice = static_cast<int>(i);
        return a;
      }
    }
    return refuse("core.answer.choice");
  }
  const Pieces p = pieces_of(given.substr(0, 64));
  if (!p.good || p.number.empty()) return refuse("core.answer.number");
  if (p.side && !sided(step.kind)) return refuse("core.answer.number");
  const std::optional<double> n =
      step.kind == StepKind::seconds ? read_time(p.number) : read_number(p.number);
  if (!n) return refuse("core.answer.number");
  Answer a{*n, p.side, -1};
  const bool direction = step.kind == StepKind::direction || step.kind == StepKind::hold;
  if (direction && *n > 360.0) return refuse("core.answer.direction");
  if (step.kind == StepKind::correction && *n > 180.0) return refuse("core.answer.direction");
  if (*n > 100000.0) return refuse("core.answer.number");
  if (direction) a.number = wrap_360(*n);
  if (step.kind == StepKind::correction) {
    if (!p.side && *n != 0.0) return refuse("core.answer.side");
    if (p.side) a.number = sign_of(*p.side) * *n;
  }
  if (step.kind == StepKind::hold && !p.side) return refuse("core.answer.turns");
  return a;
}

bool accepts(const Step& step, const Answer& a) {
  switch (step.kind) {
    case StepKind::choice:
      return a.choice >= 0 && ((step.acceptable >> static_cast<unsigned>(a.choice)) & 1U) != 0U;
    case StepKind::direction:
      return std::abs(wrap_180(a.number - step.value)) <= step.tolerance;
    case StepKind::hold:
      return std::abs(wrap_180(a.number - step.value)) <= step.tolerance && a.side == step.turns;
    case StepKind::correction: {
      // Half a circle is as far to either side.
      const bool either =
          std::abs(step.value) < kSidedFromDeg || std::abs(step.value) > 180.0 - step.tolerance;
      if (!either && a.number * step.value <= 0.0) return false;
      return std::abs(wrap_180(a.number - step.value)) <= step.tolerance;
    }
    case StepKind::degrees:
    case StepKind::knots:
    case StepKind::seconds:
      break;
  }
  return std::abs(a.number - step.value) <= step.tolerance;
}

std::string answer_text(const Step& step, const Answer& a) {
  switch (step.kind) {
    case StepKind::choice:
      return a.choice >= 0 && a.choice < static_cast<int>(step.choices.size())
                 ? step.choices[static_cast<std::size_t>(a.choice)].label
                 : std::string();
    case StepKind::direction:
      return degrees_3(a.number);
    case StepKind::degrees:
      return fixed(a.number, 0) + "°";
    case StepKind::knots:
      return fixed(a.number, 0) + " kt";
    case StepKind::seconds:
      return minutes(a.number);
    case StepKind::correction:
      return correction_text(a.number);
    case StepKind::hold:
      break;
  }
  return degrees_3(a.number) + " " + side_text(sign_of(a.side.value_or(Side::right)));
}

std::string right_text(const Step& step) {
  Answer a{step.value, step.turns, -1};
  for (std::size_t i = 0; a.choice < 0 && i < step.choices.size(); ++i) {
    if ((step.acceptable >> i) & 1U) a.choice = static_cast<int>(i);
  }
  return answer_text(step, a);
}

std::string_view name_of(StepKind kind) {
  constexpr std::string_view kNames[] = {"choice",  "direction",  "degrees", "knots",
                                         "seconds", "correction", "hold"};
  return kNames[static_cast<int>(kind)];
}

}  // namespace core
