#include "notebook/costs.h"

#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/parts.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"

namespace fettle::cli {
namespace {

constexpr const char* kCostFields =
    "{cost, on, amount, currency, minor, what, part, task, consignment, paid_to, of}; minor "
    "is\nthe "
    "amount in the currency's minor units, of says in words what the cost belongs to";

Json cost_json(const Notebook& notebook, const Cost& cost) {
    Json part = "";
    if (cost.part)
        if (auto known = part_by_id(notebook, cost.part)) part = known->tag;
    const auto number = [](std::int64_t id) { return id == 0 ? Json() : Json(id); };
    return {{"cost", cost.id.value},
            {"on", to_iso(cost.on)},
            {"amount", to_words(cost.amount)},
            {"currency", cost.amount.currency},
            {"minor", cost.amount.minor},
            {"what", cost.what},
            {"part", part},
            {"task", number(cost.task.value)},
            {"consignment", number(cost.consignment.value)},
            {"paid_to", cost.paid_to},
            {"of", cost.of}};
}

Result<Report> cost_report(const Notebook& notebook, CostId id) {
    auto cost = cost_by_id(notebook, id);
    if (!cost) return cost.failure();
    return Report{one_line("cost " + std::to_string(id.value) + "  " + to_words(cost->amount) +
                           "  " + cost->what + (cost->of.empty() ? "" : "  " + cost->of)) +
                      '\n',
                  cost_json(notebook, *cost)};
}

struct CostAddWish {
    std::string amount, what, on, part, task, consignment, paid_to;
};

void declare_cost_add(CLI::App& verb, CostAddWish& wish) {
    verb.add_option("AMOUNT", wish.amount, "What was paid, such as \"12.50 GBP\"")->required();
    verb.add_option("WHAT", wish.what, "What for")->required();
    verb.add_option("--on", wish.on, "The day; without it today")->option_text("DATE");
    verb.add_option("--part", wish.part, "The part it was for")->option_text("TAG");
    verb.add_option("--task", wish.task, "Or the task")->option_text("ID");
    verb.add_option("--consignment", wish.consignment, "Or the consignment")->option_text("ID");
    verb.add_option("--paid-to", wish.paid_to, "To whom; a new contact is added")
        ->option_text("WHO");
    verb.footer(std::string("A cost belongs to one part, task or consignment, or to none. What a "
                            "part was bought for\nstands with the part (`part set TAG "
                            "cost=...`) and is not to be told again.\nJSON: ") +
                kCostFields + ".");
}

template <class RecordId>
Result<RecordId> id_or_none(const std::string& noun, const std::string& text) {
    if (text.empty()) return RecordId{};
    return parse_id<RecordId>(noun, text);
}

Result<Report> cost_add(const Call& call, const CostAddWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    Cost cost{.what = wish.what, .paid_to = wish.paid_to};
    auto amount = parse_money(trim(wish.amount));
    if (!amount) return amount.failure();
    cost.amount = *amount;
    auto on = parse_day_or_today(wish.on);
    if (!on) return on.failure();
    cost.on = *on;
    auto part = part_or_none(*notebook, wish.part);
    if (!part) return part.failure();
    cost.part = *part;
    auto task = id_or_none<TaskId>("task", wish.task);
    if (!task) return task.failure();
    cost.task = *task;
    auto consignment = id_or_none<ConsignmentId>("consignment", wish.consignment);
    if (!consignment) return consignment.failure();
    cost.consignment = *consignment;
    auto kept = keep_cost(*notebook, cost);
    if (!kept) return kept.failure();
    return cost_report(*notebook, *kept);
}

struct CostListWish {};

void declare_cost_list(CLI::App& verb, CostListWish&) {
    verb.footer(std::string("The newest first.\nJSON: a list of ") + kCostFields + ".");
}

Result<Report> cost_list(const Call& call, const CostListWish&) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto costs = list_costs(*notebook);
    if (!costs) return costs.failure();
    Columns columns({"cost", "on", "amount", "what", "of", "paid to"});
    Json json = Json::array();
    for (const Cost& cost : *costs) {
        columns.row({std::to_string(cost.id.value), to_iso(cost.on), to_words(cost.amount),
                     cost.what, cost.of, cost.paid_to});
        json.push_back(cost_json(*notebook, cost));
    }
    return Report{columns.empty() ? "no costs\n" : columns.text(), std::move(json)};
}

struct CostRemoveWish {
    std::string id;
};

void declare_cost_remove(CLI::App& verb, CostRemoveWish& wish) {
    verb.add_option("ID", wish.id, "The cost, as `cost list` numbers it")->required();
    verb.footer("JSON: {removed}.");
}

Result<Report> cost_remove(const Call& call, const CostRemoveWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<CostId>("cost", wish.id);
    if (!id) return id.failure();
    if (auto removed = remove_cost(*notebook, *id); !removed) return removed.failure();
    return Report{"removed cost " + std::to_string(id->value) + "\n", Json{{"removed", id->value}}};
}

struct EstimateWish {
    std::string group, amount, vehicle;

