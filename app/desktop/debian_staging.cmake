# Run by cpack between installing into its staging folder and packing that: what Debian's policy wants.
file(GLOB_RECURSE programs ${CPACK_TEMPORARY_DIRECTORY}/usr/bin/fettlebook)
if(NOT programs)
  message(FATAL_ERROR "no program in ${CPACK_TEMPORARY_DIRECTORY}")
endif()
set(share ${CPACK_TEMPORARY_DIRECTORY}/usr/share)

# Completions of packages have a folder of their own; zsh does not look into site-functions of /usr.
file(RENAME ${share}/zsh/site-functions ${share}/zsh/vendor-completions)

file(MAKE_DIRECTORY ${share}/lintian/overrides)
file(COPY_FILE ${CPACK_FETTLEBOOK_LINTIAN_OVERRIDES} ${share}/lintian/overrides/fettlebook)

# Compressed without name and time, so that the same build gives the same package.
file(COPY_FILE ${CPACK_FETTLEBOOK_CHANGELOG} ${share}/doc/fettlebook/changelog.Debian)
execute_process(COMMAND gzip -9n ${share}/man/man1/fettlebook.1 ${share}/doc/fettlebook/changelog.Debian
  COMMAND_ERROR_IS_FATAL ANY)
