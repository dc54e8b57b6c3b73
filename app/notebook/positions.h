// Positions: the places on a vehicle that need a part, as its parts list has them, what of each is
// there, and which of several parts for one is to be used.
#pragma once

#include "notebook/notebook.h"

#include <vector>

namespace fettle {

struct Position {
    PositionId id;
    VehicleId vehicle;
    std::string group;  // "Front suspension"
    std::string number; // in the maker's parts list; unique on the vehicle
    std::string name;
    int quantity = 1;
    std::string spec;
    PartId chosen{}; // the part to use, where the user has said so
};

// What a position has and lacks, in pieces of the parts that are intended for it, held for its
// vehicle and fit to be used: not scrap, not on hold, not to be replaced.
struct PositionFill {
    Position position;
    int on_hand = 0; // neither used nor away
    int used = 0;    // of lots: in their place already
    int out = 0;     // with a firm, and to come back
    int coming = 0;  // on its way in from a seller
    int fitted = 0;  // of those on hand and used: in their place for good
    // What lacks today, and what is still to be got when all that is away has come.
    int missing() const { return short_of(on_hand + used); }
    int to_get() const { return short_of(on_hand + used + out + coming); }

  private:
    int short_of(int there) const {
        return position.quantity > there ? position.quantity - there : 0;
    }
};

// Refused: a blank number or name, a number that is on the vehicle already, no quantity.
Result<PositionId> add_position(Notebook& notebook, const Position& position);
// Overwrites group, number, name, quantity and spec of the position with that id.
Done set_position(Notebook& notebook, const Position& position);
// Refused while a part is intended for it, a task needs it or limits are kept for it.
Done remove_position(Notebook& notebook, PositionId id);
// Says which part is to be used there; none: nothing is chosen. Refused: a part that is not
// intended for it, is held for another vehicle, or is scrap.
Done choose_part(Notebook& notebook, PositionId id, PartId part);

// By group, then by number as a parts list counts (2 before 10).
Result<std::vector<PositionFill>> list_positions(const Notebook& notebook, VehicleId vehicle);
// The same of all vehicles in one reading, the vehicle made first first.
Result<std::vector<PositionFill>> list_all_positions(const Notebook& notebook);
Result<Position> position_by_id(const Notebook& notebook, PositionId id);
// By number in the parts list, or by name when no number fits; ambiguity is refused. On one vehicle
// where one is named.
Result<Position> find_position(const Notebook& notebook, const std::string& number_or_name,
                               VehicleId on = {});

} // namespace fettle
