// Which vehicle a list is of, where there are several.
#pragma once

#include "notebook/vehicles.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <vector>

namespace fettle::ui {

// Words to choose among; V goes on to the next. With one vehicle nothing is drawn. `at` none: the
// first, or with `all` every one.
void choose_vehicle(Page& page, std::string_view key, const std::vector<Vehicle>& vehicles,
                    VehicleId& at, bool all = false);

} // namespace fettle::ui
