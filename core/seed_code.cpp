#include "core/seed_code.h"

#include <array>

#include "core/words.h"

namespace core {
namespace {

constexpr std::string_view kFigures = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr int kCodeFigures = 4;
/// Weights of the check: odd, so that no single change cancels modulo 32. Neighbours differ
/// by 2 modulo 4, so an exchange is missed only for figures 16 apart.
constexpr std::array<unsigned, kCodeFigures> kWeights = {1, 3, 5, 7};

std::optional<unsigned> figure(char c) {
  if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  if (c == 'O') c = '0';
  if (c == 'I' || c == 'L') c = '1';
  const std::size_t at = kFigures.find(c);
  if (at == std::string_view::npos) return std::nullopt;
  return static_cast<unsigned>(at);
}

unsigned check_of(const std::array<unsigned, kCodeFigures>& figures) {
  unsigned sum = 0;
  for (std::size_t i = 0; i < figures.size(); ++i) sum += kWeights[i] * figures[i];
  return sum % 32U;
}

}  // namespace

std::optional<ClassCode> read_class_code(std::string_view text, std::string& why) {
  std::array<unsigned, kCodeFigures + 1> figures{};
  std::size_t count = 0;
  const std::string shown = quotable(text);
  for (const char c : text) {
    if (c == ' ' || c == '-' || c == '\t') continue;
    const std::optional<unsigned> f = figure(c);
    if (!f) {
      why = phrase("core.code.character", {{"value", shown}});
      return std::nullopt;
    }
    if (count < figures.size()) figures[count] = *f;
    ++count;
  }
  if (count != figures.size()) {
    why = phrase("core.code.length",
                 {{"value", shown}, {"count", fixed(static_cast<double>(count), 0)}});
    return std::nullopt;
  }
  std::array<unsigned, kCodeFigures> body{};
  unsigned number = 0;
  for (std::size_t i = 0; i < body.size(); ++i) {
    body[i] = figures[i];
    number = number * 32U + figures[i];
  }
  if (check_of(body) != figures[kCodeFigures]) {
    why = phrase("core.code.check", {{"value", shown}});
    return std::nullopt;
  }
  const ClassCode code{static_cast<int>(number / kSeeds), number % kSeeds};
  if (code.generator != kGenerator) {
    why = phrase("core.code.generator", {{"value", shown}});
    return std::nullopt;
  }
  return code;
}

std::string write_class_code(ClassCode code) {
  const auto generator = static_cast<unsigned>(code.generator) % kGenerators;
  unsigned number = generator * kSeeds + code.seed % kSeeds;
  std::array<unsigned, kCodeFigures> figures{};
  for (std::size_t i = figures.size(); i-- > 0; number /= 32U) figures[i] = number % 32U;
  std::string out;
  for (const unsigned f : figures) out += kFigures[f];
  return out + kFigures[check_of(figures)];
}

}  // namespace core
