# The core with every step of its own counted (tests/steps/work_test.cpp): what bounds on work are
# tested with. Built for this machine alone.
add_library(core_counted STATIC EXCLUDE_FROM_ALL
  ${core_sources} "${words_dir}/words_en.cpp" "${words_dir}/sets.inc")
target_include_directories(core_counted PRIVATE "${words_dir}")
target_compile_options(core_counted PRIVATE -fsanitize-coverage=trace-pc)
target_link_libraries(core_counted PUBLIC own_flags PRIVATE lean_flags)

add_executable(work_tests EXCLUDE_FROM_ALL tests/steps/work_test.cpp)
target_compile_options(work_tests PRIVATE -O1)
target_link_libraries(work_tests PRIVATE core_counted catch2 own_flags)
