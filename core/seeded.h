// core/seeded.h - random numbers of integers alone, the same in every build and library:
// a class with one code gets the same questions everywhere.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>

namespace core {

/// splitmix64 (Steele, Lea, Flood 2014; public domain form by Vigna).
class Seeded {
 public:
  explicit Seeded(std::uint64_t state) : state_(state) {}

  std::uint64_t bits() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  /// Evenly in [0, count), by rejection; 0 where `count` is below 2.
  int below(int count) {
    if (count < 2) return 0;
    const auto n = static_cast<std::uint64_t>(count);
    const std::uint64_t spare = (0U - n) % n;  // 2^64 mod n
    std::uint64_t b = bits();
    while (b < spare) b = bits();
    return static_cast<int>(b % n);
  }
  /// Evenly in [low, high].
  int between(int low, int high) { return low + below(high - low + 1); }
  /// Each order equally likely (Fisher and Yates).
  template <class Sequence>
  void shuffle(Sequence& s) {
    for (std::size_t i = s.size(); i > 1; --i) {
      const auto j = static_cast<std::size_t>(below(static_cast<int>(i)));
      std::swap(s[i - 1], s[j]);
    }
  }

 private:
  std::uint64_t state_;
};

/// Start of the stream of item `item`: of its own, so that what one item draws changes no
/// other.
[[nodiscard]] inline std::uint64_t stream_of(std::string_view set_id, int set_version,
                                             std::uint32_t seed, int item) {
  // FNV-1a over the name, then a step of the generator for each number.
  std::uint64_t h = 0xCBF29CE484222325U;
  for (const char c : set_id) h = (h ^ static_cast<unsigned char>(c)) * 0x100000001B3U;
  const auto mix = [&](std::uint64_t n) { h = Seeded(h ^ n).bits(); };
  mix(static_cast<std::uint32_t>(set_version));
  mix(seed);
  mix(static_cast<std::uint32_t>(item));
  return h;
}

}  // namespace core
