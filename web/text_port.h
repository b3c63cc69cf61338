// web/text_port.h - how texts go in and out of a module: by buffers in its memory.
// web/wasm.mjs is the other side. Included by one exports file of each module.
#pragma once

#include <string>
#include <string_view>

#if defined(__EMSCRIPTEN__)
#include <emscripten/emscripten.h>
#define EXPORTED extern "C" EMSCRIPTEN_KEEPALIVE
#else
#define EXPORTED extern "C"
#endif

namespace {

std::string g_in;
std::string g_out;

}  // namespace

/// Room for `bytes` of UTF-8, to be written before the next call.
EXPORTED char* text_in(int bytes) {
  g_in.assign(static_cast<std::size_t>(bytes < 0 ? 0 : bytes), '\0');
  return g_in.data();
}
EXPORTED const char* text_out() { return g_out.data(); }
EXPORTED int text_out_size() { return static_cast<int>(g_out.size()); }
