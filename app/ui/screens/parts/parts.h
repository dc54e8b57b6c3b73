// The parts as a list, the form for a new one, and the page of one (part_page.h); a key away the
// positions they are for (positions.h) and what is missing (missing_list.h).
#pragma once

#include "ui/context.h"
#include "ui/screens/parts/part_page.h"
#include "ui/screens/positions/missing_list.h"
#include "ui/screens/positions/positions.h"
#include "ui/widgets/table.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fettle::ui {

enum class PartsView { parts, positions, missing };

struct PartsRead {
    std::vector<Part> parts;
    std::vector<std::string> said; // of each, what is looked through for words, in small letters
    std::string longest_tag;
};

// What the list shown depends on besides the parts.
struct PartsAsked {
    std::string words, by;
    bool downwards = false;
    std::uint64_t reading = 0; // of all parts
    bool operator==(const PartsAsked&) const = default;
};

// What a person is in the middle of, and what has been read for it.
struct PartsState {
    PartsView view = PartsView::parts;
    PositionsState positions;
    MissingListState missing;
    std::string words; // only parts that hold them are listed
    bool adding = false;
    bool adding_begins = false; // the caret goes to the name
    PartFields fresh;
    std::string refused; // why the part was not added, when no field is to blame
    PartPageState page;  // of the part looked at, if any
    PartId at{}, wanted{};
    int last_frame = -1;
    Snapshot<PartsRead> all;
    TableState table;
    Snapshot<std::vector<std::size_t>, PartsAsked> list; // those shown, among all
};

void draw_parts(Page& page, Context& context, SideWork& work, PartsState& state);
// Shows the part with that id; the list of positions, or what is missing, where the place says so.
void lead_to(PartsState& state, const Place& place);
// Shows what taking this parts list in would do.
void open_list(PartsState& state, const std::filesystem::path& file);

} // namespace fettle::ui
