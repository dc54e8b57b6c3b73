// What vehicles lack as a report; `missing` and `part list --missing` give the same.
#pragma once

#include "cli/verb.h"
#include "notebook/missing.h"

namespace fettle::cli {

inline constexpr const char* kMissingFields =
    "{vehicle, group, position, name, spec, quantity, on_hand,\nin_place, out, on_its_way, "
    "missing, "
    "to_get, away [{tag, inward, pieces, firm, consignment, due}],\nmight_fit [{tag, name, "
    "held_for, "
    "pieces}]}";

Report missing_report(const std::vector<MissingLine>& lines);

} // namespace fettle::cli
