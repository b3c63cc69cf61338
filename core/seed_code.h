// core/seed_code.h - the short code that gives a class the same questions.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace core {

/// Bumped when the same seed would make other items.
inline constexpr int kGenerator = 1;

struct ClassCode {
  int generator = kGenerator;
  std::uint32_t seed = 0;  ///< below kSeeds
};
/// Seeds that a code can say: with the generator, four figures of base 32.
inline constexpr std::uint32_t kSeeds = 1U << 16U;
inline constexpr int kGenerators = 16;

/// Five characters: four figures in Crockford's base 32 (the generator above the seed) and a
/// check character. Case, spaces and hyphens do not matter; O is read as 0, I and L as 1.
/// Every single wrong character is found (docs/practice.md "Class codes"). Else none, and
/// `why` is a sentence.
[[nodiscard]] std::optional<ClassCode> read_class_code(std::string_view text, std::string& why);
/// Generator and seed are taken modulo what a code can say.
[[nodiscard]] std::string write_class_code(ClassCode code);

}  // namespace core
