#include "desk/places.h"

#include "base/process.h"

#include <cstdlib>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

// Blank when neither is set to an absolute path.
fs::path user_folder(const char* variable, const char* below_home) {
    if (const char* folder = std::getenv(variable); folder && *folder == '/')
        return fs::path(folder) / "fettlebook";
    if (const char* home = std::getenv("HOME"); home && *home == '/')
        return fs::path(home) / below_home / "fettlebook";
    return {};
}

// PREFIX/bin/fettlebook stands beside PREFIX/lib/fettlebook and PREFIX/share/fettlebook; nothing
// but that is known of PREFIX, so that an installation can be moved.
fs::path prefix() {
    return own_folder().parent_path();
}

} // namespace

std::vector<fs::path> plugin_folders() {
    std::vector<fs::path> folders;
    for (const auto& folder : {prefix() / "lib/fettlebook/plugins", prefix() / "plugins"})
        if (fs::is_directory(folder)) folders.push_back(folder);
    if (auto data = user_folder("XDG_DATA_HOME", ".local/share"); !data.empty())
        folders.push_back(data / "plugins");
    return folders;
}

fs::path state_folder() {
    return user_folder("XDG_STATE_HOME", ".local/state");
}

fs::path decode_program() {
    return helper_program("fettlebook-decode");
}
fs::path calc_program() {
    return helper_program("fettlebook-calc");
}

fs::path demo_assets() {
    return prefix() / "share/fettlebook/demo";
}

} // namespace fettle::desk
