// The page of one position: what it needs, the parts for it side by side with what speaks for and
// against each, which one is to be used, and its fields.
#pragma once

#include "desk/alternates.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/positions/position_fields.h"

#include <vector>

namespace fettle::ui {

struct PositionFacts {
    PositionFill fill;
    std::string vehicle;
    std::vector<desk::Alternate> alternates;
};

struct PositionPageState {
    PositionId position{}; // none: the list is shown
    PositionFields fields;
    std::uint64_t filled_for = 0; // the change counter the fields were filled at
    bool active = false;          // a field is being written in
    bool takes_keyboard = false;
    bool wants_part = false; // set when a part for it is to be added
    Snapshot<PositionFacts, std::int64_t> facts;

    void open(PositionId id);
};

void draw_position_page(Page& page, Context& context, PositionPageState& state);

} // namespace fettle::ui
