// Vehicles; the positions on them come along.
#pragma once

#include "notebook/notebook.h"
#include "notebook/positions.h"

#include <vector>

namespace fettle {

struct Vehicle {
    VehicleId id;
    std::string name; // unique in the notebook
    std::string maker;
    std::optional<int> year;
    std::string note;
};

// The id in the record is ignored. A blank or taken name is refused.
Result<VehicleId> add_vehicle(Notebook& notebook, const Vehicle& vehicle);
// Overwrites name, maker, year and note of the vehicle with that id.
Done set_vehicle(Notebook& notebook, const Vehicle& vehicle);
Result<std::vector<Vehicle>> list_vehicles(const Notebook& notebook); // the first one made first
Result<Vehicle> vehicle_named(const Notebook& notebook, const std::string& name);

} // namespace fettle
