// The Log: days downwards, the newest first. An entry shows its text, photos, worked results, parts
// and tasks; it can be changed, and removed with undo. Only entries in sight are read and laid out.
#pragma once

#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/entry/entry_desk.h"
#include "ui/screens/log/log_entry.h"

#include <map>
#include <memory>
#include <vector>

namespace fettle::ui {

// What a person is in the middle of, and what was read for it.
struct LogState {
    EntryId show{}; // to be scrolled into sight in the next frame
    Snapshot<std::vector<EntryOnDay>> index;
    std::map<EntryId, LoggedEntry> read; // those in sight, read anew when the notebook changes
    std::uint64_t read_at = 0;           // the change counter they were read at
    std::map<EntryId, float> heights;    // pixels, as last laid out
    float laid_out_width = 0;
    ResultStates results;
};

void draw_log(Page& page, Context& context, EntryDesk& desk, SideWork& work, LogState& state);

} // namespace fettle::ui
