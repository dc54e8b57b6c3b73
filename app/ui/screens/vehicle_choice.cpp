#include "ui/screens/vehicle_choice.h"

#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

namespace fettle::ui {

void choose_vehicle(Page& page, std::string_view key, const std::vector<Vehicle>& vehicles,
                    VehicleId& at, bool all) {
    if (vehicles.size() < 2) {
        if (!all && !vehicles.empty()) at = vehicles.front().id;
        return;
    }
    std::vector<std::string> names;
    std::vector<VehicleId> ids;
    if (all) names.push_back("all vehicles"), ids.push_back({});
    for (const Vehicle& vehicle : vehicles)
        names.push_back(vehicle.name), ids.push_back(vehicle.id);
    int chosen = 0;
    for (std::size_t i = 0; i < ids.size(); ++i)
        if (ids[i] == at) chosen = int(i);
    if (pressed({.key = 'V'})) chosen = (chosen + 1) % int(ids.size());
    page.reg.note_key("V", "the next vehicle");
    fine_words(page, "vehicle  V");
    choice(page, key, names, chosen);
    at = ids[std::size_t(chosen)];
}

} // namespace fettle::ui
