// Opens the window on a notebook and stays until it is closed. The one place of this room that
// brings the real window and the rest together; main.cpp calls it and nothing else here.
#pragma once

#include <filesystem>
#include <optional>
#include <utility>
#include <vector>

namespace fettle::ui {

struct AppWish {
    std::filesystem::path notebook_folder;
    // Draw each screen once, in several sizes, into PNG files in this folder, and end.
    std::optional<std::filesystem::path> pictures = {};
    std::vector<std::pair<int, int>> sizes = {}; // of the pictures, pixels; none: the usual two
    float letters = 1;                           // how large, kLeastScale to kMostScale
};

// The program's exit code: 0, or 1 after a sentence on stderr. A folder that holds no notebook
// opens with a page that offers to make one there.
int run_window(const AppWish& wish);

} // namespace fettle::ui
