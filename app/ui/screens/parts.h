// The parts as a list, the form for a new one, and the page of one (part_page.h).
#pragma once

#include "ui/context.h"
#include "ui/screens/part_page.h"

#include <string>
#include <vector>

namespace fettle::ui {

// What a person is in the middle of, and what has been read for it.
struct PartsState {
    std::string words; // only parts that hold them are listed
    bool adding = false;
    bool adding_begins = false; // the caret goes to the name
    PartFields fresh;
    std::string refused; // why the part was not added, when no field is to blame
    PartPageState page;  // of the part looked at, if any
    PartId at{}, wanted{};
    int last_frame = -1;
    Snapshot<std::vector<Part>, std::string> list;
};

void draw_parts(Page& page, Context& context, SideWork& work, PartsState& state);
// Shows the part with that id.
void lead_to(PartsState& state, const Place& place);

} // namespace fettle::ui
