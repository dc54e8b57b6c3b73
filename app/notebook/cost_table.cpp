// Costs by part, task, consignment, group and month.
#include "base/text.h"
#include "notebook/costs.h"
#include "notebook/rules.h"

#include <map>
#include <tuple>

namespace fettle {
namespace {

// A group as one text: vehicle, then name. Blank: no position; '*': of several groups.
constexpr std::string_view kSpent =
    "WITH spent(on_date, minor, currency, part_id, task_id, consignment_id) AS ("
    "  SELECT on_date, amount_minor, currency, part_id, task_id, consignment_id FROM costs "
    "  UNION ALL "
    "  SELECT ifnull(acquired, ''), cost_minor, currency, id, NULL, NULL FROM parts "
    "  WHERE cost_minor <> 0) "
    "SELECT s.on_date, s.minor, s.currency, s.part_id, s.task_id, s.consignment_id, "
    "  coalesce((SELECT tag || ' ' || name FROM parts WHERE id = s.part_id), "
    "           (SELECT title FROM tasks WHERE id = s.task_id), "
    "           (SELECT 'consignment ' || g.id || iif(g.inward, ' from ', ' to ') || "
    "                   ifnull(f.name, '') || ', ' || g.purpose "
    "            FROM consignments g LEFT JOIN contacts f ON f.id = g.contact_id "
    "            WHERE g.id = s.consignment_id), ''), "
    "  CASE WHEN s.part_id IS NOT NULL THEN "
    "         (SELECT p.vehicle_id || ' ' || p.parts_group FROM parts a "
    "          JOIN positions p ON p.id = a.position_id WHERE a.id = s.part_id) "
    "       WHEN s.task_id IS NOT NULL THEN "
    "         (SELECT CASE count(DISTINCT p.vehicle_id || ' ' || p.parts_group) WHEN 0 THEN NULL "
    "                 WHEN 1 THEN min(p.vehicle_id || ' ' || p.parts_group) ELSE '*' END "
    "          FROM task_positions t JOIN positions p ON p.id = t.position_id "
    "          WHERE t.task_id = s.task_id) "
    "       WHEN s.consignment_id IS NOT NULL THEN "
    "         (SELECT CASE count(DISTINCT ifnull(p.vehicle_id || ' ' || p.parts_group, '')) "
    "                 WHEN 0 THEN NULL "
    "                 WHEN 1 THEN min(ifnull(p.vehicle_id || ' ' || p.parts_group, '')) "
    "                 ELSE '*' END "
    "          FROM consignment_items i JOIN parts a ON a.id = i.part_id "
    "          LEFT JOIN positions p ON p.id = a.position_id "
    "          WHERE i.consignment_id = s.consignment_id) END "
    "FROM spent s";

struct Spent {
    std::string day;
    Money amount;
    std::int64_t part = 0, task = 0, consignment = 0;
    std::string label, group;
};

struct Group {
    std::int64_t order = 0;
    std::string label;
};
using Groups = std::map<std::string, Group>; // by vehicle and name, as kSpent gives them

// Where a row stands: what belongs to none last.
using Place = std::tuple<bool, std::int64_t, std::string>;
using Rows = std::map<Place, CostRow>;

Groups groups_in(store::Database& database) {
    auto several = database.query("SELECT count(DISTINCT vehicle_id) > 1 FROM positions");
    several.next();
    const bool name_vehicle = several.get<bool>(0);
    Groups groups;
    auto row = database.query("SELECT p.vehicle_id || ' ' || p.parts_group, p.parts_group, v.name, "
                              "min(p.id) FROM positions p JOIN vehicles v ON v.id = p.vehicle_id "
                              "GROUP BY p.vehicle_id, p.parts_group");
    while (row.next()) {
        std::string label = row.get<std::string>(1);
        if (name_vehicle) label += " of " + row.get<std::string>(2);
        groups[row.get<std::string>(0)] = {row.get<std::int64_t>(3), label};
    }
    return groups;
}

CostRow& row_at(Rows& rows, const Place& place, std::int64_t id) {
    CostRow& row = rows[place];
    row.label = std::get<std::string>(place);
    row.id = id;
    return row;
}

CostRow& group_row(Rows& rows, const Groups& groups, const std::string& group) {
    if (group == "*") return row_at(rows, {true, 0, "several groups"}, 0);
    const auto known = groups.find(group);
    if (known == groups.end()) return row_at(rows, {true, 1, "no group"}, 0);
    return row_at(rows, {false, known->second.order, known->second.label}, 0);
}

CostRow& row_of(Rows& rows, const Groups& groups, const Spent& spent, CostBy by) {
    const auto record = [&](std::int64_t id, const char* none, bool by_id) -> CostRow& {
        if (id == 0) return row_at(rows, {true, 0, none}, 0);
        return row_at(rows, {false, by_id ? id : 0, spent.label}, id);
    };
    switch (by) {
    case CostBy::part:
        return record(spent.part, "no part", false);
    case CostBy::task:
        return record(spent.task, "no task", true);
    case CostBy::consignment:
        return record(spent.consignment, "no consignment", true);
    case CostBy::group:
        return group_row(rows, groups, spent.group);
    case CostBy::month:
        break;
    }
    if (spent.day.size() < 7) return row_at(rows, {true, 0, "no date"}, 0);
    return row_at(rows, {false, 0, spent.day.substr(0, 7)}, 0);
}

Done add_estimates(store::Database& database, const Groups& groups, Rows& rows, CostTable& table) {
    auto row = database.query("SELECT vehicle_id || ' ' || parts_group, parts_group, amount_minor, "
                              "currency FROM estimates");
    while (row.next()) {
        const Money amount{row.get<std::int64_t>(2), row.get<std::string>(3)};
        const auto group = row.get<std::string>(0);
        // The positions of a group may have gone since it was reckoned with.
        CostRow& at = groups.contains(group) ? group_row(rows, groups, group)
                                             : row_at(rows, {true, -1, row.get<std::string>(1)}, 0);
        if (auto added = at.estimate.add(amount); !added) return added;
        if (auto added = table.estimate.add(amount); !added) return added;
    }
    return done();
}

Result<CostTable> tabulate(store::Database& database, CostBy by) {
    CostTable table;
    Rows rows;
    const auto groups = by == CostBy::group ? groups_in(database) : Groups();
    auto row = database.query(kSpent);
    while (row.next()) {
        const Spent spent{
            row.get<std::string>(0),  {row.get<std::int64_t>(1), row.get<std::string>(2)},
            row.get<std::int64_t>(3), row.get<std::int64_t>(4),
            row.get<std::int64_t>(5), row.get<std::string>(6),
            row.get<std::string>(7)};
        if (auto added = row_of(rows, groups, spent, by).spent.add(spent.amount); !added)
            return added.failure();
        if (auto added = table.spent.add(spent.amount); !added) return added.failure();
    }
    if (by == CostBy::group)
        if (auto added = add_estimates(database, groups, rows, table); !added)
            return added.failure();
    for (auto& [place, one] : rows)
        table.rows.push_back(std::move(one));
    return table;
}

} // namespace

std::string_view word(CostBy by) {
    constexpr std::array<std::string_view, 5> kWords = {"part", "task", "consignment", "group",
                                                        "month"};
    return kWords[static_cast<std::size_t>(by)];
}

Result<CostBy> cost_by(std::string_view text) {
    for (const CostBy by : kCostBy)
        if (word(by) == text) return by;
    return Failure{FailureKind::invalid,
                   quoted(text) + " is no way to sort costs: accepted are part, task, consignment, "
                                  "group and month."};
}

Result<CostTable> cost_table(const Notebook& notebook, CostBy by) {
    auto table = notebook.read([&](store::Database& database) { return tabulate(database, by); });
    if (!table) return table.failure();
    return std::move(*table);
}

} // namespace fettle
