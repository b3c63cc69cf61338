// web/imconfig.h - Dear ImGui's compile-time switches (IMGUI_USER_CONFIG), the same for
// its own sources and for the view. Leaves out what a picture never uses.
#pragma once

#define IMGUI_DISABLE_OBSOLETE_FUNCTIONS
#define IMGUI_DISABLE_DEMO_WINDOWS
#define IMGUI_DISABLE_DEBUG_TOOLS
#define IMGUI_DISABLE_FILE_FUNCTIONS
#define IMGUI_DISABLE_DEFAULT_FILE_FUNCTIONS

// A long track with soft edges can pass 65,535 vertices in one list.
#define ImDrawIdx unsigned int

// An IM_ASSERT is a mistake of ours; in the shipped page it costs bytes and helps nobody.
#ifdef NDEBUG
#define IM_ASSERT(_EXPR) ((void)(_EXPR))
#endif
