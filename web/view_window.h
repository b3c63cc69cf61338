// web/view_window.h - the canvas as an SDL2 window with a WebGL context for Dear ImGui.
//
// SDL gives the window and the context and takes nothing: no key, no pointer, no wheel,
// no focus (see view_sdl_lean.cpp). Of Dear ImGui the draw lists, the font atlas and the
// OpenGL back end are used, and not its windows and their frame: that leaves a quarter of
// the module's bytes out. Sizes are device pixels.
#pragma once

#include <cstdint>

#include "imgui.h"
#include "web/view_font.h"

namespace view {

class Window {
 public:
  /// Needs an element #canvas in the page. False without WebGL; then `stop` was called.
  bool start();
  void stop();
  [[nodiscard]] bool started() const { return context_ != nullptr; }

  /// Size of the backing store; the size on the page is left to its style sheet.
  void resize(int width, int height);
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }

  /// The letters for this pixel ratio and text, rasterised anew only where they differ.
  const Letters& letters(double dpr, std::string_view text);
  /// Those that the first picture did without, while nobody waits.
  void all_letters();

  /// An empty list to draw on, and its way to the screen over a background of `paper`.
  ImDrawList& begin();
  void end(std::uint32_t paper);

 private:
  void* window_ = nullptr;
  void* context_ = nullptr;
  ImDrawList* list_ = nullptr;
  ImDrawData frame_;
  int width_ = 0;
  int height_ = 0;
  void build(double dpr, Letters::Alphabet alphabet, std::string_view text);

  Letters letters_;
  bool has_objects_ = false;  ///< shaders, buffers and the letters' texture are there
};

}  // namespace view
