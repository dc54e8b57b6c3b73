// The rebuild at a glance, a view of Bench: how far each group of the parts list has come, and the
// hours and costs of each month as columns. What is pointed at, or reached by keys, is told in
// words; a group leads to its positions.
#pragma once

#include "desk/rebuild_charts.h"
#include "notebook/vehicles.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <vector>

namespace fettle::ui {

// Read once after each change, with the charts made of it.
struct RebuildRead {
    Rebuild all;
    calc::ShareChart groups;
    calc::MonthChart hours;
    std::vector<calc::MonthChart> spent; // by currency, as `all.all_spent` has them
};

struct RebuildState {
    VehicleId vehicle{}; // none: all
    Snapshot<std::vector<Vehicle>> vehicles;
    Snapshot<RebuildRead, VehicleId> read;
};

void draw_rebuild(Page& page, Context& context, RebuildState& state);

} // namespace fettle::ui
