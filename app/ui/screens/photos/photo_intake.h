// Where photos come from, on the screen of photos: a path typed to be taken in, and the folder that
// is watched, typed or dropped while its line is open. UI thread only.
#pragma once

#include "ui/context.h"
#include "ui/frame/page.h"

#include <filesystem>
#include <string>

namespace fettle::ui {

// What a person is in the middle of.
struct IntakeState {
    bool taking_in = false; // the line for a path is open
    bool watching = false;  // the line for a folder to be watched is open
    bool wants_caret = false;
    std::string path, folder;
    std::string path_error, folder_error;
};

// A path as typed, `~` for the home folder.
std::filesystem::path path_of(const std::string& typed);

// Opens the line for a path, with the caret in it.
void ask_where(IntakeState& state);

// The acts, side by side with what stands in the line already, and their keys.
class Flow;
void intake_acts(Page& page, Flow& flow, IntakeState& state, const Context& context);
// The folder that is watched, with its stop.
void watched_line(Page& page, Context& context);
// The lines that are open.
void intake_lines(Page& page, Context& context, IntakeState& state);
// The line for a path alone, for a page without photos.
void path_line(Page& page, Context& context, IntakeState& state);

} // namespace fettle::ui
