// What a vehicle lacks: positions short of pieces, what is on its way to them, and parts that would
// fit and are intended for nothing, or held for another vehicle.
#pragma once

#include "base/date.h"
#include "notebook/positions.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle {

// A part that may fill a position: its name holds every word of the position's, or it is intended
// for the position of that name on another vehicle.
struct MightFit {
    PartId part{};
    std::string tag, name;
    std::string held_for;      // the other vehicle; blank: for none, or ours
    int pieces = 0;            // at hand
    std::string words() const; // "X1 Shackle plate, held for Drover 30-cwt"
};

// Pieces intended for a position that are with a firm, or on their way in.
struct AwayForIt {
    PartId part{};
    std::string tag;
    bool inward = false;
    int pieces = 0;
    std::string firm;
    std::int64_t consignment = 0;
    std::optional<Day> due;
    std::string words(Day today) const; // "4 on their way from Hebble Lane, due 3 Apr 2026"
};

struct MissingLine {
    PositionFill fill;
    std::string vehicle;
    std::vector<AwayForIt> away;
    std::vector<MightFit> might_fit;
};

// Positions with fewer pieces in place and at hand than they need, by group and number; of all
// vehicles where none is named.
Result<std::vector<MissingLine>> list_missing(const Notebook& notebook, VehicleId vehicle = {});

// RFC 4180 with a heading row: vehicle, group, number, name, spec, quantity, on hand, in place,
// out, on its way, to get, away, might fit.
std::string missing_csv(const std::vector<MissingLine>& lines, Day today);

} // namespace fettle
