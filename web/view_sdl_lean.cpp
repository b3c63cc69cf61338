// web/view_sdl_lean.cpp - stand-ins for the parts of SDL2 2.26 that the page must not have.
//
// SDL's Emscripten driver listens on the window, the document and the canvas for keys,
// mouse, touch, wheel, focus, resize and unload. It prevents the default of Tab, of the
// arrows, of every touch's end and of the wheel, which traps the keyboard and stops a
// page from scrolling, and its unload handler keeps a page out of the back/forward
// cache. The page hears pointers and keys itself. As SDL is a static library, a symbol
// defined here means that the linker never takes SDL's own file; a name that SDL changed
// would show as one that is missing or defined twice.
//
// The cursor belongs to the style sheet, full screen to the page and the software
// framebuffer to nobody, so they stay away too, with their JavaScript. SDL's EGL asks for OpenGL
// functions by name, which would keep every one of them in the module: none is offered, and none is
// needed, since Dear ImGui links to those it calls.
struct SDL_VideoDevice;
struct SDL_Window;
struct SDL_WindowData;
struct SDL_Rect;

extern "C" {

// SDL_emscriptenevents.c
void Emscripten_RegisterEventHandlers(SDL_WindowData* /*data*/) {}
void Emscripten_UnregisterEventHandlers(SDL_WindowData* /*data*/) {}
int Emscripten_HandleCanvasResize(int /*type*/, const void* /*reserved*/, void* /*data*/) {
  return 0;
}

// SDL_emscriptenmouse.c
void Emscripten_InitMouse() {}
void Emscripten_FiniMouse() {}

// SDL_emscriptenframebuffer.c
int Emscripten_CreateWindowFramebuffer(SDL_VideoDevice* /*device*/, SDL_Window* /*window*/,
                                       unsigned* /*format*/, void** /*pixels*/, int* /*pitch*/) {
  return -1;
}
int Emscripten_UpdateWindowFramebuffer(SDL_VideoDevice* /*device*/, SDL_Window* /*window*/,
                                       const SDL_Rect* /*rects*/, int /*count*/) {
  return -1;
}
void Emscripten_DestroyWindowFramebuffer(SDL_VideoDevice* /*device*/, SDL_Window* /*window*/) {}

// Emscripten's full screen
int emscripten_request_fullscreen_strategy(const char* /*target*/, int /*deferred*/,
                                           const void* /*strategy*/) {
  return -1;
}
int emscripten_exit_fullscreen() { return -1; }

// Emscripten's EGL
void* eglGetProcAddress(const char* /*name*/) { return nullptr; }

}  // extern "C"
