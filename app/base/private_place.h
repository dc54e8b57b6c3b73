// Files and folders in the making: beside the place they are for, under names nobody can have laid
// anything under, open to nobody else until they are whole. A name holds the number of the process
// that makes it, so that what a killed one left can be told (left_halves in base/half_folder.h).
// Any thread.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string_view>

namespace fettle {

// BEFORE, "1234-qwertyui", AFTER in the folder: 1234 is this process, the letters are by chance. A
// BEFORE that would make the name too long for a file system is cut.
std::filesystem::path private_name(const std::filesystem::path& folder, std::string_view before,
                                   std::string_view after);
// BEFORE as it stands in such a name.
std::string_view private_before(std::string_view before);

// A new, empty file (0600) under such a name, open for reading and writing: its descriptor, or -1
// with errno. Links are not followed and nothing that is there is taken.
int make_private_file(const std::filesystem::path& folder, std::string_view before,
                      std::string_view after, std::filesystem::path& made);
// A new, empty folder (0700): 0 or errno.
int make_private_folder(const std::filesystem::path& folder, std::string_view before,
                        std::string_view after, std::filesystem::path& made);

// What the user lets others do with something new (umask), of 0666 for a file, of 0777 for a
// folder. When that cannot be known: nothing.
mode_t let_by_umask(mode_t most);
// What is to be let when the finished file or folder takes this place: as with what stands there,
// if that is the user's own and of the same kind, else by umask.
mode_t mode_in_place_of(const std::filesystem::path& place, mode_t kind, mode_t most);
// Opens what is being made to the others: 0 or errno. A file system without modes lets nobody in
// that it did not before, which is no failure.
int let_others(int descriptor, mode_t mode);
int let_others(const std::filesystem::path& made, mode_t mode);

} // namespace fettle
