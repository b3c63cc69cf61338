#include "web/tutor.h"

#include <algorithm>
#include <utility>

#include "core/seed_code.h"
#include "core/seeded.h"
#include "core/words.h"

namespace web {

using core::Level;
using core::Skill;

namespace {

/// Longest answer that is read, bytes.
constexpr std::size_t kMostAnswer = 200;
/// A check's items are the first of their code; practice has others, so that it never
/// rehearses the check of the same code.
constexpr int kFirstPracticeItem = 1000;

std::optional<Skill> skill_named(std::string_view name) {
  for (int s = 0; s < core::kSkills; ++s) {
    if (core::name_of(static_cast<Skill>(s)) == name) return static_cast<Skill>(s);
  }
  return std::nullopt;
}

std::vector<std::string_view> split(std::string_view text) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(','), text.size());
    if (end > 0) parts.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

/// An answer as it is shown again: short, printable, with its degree signs.
std::string echo(std::string_view text) {
  constexpr std::string_view kDegree = "°";
  constexpr std::size_t kMost = 24;
  std::string out;
  for (std::size_t i = 0; i < text.size() && i < kMost; ++i) {
    if (text.substr(i, kDegree.size()) == kDegree) {
      out += kDegree;
      i += kDegree.size() - 1;
    } else {
      out += text[i] >= ' ' && text[i] <= '~' ? text[i] : '?';
    }
  }
  return out;
}

}  // namespace

Tutor::Tutor() { use_set("mixed"); }

std::string Tutor::sets() const {
  core::Json j;
  j.open_array();
  for (const core::BuiltInSet& built_in : core::built_in_sets()) {
    const core::QuestionSet set = core::read_question_set(built_in.text).set;
    j.open_object();
    j.field("id", set.id).field("title", set.title).field("about", set.about);
    j.close_object();
  }
  j.close_array();
  return j.take();
}

std::string Tutor::use_set(std::string_view id_or_json) {
  // No JSON text is the name of a set.
  std::string_view text = id_or_json;
  for (const core::BuiltInSet& built_in : core::built_in_sets()) {
    if (built_in.id == id_or_json) text = built_in.text;
  }
  core::ReadQuestionSet read;
  if (core::is_set_id(text)) {
    read.usable = false;
    read.problems = {{"set", core::phrase("core.tutor.bad.set",
                                          {{"value", core::quotable(text)}, {"used", set_.id}})}};
  } else {
    read = core::read_question_set(text);
  }
  if (read.usable) {
    end();
    set_ = std::move(read.set);
  }
  core::Json j;
  j.open_object();
  j.field("id", set_.id).field("title", set_.title).field("version", set_.version);
  j.field("usable", read.usable);
  write_problems(j, read.problems);
  j.close_object();
  return j.take();
}

core::DrawKey Tutor::key() const { return {set_.id, set_.version, seed_}; }

int Tutor::step() const { return at_ < asked_.size() ? asked_[at_] : -1; }

void Tutor::end() {
  mode_ = Mode::none;
  stage_ = Stage::none;
  item_.reset();
  judged_.reset();
  chooser_.reset();
  asked_.clear();
  given_.clear();
  hints_.clear();
  problems_.clear();
  at_ = 0;
  answered_ = 0;
  number_ = 0;
}

std::string Tutor::stop() {
  end();
  return state();
}

void Tutor::today(int day) { day_ = day >= 0 && day <= core::kLastDay ? day : core::kNoDay; }

