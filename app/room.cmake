# Most of what a file costs to compile are the same few big headers. They are compiled once here, for
# all rooms and plugins; every file still names what it uses.
file(WRITE ${CMAKE_BINARY_DIR}/often_used.cpp "")
add_library(fettle_often_used OBJECT ${CMAKE_BINARY_DIR}/often_used.cpp)
target_link_libraries(fettle_often_used PRIVATE third_party::json fettle_flags fettle_hardened)
target_compile_options(fettle_flags INTERFACE $<$<COMPILE_LANGUAGE:CXX>:-fpch-preprocess>)
set(OFTEN_USED <algorithm> <array> <chrono> <cmath> <cstdint> <filesystem> <functional> <map> <memory>
  <optional> <set> <string> <string_view> <unordered_map> <utility> <variant> <vector>
  <nlohmann/json.hpp>)
target_precompile_headers(fettle_often_used PRIVATE ${OFTEN_USED})

# fettle_room(NAME SOURCES a.cpp ... [USES target ...] [OFTEN header ...])
# A room is a folder of app/ built as one static library. USES lists what its headers and sources
# may include: rooms further down (see the map in DEVELOPERS.md) and wrapped libraries. OFTEN are
# headers of the tree that most of its sources include: compiled once for the room.
function(fettle_room name)
  cmake_parse_arguments(ROOM "" "" "SOURCES;USES;OFTEN" ${ARGN})
  add_library(fettle_${name} STATIC ${ROOM_SOURCES})
  target_include_directories(fettle_${name} PUBLIC ${PROJECT_SOURCE_DIR}/app)
  target_link_libraries(fettle_${name} PUBLIC ${ROOM_USES} PRIVATE fettle_flags
    fettle_hardened)
  if(ROOM_OFTEN)
    target_precompile_headers(fettle_${name} PRIVATE ${OFTEN_USED} ${ROOM_OFTEN})
  else()
    target_precompile_headers(fettle_${name} REUSE_FROM fettle_often_used)
  endif()
endfunction()

# fettle_plugin(NAME SOURCES a.cpp ... [USES target ...])
# A calculation plugin: its arithmetic as a static library that tests call directly, and the thin
# adapter (NAME_plugin.cpp) as a loadable library that exports the describe function alone.
function(fettle_plugin name)
  cmake_parse_arguments(PLUGIN "" "" "SOURCES;USES" ${ARGN})
  add_library(fettle_calc_${name} STATIC ${PLUGIN_SOURCES})
  target_include_directories(fettle_calc_${name} PUBLIC ${PROJECT_SOURCE_DIR}/plugins)
  target_link_libraries(fettle_calc_${name} PUBLIC fettle_sdk ${PLUGIN_USES} PRIVATE fettle_flags
    fettle_hardened)
  add_library(fettle_plugin_${name} MODULE ${name}_plugin.cpp)
  set_target_properties(fettle_plugin_${name} PROPERTIES PREFIX "" OUTPUT_NAME ${name}
    LIBRARY_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/plugins)
  target_link_libraries(fettle_plugin_${name} PRIVATE fettle_calc_${name} fettle_flags
    fettle_hardened)
  set_property(GLOBAL APPEND PROPERTY FETTLE_PLUGINS fettle_plugin_${name}) # app/desktop installs them
endfunction()
