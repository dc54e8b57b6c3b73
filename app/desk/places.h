// Where the installation keeps what the program needs beside itself. The only room that knows.
#pragma once

#include <filesystem>
#include <vector>

namespace fettle::desk {

// The installation's plugin folder and the user's own (~/.local/share/fettlebook/plugins or below
// $XDG_DATA_HOME); they need not exist.
std::vector<std::filesystem::path> plugin_folders();
// Where the user's own programs remember how they were left (~/.local/state or $XDG_STATE_HOME, by
// the XDG Base Directory Specification 0.8); it need not exist. Blank when nothing says where.
std::filesystem::path state_folder();
std::filesystem::path decode_program();
std::filesystem::path calc_program();
// assets/demo as installed; a build has a link to it in the same place.
std::filesystem::path demo_assets();

} // namespace fettle::desk