std::string Tutor::begin(std::string_view mode, std::string_view code, std::string_view skills) {
  end();
  const auto refuse = [&](const char* field, std::string message) {
    problems_.push_back({field, std::move(message)});
    return state();
  };
  if (mode != "practice" && mode != "check") {
    return refuse("mode", core::phrase("core.tutor.bad.mode", {{"value", core::quotable(mode)}}));
  }
  std::string why;
  const std::optional<core::ClassCode> read = core::read_class_code(code, why);
  if (!read) return refuse("code", why);
  core::SkillBits chosen = 0;
  for (const std::string_view name : split(skills)) {
    const std::optional<Skill> skill = skill_named(name);
    if (skill && (set_.skills & core::bit_of(*skill)) != 0U) {
      chosen |= core::bit_of(*skill);
    } else {
      problems_.push_back(
          {"skills", core::phrase("core.tutor.bad.skill", {{"value", core::quotable(name)}})});
    }
  }
  if (chosen == 0U) chosen = set_.skills;

  code_ = core::write_class_code(*read);
  seed_ = read->seed;
  if (mode == "practice") {
    mode_ = Mode::practice;
    int asked = 0;
    for (const core::SkillRecord& r : progress_.skills) asked += r.asked;
    chooser_.emplace(key(), asked, chosen);
  } else {
    mode_ = Mode::check;
    order_ = core::check_order(key(), set_.skills);
    tally_ = {};
    const std::optional<core::OpenCheck>& open = progress_.open_check;
    const bool goes_on =
        open && open->set_id == set_.id && open->set_version == set_.version && open->code == code_;
    if (!goes_on) {
      progress_.open_check = core::OpenCheck{set_.id, set_.version, code_, 0, 0};
      check_given_ = {};
    }
    answered_ = progress_.open_check->answered;
    right_bits_ = progress_.open_check->right;
    for (int i = 0; i < answered_; ++i) {
      tally_.add(order_[static_cast<std::size_t>(i)],
                 ((progress_.open_check->right >> i) & 1U) != 0U);
    }
  }
  take_item();
  return state();
}

void Tutor::take_item() {
  ++number_;
  Skill skill{};
  int k = 0;
  int n = 0;  // which of its skill
  if (practising()) {
    skill = chooser_->next(progress_.skills);
    const core::SkillRecord& r = progress_.skills[static_cast<std::size_t>(skill)];
    n = r.asked;
    k = kFirstPracticeItem + n * core::kSkills + static_cast<int>(skill);
    level_ = r.level;
  } else {
    number_ = answered_ + 1;
    k = answered_;
    skill = order_[static_cast<std::size_t>(k)];
    n = tally_.of[static_cast<std::size_t>(skill)];
    level_ = Level::bare;
  }
  item_ = core::make_case(set_, seed_, k, skill, core::wanted_case(key(), skill, n));

  const int steps = static_cast<int>(item_->steps.size());
  asked_.clear();
  switch (level_) {
    case Level::worked:
      break;
    case Level::one_blank: {
      core::Seeded random(core::stream_of(set_.id + "#blank", set_.version, seed_, k));
      asked_.push_back(random.below(steps));
      break;
    }
    case Level::all_blank:
      for (int i = 0; i < steps; ++i) asked_.push_back(i);
      break;
    case Level::bare:
      asked_.push_back(steps - 1);
      break;
  }
  at_ = 0;
  given_.assign(item_->steps.size(), {});
  hints_.clear();
  judged_.reset();
  again_ = false;
  outcome_ = {};
  outcome_.right = true;
  outcome_.met = core::met_in(item_->scenario);
  outcome_.day = day_;
  level_after_ = level_;
  stage_ = asked_.empty() ? Stage::read : Stage::ask;
}

std::string Tutor::answer(std::string_view text) {
  const bool again = stage_ == Stage::feedback && practising();
  if (stage_ != Stage::ask && !again) return state();
  judged_ = core::judge(*item_, step(), text.substr(0, kMostAnswer));
  again_ = again;
  if (again || !judged_->readable) return state();
  Given& given = given_[static_cast<std::size_t>(step())];
  given.text = echo(text);
  given.tried = true;
  given.right = judged_->right;
  if (!given.right) outcome_.right = false;
  stage_ = Stage::feedback;
  if (last_asked()) finish_item();
  return state();
}

