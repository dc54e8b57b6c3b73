// Brings two states of one notebook together, field by field. Knows no file but the states, no
// screen and no machine.
//
// What the other side wrote and this one has not seen is taken; where both wrote, the later stands
// and the other value is kept as a difference. A record removed on one side and changed or spoken
// of on the other stays. Records both sides made of the same thing (one contact, one photo) become
// the one with the lower id. Whatever merging writes by itself has a stamp of this side later than
// all known, so that states only ever grow: two copies that have each seen all of the other are
// equal. For this room only.
#pragma once

#include "notebook/stamps.h"
#include "notebook/states.h"

#include <filesystem>
#include <map>
#include <optional>

namespace fettle {

using SeenBySide = std::map<int, std::int64_t>; // by side: known up to this moment

// A field that speaks of a record.
struct Reference {
    std::string table, column, to;
};
std::vector<Reference> references(store::Database& live);

struct MergeAsk {
    std::filesystem::path mine;   // becomes what both are together
    std::filesystem::path before; // mine as it was, for reading
    std::filesystem::path theirs;
    std::filesystem::path base; // for the values both last had; empty: not known
    SeenBySide mine_seen, theirs_seen;
    Stamp fresh; // for what merging writes by itself; its side is this one
    std::vector<Reference> references;
};

struct Merged {
    int made = 0, changed = 0, removed = 0; // records, as the other side made them
    int differences = 0;                    // new ones
    bool wrote = false;                     // something has the fresh stamp
};

// Throws Trouble when the two cannot be brought together; the notebook itself is untouched.
Merged merge_states(const MergeAsk& ask);

} // namespace fettle
