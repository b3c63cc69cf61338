# Trees that are built to find mistakes; both are made with clang (web/setup.sh).
#   sanitized  the tests, with the address and undefined-behaviour sanitizers
#   fuzz       the targets of tests/fuzz, with both
#   fuzz-fast  the same with traps for undefined behaviour alone: for millions of runs
# The first finding ends the program.
set(CHECKED "" CACHE STRING "Empty, sanitized, fuzz or fuzz-fast")

if(CHECKED)
  # A double that does not fit an integer is undefined too, but not among "undefined".
  set(checks -fsanitize=undefined,float-cast-overflow)
  if(CHECKED STREQUAL "fuzz-fast")
    list(APPEND checks -fsanitize-trap=all)
  else()
    list(APPEND checks -fsanitize=address -fno-sanitize-recover=all -fno-omit-frame-pointer)
    # Debug information enough for a line number.
    add_compile_options(-gline-tables-only)
  endif()
  add_compile_options(${checks})
  add_link_options(${checks})
  if(CHECKED MATCHES "^fuzz")
    # With assert(): a number that is not finite stops where it would be put into words.
    add_compile_options(-fsanitize=fuzzer-no-link -UNDEBUG)
  endif()
  if(CHECKED STREQUAL "fuzz-fast")
    # To note every comparison took half of the time of what goes over numbers.
    add_compile_options(-fno-sanitize-coverage=trace-cmp)
  endif()
endif()

# add_fuzz_targets(): a program NAME_fuzz for each tests/fuzz/NAME_fuzz.cpp.
function(add_fuzz_targets)
  file(GLOB sources CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/tests/fuzz/*_fuzz.cpp")
  foreach(source IN LISTS sources)
    get_filename_component(name "${source}" NAME_WE)
    add_executable(${name} "${source}")
    target_compile_options(${name} PRIVATE -O1)
    target_link_libraries(${name} PRIVATE session core own_flags)
    target_link_options(${name} PRIVATE -fsanitize=fuzzer)
  endforeach()
endfunction()
