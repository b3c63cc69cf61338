# What runs in the browser, and the tests as WebAssembly.
include(sdl2)
include(imgui)

# emcc's JavaScript passes look for acorn here (web/setup.sh finds the folder). Kept in
# the cache so that Ninja can link without that script.
set(EMCC_NODE_PATH "$ENV{NODE_PATH}" CACHE STRING "NODE_PATH for emcc")
if(EMCC_NODE_PATH)
  set_property(GLOBAL PROPERTY RULE_LAUNCH_LINK
    "\"${CMAKE_COMMAND}\" -E env \"NODE_PATH=${EMCC_NODE_PATH}\"")
endif()

# Settings that changed their name or their default.
if(EMSCRIPTEN_VERSION VERSION_LESS 3.1.27)
  set(stack_setting TOTAL_STACK)
else()
  set(stack_setting STACK_SIZE)
endif()
set(heap_views)
if(EMSCRIPTEN_VERSION VERSION_GREATER_EQUAL 4.0.0)
  set(heap_views -sEXPORTED_RUNTIME_METHODS=HEAPU8)  # exported by itself before that
endif()

# --- core.wasm: everything that computes, without any JavaScript of emcc's -----------
add_library(core_exports OBJECT web/core_exports.cpp)
target_compile_options(core_exports PRIVATE -Oz -flto)
target_link_libraries(core_exports PRIVATE session core lean_flags)

# add_core(<target> <file name> <words...>): with a table of words, those of that table; with
# none the core's own, which are English. Only the link is done anew for a language.
function(add_core target name)
  add_executable(${target} $<TARGET_OBJECTS:core_exports> ${ARGN})
  set_target_properties(${target} PROPERTIES OUTPUT_NAME ${name} SUFFIX .wasm)
  target_compile_options(${target} PRIVATE -Oz -flto)
  target_link_libraries(${target} PRIVATE session core lean_flags)
  target_link_options(${target} PRIVATE
    -Os -flto --no-entry --profiling-funcs -sSTANDALONE_WASM=1 -sMALLOC=emmalloc -sALLOW_MEMORY_GROWTH=1
    -s${stack_setting}=262144 -sINITIAL_MEMORY=2097152)
endfunction()
add_core(core_wasm core)

# --- study.wasm: maps and clouds, for a worker; with SIMD where the browser has it ------
# The files whose loops take several numbers at once (core/lanes.h). Made for SIMD they stand in a
# program of their own before those of the library, and all else is the library's.
set(lane_files "${CMAKE_SOURCE_DIR}/core/wind_map.cpp" "${CMAKE_SOURCE_DIR}/core/cloud_flights.cpp")

# add_simd(<target>): with SIMD.
function(add_simd target)
  target_sources(${target} PRIVATE ${lane_files})
  target_compile_options(${target} PRIVATE -msimd128)
  target_link_options(${target} PRIVATE -msimd128)
endfunction()

foreach(kind IN ITEMS study study_simd)
  string(REPLACE "_" "-" file_name ${kind})
  add_executable(${kind}_wasm web/study_exports.cpp)
  set_target_properties(${kind}_wasm PROPERTIES OUTPUT_NAME ${file_name} SUFFIX .wasm)
  target_compile_options(${kind}_wasm PRIVATE -O2 -flto)
  target_link_libraries(${kind}_wasm PRIVATE core lean_flags)
  target_link_options(${kind}_wasm PRIVATE
    -O3 -flto --no-entry -sSTANDALONE_WASM=1 -sMALLOC=emmalloc -sALLOW_MEMORY_GROWTH=1
    -s${stack_setting}=262144 -sINITIAL_MEMORY=4194304)
endforeach()
add_simd(study_simd_wasm)

# --- view.mjs and view.wasm: the painter --------------------------------------------
set(page_link_options
  -Oz --no-entry -fno-exceptions -fno-rtti -sENVIRONMENT=web -sFILESYSTEM=0
  -sMODULARIZE=1 -sEXPORT_ES6=1 -sDYNAMIC_EXECUTION=0 -sALLOW_MEMORY_GROWTH=1
  -sSUPPORT_LONGJMP=0 -sMALLOC=emmalloc -s${stack_setting}=262144
  ${heap_views})

set(font_parts)
foreach(font IN ITEMS canvas-regular canvas-semibold)
  set(part "${CMAKE_BINARY_DIR}/generated/${font}.inc")
  add_custom_command(
    OUTPUT "${part}"
    COMMAND "${NODE}" "${CMAKE_SOURCE_DIR}/web/embed.mjs"
            "${CMAKE_SOURCE_DIR}/assets/fonts/${font}.ttf" "${part}"
    DEPENDS web/embed.mjs assets/fonts/${font}.ttf
    COMMENT "Font ${font} for the view")
  list(APPEND font_parts "${part}")
