// core/item_answer.h - answers as people write them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/item.h"

namespace core {

struct Answer {
  double number = 0.0;       ///< signed where the kind has a side: + = right
  std::optional<Side> side;  ///< as it was said
  int choice = -1;           ///< index into the step's choices
};

/// "94", "094°", "1:05", "65 s", "5 left", "L5", "85 L", "12 kt", or a choice by its value or
/// label. None where it cannot be read; then `why` is a sentence.
[[nodiscard]] std::optional<Answer> read_answer(const Step& step, std::string_view text,
                                                std::string& why);

/// Whether it is right.
[[nodiscard]] bool accepts(const Step& step, const Answer& answer);

/// An answer in the form in which right values are written.
[[nodiscard]] std::string answer_text(const Step& step, const Answer& answer);
/// The right value in that form.
[[nodiscard]] std::string right_text(const Step& step);

}  // namespace core
