#include "web/view_window.h"

#define SDL_MAIN_HANDLED
#include <GLES2/gl2.h>
#include <SDL.h>
#include <emscripten/emscripten.h>

#include <algorithm>
#include <cstring>

#include "imgui_impl_opengl3.h"

namespace view {
namespace {

// Emscripten's EGL draws on Module.canvas; SDL sizes the element #canvas.
EM_JS(void, view_bind_canvas, (), { Module['canvas'] = document.getElementById('canvas'); })

SDL_Window* as_window(void* p) { return static_cast<SDL_Window*>(p); }

bool has_extension(const char* name) {
  const auto* all = reinterpret_cast<const char*>(glGetString(GL_EXTENSIONS));
  return all != nullptr && std::strstr(all, name) != nullptr;
}

}  // namespace

bool Window::start() {
  view_bind_canvas();
  SDL_SetMainReady();
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return false;
  SDL_SetEventFilter([](void*, SDL_Event*) { return 0; }, nullptr);  // nobody reads the queue
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 2);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
  SDL_GL_SetAttribute(SDL_GL_ALPHA_SIZE, 0);
  SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
  SDL_GL_SetAttribute(SDL_GL_STENCIL_SIZE, 0);
  // Without ALLOW_HIGHDPI SDL's pixels are the backing store's, and it never touches the
  // element's style. Without a title it leaves the document's alone.
  window_ = SDL_CreateWindow(nullptr, 0, 0, 1, 1, SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE);
  if (window_ != nullptr) context_ = SDL_GL_CreateContext(as_window(window_));
  // Index buffers are 32 bits wide (imconfig.h), which WebGL 1 knows as an extension.
  if (context_ == nullptr || !has_extension("OES_element_index_uint")) {
    stop();
    return false;
  }
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui_ImplOpenGL3_Init("#version 100");
  list_ = IM_NEW(ImDrawList)(ImGui::GetDrawListSharedData());
  return true;
}

void Window::stop() {
  if (ImGui::GetCurrentContext() != nullptr) {
    IM_DELETE(list_);
    list_ = nullptr;
    ImGui_ImplOpenGL3_Shutdown();
    ImGui::DestroyContext();
  }
  if (context_ != nullptr) SDL_GL_DeleteContext(context_);
  if (window_ != nullptr) SDL_DestroyWindow(as_window(window_));
  SDL_Quit();
  window_ = nullptr;
  context_ = nullptr;
  letters_ = {};
  has_objects_ = false;
}

void Window::resize(int width, int height) {
  constexpr int kMost = 8192;
  width = std::clamp(width, 1, kMost);
  height = std::clamp(height, 1, kMost);
  if (width == width_ && height == height_) return;
  width_ = width;
  height_ = height;
  SDL_SetWindowSize(as_window(window_), width, height);
}

const Letters& Window::letters(double dpr, std::string_view text) {
  const Letters::Alphabet alphabet = letters_.wanted(text);
  if (letters_.dpr() != dpr || alphabet != letters_.alphabet()) build(dpr, alphabet, text);
  return letters_;
}

void Window::all_letters() {
  if (letters_.alphabet() == Letters::Alphabet::some) {
    build(letters_.dpr(), Letters::Alphabet::plain, {});
  }
}

void Window::build(double dpr, Letters::Alphabet alphabet, std::string_view text) {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  letters_.build(atlas, dpr, alphabet, text);
  if (has_objects_) {
    ImGui_ImplOpenGL3_DestroyFontsTexture();
    ImGui_ImplOpenGL3_CreateFontsTexture();
  } else {
    // The texture among them: else the first frame would make them, and the atlas once more.
    has_objects_ = ImGui_ImplOpenGL3_CreateDeviceObjects();
  }
  atlas.ClearTexData();
}

ImDrawList& Window::begin() {
  ImGui_ImplOpenGL3_NewFrame();
  list_->_ResetForNewFrame();
  list_->PushTextureID(ImGui::GetIO().Fonts->TexID);
  list_->PushClipRect({0.0F, 0.0F}, {static_cast<float>(width_), static_cast<float>(height_)});
  return *list_;
}

void Window::end(std::uint32_t paper) {
  frame_.Clear();
  frame_.Valid = true;
  frame_.DisplaySize = {static_cast<float>(width_), static_cast<float>(height_)};
  frame_.FramebufferScale = {1.0F, 1.0F};
  frame_.AddDrawList(list_);
  glViewport(0, 0, width_, height_);
  const auto channel = [&](int shift) {
    return static_cast<float>((paper >> shift) & 0xFFU) / 255.0F;
  };
  glClearColor(channel(16), channel(8), channel(0), 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(&frame_);
  SDL_GL_SwapWindow(as_window(window_));
}

}  // namespace view
