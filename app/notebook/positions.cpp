#include "notebook/positions.h"

#include "base/text.h"
#include "notebook/parts.h"
#include "notebook/rules.h"
#include "notebook/stock_within.h"
#include "store/quoted_name.h"

#include <map>
#include <tuple>

namespace fettle {
namespace {

constexpr std::string_view kColumns =
    "SELECT id, vehicle_id, parts_group, number, name, quantity, spec, "
    // However it came about that a part is elsewhere or scrap: then it is chosen no longer.
    "       (SELECT a.id FROM parts a WHERE a.id = chosen_part_id AND a.position_id = positions.id "
    "        AND a.condition <> 'scrap' "
    "        AND (a.vehicle_id IS NULL OR a.vehicle_id = positions.vehicle_id)) "
    "FROM positions ";

Position position_of(const store::Statement& row) {
    return {row.get<PositionId>(0),  row.get<VehicleId>(1),   row.get<std::string>(2),
            row.get<std::string>(3), row.get<std::string>(4), row.get<int>(5),
            row.get<std::string>(6), row.get<PartId>(7)};
}

Done check_position(store::Database& database, const Position& position) {
    for (auto [field, text] : {std::pair{"position number", &position.number},
                               std::pair{"position name", &position.name}})
        if (auto filled = require_text(field, *text); !filled) return filled;
    if (position.quantity < 1)
        return Failure{FailureKind::invalid, "The quantity of position " + position.number +
                                                 " is " + std::to_string(position.quantity) +
                                                 ": at least 1 is accepted."};
    auto taken = database.query(
        "SELECT 1 FROM positions WHERE vehicle_id IS ? AND number = ? AND id IS NOT ?",
        position.vehicle, position.number, position.id);
    if (taken.next())
        return Failure{FailureKind::refused,
                       "Position number " + position.number + " is on this vehicle already."};
    return done();
}

// Why a position cannot go; blank: nothing hangs on it.
std::string hangs_on(store::Database& database, PositionId id) {
    auto part = database.query("SELECT tag FROM parts WHERE position_id = ? ORDER BY id", id);
    if (part.next()) return part.get<std::string>(0) + " is intended for it";
    auto task = database.query("SELECT t.title FROM task_positions n JOIN tasks t "
                               "ON t.id = n.task_id WHERE n.position_id = ? ORDER BY t.id",
                               id);
    if (task.next()) return "the task " + fettle::quoted(task.get<std::string>(0)) + " needs it";
    auto feature =
        database.query("SELECT feature FROM position_features WHERE position_id = ?", id);
    if (feature.next()) return "limits of its " + feature.get<std::string>(0) + " are kept";
    return {};
}

void add_part(PositionFill& fill, const Stock& stock, bool fitted) {
    fill.on_hand += stock.at_hand();
    fill.used += stock.used;
    fill.fitted += stock.used + (fitted ? stock.at_hand() : 0);
    fill.out += stock.out;
    fill.coming += stock.coming;
}

// Those that may fill a position: held for its vehicle, and fit to be used.
store::Statement usable_parts(store::Database& database, VehicleId vehicle) {
    Conditions where;
    where.is("p.vehicle_id", vehicle)
        .add("(a.vehicle_id IS NULL OR a.vehicle_id = p.vehicle_id)")
        .add("a.condition <> 'scrap'")
        .add("a.decision NOT IN ('hold', 'replace')");
    return database.query(
        "SELECT a.id, a.position_id, a.quantity, a.used, a.condition = 'fitted' FROM parts a "
        "JOIN positions p ON p.id = a.position_id " +
        where.sql());
}

// Of one vehicle, or of all.
std::vector<PositionFill> fills_of(store::Database& database, VehicleId vehicle) {
    Conditions where;
    where.is("vehicle_id", vehicle);
    auto fills = all_rows(
        database.query(std::string(kColumns) + where.sql()),
        [](const store::Statement& row) { return PositionFill{.position = position_of(row)}; });
    std::ranges::sort(fills, {}, [](const PositionFill& fill) {
        const Position& at = fill.position;
        return std::tuple{at.vehicle, at.group, counted_as(at.number)};
    });
    std::map<PositionId, PositionFill*> by_id;
    for (auto& fill : fills)
        by_id[fill.position.id] = &fill;
    const Stocks stocks(database);
    auto parts = usable_parts(database, vehicle);
    while (parts.next())
        add_part(*by_id[parts.get<PositionId>(1)],
                 stocks.of(parts.get<PartId>(0), parts.get<int>(2), parts.get<int>(3)),
                 parts.get<bool>(4));
    return fills;
}

Failure not_for_it(const Part& part, const Position& position, const std::string& why) {
    return {FailureKind::refused, part.tag + " cannot be chosen for position " + position.number +
                                      ", " + position.name + ": " + why};
}

} // namespace

Result<PositionId> add_position(Notebook& notebook, const Position& position) {
    return notebook.act(
        "added position " + position.number, [&](store::Database& database) -> Result<PositionId> {
            Position fresh = position;
            fresh.id = {};
            if (auto fine = check_position(database, fresh); !fine) return fine.failure();
            return PositionId{database.insert(
                "INSERT INTO positions(id, vehicle_id, parts_group, number, name, quantity, spec) "
                "VALUES (next_id('positions'), ?, ?, ?, ?, ?, ?)",
                position.vehicle, position.group, position.number, position.name, position.quantity,
                position.spec)};
        });
}

Done set_position(Notebook& notebook, const Position& position) {
    auto stored = position_by_id(notebook, position.id);
    if (!stored) return stored.failure();
    return notebook.act(
        "changed position " + position.number, [&](store::Database& database) -> Done {
            Position changed = position;
            changed.vehicle = stored->vehicle;
            if (auto fine = check_position(database, changed); !fine) return fine;
            database.run("UPDATE positions SET parts_group = ?, number = ?, name = ?, "
                         "quantity = ?, spec = ? WHERE id = ?",
                         changed.group, changed.number, changed.name, changed.quantity,
                         changed.spec, changed.id);
            return done();
        });
}

Done remove_position(Notebook& notebook, PositionId id) {
    auto position = position_by_id(notebook, id);
    if (!position) return position.failure();
    return notebook.act(
        "removed position " + position->number, [&](store::Database& database) -> Done {
            if (const auto what = hangs_on(database, id); !what.empty())
                return Failure{FailureKind::refused, "Position " + position->number +
                                                         " cannot be removed: " + what + "."};
            database.run("DELETE FROM positions WHERE id = ?", id);
            return done();
        });
}

Done choose_part(Notebook& notebook, PositionId id, PartId chosen) {
    auto position = position_by_id(notebook, id);
    if (!position) return position.failure();
    std::string words = "left open which part to use at " + position->number;
    if (chosen) {
        auto part = part_by_id(notebook, chosen);
        if (!part) return part.failure();
        if (part->position != id)
            return not_for_it(*part, *position,
                              "it is not intended for it; set its position first.");
        if (part->vehicle && part->vehicle != position->vehicle)
            return not_for_it(*part, *position, "it is held for another vehicle.");
        if (part->condition == Condition::scrap)
            return not_for_it(*part, *position, "it is scrap.");
        words = "chose " + part->tag + " for position " + position->number;
    }
    return notebook.act(words, [&](store::Database& database) -> Done {
        database.run("UPDATE positions SET chosen_part_id = ? WHERE id = ?", chosen, id);
        return done();
    });
}

Result<std::vector<PositionFill>> list_positions(const Notebook& notebook, VehicleId vehicle) {
    if (!vehicle) return std::vector<PositionFill>();
    return notebook.read([&](store::Database& database) { return fills_of(database, vehicle); });
}

Result<std::vector<PositionFill>> list_all_positions(const Notebook& notebook) {
    return notebook.read([](store::Database& database) { return fills_of(database, {}); });
}

Result<Position> position_by_id(const Notebook& notebook, PositionId id) {
    return one_row(notebook, "position", std::to_string(id.value), position_of,
                   std::string(kColumns) + "WHERE id IS ?", id);
}

Result<Position> find_position(const Notebook& notebook, const std::string& number_or_name,
                               VehicleId on) {
    for (const char* column : {"number", "name"}) {
        auto found = notebook.read([&](store::Database& database) {
            return all_rows(database.query(std::string(kColumns) + "WHERE " +
                                               store::in_quotes(column) +
                                               " = ?1 COLLATE NOCASE AND "
                                               "(?2 IS NULL OR vehicle_id IS ?2) ORDER BY id",
                                           number_or_name, on),
                            position_of);
        });
        if (!found) return found.failure();
        if (found->size() == 1) return found->front();
        if (found->size() > 1)
            return Failure{FailureKind::invalid,
                           "Several positions are called \"" + number_or_name +
                               "\": name one by its number in the parts list" +
                               (on ? "." : ", or its vehicle.")};
    }
    return Failure{FailureKind::not_found,
                   "There is no position with the number or name \"" + number_or_name + "\"."};
}

} // namespace fettle
