// Questions on paper, with their key: the items of a class code, all at once.
#include <algorithm>
#include <array>

#include "core/check.h"
#include "core/seed_code.h"
#include "core/words.h"
#include "web/tutor.h"

namespace web {

using core::Json;
using core::Skill;

namespace {

/// The skill of item `k`. Beyond a check its order is gone through again; where that would ask
/// a skill twice running, each time with every skill in the place of the one before it.
Skill skill_on_sheet(const std::array<Skill, core::kCheckItems>& order, int k) {
  const Skill skill = order[static_cast<std::size_t>(k % core::kCheckItems)];
  if (order.front() != order.back()) return skill;
  std::vector<Skill> skills(order.begin(), order.end());
  std::sort(skills.begin(), skills.end());
  skills.erase(std::unique(skills.begin(), skills.end()), skills.end());
  const auto at = std::find(skills.begin(), skills.end(), skill) - skills.begin();
  return skills[(static_cast<std::size_t>(at) + static_cast<std::size_t>(k / core::kCheckItems)) %
                skills.size()];
}

}  // namespace

std::vector<core::DrillItem> Tutor::sheet_items(std::uint32_t seed, int count) const {
  const core::DrawKey key{set_.id, set_.version, seed};
  const std::array<Skill, core::kCheckItems> order = core::check_order(key, set_.skills);
  std::array<int, core::kSkills> asked{};
  std::vector<core::DrillItem> items;
  for (int k = 0; k < count; ++k) {
    const Skill skill = skill_on_sheet(order, k);
    const int n = asked[static_cast<std::size_t>(skill)]++;
    items.push_back(core::make_case(set_, seed, k, skill, core::wanted_case(key, skill, n)));
  }
  return items;
}

std::string Tutor::sheet(std::string_view code, int count) const {
  std::vector<core::Problem> problems;
  std::string why;
  const std::optional<core::ClassCode> read = core::read_class_code(code, why);
  if (!read) problems.push_back({"code", why});
  if (count < 1 || count > kMostOnSheet) {
    problems.push_back(
        {"count", core::phrase("core.tutor.bad.count", {{"value", std::to_string(count)},
                                                        {"most", std::to_string(kMostOnSheet)}})});
  }
  std::vector<core::DrillItem> items;
  if (problems.empty()) items = sheet_items(read->seed, count);

  Json j;
  j.open_object();
  j.key("set").open_object();
  j.field("id", set_.id).field("title", set_.title).field("version", set_.version);
  j.close_object();
  j.text_or_null("code", read ? core::write_class_code(*read) : std::string());
  write_problems(j, problems);
  j.key("items").open_array();
  int number = 0;
  for (const core::DrillItem& item : items) {
    const core::Step& last = item.steps.back();
    j.open_object();
    j.field("number", ++number);
    write_asked(j, item);
    j.field("question", item.question).field("ask", last.ask);
    j.field("kind", core::name_of(last.kind));
    j.key("choices").open_array();
    for (const core::Choice& c : last.choices) {
      j.open_object().field("value", c.value).field("label", c.label).close_object();
    }
    j.close_array();
    j.key("steps").open_array();
    for (const core::Step& s : item.steps) {
      j.open_object().field("ask", s.ask).field("worked", s.worked).close_object();
    }
    j.close_array();
    j.text_or_null("link", item.link);
    j.field("right_link", item.right_link);
    j.close_object();
  }
  j.close_array();
  j.close_object();
  return j.take();
}

void Tutor::write_asked(Json& j, const core::DrillItem& item) {
  const core::Step& last = item.steps.back();
  j.field("skill", core::name_of(item.skill));
  j.field("label", core::word("core.skill." + std::string(core::name_of(item.skill))));
  j.field("right_text", last.right_text);
  j.key("tolerance");
  if (last.kind == core::StepKind::choice) {
    j.null();
  } else {
    j.number(last.tolerance);
  }
  j.text_or_null("tolerance_text", last.tolerance_text);
}

void Tutor::write_answers(Json& j) const {
  const std::vector<core::DrillItem> items = sheet_items(seed_, core::kCheckItems);
  j.key("answers").open_array();
  for (int k = 0; k < core::kCheckItems; ++k) {
    j.open_object();
    j.field("number", k + 1);
    write_asked(j, items[static_cast<std::size_t>(k)]);
    j.text_or_null("given", check_given_[static_cast<std::size_t>(k)]);
    j.field("right", ((right_bits_ >> k) & 1U) != 0U);
    j.close_object();
  }
  j.close_array();
}

}  // namespace web
