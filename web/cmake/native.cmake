# The tests of core and session on this machine.
find_path(BOOST_INCLUDE boost/numeric/odeint.hpp)  # the independent integrator, tests only

if(test_sources)
  add_executable(core_tests ${test_sources})
  target_compile_options(core_tests PRIVATE -O1)
  target_compile_definitions(core_tests PRIVATE "FIXTURES_DIR=\"${CMAKE_SOURCE_DIR}/tests/fixtures\"")
  target_include_directories(core_tests SYSTEM PRIVATE "${BOOST_INCLUDE}")
  target_link_libraries(core_tests PRIVATE session core catch2 own_flags)
endif()

# Prints the tables of checks with their results, for web/sources.mjs.
add_executable(sources_list tests/sources_list.cpp)
target_compile_options(sources_list PRIVATE -O1)
target_link_libraries(sources_list PRIVATE core own_flags)

# Times the core; tests/bench has its use.
file(GLOB bench_sources CONFIGURE_DEPENDS tests/bench/*_bench.cpp)
add_executable(bench EXCLUDE_FROM_ALL ${bench_sources})
# The integrator that the core is compared with gets the best the compiler can do.
target_compile_options(bench PRIVATE -O3 -flto)
target_link_options(bench PRIVATE -O3 -flto)
target_include_directories(bench SYSTEM PRIVATE "${BOOST_INCLUDE}")
target_link_libraries(bench PRIVATE session core catch2 own_flags)

include(counted)
