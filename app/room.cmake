# fettle_room(NAME SOURCES a.cpp ... [USES target ...])
# A room is a folder of app/ built as one static library. USES lists what its headers and sources
# may include: rooms further down (see the map in DEVELOPERS.md) and wrapped libraries.
function(fettle_room name)
  cmake_parse_arguments(ROOM "" "" "SOURCES;USES" ${ARGN})
  add_library(fettle_${name} STATIC ${ROOM_SOURCES})
  target_include_directories(fettle_${name} PUBLIC ${PROJECT_SOURCE_DIR}/app)
  target_link_libraries(fettle_${name} PUBLIC ${ROOM_USES} PRIVATE fettle_flags)
endfunction()

# fettle_plugin(NAME SOURCES a.cpp ...)
# A calculation plugin: its arithmetic as a static library that tests call directly, and the thin
# adapter (NAME_plugin.cpp) as a loadable library that exports the describe function alone.
function(fettle_plugin name)
  cmake_parse_arguments(PLUGIN "" "" "SOURCES" ${ARGN})
  add_library(fettle_calc_${name} STATIC ${PLUGIN_SOURCES})
  target_include_directories(fettle_calc_${name} PUBLIC ${PROJECT_SOURCE_DIR}/plugins)
  target_link_libraries(fettle_calc_${name} PUBLIC fettle_sdk PRIVATE fettle_flags)
  add_library(fettle_plugin_${name} MODULE ${name}_plugin.cpp)
  set_target_properties(fettle_plugin_${name} PROPERTIES PREFIX "" OUTPUT_NAME ${name}
    LIBRARY_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/plugins)
  target_link_libraries(fettle_plugin_${name} PRIVATE fettle_calc_${name} fettle_flags)
endfunction()
