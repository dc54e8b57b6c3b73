// The page for a folder in which there is no notebook yet: names the folder and makes one there.
#pragma once

#include "notebook/notebook.h"
#include "ui/frame/page.h"

#include <filesystem>
#include <optional>
#include <string>

namespace fettle::ui {

struct FirstPageState {
    std::string vehicle;
    std::string error;
    bool begins = true; // the caret goes to the name
};

// The notebook, in the frame in which it was made.
std::optional<Notebook> draw_first_page(Page& page, const std::filesystem::path& folder,
                                        FirstPageState& state);

} // namespace fettle::ui
