#include "notebook/costs.h"

#include "base/text.h"
#include "notebook/people.h"
#include "notebook/rules.h"
#include "notebook/vehicles.h"
#include "store/quoted_name.h"

namespace fettle {
namespace {

constexpr std::string_view kCosts =
    "SELECT o.id, o.on_date, o.amount_minor, o.currency, o.what, o.part_id, o.task_id, "
    "       o.consignment_id, ifnull(c.name, ''), coalesce("
    "         (SELECT tag || ' ' || name FROM parts WHERE id = o.part_id), "
    "         (SELECT title FROM tasks WHERE id = o.task_id), "
    "         (SELECT 'consignment ' || g.id || iif(g.inward, ' from ', ' to ') || ifnull(f.name, "
    "'') "
    "          FROM consignments g LEFT JOIN contacts f ON f.id = g.contact_id "
    "          WHERE g.id = o.consignment_id), '') "
    "FROM costs o LEFT JOIN contacts c ON c.id = o.contact_id ";

Cost cost_of(const store::Statement& row) {
    Cost cost;
    cost.id = row.get<CostId>(0);
    if (auto day = parse_day(row.get<std::string>(1))) cost.on = *day;
    cost.amount = {row.get<std::int64_t>(2), row.get<std::string>(3)};
    cost.what = row.get<std::string>(4);
    cost.part = row.get<PartId>(5);
    cost.task = row.get<TaskId>(6);
    cost.consignment = row.get<ConsignmentId>(7);
    cost.paid_to = row.get<std::string>(8);
    cost.of = row.get<std::string>(9);
    return cost;
}

template <class Record>
Done must_exist(store::Database& database, const char* table, const char* kind, Record id) {
    if (!id ||
        database.query("SELECT 1 FROM " + store::in_quotes(table) + " WHERE id = ?", id).next())
        return done();
    return nothing_called(kind, std::to_string(id.value));
}

Done check_cost(store::Database& database, const Cost& cost) {
    if (auto filled = require_text("what the cost was for", cost.what); !filled)
        return Failure{FailureKind::invalid, "What the cost was for is empty: write something."};
    if (cost.amount.minor <= 0)
        return Failure{FailureKind::invalid, "The amount is " + to_words(cost.amount) +
                                                 ": more than nothing is accepted."};
    if (int(bool(cost.part)) + int(bool(cost.task)) + int(bool(cost.consignment)) > 1)
        return Failure{FailureKind::invalid, "A cost belongs to one part, one task or one "
                                             "consignment, or to none: name one of them."};
    if (auto there = must_exist(database, "parts", "part", cost.part); !there) return there;
    if (auto there = must_exist(database, "tasks", "task", cost.task); !there) return there;
    return must_exist(database, "consignments", "consignment", cost.consignment);
}

template <class Record>
std::optional<Record> or_null(Record id) {
    return id ? std::optional(id) : std::nullopt;
}

} // namespace

Result<CostId> keep_cost(Notebook& notebook, const Cost& cost) {
    const std::string words = (cost.id ? "changed the cost of " : "noted the cost of ") +
                              cost.what + ", " + to_words(cost.amount);
    return notebook.act(words, [&](store::Database& database) -> Result<CostId> {
        if (auto fine = check_cost(database, cost); !fine) return fine.failure();
        auto id = cost.id;
        if (id) {
            if (auto there = must_exist(database, "costs", "cost", id); !there)
                return there.failure();
        } else {
            id = {database.insert("INSERT INTO costs(id, on_date, amount_minor, currency, what) "
                                  "VALUES (next_id('costs'), '', 0, '', '')")};
        }
        database.run("UPDATE costs SET on_date = ?, amount_minor = ?, currency = ?, what = ?, "
                     "part_id = ?, task_id = ?, consignment_id = ?, contact_id = ? WHERE id = ?",
                     to_iso(cost.on), cost.amount.minor, cost.amount.currency, cost.what,
                     or_null(cost.part), or_null(cost.task), or_null(cost.consignment),
                     or_null(contact_named(database, cost.paid_to)), id);
        return id;
    });
}

Done remove_cost(Notebook& notebook, CostId id) {
    auto known = cost_by_id(notebook, id);
    if (!known) return known.failure();
    return notebook.act("removed the cost of " + known->what + ", " + to_words(known->amount),
                        [&](store::Database& database) -> Done {
                            database.run("DELETE FROM costs WHERE id = ?", id);
                            return done();
                        });
}

Result<Cost> cost_by_id(const Notebook& notebook, CostId id) {
    return one_row(notebook, "cost", std::to_string(id.value), cost_of,
                   std::string(kCosts) + "WHERE o.id IS ?", id);
}

Result<std::vector<Cost>> list_costs(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(database.query(std::string(kCosts) + "ORDER BY o.on_date DESC, o.id DESC"),
                        cost_of);
    });
}

