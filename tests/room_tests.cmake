# fettle_tests(NAME SOURCES a_test.cpp ... [USES target ...] [NEEDS program ...] [OFTEN header ...])
# One doctest program a room; every TEST_CASE becomes a ctest test of its own. Sources are compared
# with the folder, so a test file that nobody lists stops the configuring instead of sleeping.
# NEEDS names programs the tests start: they are built first and found beside the test program.
# OFTEN are headers of the tree that most of the tests include: compiled once for them.
find_package(doctest REQUIRED)
include(${doctest_DIR}/doctest.cmake)

add_library(test_main OBJECT ${CMAKE_CURRENT_LIST_DIR}/doctest_main.cpp)
target_link_libraries(test_main PRIVATE third_party::doctest fettle_flags)

# Checks run once each, so compiling them fast counts for more than running them fast. The second
# makes of each assertion one call; what differs is only where a debugger would stop.
set(TESTS_OPTIMISED -O0 -DDOCTEST_CONFIG_SUPER_FAST_ASSERTS)

# The big headers that nearly every test includes, compiled once (as for the rooms, app/room.cmake).
add_library(test_headers OBJECT ${CMAKE_BINARY_DIR}/often_used.cpp)
target_link_libraries(test_headers PRIVATE third_party::doctest third_party::json fettle_flags)
target_precompile_headers(test_headers PRIVATE <doctest/doctest.h> ${OFTEN_USED})
target_compile_options(test_headers PRIVATE ${TESTS_OPTIMISED})
set_target_properties(test_headers PROPERTIES POSITION_INDEPENDENT_CODE OFF)

function(fettle_tests name)
  cmake_parse_arguments(TESTS "" "" "SOURCES;USES;NEEDS;OFTEN" ${ARGN})
  file(GLOB on_disk RELATIVE ${CMAKE_CURRENT_SOURCE_DIR} CONFIGURE_DEPENDS *_test.cpp)
  foreach(file IN LISTS on_disk)
    if(NOT file IN_LIST TESTS_SOURCES)
      message(FATAL_ERROR "tests/${name}/${file} is in no test program: list it under SOURCES")
    endif()
  endforeach()
  # ctest would take a semicolon for the end of a name and run the halves, which may match nothing.
  foreach(file IN LISTS on_disk)
    file(STRINGS ${file} split_names REGEX "TEST_CASE\\(\"[^\"]*;")
    if(split_names)
      message(FATAL_ERROR "tests/${name}/${file}: no semicolons in test names: ${split_names}")
    endif()
  endforeach()
  add_executable(tests_${name} ${TESTS_SOURCES})
  target_include_directories(tests_${name} PRIVATE ${PROJECT_SOURCE_DIR}/tests)
  target_compile_definitions(tests_${name} PRIVATE
    FETTLEBOOK_BIN_DIR="${CMAKE_RUNTIME_OUTPUT_DIRECTORY}"
    FETTLEBOOK_PLUGIN_DIR="${CMAKE_BINARY_DIR}/plugins"
    FETTLEBOOK_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
  target_link_libraries(tests_${name} PRIVATE test_main ${TESTS_USES} third_party::doctest
    fettle_flags)
  target_compile_options(tests_${name} PRIVATE ${TESTS_OPTIMISED})
  if(TESTS_OFTEN)
    target_precompile_headers(tests_${name} PRIVATE <doctest/doctest.h> ${OFTEN_USED} ${TESTS_OFTEN})
  else()
    target_precompile_headers(tests_${name} REUSE_FROM test_headers)
  endif()
  set_target_properties(tests_${name} PROPERTIES POSITION_INDEPENDENT_CODE OFF)
  if(TESTS_NEEDS)
    add_dependencies(tests_${name} ${TESTS_NEEDS})
  endif()
  doctest_discover_tests(tests_${name} TEST_PREFIX "${name}: "
    PROPERTIES TIMEOUT 300 LABELS ${name}
    ENVIRONMENT LSAN_OPTIONS=print_suppressions=0:suppressions=${PROJECT_SOURCE_DIR}/tests/leaks_elsewhere.txt)
endfunction()