    void check() const {
        if (!group.empty() && amount.empty())
            throw CLI::ValidationError("a GROUP goes with an AMOUNT, such as \"150 GBP\"");
    }
};

void declare_estimate(CLI::App& verb, EstimateWish& wish) {
    verb.add_option("GROUP", wish.group, "A group of the parts list");
    verb.add_option("AMOUNT", wish.amount, "What is reckoned with; 0 takes the estimate away");
    verb.add_option("--vehicle", wish.vehicle,
                    "Which vehicle; needed where there are several "
                    "with such a group")
        ->option_text("NAME");
    verb.footer("Without a GROUP all are listed. One for each group and currency.\n"
                "JSON: a list of {vehicle, group, amount, currency, minor}.");
}

// The vehicle that was named, or the only one that has the group.
Result<VehicleId> vehicle_with(const Notebook& notebook, const EstimateWish& wish) {
    if (!wish.vehicle.empty()) {
        auto vehicle = vehicle_named(notebook, wish.vehicle);
        if (!vehicle) return vehicle.failure();
        return vehicle->id;
    }
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    VehicleId found = vehicles->front().id;
    int count = 0;
    for (const auto& vehicle : *vehicles) {
        auto groups = groups_of(notebook, vehicle.id);
        if (!groups) return groups.failure();
        if (std::ranges::find(*groups, wish.group) == groups->end()) continue;
        found = vehicle.id;
        ++count;
    }
    if (count > 1)
        return Failure{FailureKind::invalid, "Several vehicles have a group " +
                                                 fettle::quoted(wish.group) +
                                                 ": say which with --vehicle."};
    return found;
}

Result<Report> estimates_report(const Notebook& notebook) {
    auto estimates = list_estimates(notebook);
    if (!estimates) return estimates.failure();
    Columns columns({"vehicle", "group", "estimate"});
    Json json = Json::array();
    for (const Estimate& one : *estimates) {
        columns.row({one.vehicle_name, one.group, to_words(one.amount)});
        json.push_back(Json{{"vehicle", one.vehicle_name},
                            {"group", one.group},
                            {"amount", to_words(one.amount)},
                            {"currency", one.amount.currency},
                            {"minor", one.amount.minor}});
    }
    return Report{columns.empty() ? "no estimates\n" : columns.text(), std::move(json)};
}

Result<Report> estimate(const Call& call, const EstimateWish& wish) {
    if (wish.group.empty()) {
        auto notebook = call.for_reading();
        if (!notebook) return notebook.failure();
        return estimates_report(*notebook);
    }
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto vehicle = vehicle_with(*notebook, wish);
    if (!vehicle) return vehicle.failure();
    auto amount = parse_money(trim(wish.amount));
    if (!amount) return amount.failure();
    if (auto set = set_estimate(*notebook, {*vehicle, wish.group, *amount}); !set)
        return set.failure();
    return estimates_report(*notebook);
}

struct CostsWish {
    std::string by = "group";
};

void declare_costs(CLI::App& verb, CostsWish& wish) {
    verb.add_option("--by", wish.by, "part, task, consignment, group or month; without it group")
        ->option_text("WORD");
    verb.footer("Costs, and the prices of parts, each in one row; currencies are kept apart. "
                "Estimates stand\nwith --by group.\n"
                "JSON: {by, rows, spent, estimate}; rows list {label, id, spent, estimate}; spent "
                "and estimate\nhold minor units by currency.");
}

// A line for each currency of the row.
void costs_lines(Columns& columns, const std::string& label, const Purse& spent,
                 const Purse& estimate, bool by_group) {
    Purse all;
    for (const Purse* purse : {&spent, &estimate})
        for (const Money& money : purse->amounts())
            (void)all.add({0, money.currency}); // nothing added cannot be too much
    std::string said = label;
    for (const Money& money : all.amounts()) {
        const std::string& currency = money.currency;
        std::vector<std::string> cells = {said, to_words(Money{spent.in(currency), currency})};
        if (by_group && estimate.holds(currency)) {
            cells.push_back(to_words(Money{estimate.in(currency), currency}));
            cells.push_back(against_words(spent.in(currency), estimate.in(currency), currency));
        }
        columns.row(std::move(cells));
        said.clear();
    }
}

Result<Report> costs(const Call& call, const CostsWish& wish) {
    auto by = cost_by(wish.by);
    if (!by) return by.failure();
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto table = cost_table(*notebook, *by);
    if (!table) return table.failure();
    const bool by_group = *by == CostBy::group;
    Columns columns(by_group ? std::vector<std::string>{wish.by, "spent", "estimate", ""}
                             : std::vector<std::string>{wish.by, "spent"});
    Json rows = Json::array();
    for (const CostRow& row : table->rows) {
        costs_lines(columns, row.label, row.spent, row.estimate, by_group);
        rows.push_back(Json{{"label", row.label},
                            {"id", row.id == 0 ? Json() : Json(row.id)},
                            {"spent", by_currency(row.spent)},
                            {"estimate", by_currency(row.estimate)}});
    }
    const bool none = columns.empty();
    costs_lines(columns, "all", table->spent, table->estimate, by_group);
    return Report{none ? "nothing spent\n" : columns.text(),
                  Json{{"by", wish.by},
                       {"rows", std::move(rows)},
                       {"spent", by_currency(table->spent)},
                       {"estimate", by_currency(table->estimate)}}};
}

} // namespace

void add_costs(Line& line) {
    auto& cost = add_group(line, "cost", "Note, list and remove what was paid");
    add_verb(line, cost, "add", "Note a cost", declare_cost_add, cost_add);
    add_verb(line, cost, "list", "List the costs that were noted", declare_cost_list, cost_list);
    add_verb(line, cost, "remove", "Remove a cost", declare_cost_remove, cost_remove);
    add_verb(line, line.app, "estimate", "Say what is reckoned with for a group, or list it",
             declare_estimate, estimate);
    add_verb(line, line.app, "costs", "Show what was spent, against the estimates", declare_costs,
             costs);
}

} // namespace fettle::cli
