# The Debian package: `cpack --preset release`, or `cpack -G DEB` in the build folder. Not made of a
# sanitized build: such a program wants its sanitizers' libraries and is no use to anybody.
if(FETTLEBOOK_SANITIZE)
  return()
endif()
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME fettlebook)
set(CPACK_PACKAGE_VENDOR "The Fettlebook authors")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "notebook for one person rebuilding an old vehicle")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS ${CMAKE_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS})
# What Debian wants otherwise than a prefix of one's own.
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_SOURCE_DIR}/debian_staging.cmake)
set(CPACK_FETTLEBOOK_CHANGELOG ${CMAKE_CURRENT_SOURCE_DIR}/debian_changelog)
set(CPACK_FETTLEBOOK_LINTIAN_OVERRIDES ${CMAKE_CURRENT_SOURCE_DIR}/lintian_overrides)

set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE ${FETTLEBOOK_PACKAGE_RELEASE})
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "The Fettlebook authors <fettlebook@example.org>")
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"takes in shop photos and reads when they were taken, ties them to parts and
tasks, keeps the build log with the figures and the photos that prove them,
reads makers' marks off worn stampings, and works out springs, threads,
torques, fits and shim stacks inside the entry being written.
.
There is a window and a command line, both on the same notebook, which is a
folder of its own. Nothing is ever written to an original photo.")
# The libraries as the linker sees them, and the faces that the window and the PDFs read when they run.
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-cabin, fonts-crosextra-carlito, fonts-dejavu-core")
# What GLFW looks for when it opens a window, and does without: pointers, screens and their sizes.
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "fonts-noto-cjk, libxcursor1, libxi6, libxinerama1, libxrandr2")
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
include(CPack)
