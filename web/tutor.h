// web/tutor.h - the state of practice and check: which item is asked, what was answered,
// what counts. Plain C++, tested natively; the page calls it through web/core_exports.cpp.
// What is right, what counts and what comes next is the core's.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/check.h"
#include "core/json.h"
#include "core/progress.h"
#include "core/question_set.h"

namespace web {

/// Most questions of one sheet.
inline constexpr int kMostOnSheet = 60;

class Tutor {
 public:
  enum class Mode { none, practice, check };
  /// What is wanted of the person.
  enum class Stage {
    none,      ///< nothing begun
    read,      ///< a worked example: read it, then next()
    ask,       ///< an answer
    feedback,  ///< the answer was judged: look at it, then next()
    done,      ///< the check is over
  };

  Tutor();

  /// The built-in sets: id, title, about.
  [[nodiscard]] std::string sets() const;
  /// A built-in set by its id, or one as JSON text. Ends what was running. A set that cannot
  /// be used changes nothing; the answer says why.
  std::string use_set(std::string_view id_or_json);

  /// Begins practice or a check; `skills` are names with commas between, for practice alone,
  /// empty: all of the set. A check of this set and code that was left goes on. The answer
  /// of this and of the calls below is the state.
  std::string begin(std::string_view mode, std::string_view code, std::string_view skills);
  /// Answers the question asked. The first try counts; in feedback of practice it is one more
  /// try, judged and not counted. An unreadable answer is no try.
  std::string answer(std::string_view text);
  /// One hint more; practice only, before the first try. The item then does not count.
  std::string hint();
  /// Shows the answer; practice only, before the first try. The item then does not count.
  std::string show_me();
  /// On to the next step, item, or the end of the check. From a question: nothing.
  std::string next();
  /// Ends practice or check; a check begun stays open and can go on.
  std::string stop();
  [[nodiscard]] std::string state() const;

  /// The items of a class code in the set in use, with their answers: the first twelve are
  /// the check's of that code. `count` 1 to kMostOnSheet. Changes nothing.
  [[nodiscard]] std::string sheet(std::string_view code, int count) const;
  /// As drawn; `count` 0 and above.
  [[nodiscard]] std::vector<core::DrillItem> sheet_items(std::uint32_t seed, int count) const;

  /// The day, counted from 1 January 1970. Others are taken as unknown.
  void today(int day);
  /// A code of the present generator for a number, for a new practice or a class.
  [[nodiscard]] static std::string new_code(std::uint32_t number);

  [[nodiscard]] std::string progress() const;
  /// Replaces the progress by a file's and ends what was running. Where the text is no
  /// progress file, nothing changes.
  std::string take_progress(std::string_view text);
  /// Forgets everything.
  void clear_progress();

  [[nodiscard]] Mode mode() const { return mode_; }
  [[nodiscard]] Stage stage() const { return stage_; }
  [[nodiscard]] const core::DrillItem* item() const { return item_ ? &*item_ : nullptr; }
  /// The step that is asked, or was last; -1 where there is none.
  [[nodiscard]] int step() const;
  [[nodiscard]] const core::Progress& record() const { return progress_; }

 private:
  /// What became of a step.
  struct Given {
    std::string text;  ///< first answer
    bool tried = false;
    bool right = false;
    bool shown = false;
  };

  void take_item();
  void finish_item();
  void end();
  [[nodiscard]] core::DrawKey key() const;
  [[nodiscard]] bool practising() const { return mode_ == Mode::practice; }
  [[nodiscard]] bool last_asked() const { return at_ + 1 >= asked_.size(); }
  /// Whether the sum of a step may be seen.
  [[nodiscard]] bool visible(int step) const;
  [[nodiscard]] int hints_left() const;
  /// Hint `n` to the present question, 0 the first.
  [[nodiscard]] std::string hint_text(int n) const;

  // web/tutor_sheet.cpp
  /// What was asked of an item, and what is right.
  static void write_asked(core::Json& j, const core::DrillItem& item);
  /// The check that is done, an answer a row.
  void write_answers(core::Json& j) const;

  // web/tutor_json.cpp
  static void write_problems(core::Json& j, const std::vector<core::Problem>& problems);
  void write_state(core::Json& j) const;
  void write_item(core::Json& j) const;
  void write_step(core::Json& j, int step) const;
  void write_judged(core::Json& j) const;
  void write_skills(core::Json& j) const;
  void write_result(core::Json& j) const;
  [[nodiscard]] std::string count_words() const;

  core::QuestionSet set_;
  core::Progress progress_;
  int day_ = core::kNoDay;

  Mode mode_ = Mode::none;
  Stage stage_ = Stage::none;
  std::string code_;
  std::uint32_t seed_ = 0;
  std::vector<core::Problem> problems_;  ///< of the last begin()
  std::optional<core::NextItem> chooser_;

  int number_ = 0;  ///< of the item, from 1

  // The item.
  std::optional<core::DrillItem> item_;
  core::Level level_ = core::Level::worked;  ///< at which it is asked
  std::vector<int> asked_;                   ///< steps that are asked, in order
  std::size_t at_ = 0;                       ///< of them, the present one
  std::vector<Given> given_;                 ///< by step
  std::vector<std::string> hints_;           ///< to the present question
  core::Outcome outcome_;
  core::Level level_after_ = core::Level::worked;  ///< once the item is over
  std::optional<core::Judged> judged_;
  bool again_ = false;  ///< `judged_` is of one more try

  // The check.
  std::array<core::Skill, core::kCheckItems> order_{};
  int answered_ = 0;         ///< items with their first try
  unsigned right_bits_ = 0;  ///< of them, right; the first in bit 0
  core::CheckTally tally_;
  /// Of the open check, or the one just done: first answers as they were given. In memory
  /// alone, so empty where they were given before the page was loaded.
  std::array<std::string, core::kCheckItems> check_given_;
};

}  // namespace web
