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
  # With assert(): a number that is not finite stops where it would be put into words.
  add_compile_options(-UNDEBUG)
  if(CHECKED MATCHES "^fuzz")
    add_compile_options(-fsanitize=fuzzer-no-link)
  endif()
  if(CHECKED STREQUAL "fuzz-fast")
    # To note every comparison took half of the time of what goes over numbers, and each of memcmp
    # a sixth. Without errno sine and cosine are had in one call, as GCC has them in any case.
    add_compile_options(-fno-sanitize-coverage=trace-cmp -fno-math-errno)
    execute_process(COMMAND "${CMAKE_CXX_COMPILER}" -print-resource-dir
      OUTPUT_VARIABLE resources OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    set(fuzzer "${resources}/lib/linux/libclang_rt.fuzzer-${CMAKE_SYSTEM_PROCESSOR}.a")
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
    if(fuzzer)
      target_link_libraries(${name} PRIVATE "${fuzzer}")
    else()
      target_link_options(${name} PRIVATE -fsanitize=fuzzer)
    endif()
  endforeach()
endfunction()
