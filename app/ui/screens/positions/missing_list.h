// What is missing, as a shopping list: by vehicle and group, with what is on its way and what might
// fit. A view of Parts.
#pragma once

#include "notebook/missing.h"
#include "notebook/vehicles.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/clipped.h"
#include "ui/widgets/table.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct MissingListState {
    VehicleId vehicle{}; // none: all
    std::string written; // where the list was written to last
    Snapshot<std::vector<Vehicle>> vehicles;
    Snapshot<std::vector<MissingLine>, VehicleId> list;
    Snapshot<bool, VehicleId> any_position; // asked where nothing is missing
    TableState table;
    Snapshot<std::vector<std::size_t>, RowOrder> ordered;
    Clipped lines;
    PositionId open{}; // set when a position is to be shown
};

enum class MissingEnd { stays, to_parts, to_positions };
MissingEnd draw_missing(Page& page, Context& context, MissingListState& state);

} // namespace fettle::ui
