// core/json_read.h - reads JSON text (RFC 8259) that people may have edited: question sets
// and progress files. The core includes the standard library alone, which has no reader.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace core {

struct JsonMember;

/// A value and what is in it. A number keeps its text: integers are read without floating
/// point.
struct JsonValue {
  enum class Kind { null, boolean, number, text, array, object };
  Kind kind = Kind::null;
  bool boolean = false;
  std::string text;  ///< of a text, unescaped; of a number, as it stands
  std::vector<JsonValue> items;
  std::vector<JsonMember> members;  ///< in order; of a name given twice find() has the last

  /// A member by its name, or null.
  [[nodiscard]] const JsonValue* find(std::string_view name) const;
  /// The number where it is a whole one within +-2,000,000,000.
  [[nodiscard]] std::optional<int> whole() const;
};

struct JsonMember {
  std::string name;
  JsonValue value;
};

struct JsonRead {
  JsonValue value;    ///< null where it could not be read
  std::string error;  ///< a sentence with line and column; empty where it was read

  [[nodiscard]] bool ok() const { return error.empty(); }
};

/// Bounds of the work: longer, deeper or richer texts are refused.
inline constexpr std::size_t kMostJsonBytes = 262144;
inline constexpr int kMostJsonDepth = 16;
inline constexpr int kMostJsonValues = 40000;

/// Strict: no comments, no commas too many, nothing behind the value. A byte order mark in
/// front is passed over. Bytes outside ASCII are taken as they are.
[[nodiscard]] JsonRead read_json(std::string_view text);

}  // namespace core
