// What the find field finds, in a list below it while one types, with what narrows it above: the
// kind, two days, a part and a maker. Enter or a press leads to where the record lives. Marks show
// their crop.
#pragma once

#include "notebook/search.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/marks/mark_shown.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

struct FoundShown {
    Found found;
    std::optional<MarkShown> mark; // of a mark
};

// What narrows the finds, as typed.
struct FindNarrowed {
    int kind = 0; // 0: everything; else one of kFoundKinds
    std::string from, to, part, maker;
    bool operator==(const FindNarrowed&) const = default;
};
// As read: a field that does not read narrows nothing, and says so in its error.
struct FindRead {
    FindFilter filter;
    std::string from_error, to_error, part_error, maker_error;
};

struct FindState {
    bool open = false;
    int at = 0;           // the one that Enter takes
    bool entered = false; // Enter was pressed before what it takes was read
    FindNarrowed narrowed;
    Snapshot<FindRead, FindNarrowed> read;
    Snapshot<std::vector<FoundShown>, FindFilter> found;
};

// Where a find leads to.
Place place_of(const Found& found);

struct FindField {
    const std::string& words;
    bool edited = false, entered = false;
    Rect field; // where it stands on the screen
};

// The place to lead to, when one was taken.
std::optional<Place> draw_find_results(Page& page, Context& context, const FindField& line,
                                       FindState& state);

} // namespace fettle::ui
