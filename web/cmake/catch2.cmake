# Catch2 from its two amalgamated files. Tests may include catch_amalgamated.hpp
# or the single <catch2/...> headers, which compile faster.
third_party_dir(catch2 CATCH2_DIR)

set(CATCH_CONFIG_DEFAULT_REPORTER console)
set(CATCH_CONFIG_CONSOLE_WIDTH 100)
configure_file("${CATCH2_DIR}/src/catch2/catch_user_config.hpp.in"
               "${CMAKE_BINARY_DIR}/generated/catch2/catch_user_config.hpp")

add_library(catch2 STATIC EXCLUDE_FROM_ALL "${CATCH2_DIR}/extras/catch_amalgamated.cpp")
target_include_directories(catch2 SYSTEM PUBLIC
  "${CATCH2_DIR}/extras" "${CATCH2_DIR}/src" "${CMAKE_BINARY_DIR}/generated")
target_compile_options(catch2 PRIVATE -O1)
target_link_libraries(catch2 PRIVATE third_party_flags)
