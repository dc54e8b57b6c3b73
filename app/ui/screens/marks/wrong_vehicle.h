// Parts whose mark belongs on another vehicle than the one they are for, each with the act that
// holds it for the other.
#pragma once

#include "notebook/marks_compared.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/marks/mark_shown.h"

#include <vector>

namespace fettle::ui {

struct WrongVehicle {
    Disagreement why;
    MarkShown mark;
};
Result<std::vector<WrongVehicle>> read_wrong_vehicle(const Notebook& book);

// Nothing when there are none.
void draw_wrong_vehicle(Page& page, Context& context, const std::vector<WrongVehicle>& parts);

} // namespace fettle::ui