Result<std::vector<std::string>> groups_of(const Notebook& notebook, VehicleId vehicle) {
    return notebook.read([&](store::Database& database) {
        return all_rows(database.query("SELECT parts_group FROM positions WHERE vehicle_id = ? "
                                       "GROUP BY parts_group ORDER BY min(id)",
                                       vehicle),
                        [](const store::Statement& row) { return row.get<std::string>(0); });
    });
}

Done set_estimate(Notebook& notebook, const Estimate& estimate) {
    auto groups = groups_of(notebook, estimate.vehicle);
    if (!groups) return groups.failure();
    if (std::ranges::find(*groups, estimate.group) == groups->end())
        return Failure{FailureKind::not_found,
                       "There is no group " + fettle::quoted(estimate.group) +
                           " in the parts list: " +
                           (groups->empty() ? "take one in first, with positions in it."
                                            : "accepted are " + join(*groups, ", ") + ".")};
    if (estimate.amount.minor < 0)
        return Failure{FailureKind::invalid,
                       "The estimate is " + to_words(estimate.amount) + ": 0 or more is accepted."};
    return notebook.act(
        "reckoned with " + to_words(estimate.amount) + " for " + estimate.group,
        [&](store::Database& database) -> Done {
            if (estimate.amount.minor == 0) {
                database.run("DELETE FROM estimates WHERE vehicle_id = ? AND parts_group = ? AND "
                             "currency = ?",
                             estimate.vehicle, estimate.group, estimate.amount.currency);
                return done();
            }
            database.run(
                "INSERT INTO estimates(id, vehicle_id, parts_group, amount_minor, currency) "
                "VALUES (next_id('estimates'), ?, ?, ?, ?) ON CONFLICT (vehicle_id, parts_group, "
                "currency) "
                "DO UPDATE SET amount_minor = excluded.amount_minor",
                estimate.vehicle, estimate.group, estimate.amount.minor, estimate.amount.currency);
            return done();
        });
}

Result<std::vector<Estimate>> list_estimates(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(
            database.query("SELECT e.vehicle_id, e.parts_group, e.amount_minor, e.currency, v.name "
                           "FROM estimates e JOIN vehicles v ON v.id = e.vehicle_id "
                           "ORDER BY e.vehicle_id, (SELECT min(p.id) FROM positions p WHERE "
                           "p.vehicle_id = e.vehicle_id AND p.parts_group = e.parts_group), "
                           "e.currency"),
            [](const store::Statement& row) {
                return Estimate{row.get<VehicleId>(0),
                                row.get<std::string>(1),
                                {row.get<std::int64_t>(2), row.get<std::string>(3)},
                                row.get<std::string>(4)};
            });
    });
}

std::string against_words(std::int64_t spent, std::int64_t estimate, const std::string& currency) {
    // Both are sums that were checked; their difference cannot leave the range unless one is less
    // than nothing.
    if (spent == estimate) return "as reckoned";
    if (spent > estimate) return "over by " + to_words(Money{spent - estimate, currency});
    return to_words(Money{estimate - spent, currency}) + " left";
}

} // namespace fettle
