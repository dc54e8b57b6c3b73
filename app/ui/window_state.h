// How the window was left, so that it opens as it was: kept for the user, beside no notebook.
#pragma once

#include "ui/frame/theme.h"
#include "ui/widgets/table.h"

#include <filesystem>
#include <map>
#include <string>

namespace fettle::ui {

inline constexpr float kLeastScale = 0.8F, kMostScale = 2.5F;

struct RoomState {
    Light light = Light::day;
    float text_scale = 1;                          // the user's, kLeastScale to kMostScale
    std::string screen;                            // its key; empty: the first
    bool entry_open = true;                        // beside the screen
    float entry_width = 0;                         // before scaling; 0: as first laid out
    std::map<std::string, TableState> tables = {}; // "parts", by their keys
};

struct WindowState {
    int width = 1280, height = 800; // pixels of the screen, when not maximised
    bool maximised = false;
    RoomState room;
};

// What is missing in the file, or cannot be, is as in a first window.
WindowState read_window_state(const std::filesystem::path& file);
// Makes the folder, too. That it cannot be kept is no trouble worth telling.
void keep_window_state(const std::filesystem::path& file, const WindowState& state);

} // namespace fettle::ui
