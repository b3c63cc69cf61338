// tests/bench/bare_page.cpp - the smallest SDL2 + Dear ImGui page that is of any use: one
// window with a text, a button, a slider, a circle and a line. The size of our page is
// measured against it; it is never shipped.
#include <SDL.h>
#include <emscripten.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>

#if defined(__EMSCRIPTEN__)
#include <GLES2/gl2.h>
#endif

namespace {

SDL_Window* g_window = nullptr;
float g_value = 20.0F;
int g_clicks = 0;

void frame() {
  SDL_Event event;
  while (SDL_PollEvent(&event)) ImGui_ImplSDL2_ProcessEvent(&event);
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplSDL2_NewFrame();
  ImGui::NewFrame();
  ImGui::Begin("Bare page");
  ImGui::Text("Clicked %d times", g_clicks);
  if (ImGui::Button("Click")) ++g_clicks;
  ImGui::SliderFloat("Value", &g_value, 0.0F, 50.0F);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  list->AddCircle(ImVec2(at.x + 60.0F, at.y + 60.0F), g_value, IM_COL32(255, 200, 0, 255));
  list->AddLine(at, ImVec2(at.x + 120.0F, at.y + 120.0F), IM_COL32(0, 200, 255, 255));
  ImGui::End();
  ImGui::Render();
  int width = 0;
  int height = 0;
  SDL_GL_GetDrawableSize(g_window, &width, &height);
  glViewport(0, 0, width, height);
  glClearColor(0.1F, 0.1F, 0.1F, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  SDL_GL_SwapWindow(g_window);
}

}  // namespace

int main(int, char**) {
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return 1;
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  g_window = SDL_CreateWindow("Bare page", 0, 0, 640, 480,
                              SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  SDL_GLContext context = SDL_GL_CreateContext(g_window);
  if (!g_window || !context) return 1;
  ImGui::CreateContext();
  ImGui_ImplSDL2_InitForOpenGL(g_window, context);
  ImGui_ImplOpenGL3_Init("#version 100");
  emscripten_set_main_loop(frame, 0, false);
  return 0;
}
