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

# Programs that time the core; tests/bench has their use.
file(GLOB bench_sources CONFIGURE_DEPENDS tests/bench/*_bench.cpp)
foreach(source IN LISTS bench_sources)
  get_filename_component(name "${source}" NAME_WE)
  add_executable(${name} EXCLUDE_FROM_ALL ${source})
  # The integrator that the core is compared with gets the best the compiler can do.
  target_compile_options(${name} PRIVATE -O3 -flto)
  target_link_options(${name} PRIVATE -O3 -flto)
  target_include_directories(${name} SYSTEM PRIVATE "${BOOST_INCLUDE}")
  target_link_libraries(${name} PRIVATE session core own_flags)
endforeach()
