#include "notebook/task_waits.h"

#include "notebook/consignments_within.h"
#include "notebook/rules.h"
#include "notebook/stock_within.h"
#include "notebook/weather.h"

#include <algorithm>
#include <limits>

namespace fettle {
namespace {

void read_needs(store::Database& database, Situation& situation) {
    const auto task_at = [&](TaskId id) -> Task* {
        const auto found = situation.places.find(id);
        return found == situation.places.end() ? nullptr : &situation.tasks[found->second];
    };
    auto needs = database.query("SELECT task_id, needs_id FROM task_needs ORDER BY 1, 2");
    while (needs.next())
        if (Task* task = task_at(needs.get<TaskId>(0))) task->needs.push_back(needs.get<TaskId>(1));
    auto wanted =
        database.query("SELECT task_id, position_id, condition FROM task_positions ORDER BY 1, 2");
    while (wanted.next())
        if (Task* task = task_at(wanted.get<TaskId>(0)))
            task->positions.push_back(
                {wanted.get<PositionId>(1), stored_word<Condition>(wanted, 2)});
    auto awaited = database.query("SELECT task_id, consignment_id FROM task_consignments "
                                  "ORDER BY task_id, consignment_id");
    while (awaited.next())
        if (Task* task = task_at(awaited.get<TaskId>(0)))
            task->deliveries.push_back(awaited.get<ConsignmentId>(1));
}

using AwayParts = std::unordered_map<PartId, Away, IdHash>;

// Of a part on several consignments the first, with the pieces of all.
AwayParts read_away(store::Database& database) {
    AwayParts away;
    auto gone = database.query(std::string(kItemsAway) +
                               "AND (g.inward OR g.sent_on IS NOT NULL) ORDER BY g.id");
    while (gone.next()) {
        const Away item = away_of(gone);
        const auto [first, fresh] = away.emplace(gone.get<PartId>(0), item);
        if (!fresh) first->second.pieces += item.pieces;
    }
    return away;
}

// Why a part with this decision, held for this or another vehicle, fills no position.
std::string unfit_words(Decision decision, bool other_vehicle) {
    if (other_vehicle) return "is held for another vehicle";
    if (decision == Decision::hold) return "is on hold";
    return decision == Decision::replace ? "is to be replaced" : "";
}

// Counted as list_positions does (stock_within.h): used pieces are in their place.
void read_parts(store::Database& database, Situation& situation) {
    auto places = database.query("SELECT id, name, quantity, chosen_part_id FROM positions "
                                 "WHERE id IN (SELECT position_id FROM task_positions)");
    while (places.next())
        situation.positions[places.get<PositionId>(0)] = {
            places.get<std::string>(1), places.get<int>(2), places.get<PartId>(3), {}};
    const AwayParts away = read_away(database);
    const Stocks stocks(database);
    auto parts = database.query(
        "SELECT a.position_id, a.id, a.tag, a.place, a.condition, a.quantity, a.used, a.decision, "
        "       a.vehicle_id IS NOT NULL AND a.vehicle_id IS NOT o.vehicle_id "
        "FROM parts a JOIN positions o ON o.id = a.position_id "
        "WHERE o.id IN (SELECT position_id FROM task_positions) ORDER BY a.id");
    while (parts.next()) {
        PartTowards part{.id = parts.get<PartId>(1),
                         .tag = parts.get<std::string>(2),
                         .place = parts.get<std::string>(3),
                         .condition = stored_word<Condition>(parts, 4),
                         .away = {},
                         .unfit = unfit_words(stored_word<Decision>(parts, 7), parts.get<bool>(8))};
        const Stock stock = stocks.of(part.id, parts.get<int>(5), parts.get<int>(6));
        part.there = stock.at_hand() + stock.used;
        part.away_pieces = std::max(0, stock.quantity - part.there);
        if (const auto found = away.find(stocks.away_with(part.id)); found != away.end())
            part.away = found->second;
        situation.positions[parts.get<PositionId>(0)].parts.push_back(std::move(part));
    }
}

void read_deliveries(store::Database& database, Situation& situation) {
    auto heads = database.query(
        "SELECT g.id, g.inward, ifnull(c.name, ''), g.purpose, g.sent_on, g.due_on, g.settled_on "
        "FROM consignments g LEFT JOIN contacts c ON c.id = g.contact_id "
        "WHERE g.id IN (SELECT consignment_id FROM task_consignments)");
    while (heads.next()) {
        Consignment head;
        head.id = heads.get<ConsignmentId>(0);
        head.inward = heads.get<bool>(1);
        head.firm = heads.get<std::string>(2);
        head.purpose = heads.get<std::string>(3);
        if (auto day = parse_day(heads.get<std::string>(4))) head.sent_on = *day;
        if (auto day = parse_day(heads.get<std::string>(5))) head.due_on = *day;
        if (auto day = parse_day(heads.get<std::string>(6))) head.settled_on = *day;
        situation.deliveries.emplace(head.id, std::move(head));
    }
    auto items =
        database.query("SELECT consignment_id, quantity, back, settled_how FROM consignment_items "
                       "WHERE consignment_id IN (SELECT consignment_id FROM task_consignments)");
    while (items.next()) {
        ConsignmentItem item;
        item.quantity = items.get<int>(1);
        item.back = items.get<int>(2);
        item.settled_how = items.get<std::string>(3);
        situation.deliveries[items.get<ConsignmentId>(0)].items.push_back(std::move(item));
    }
}

void read_spent(store::Database& database, Situation& situation) {
    situation.spent.assign(situation.tasks.size(), 0);
    auto rows = database.query("SELECT t.task_id, sum(e.hours) FROM entry_tasks t "
                               "JOIN entries e ON e.id = t.entry_id GROUP BY t.task_id");
    while (rows.next())
        if (const auto found = situation.places.find(rows.get<TaskId>(0));
            found != situation.places.end())
            situation.spent[found->second] = rows.get<double>(1);
}

// A part counts for its position unless it is scrap, or another was chosen for that single place.
bool counts(const PartTowards& part, const PositionToFill& position) {
    if (part.condition == Condition::scrap) return false;
    return !position.chosen || position.quantity > 1 || part.id == position.chosen;
}

// What is to be said of the part that is nearest: how far it is, and who has it or where it lies.
std::string words_of(const PartTowards& part, Condition wanted, Day today) {
    std::string said = part.tag;
    if (!part.unfit.empty()) return said + ' ' + part.unfit;
    const bool away = part.away_pieces > 0;
    if (part.condition < wanted)
        said += " is " + std::string(word(part.condition)) + (away ? ", " : "");
    else if (away)
        said += part.away.settled_how.empty() ? " is " : ": ";
    if (away) return said + away_words(part.away, today);
    if (!part.place.empty()) said += ", kept: " + part.place;
    return said;
}

std::optional<Wait> wait_for(const NeededPosition& needed, const PositionToFill& position,
                             Day today) {
    int there = 0;
    const PartTowards* nearest = nullptr; // of those that do not fill it yet
    // What may fill it before what may not, at hand before away, then the furthest along.
    const auto nearness = [&](const PartTowards& part) {
        return std::tuple(part.unfit.empty(),
                          part.away.settled_how.empty() || part.away_pieces == 0, part.condition);
    };
    for (const PartTowards& part : position.parts) {
        if (!counts(part, position)) continue;
        const bool far_enough = part.condition >= needed.condition;
        if (far_enough && part.unfit.empty()) there += part.there;
        const bool lacks = !far_enough || part.away_pieces > 0 || !part.unfit.empty();
        if (lacks && (!nearest || nearness(*nearest) < nearness(part))) nearest = &part;
    }
    if (there >= position.quantity) return std::nullopt;
    Wait wait{.on = WaitsOn::position, .words = {}, .position = needed.position};
    wait.words = position.name + ", " + std::string(word(needed.condition)) + ": ";
    if (position.quantity > 1)
        wait.words += std::to_string(there) + " of " + std::to_string(position.quantity) + ", ";
    if (!nearest) {
        wait.words += there > 0 ? "no more for it yet" : "no part for it yet";
        return wait;
    }
    wait.words += words_of(*nearest, needed.condition, today);
    wait.part = nearest->id;
    wait.tag = nearest->tag;
    if (nearest->away_pieces > 0) {
        wait.consignment = nearest->away.consignment;
        wait.firm = nearest->away.firm;
    }
    return wait;
}

std::string delivery_words(const Consignment& delivery, Day today) {
    return "consignment " + std::to_string(delivery.id.value) + ", " + delivery.purpose +
           (delivery.inward ? " from " : " by ") + delivery.firm + ": " +
           standing_words(delivery, today);
}

} // namespace

const std::string_view kTaskColumns =
    "SELECT id, vehicle_id, title, note, state, estimate_hours, least_temperature_c, waits_for, "
    "       done_on FROM tasks ";

Task task_of(const store::Statement& row) {
    Task task;
    task.id = row.get<TaskId>(0);
    task.vehicle = row.get<VehicleId>(1);
    task.title = row.get<std::string>(2);
    task.note = row.get<std::string>(3);
    task.state = stored_word<TaskState>(row, 4);
    task.estimate_hours = row.get<std::optional<double>>(5);
    task.least_temperature_c = row.get<std::optional<double>>(6);
    task.waits_for = row.get<std::string>(7);
    if (!row.is_null(8))
        if (auto day = parse_day(row.get<std::string>(8))) task.done_on = *day;
    return task;
}

Situation look_round(store::Database& database, Day today) {
    Situation situation;
    situation.today = today;
    situation.tasks = all_rows(database.query(std::string(kTaskColumns) + "ORDER BY id"), task_of);
    situation.places.reserve(situation.tasks.size());
    for (TaskPlace place = 0; place < situation.tasks.size(); ++place)
        situation.places.emplace(situation.tasks[place].id, place);
    read_needs(database, situation);
    read_parts(database, situation);
    read_deliveries(database, situation);
    read_spent(database, situation);
    return situation;
}

std::string task_words(const Task& task) {
    return "task " + std::to_string(task.id.value) + ", " + task.title;
}

std::vector<Wait> reasons_to_wait(const Task& task, const Situation& situation) {
    std::vector<Wait> waits;
    if (task.state != TaskState::open) return waits;
    for (const TaskId needed : task.needs) {
        const Task* other = situation.task(needed);
        if (!other || other->state != TaskState::open) continue;
        waits.push_back({.on = WaitsOn::task, .words = task_words(*other), .task = needed});
    }
    for (const NeededPosition& needed : task.positions) {
        const auto position = situation.positions.find(needed.position);
        if (position == situation.positions.end()) continue;
        if (auto wait = wait_for(needed, position->second, situation.today))
            waits.push_back(std::move(*wait));
    }
    for (const ConsignmentId id : task.deliveries) {
        const auto delivery = situation.deliveries.find(id);
        if (delivery == situation.deliveries.end() ||
            delivery->second.state(situation.today) == ConsignmentState::over)
            continue;
        waits.push_back({.on = WaitsOn::delivery,
                         .words = delivery_words(delivery->second, situation.today),
                         .consignment = id,
                         .firm = delivery->second.firm});
    }
    if (!task.waits_for.empty()) waits.push_back({.on = WaitsOn::words, .words = task.waits_for});
    if (task.least_temperature_c && situation.temperature_c &&
        *situation.temperature_c < *task.least_temperature_c)
        waits.push_back({.on = WaitsOn::warmth,
                         .words = "at least " + in_degrees(*task.least_temperature_c) + "; today " +
                                  in_degrees(*situation.temperature_c)});
    return waits;
}

} // namespace fettle
