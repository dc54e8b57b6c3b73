// What work that was cut short has left in a notebook's folder and beside it. It is in nobody's
// way; most of it goes with the next work of its kind.
#pragma once

#include <filesystem>
#include <vector>

namespace fettle::desk {

// Half-written files and folders that no running program is at, but for half copies of photos.
std::vector<std::filesystem::path> cut_short(const std::filesystem::path& notebook);

} // namespace fettle::desk
