// The parts list of a vehicle: its groups as a tree that folds, what each position lacks, and from
// here the page of a position, the form for a new one and taking in a list. A view of Parts.
#pragma once

#include "notebook/vehicles.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/positions/position_import.h"
#include "ui/screens/positions/position_page.h"

#include <set>
#include <string>
#include <vector>

namespace fettle::ui {

struct ShownPosition {
    PositionFill fill;
    int parts = 0;          // intended for it
    std::string chosen_tag; // of the one to be used
};

struct PositionsState {
    VehicleId vehicle{};
    std::set<std::string> folded; // groups
    PositionPageState page;
    PositionImport import;
    bool adding = false, adding_begins = false;
    PositionFields fresh;
    std::string added; // what was added last, while adding
    PositionId at{}, wanted{};
    int last_frame = -1;
    Snapshot<std::vector<Vehicle>> vehicles;
    Snapshot<std::vector<ShownPosition>, VehicleId> list;

    // Puts the keyboard on the first position of a group, which is unfolded.
    void show_group(VehicleId of, PositionId first) {
        vehicle = of;
        at = wanted = first;
        folded.clear();
    }
};

enum class PositionsEnd { stays, to_parts, to_missing };
PositionsEnd draw_positions(Page& page, Context& context, PositionsState& state);

} // namespace fettle::ui
