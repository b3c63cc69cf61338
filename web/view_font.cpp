#include "web/view_font.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace view {
namespace {

// Made from assets/fonts/canvas-*.ttf by web/embed.mjs.
constexpr unsigned char kRegular[] = {
#include "canvas-regular.inc"
};
constexpr unsigned char kSemibold[] = {
#include "canvas-semibold.inc"
};

/// Label sizes that are kept sharp, CSS pixels, plain and strong: those of core/picture.cpp.
/// Others are drawn from the nearest.
constexpr double kLabelSizes[2][4] = {{11.0, 12.0, 13.0, 15.0}, {12.0, 13.0, 15.0, 17.0}};

constexpr ImWchar kPlain[] = {0x20,   0x7E,   0xA0,   0xA0,   0xB0,   0xB1,   0xB7,   0xB7,
                              0xD7,   0xD7,   0x2007, 0x2007, 0x2009, 0x2009, 0x2010, 0x2011,
                              0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2022,
                              0x2026, 0x2026, 0x202F, 0x202F, 0x2032, 0x2033, 0x2190, 0x2193,
                              0x2212, 0x2212, 0x25B2, 0x25B2, 0};
constexpr ImWchar kAccents[] = {0xA0, 0xFF, 0};

/// First code point of `text`, which loses its bytes; U+FFFD for what is not UTF-8.
unsigned next_code_point(std::string_view& text) {
  constexpr unsigned kBad = 0xFFFD;
  const auto lead = static_cast<unsigned char>(text[0]);
  text.remove_prefix(1);
  if (lead < 0x80) return lead;
  const int more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC2 ? 1 : 0;
  if (more == 0 || lead > 0xF4) return kBad;
  unsigned code = lead & (0x3FU >> more);
  for (int i = 0; i < more; ++i) {
    if (text.empty() || (static_cast<unsigned char>(text[0]) & 0xC0) != 0x80) return kBad;
    code = (code << 6) | (static_cast<unsigned char>(text[0]) & 0x3FU);
    text.remove_prefix(1);
  }
  return code;
}

bool in_ranges(const ImWchar* ranges, unsigned code) {
  for (; *ranges != 0; ranges += 2) {
    if (code >= ranges[0] && code <= ranges[1]) return true;
  }
  return false;
}

const ImFontGlyph* glyph_of(const ImFont& font, unsigned code) {
  return font.FindGlyph(static_cast<ImWchar>(code <= 0xFFFF ? code : 0xFFFD));
}

}  // namespace

void Letters::build(ImFontAtlas& atlas, double dpr, Alphabet alphabet, std::string_view text) {
  atlas.Clear();
  atlas.Flags |= ImFontAtlasFlags_NoMouseCursors | ImFontAtlasFlags_NoBakedLines;
  ImVector<ImWchar> ranges;
  some_.Clear();
  if (alphabet == Alphabet::some) {
    // A zero among the ranges would end them.
    while (!text.empty()) {
      const unsigned code = next_code_point(text);
      if (code >= 0x20 && code <= 0xFFFF) some_.SetBit(code);
    }
    some_.AddText("0123456789.?");
  } else {
    some_.AddRanges(kPlain);
    if (alphabet == Alphabet::accents) some_.AddRanges(kAccents);
  }
  some_.BuildRanges(&ranges);
  for (int weight = 0; weight < 2; ++weight) {
    const bool strong = weight == 1;
    const void* data = strong ? kSemibold : kRegular;
    const int bytes = static_cast<int>(strong ? sizeof kSemibold : sizeof kRegular);
    for (int size = 0; size < kSizes; ++size) {
      ImFontConfig config;
      config.FontDataOwnedByAtlas = false;
      config.OversampleH = 2;
      // ImGui never writes to font data that it does not own.
      fonts_[weight][size] = atlas.AddFontFromMemoryTTF(
          const_cast<void*>(data), bytes, static_cast<float>(kLabelSizes[weight][size] * dpr),
          &config, ranges.Data);
    }
  }
  atlas.Build();
  white_ = atlas.TexUvWhitePixel;
  dpr_ = dpr;
  alphabet_ = alphabet;
}

Letters::Alphabet Letters::wanted(std::string_view text) const {
  if (alphabet_ == Alphabet::none) return Alphabet::some;
  Alphabet least = alphabet_;
  while (!text.empty()) {
    const unsigned code = next_code_point(text);
    if (code < 0x20 || code > 0xFFFF || some_.GetBit(code)) continue;
    if (in_ranges(kPlain, code)) least = std::max(least, Alphabet::plain);
    if (in_ranges(kAccents, code)) least = std::max(least, Alphabet::accents);
  }
  return least;
}

Face Letters::face(double size_px, bool strong) const {
  const double* sizes = kLabelSizes[strong ? 1 : 0];
  int best = 0;
  for (int i = 1; i < kSizes; ++i) {
    if (std::abs(sizes[i] - size_px) <= std::abs(sizes[best] - size_px)) best = i;
  }
  return {fonts_[strong ? 1 : 0][best], static_cast<float>(size_px / sizes[best])};
}

float width_of(Face face, std::string_view text) {
  float width = 0.0F;
  while (face.font != nullptr && !text.empty()) {
    const ImFontGlyph* glyph = glyph_of(*face.font, next_code_point(text));
    if (glyph != nullptr) width += glyph->AdvanceX * face.scale;
  }
  return width;
}

void write(ImDrawList& list, Face face, Line line, std::string_view text, ImU32 colour) {
  if (face.font == nullptr) return;
  const ImVec2 right = line.right;
  const ImVec2 down = {-right.y, right.x};
  float pen = 0.0F;
  while (!text.empty()) {
    const ImFontGlyph* glyph = glyph_of(*face.font, next_code_point(text));
    if (glyph == nullptr) continue;
    if (glyph->Visible) {
      const float k = face.scale;
      const auto place = [&](float x, float y) {
        const float u = pen + x * k;
        const float v = (y - face.font->Ascent) * k;
        return ImVec2(line.origin.x + right.x * u + down.x * v,
                      line.origin.y + right.y * u + down.y * v);
      };
      list.PrimReserve(6, 4);
      list.PrimQuadUV(place(glyph->X0, glyph->Y0), place(glyph->X1, glyph->Y0),
                      place(glyph->X1, glyph->Y1), place(glyph->X0, glyph->Y1),
                      {glyph->U0, glyph->V0}, {glyph->U1, glyph->V0}, {glyph->U1, glyph->V1},
                      {glyph->U0, glyph->V1}, colour);
    }
    pen += glyph->AdvanceX * face.scale;
  }
}

}  // namespace view
