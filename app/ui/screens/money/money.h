// Money: what was spent by group, part, task, consignment or month, currencies kept apart; spent
// against estimate as a drawing for each currency; and the costs as they were noted.
#pragma once

#include "notebook/costs.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/money/cost_form.h"
#include "ui/widgets/clipped.h"
#include "ui/widgets/table.h"

#include <vector>

namespace fettle::ui {

struct MoneyRead {
    CostBy by = CostBy::group;
    CostTable table;    // as chosen
    CostTable by_group; // for the drawing
    std::vector<Cost> costs;
};

// What a person is in the middle of.
struct MoneyState {
    int by = 0; // of the choices, the first: by group
    bool writing = false, reckoning = false;
    CostForm form;
    EstimateForm estimate;
    CostId at{}, wanted{};
    int last_frame = -1;
    TableState table, noted{.by = "on", .downwards = true};
    Clipped lines, noted_lines;
    Snapshot<MoneyRead, int> read;
    Snapshot<std::vector<std::size_t>, RowOrder> rows_ordered, noted_ordered;
};

void draw_money(Page& page, Context& context, MoneyState& state);
// Shows the cost with that id.
void lead_to(MoneyState& state, const Place& place);

// Spent against estimate, a block for each currency, a bar for each group: how long it is says what
// was spent, the upright line what was reckoned with, and words beside say how they stand.
// (money_drawn.cpp)
void draw_spent_against_estimate(Page& page, const CostTable& by_group);

// (money_costs.cpp)
void draw_costs(Page& page, Context& context, MoneyState& state, const std::vector<Cost>& costs);

} // namespace fettle::ui
