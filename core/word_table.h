// core/word_table.h - where the core finds the words of its language.
#pragma once

#include <cstddef>

#include "core/words.h"

namespace core {

/// Sorted by key, so that a binary search finds a word without a table made at start.
struct WordTable {
  const Word* words;
  std::size_t count;
};

/// Made by web/words.mjs from one catalogue. The library has the English one; a program that
/// has the object of another catalogue is linked with that and not with this.
extern const WordTable kWordTable;

}  // namespace core