std::string Tutor::hint() {
  if (stage_ != Stage::ask || !practising() || hints_left() == 0) return state();
  hints_.push_back(hint_text(static_cast<int>(hints_.size())));
  outcome_.hinted = true;
  judged_.reset();
  return state();
}

std::string Tutor::show_me() {
  if (stage_ != Stage::ask || !practising()) return state();
  given_[static_cast<std::size_t>(step())].shown = true;
  outcome_.shown = true;
  outcome_.right = false;
  judged_.reset();
  again_ = false;
  stage_ = Stage::feedback;
  if (last_asked()) finish_item();
  return state();
}

void Tutor::finish_item() {
  const Skill skill = item_->skill;
  if (practising()) {
    core::SkillRecord& r = progress_.skills[static_cast<std::size_t>(skill)];
    core::record(r, skill, level_, outcome_);
    level_after_ = r.level;
    if (!outcome_.right) chooser_->missed();
    return;
  }
  tally_.add(skill, outcome_.right);
  if (outcome_.right) right_bits_ |= 1U << answered_;
  check_given_[static_cast<std::size_t>(answered_)] = given_.back().text;
  progress_.open_check->right = right_bits_;
  progress_.open_check->answered = ++answered_;
  if (answered_ < core::kCheckItems) return;
  core::add_check(progress_, {set_.id, set_.version, code_, 1, tally_, day_});
  progress_.open_check.reset();
}

std::string Tutor::next() {
  if (stage_ == Stage::read) {
    finish_item();
    take_item();
  } else if (stage_ == Stage::feedback && !last_asked()) {
    ++at_;
    hints_.clear();
    judged_.reset();
    again_ = false;
    stage_ = Stage::ask;
  } else if (stage_ == Stage::feedback && mode_ == Mode::check && answered_ == core::kCheckItems) {
    item_.reset();
    judged_.reset();
    stage_ = Stage::done;
  } else if (stage_ == Stage::feedback) {
    take_item();
  }
  return state();
}

bool Tutor::visible(int step) const {
  const bool settled = stage_ == Stage::feedback;
  switch (level_) {
    case Level::worked:
      return true;
    case Level::one_blank:
      return settled || step < asked_.front();
    case Level::all_blank:
      return step < asked_[at_] || (settled && step == asked_[at_]);
    case Level::bare:
      return settled;
  }
  return false;
}

int Tutor::hints_left() const {
  if (step() < 0) return 0;
  // A bare question's hints are its steps but the last, then how the last is done.
  const int all = level_ == Level::bare ? step() + 1 : 1;
  return std::max(all - static_cast<int>(hints_.size()), 0);
}

std::string Tutor::hint_text(int n) const {
  const int at = level_ == Level::bare ? n : step();
  const core::Step& s = item_->steps[static_cast<std::size_t>(at)];
  if (at != step()) return s.worked;
  // A step's own hint where the catalogue has one, else its skill's.
  const std::string skill = "core.hint." + std::string(core::name_of(item_->skill));
  const std::string own = skill + "." + s.id;
  const std::string_view text = core::word(own);
  return std::string(text == own ? core::word(skill) : text);
}

std::string Tutor::new_code(std::uint32_t number) {
  core::ClassCode code;
  code.seed = number;
  return core::write_class_code(code);
}

std::string Tutor::progress() const { return core::write_progress(progress_); }

std::string Tutor::take_progress(std::string_view text) {
  core::ReadProgress read = core::read_progress(text);
  if (read.usable) {
    end();
    check_given_ = {};
    progress_ = std::move(read.progress);
  }
  core::Json j;
  j.open_object();
  j.field("taken", read.usable);
  write_problems(j, read.problems);
  j.close_object();
  return j.take();
}

void Tutor::clear_progress() {
  end();
  check_given_ = {};
  progress_ = {};
}

}  // namespace web
