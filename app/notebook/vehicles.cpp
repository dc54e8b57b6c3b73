#include "notebook/vehicles.h"

#include "notebook/rules.h"

namespace fettle {
namespace {

constexpr std::string_view kVehicleColumns = "SELECT id, name, maker, year, note FROM vehicles ";

Vehicle vehicle_of(const store::Statement& row) {
    return {row.get<VehicleId>(0), row.get<std::string>(1), row.get<std::string>(2),
            row.get<std::optional<int>>(3), row.get<std::string>(4)};
}

Done check_vehicle(store::Database& database, const Vehicle& vehicle) {
    if (auto filled = require_text("vehicle name", vehicle.name); !filled) return filled;
    auto taken = database.query("SELECT 1 FROM vehicles WHERE name = ? AND id IS NOT ?",
                                vehicle.name, vehicle.id);
    if (taken.next())
        return Failure{FailureKind::refused,
                       "There is a vehicle called \"" + vehicle.name + "\" already."};
    return done();
}

constexpr std::string_view kPositionColumns =
    "SELECT id, vehicle_id, parts_group, number, name, quantity, spec FROM positions ";

Position position_of(const store::Statement& row) {
    return {row.get<PositionId>(0),  row.get<VehicleId>(1),   row.get<std::string>(2),
            row.get<std::string>(3), row.get<std::string>(4), row.get<int>(5),
            row.get<std::string>(6)};
}

} // namespace

Result<VehicleId> add_vehicle(Notebook& notebook, const Vehicle& vehicle) {
    return notebook.act(
        "added vehicle " + vehicle.name, [&](store::Database& database) -> Result<VehicleId> {
            if (auto fine = check_vehicle(database, vehicle); !fine) return fine.failure();
            return VehicleId{
                database.insert("INSERT INTO vehicles(name, maker, year, note) VALUES (?, ?, ?, ?)",
                                vehicle.name, vehicle.maker, vehicle.year, vehicle.note)};
        });
}

Done set_vehicle(Notebook& notebook, const Vehicle& vehicle) {
    return notebook.act("changed vehicle " + vehicle.name, [&](store::Database& database) -> Done {
        if (auto fine = check_vehicle(database, vehicle); !fine) return fine;
        database.run("UPDATE vehicles SET name = ?, maker = ?, year = ?, note = ? WHERE id = ?",
                     vehicle.name, vehicle.maker, vehicle.year, vehicle.note, vehicle.id);
        return done();
    });
}

Result<std::vector<Vehicle>> list_vehicles(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(database.query(std::string(kVehicleColumns) + "ORDER BY id"), vehicle_of);
    });
}

Result<Vehicle> vehicle_named(const Notebook& notebook, const std::string& name) {
    return one_row(notebook, "vehicle", name, vehicle_of,
                   std::string(kVehicleColumns) + "WHERE name = ?1 COLLATE NOCASE", name);
}

Result<PositionId> add_position(Notebook& notebook, const Position& position) {
    return notebook.act(
        "added position " + position.number, [&](store::Database& database) -> Result<PositionId> {
            for (auto [field, text] : {std::pair{"position number", &position.number},
                                       std::pair{"position name", &position.name}})
                if (auto filled = require_text(field, *text); !filled) return filled.failure();
            if (position.quantity < 1)
                return Failure{FailureKind::invalid,
                               "The quantity of position " + position.number + " is " +
                                   std::to_string(position.quantity) + ": at least 1 is accepted."};
            auto taken =
                database.query("SELECT 1 FROM positions WHERE vehicle_id IS ? AND number = ?",
                               position.vehicle, position.number);
            if (taken.next())
                return Failure{FailureKind::refused, "Position number " + position.number +
                                                         " is on this vehicle already."};
            return PositionId{database.insert(
                "INSERT INTO positions(vehicle_id, parts_group, number, name, quantity, spec) "
                "VALUES (?, ?, ?, ?, ?, ?)",
                position.vehicle, position.group, position.number, position.name, position.quantity,
                position.spec)};
        });
}

Result<std::vector<PositionFill>> list_positions(const Notebook& notebook, VehicleId vehicle) {
    return notebook.read([&](store::Database& database) {
        auto rows = database.query(
            "SELECT p.id, p.vehicle_id, p.parts_group, p.number, p.name, p.quantity, p.spec, "
            "       ifnull(sum(CASE WHEN a.condition <> 'scrap' THEN a.quantity END), 0) "
            "FROM positions p LEFT JOIN parts a ON a.position_id = p.id "
            "WHERE p.vehicle_id IS ? GROUP BY p.id ORDER BY p.parts_group, p.number",
            vehicle);
        return all_rows(std::move(rows), [](const store::Statement& row) {
            return PositionFill{position_of(row), row.get<int>(7)};
        });
    });
}

Result<Position> find_position(const Notebook& notebook, const std::string& number_or_name) {
    for (const char* column : {"number", "name"}) {
        auto found = notebook.read([&](store::Database& database) {
            return all_rows(database.query(std::string(kPositionColumns) + "WHERE " + column +
                                               " = ? COLLATE NOCASE ORDER BY id",
                                           number_or_name),
                            position_of);
        });
        if (!found) return found.failure();
        if (found->size() == 1) return found->front();
        if (found->size() > 1)
            return Failure{FailureKind::invalid,
                           "Several positions are called \"" + number_or_name +
                               "\": name one by its number in the parts list."};
    }
    return Failure{FailureKind::not_found,
                   "There is no position with the number or name \"" + number_or_name + "\"."};
}

} // namespace fettle
