// One thing of a plain list: its title and what is to be said of it, set over as many lines as the
// column needs, as one item that can be pressed and reached by keys.
#pragma once

#include "ui/frame/page.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct SaidLine {
    std::string text;
    Role role = Role::pencil;
};

struct ListedLook {
    std::string_view title;
    std::string_view aside = {};      // at the right edge of the first line
    std::vector<SaidLine> lines = {}; // fine print below
};

// True when it was pressed. Notes itself under the key, and what it says under `key.words`.
bool listed(Page& page, std::string_view key, const ListedLook& look);

} // namespace fettle::ui
