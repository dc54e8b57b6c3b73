// Vehicles and the positions on them that need a part.
#pragma once

#include "notebook/notebook.h"

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

struct Position {
    PositionId id;
    VehicleId vehicle;
    std::string group;  // "Front suspension"
    std::string number; // in the maker's parts list; unique on the vehicle
    std::string name;
    int quantity = 1;
    std::string spec;
};

// What a position has and lacks: parts intended for it that are not scrap, counted by quantity.
struct PositionFill {
    Position position;
    int on_hand = 0;
    int missing() const { return position.quantity > on_hand ? position.quantity - on_hand : 0; }
};

Result<PositionId> add_position(Notebook& notebook, const Position& position);
Result<std::vector<PositionFill>> list_positions(const Notebook& notebook, VehicleId vehicle);
// By number in the parts list, or by name when no number fits; ambiguity is refused.
Result<Position> find_position(const Notebook& notebook, const std::string& number_or_name);

} // namespace fettle
