// Writing a cost: how much, on which day, what for, what it belongs to and to whom it was paid; and
// what is reckoned with for a group. What is wrong stands beside its field.
#pragma once

#include "notebook/costs.h"
#include "notebook/vehicles.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/find_as_you_type.h"

#include <string>
#include <vector>

namespace fettle::ui {

enum class CostEnd { goes_on, kept, left };

// What a person is in the middle of.
struct CostForm {
    Cost cost; // as it was, or a new one; the fields below stand over it
    std::string amount, on;
    FindLine of, paid_to;
    std::string amount_error, on_error, what_error, of_error;
    bool take_focus = true;
    Snapshot<std::vector<Candidate>> owners, people;
};
CostForm form_of(const Cost& cost);
// `cost.id` is that of the cost once it is kept.
CostEnd draw_cost_form(Page& page, Context& context, CostForm& form);

struct EstimateForm {
    int at = 0; // of the groups
    std::string amount, error;
    bool take_focus = true;
    struct Group {
        VehicleId vehicle;
        std::string group, label;
    };
    Snapshot<std::vector<Group>> groups;
};
CostEnd draw_estimate_form(Page& page, Context& context, EstimateForm& form);

} // namespace fettle::ui
