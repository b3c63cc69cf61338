// core/word_table.h - where the core finds the words of its language.
#pragma once

#include <string_view>

namespace core {

/// Texts one after the other, sorted by key: key, kEndOfKey, text, kEndOfText. A search halves
/// it, so that no table is made at start and none of addresses is kept.
struct WordTable {
  std::string_view first;  ///< what the page's first view says
  std::string_view more;   ///< the rest; zeros until core-more.wasm is there
};
inline constexpr char kEndOfKey = '\x1f';
inline constexpr char kEndOfText = '\x1e';

/// Made by web/words.mjs from one catalogue. The library has the English one; a program that
/// has the object of another catalogue is linked with that and not with this.
extern const WordTable kWordTable;

}  // namespace core
