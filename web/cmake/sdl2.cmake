# SDL2 for the browser, straight from its sources with its ready configuration
# (include/SDL_config_emscripten.h), so that no configure checks are run.
third_party_dir(sdl2 SDL2_DIR)

set(sdl2_folders
  . atomic audio audio/dummy cpuinfo dynapi events file filesystem/emscripten haptic haptic/dummy
  joystick joystick/dummy joystick/emscripten libm loadso/dlopen locale locale/emscripten misc
  misc/emscripten power power/emscripten render render/software sensor sensor/dummy stdlib
  thread thread/generic timer timer/unix video video/dummy video/emscripten video/yuv2rgb)

# add_sdl2(<target> [PLAIN]): a static library without sound, haptics, sensors and SDL's
# own renderer. The lean one also leaves out joysticks and the blitters, which a page that
# paints with WebGL never runs. PLAIN keeps them: what tests/bench measures against.
function(add_sdl2 target)
  cmake_parse_arguments(arg "PLAIN" "" "" ${ARGN})
  set(sources)
  foreach(folder IN LISTS sdl2_folders)
    file(GLOB found "${SDL2_DIR}/src/${folder}/*.c")
    list(APPEND sources ${found})
  endforeach()
  add_library(${target} STATIC EXCLUDE_FROM_ALL ${sources})
  target_include_directories(${target} SYSTEM PUBLIC "${SDL2_DIR}/include")
  target_compile_options(${target} PRIVATE -Oz)
  target_compile_definitions(${target} PRIVATE
    SDL_AUDIO_DISABLED=1 SDL_HAPTIC_DISABLED=1 SDL_SENSOR_DISABLED=1 SDL_RENDER_DISABLED=1
    SDL_THREADS_DISABLED=1)
  if(NOT arg_PLAIN)
    target_compile_definitions(${target} PRIVATE SDL_LEAN_AND_MEAN=1 SDL_JOYSTICK_DISABLED=1)
  endif()
  target_link_libraries(${target} PRIVATE third_party_flags)
endfunction()
