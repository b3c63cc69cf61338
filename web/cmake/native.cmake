# The tests of core and session on this machine.
find_path(BOOST_INCLUDE boost/numeric/odeint.hpp)  # the independent integrator, tests only

if(test_sources)
  add_executable(core_tests ${test_sources})
  target_compile_options(core_tests PRIVATE -O1)
  target_compile_definitions(core_tests PRIVATE "FIXTURES_DIR=\"${CMAKE_SOURCE_DIR}/tests/fixtures\"")
  target_include_directories(core_tests SYSTEM PRIVATE "${BOOST_INCLUDE}")
  target_link_libraries(core_tests PRIVATE session core catch2 own_flags)
endif()

if(EXISTS "${CMAKE_SOURCE_DIR}/tests/bench/native.cmake")
  include("${CMAKE_SOURCE_DIR}/tests/bench/native.cmake")
endif()