endforeach()
add_sdl2(sdl2)
add_imgui(imgui sdl2)
add_executable(view ${view_sources} ${font_parts})
set_target_properties(view PROPERTIES SUFFIX .mjs)
target_include_directories(view PRIVATE "${CMAKE_BINARY_DIR}/generated")
target_compile_options(view PRIVATE -Oz -flto)
target_link_libraries(view PRIVATE core imgui lean_flags)
target_link_options(view PRIVATE ${page_link_options} -flto -sEXPORT_NAME=createView)

# --- the tables of checks with their results: the page lists them, docs/sources.md too ---
# Without the asynchronous way emcc 3.1.6 would fetch() a file name, which Node.js refuses.
set(node_link_options
  -flto -sENVIRONMENT=node -sNODERAWFS=1 -sEXIT_RUNTIME=1 -sWASM_ASYNC_COMPILATION=0
  -sALLOW_MEMORY_GROWTH=1 -sINITIAL_MEMORY=67108864 -s${stack_setting}=4194304)

add_executable(sources_list_wasm tests/sources_list.cpp)
target_compile_options(sources_list_wasm PRIVATE -O1)
target_link_libraries(sources_list_wasm PRIVATE core lean_flags)
target_link_options(sources_list_wasm PRIVATE ${node_link_options} -O1 -fno-exceptions)

