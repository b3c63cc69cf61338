# Dear ImGui with its SDL2 and OpenGL ES backends.
third_party_dir(imgui IMGUI_DIR)

# add_imgui(<target> <sdl2 target>): a static library, configured by web/imconfig.h.
function(add_imgui target sdl2)
  add_library(${target} STATIC EXCLUDE_FROM_ALL
    "${IMGUI_DIR}/imgui.cpp" "${IMGUI_DIR}/imgui_draw.cpp" "${IMGUI_DIR}/imgui_tables.cpp"
    "${IMGUI_DIR}/imgui_widgets.cpp" "${IMGUI_DIR}/backends/imgui_impl_sdl2.cpp"
    "${IMGUI_DIR}/backends/imgui_impl_opengl3.cpp")
  target_include_directories(${target} SYSTEM PUBLIC "${IMGUI_DIR}" "${IMGUI_DIR}/backends")
  target_compile_definitions(${target} PUBLIC
    "IMGUI_USER_CONFIG=\"${CMAKE_SOURCE_DIR}/web/imconfig.h\"")
  target_compile_options(${target} PRIVATE -Oz -fno-exceptions -fno-rtti)
  target_link_libraries(${target} PUBLIC ${sdl2} PRIVATE third_party_flags)
endfunction()
