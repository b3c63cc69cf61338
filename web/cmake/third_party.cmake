# Where the pinned sources lie. web/setup.sh unpacks them; nothing is fetched here.
set(THIRD_PARTY_DIR "${CMAKE_SOURCE_DIR}/.cache/src" CACHE PATH "Unpacked third-party sources")

# third_party_dir(<name> <variable>): folder of the source called <name> in sources.txt.
function(third_party_dir name variable)
  set(list_file "${CMAKE_SOURCE_DIR}/web/sources.txt")
  set_property(DIRECTORY "${CMAKE_SOURCE_DIR}" APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${list_file}")
  file(STRINGS "${list_file}" lines REGEX "^${name}[ \t]")
  string(REGEX REPLACE "[ \t]+" ";" fields "${lines}")
  list(GET fields 5 folder)
  set(dir "${THIRD_PARTY_DIR}/${folder}")
  if(NOT IS_DIRECTORY "${dir}")
    message(FATAL_ERROR "The sources of ${name} are not there. Run ./web/serve.sh or "
                        "./tests/run.sh once: they fetch and check them.")
  endif()
  set(${variable} "${dir}" PARENT_SCOPE)
endfunction()

# Other people's code is compiled as it is: small, and without our warnings.
add_library(third_party_flags INTERFACE)
target_compile_options(third_party_flags INTERFACE -w -ffp-contract=off)
