// What the find field finds, in a list below it while one types; Enter or a press leads there.
#pragma once

#include "notebook/search.h"
#include "ui/context.h"
#include "ui/page.h"
#include "ui/snapshot.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

struct FindState {
    bool open = false;
    int at = 0; // the one that Enter takes
    Snapshot<std::vector<Found>, std::string> found;
};

// Where a find leads to.
Place place_of(const Found& found);

struct FindField {
    const std::string& words;
    bool edited = false, entered = false;
    Rect field; // where it stands on the screen
};

// The place to lead to, when one was taken.
std::optional<Place> draw_find_results(Page& page, const Context& context, const FindField& line,
                                       FindState& state);

} // namespace fettle::ui
