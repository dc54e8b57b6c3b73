// Parts for one position side by side: what is known of each, and what speaks for and against it.
// Which one is used is the user's decision (choose_part).
#pragma once

#include "notebook/consignments.h"
#include "notebook/parts.h"
#include "notebook/positions.h"

#include <string>
#include <vector>

namespace fettle::desk {

struct Reason {
    bool speaks_for = true;
    std::string words; // "measured: pin bore, reuse", "out until 3 Apr 2026"
};

struct Alternate {
    Part part;
    int at_hand = 0;                   // pieces
    std::vector<std::string> measured; // "pin bore: reuse, 4 Feb 2026", the newest of each feature
    std::vector<Away> away;
    std::vector<Reason> reasons;
    bool chosen = false;
};

// All parts intended for the position, by tag.
Result<std::vector<Alternate>> alternates_for(const Notebook& notebook, const Position& position,
                                              Day today);

} // namespace fettle::desk