# --- the page -----------------------------------------------------------------------
get_filename_component(site_default "${CMAKE_BINARY_DIR}/../site" ABSOLUTE)
set(SITE_DIR "${site_default}" CACHE PATH "Where the page is assembled")
file(GLOB_RECURSE site_files CONFIGURE_DEPENDS shell/* assets/*)
file(GLOB table_files CONFIGURE_DEPENDS tests/tables/*)  # an unlisted one stops the build
find_program(ESBUILD NAMES esbuild REQUIRED NO_CMAKE_FIND_ROOT_PATH)
third_party_dir(qrcode QRCODE_DIR)
file(GLOB site_programs CONFIGURE_DEPENDS web/build-*.mjs web/examples/*)
set(site_parts view study_wasm study_simd_wasm sources_list_wasm ${site_programs} web/catalogue.mjs
  web/third-party.json web/sources.txt web/sources.mjs web/core.mjs web/core.d.mts web/wasm.mjs web/study.mjs web/study.d.mts ${site_files} ${table_files})
set(build_site "${NODE}" "${CMAKE_SOURCE_DIR}/web/build-site.mjs" --wasm "${CMAKE_BINARY_DIR}"
  --esbuild "${ESBUILD}" --qrcode "${QRCODE_DIR}/qrcode.js" --sources "${THIRD_PARTY_DIR}"
  --emscripten "${EMSCRIPTEN_ROOT_PATH}")
add_custom_command(
  OUTPUT "${SITE_DIR}/index.html"
  COMMAND ${build_site} --site "${SITE_DIR}"
  DEPENDS core_wasm ${site_parts}
  COMMENT "Assembling the page")
add_custom_target(site ALL DEPENDS "${SITE_DIR}/index.html")

# add_language(<lang> <catalogue> [QUICK]): the target site_<lang>, the page in that language in
# build/<lang>/site. QUICK: its core is linked in less time than it would take to make it small.
function(add_language lang catalogue)
  cmake_parse_arguments(arg "QUICK" "" "" ${ARGN})
  add_words(${lang} "${catalogue}")
  add_core(core_wasm_${lang} core_${lang} "${words_dir}/words_${lang}.cpp")
  set_target_properties(core_wasm_${lang} PROPERTIES EXCLUDE_FROM_ALL ON)
  if(arg_QUICK)
    target_link_options(core_wasm_${lang} PRIVATE -O1 -Wl,--lto-O1)
  endif()
  get_filename_component(folder "${SITE_DIR}/../${lang}/site" ABSOLUTE)
  add_custom_command(
    OUTPUT "${folder}/index.html"
    COMMAND ${build_site} --site "${folder}" --catalogue "${catalogue}"
            --core "${CMAKE_BINARY_DIR}/core_${lang}.wasm"
    DEPENDS core_wasm_${lang} "${catalogue}" ${site_parts}
    COMMENT "Assembling the page (${lang})")
  add_custom_target(site_${lang} DEPENDS "${folder}/index.html")
endfunction()

file(GLOB catalogues CONFIGURE_DEPENDS assets/words/*.json)
list(REMOVE_ITEM catalogues "${english}")
foreach(catalogue IN LISTS catalogues)
  get_filename_component(lang "${catalogue}" NAME_WE)
  add_language("${lang}" "${catalogue}")
endforeach()

# A language made up of English with accents, for the tests: what is not in it is in no catalogue.
set(pseudo "${CMAKE_BINARY_DIR}/pseudo/words/en-XA.json")
add_custom_command(
  OUTPUT "${pseudo}"
  COMMAND "${NODE}" "${CMAKE_SOURCE_DIR}/tests/browser/pseudo.mjs" "${CMAKE_BINARY_DIR}/pseudo"
  DEPENDS tests/browser/pseudo.mjs "${english}" assets/lesson/entry.en.json
  COMMENT "The made-up language")
add_language(en-XA "${pseudo}" QUICK)

# --- the tests of core and session, as WebAssembly for Node.js ----------------------
if(test_sources)
  # /usr/include as a whole would hide emcc's own C library.
  set(BOOST_PREFIX /usr/include CACHE PATH "Folder that holds boost/")
  set(boost_only "${CMAKE_BINARY_DIR}/boost_only")
  file(MAKE_DIRECTORY "${boost_only}")
  file(CREATE_LINK "${BOOST_PREFIX}/boost" "${boost_only}/boost" SYMBOLIC)

  target_compile_options(catch2 PRIVATE -fexceptions)
  add_executable(core_tests_wasm EXCLUDE_FROM_ALL ${test_sources})
  target_compile_options(core_tests_wasm PRIVATE -O1 -fexceptions)
  target_compile_definitions(core_tests_wasm PRIVATE "FIXTURES_DIR=\"${CMAKE_SOURCE_DIR}/tests/fixtures\"")
  target_include_directories(core_tests_wasm SYSTEM PRIVATE "${boost_only}")
  target_link_libraries(core_tests_wasm PRIVATE session core catch2 own_flags)
  target_link_options(core_tests_wasm PRIVATE ${node_link_options} -O1 -fexceptions)

  # The same, with every load and store of memory checked, and Emscripten's own assertions.
  set(memory_checks -sASSERTIONS=2 -sSAFE_HEAP=1)
  add_executable(core_tests_checked EXCLUDE_FROM_ALL $<TARGET_OBJECTS:core_tests_wasm>)
  target_compile_options(core_tests_checked PRIVATE -O1 -fexceptions)
  target_link_libraries(core_tests_checked PRIVATE session core catch2 own_flags)
  target_link_options(core_tests_checked PRIVATE
    ${node_link_options} -O1 -fexceptions ${memory_checks})
  # And the page's core, for tests/checked-core.mjs.
  add_core(core_checked_wasm core-checked)
  set_target_properties(core_checked_wasm PROPERTIES EXCLUDE_FROM_ALL ON)
  target_link_options(core_checked_wasm PRIVATE ${memory_checks})
endif()

# --- the bare page of tests/bench: the size to compare with, never shipped ----------
add_sdl2(sdl2_plain PLAIN)
add_imgui(imgui_plain sdl2_plain)
foreach(kind IN ITEMS bare bare_lean)
  add_executable(${kind} EXCLUDE_FROM_ALL tests/bench/bare_page.cpp)
  set_target_properties(${kind} PROPERTIES SUFFIX .mjs)
  target_compile_options(${kind} PRIVATE -Oz -flto)
  target_link_libraries(${kind} PRIVATE lean_flags)
  target_link_options(${kind} PRIVATE
    -Oz -flto -fno-exceptions -fno-rtti -sFILESYSTEM=0 -sENVIRONMENT=web -sMODULARIZE=1
    -sEXPORT_ES6=1 -sMAX_WEBGL_VERSION=2 -sALLOW_MEMORY_GROWTH=1)
endforeach()
target_link_libraries(bare PRIVATE imgui_plain)
target_link_libraries(bare_lean PRIVATE imgui)

# Times the core in Node.js, from the library that the page has: without SIMD and with it.
file(GLOB bench_sources CONFIGURE_DEPENDS tests/bench/*_bench.cpp)
foreach(name IN ITEMS bench bench_simd)
  add_executable(${name}_wasm EXCLUDE_FROM_ALL ${bench_sources})
  target_compile_options(${name}_wasm PRIVATE -O3 -flto -fexceptions)
  target_link_libraries(${name}_wasm PRIVATE core catch2 own_flags)
  target_link_options(${name}_wasm PRIVATE ${node_link_options} -O3 -fexceptions)
endforeach()
add_simd(bench_simd_wasm)
