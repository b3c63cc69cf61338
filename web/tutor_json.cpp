// The tutor's state as JSON; docs/module.md "The tutor" has the fields.
#include <cmath>

#include "core/words.h"
#include "web/tutor.h"

namespace web {

using core::Json;
using core::Skill;

namespace {

constexpr std::string_view kModes[] = {"none", "practice", "check"};
constexpr std::string_view kStages[] = {"none", "read", "ask", "feedback", "done"};

std::string label_of(Skill skill) {
  return std::string(core::word("core.skill." + std::string(core::name_of(skill))));
}

void texts(Json& j, std::string_view name, const std::vector<std::string>& lines) {
  j.key(name).open_array();
  for (const std::string& line : lines) j.text(line);
  j.close_array();
}

}  // namespace

void Tutor::write_problems(Json& j, const std::vector<core::Problem>& problems) {
  j.key("problems").open_array();
  for (const core::Problem& p : problems) {
    j.open_object().field("key", p.key).field("message", p.message).close_object();
  }
  j.close_array();
}

std::string Tutor::state() const {
  Json j;
  write_state(j);
  return j.take();
}

void Tutor::write_state(Json& j) const {
  const bool ask = stage_ == Stage::ask;
  const bool feedback = stage_ == Stage::feedback;
  j.open_object();
  j.field("mode", kModes[static_cast<int>(mode_)]);
  j.field("stage", kStages[static_cast<int>(stage_)]);
  j.key("set").open_object();
  j.field("id", set_.id).field("title", set_.title).field("version", set_.version);
  j.close_object();
  j.text_or_null("code", mode_ == Mode::none ? std::string() : code_);
  j.field("number", number_);
  j.key("of");
  if (mode_ == Mode::check) {
    j.number(core::kCheckItems);
  } else {
    j.null();
  }
  write_problems(j, problems_);
  j.key("can").open_object();
  j.field("answer", ask || (feedback && practising()));
  j.field("hint", ask && practising() && hints_left() > 0);
  j.field("show_me", ask && practising());
  j.field("next", feedback || stage_ == Stage::read);
  j.close_object();
  write_item(j);
  write_judged(j);
  write_skills(j);
  write_result(j);
  j.close_object();
}

void Tutor::write_item(Json& j) const {
  j.key("item");
  if (!item_) {
    j.null();
    return;
  }
  j.open_object();
  j.field("skill", core::name_of(item_->skill));
  j.field("label", label_of(item_->skill));
  j.field("level", core::name_of(level_));
  j.field("level_words", core::word("core.level." + std::string(core::name_of(level_))));
  j.field("question", item_->question);
  // A worked example hides nothing: not even the hold of a clearance.
  const bool worked = stage_ == Stage::read;
  j.field("link", worked && item_->link.empty() ? item_->right_link : item_->link);
  const bool counts = mode_ == Mode::check || (core::counts_at(level_) && !outcome_.helped());
  j.field("counts", counts);
  j.key("steps").open_array();
  for (int i = 0; i < static_cast<int>(item_->steps.size()); ++i) write_step(j, i);
  j.close_array();
  j.key("asked");
  if (step() < 0) {
    j.null();
  } else {
    j.number(step());
  }
  texts(j, "hints", hints_);
  j.field("hints_left", practising() && stage_ == Stage::ask ? hints_left() : 0);
  j.close_object();
}

void Tutor::write_step(Json& j, int step) const {
  const auto at = static_cast<std::size_t>(step);
  const core::Step& s = item_->steps[at];
  const Given& given = given_[at];
  const bool asked = stage_ != Stage::read && step == this->step();
  const bool open = visible(step);
  // A step that is still to come may hold the answer in its very question.
  const bool hidden = !asked && !open;
  std::string_view state = "given";
  if (hidden) state = "hidden";
  if (asked && stage_ == Stage::ask) state = "asked";
  if (given.tried) state = given.right ? "right" : "wrong";
  if (given.shown) state = "shown";
  j.open_object();
  j.field("id", s.id);
  j.field("state", state);
  j.text_or_null("ask", hidden ? std::string() : s.ask);
  j.field("kind", core::name_of(s.kind));
  j.key("choices").open_array();
  if (!hidden) {
    for (const core::Choice& c : s.choices) {
      j.open_object().field("value", c.value).field("label", c.label).close_object();
    }
  }
  j.close_array();
  j.text_or_null("tolerance", hidden ? std::string() : s.tolerance_text);
  j.text_or_null("given", given.text);
  j.text_or_null("worked", open ? s.worked : std::string());
  j.text_or_null("right_text", open ? s.right_text : std::string());
  j.close_object();
}

std::string Tutor::count_words() const {
  if (again_) return std::string(core::word("core.tutor.count.again"));
  if (!last_asked()) return {};
  const char* how = outcome_.right ? "right" : "wrong";
  if (practising()) {
    if (outcome_.hinted) how = "hint";
    if (outcome_.shown) how = "shown";
    if (!core::counts_at(level_)) how = "level";
  }
  return std::string(core::word(std::string("core.tutor.count.") + how));
}

void Tutor::write_judged(Json& j) const {
  j.key("judged");
  const bool shown = stage_ == Stage::feedback && !judged_;
  if (!judged_ && !shown) {
    j.null();
    return;
  }
  const core::Step& s = item_->steps[static_cast<std::size_t>(step())];
  const bool over = stage_ == Stage::feedback && last_asked();
  j.open_object();
  j.field("readable", !judged_ || judged_->readable);
  j.field("shown", shown);
  j.field("again", again_);
  j.key("right");
  if (judged_ && judged_->readable) {
    j.boolean(judged_->right);
  } else {
    j.null();
  }
  j.text_or_null("why_unreadable", judged_ ? judged_->why_unreadable : std::string());
  const bool settled = stage_ == Stage::feedback;
  j.text_or_null("right_text", settled ? s.right_text : std::string());
  texts(j, "words", judged_ ? judged_->words : std::vector<std::string>{s.worked});
  j.text_or_null("student_link", judged_ ? judged_->student_link : std::string());
  j.text_or_null("right_link", settled ? item_->right_link : std::string());
  // Of the whole item, once its last step has been tried.
  const bool counted = mode_ == Mode::check || (core::counts_at(level_) && !outcome_.helped());
  j.key("counted");
  if (over) {
    j.boolean(counted && !again_);
  } else {
    j.null();
  }
  j.text_or_null("counted_words", settled ? count_words() : std::string());
  const int moved = over ? static_cast<int>(level_after_) - static_cast<int>(level_) : 0;
  j.text_or_null("moved", moved == 0 ? "" : moved > 0 ? "up" : "down");
  const std::string to = "core.tutor.moved." + std::string(moved > 0 ? "up." : "down.") +
                         std::string(core::name_of(level_after_));
  j.text_or_null("moved_words", moved == 0 ? std::string_view() : core::word(to));
  j.close_object();
}

void Tutor::write_skills(Json& j) const {
  j.key("skills").open_array();
  for (int i = 0; i < core::kSkills; ++i) {
    const auto skill = static_cast<Skill>(i);
    const core::SkillRecord& r = progress_.skills[static_cast<std::size_t>(i)];
    const core::StatusWords words = core::status_words(r, skill);
    j.open_object();
    j.field("skill", core::name_of(skill));
    j.field("label", label_of(skill));
    j.field("in_set", (set_.skills & core::bit_of(skill)) != 0U);
    j.field("status", core::name_of(core::status_of(r, skill)));
    j.field("status_words", words.status);
    j.key("dots").open_array();
    for (int k = 0; k < core::window_size(r); ++k) j.boolean(core::window_at(r, k));
    j.close_array();
    j.field("of", core::kWindow);
    j.field("recent", words.recent);
    j.field("counted", r.counted);
    j.field("right", r.right);
    j.field("level", core::name_of(r.level));
    j.field("level_words", core::word("core.level." + std::string(core::name_of(r.level))));
    texts(j, "missing", words.missing);
    j.field("how", words.how);
    j.close_object();
  }
  j.close_array();
}

void Tutor::write_result(Json& j) const {
  j.key("result");
  // Of a check there is a result as soon as the last item is judged.
  const bool complete = mode_ == Mode::check && answered_ == core::kCheckItems;
  if (!complete) {
    j.null();
    return;
  }
  const int right = tally_.all_right();
  const int of = tally_.all();
  const core::ShareRange range = core::wilson_95(right, of);
  const core::CheckRecord* kept = core::find_check(progress_, set_.id, set_.version, code_);
  j.open_object();
  j.field("right", right).field("of", of).field("score", core::check_score(right, of));
  j.field("low_percent", std::floor(100.0 * range.low + 0.5));
  j.field("high_percent", std::floor(100.0 * range.high + 0.5));
  j.field("words", core::check_words(right, of));
  j.key("skills").open_array();
  for (std::size_t s = 0; s < core::kSkills; ++s) {
    if (tally_.of[s] == 0) continue;
    j.open_object();
    j.field("skill", core::name_of(static_cast<Skill>(s)));
    j.field("label", label_of(static_cast<Skill>(s)));
    j.field("right", tally_.right[s]).field("of", tally_.of[s]);
    j.close_object();
  }
  j.close_array();
  write_answers(j);
  const int tries = kept ? kept->tries : 1;
  const int best = kept ? kept->best.all_right() : right;
  j.field("tries", tries).field("best", best);
  j.field("best_words", tries == 1
                            ? std::string(core::word("core.check.first_try"))
                            : core::phrase("core.check.tries", {{"tries", std::to_string(tries)},
                                                                {"best", std::to_string(best)},
                                                                {"of", std::to_string(of)}}));
  j.close_object();
}

}  // namespace web
