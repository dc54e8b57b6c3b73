#include "desk/places.h"

#include "base/process.h"

#include <cstdlib>
#include <optional>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

std::optional<fs::path> user_data_folder() {
    if (const char* data = std::getenv("XDG_DATA_HOME"); data && *data == '/')
        return fs::path(data);
    if (const char* home = std::getenv("HOME"); home && *home == '/')
        return fs::path(home) / ".local/share";
    return std::nullopt;
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
    if (auto data = user_data_folder()) folders.push_back(*data / "fettlebook/plugins");
    return folders;
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
