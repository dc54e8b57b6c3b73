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

} // namespace

Result<VehicleId> add_vehicle(Notebook& notebook, const Vehicle& vehicle) {
    return notebook.act(
        "added vehicle " + vehicle.name, [&](store::Database& database) -> Result<VehicleId> {
            if (auto fine = check_vehicle(database, vehicle); !fine) return fine.failure();
            return VehicleId{database.insert("INSERT INTO vehicles(id, name, maker, year, note) "
                                             "VALUES (next_id('vehicles'), ?, ?, ?, ?)",
                                             vehicle.name, vehicle.maker, vehicle.year,
                                             vehicle.note)};
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

} // namespace fettle
