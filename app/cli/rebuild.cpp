// rebuild: the rebuild at a glance.
#include "notebook/rebuild.h"

#include "cli/records.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"

namespace fettle::cli {
namespace {

struct RebuildWish {
    std::string vehicle;
};

void declare_rebuild(CLI::App& verb, RebuildWish& wish) {
    verb.add_option("--vehicle", wish.vehicle, "Only the groups of this vehicle, by its name")
        ->option_text("NAME");
    verb.footer("Positions by group: fitted, there but not fitted yet, and missing as `missing` "
                "says. Hours of the log\nand what was spent, by month; those are of the whole "
                "notebook.\n"
                "JSON: {groups, positions, pieces, hours, all_hours, spent, undated, all_spent}; "
                "groups list {group,\nvehicle, positions, pieces}; positions and pieces are "
                "{fitted, there, missing}; hours list {month,\nhours, entries}; spent lists "
                "{month, spent}; money is in minor units by currency.");
}

Json shares_json(const Shares& shares) {
    return {{"fitted", shares.fitted}, {"there", shares.there}, {"missing", shares.missing}};
}

std::vector<std::string> shares_row(const std::string& label, const Shares& shares) {
    return {label, std::to_string(shares.fitted), std::to_string(shares.there),
            std::to_string(shares.missing), std::to_string(shares.all())};
}

Json groups_json(const Rebuild& rebuild, const std::vector<Vehicle>& vehicles) {
    Json json = Json::array();
    for (const GroupShares& one : rebuild.groups)
        json.push_back(
            Json{{"group", one.group},
                 {"vehicle", std::ranges::find(vehicles, one.vehicle, &Vehicle::id)->name},
                 {"positions", shares_json(one.positions)},
                 {"pieces", shares_json(one.pieces)}});
    return json;
}

std::string groups_text(const Rebuild& rebuild) {
    if (rebuild.groups.empty()) return "no positions\n";
    Columns columns({"group", "fitted", "there", "missing", "positions"});
    for (const GroupShares& one : rebuild.groups)
        columns.row(shares_row(one.label, one.positions));
    columns.row(shares_row("all", rebuild.positions));
    return columns.text();
}

std::string hours_text(const Rebuild& rebuild) {
    if (rebuild.hours.empty()) return "no entries\n";
    Columns columns({"month", "hours", "entries"});
    int entries = 0;
    for (const MonthHours& month : rebuild.hours) {
        columns.row(
            {to_iso(month.month), hours_in_words(month.hours), std::to_string(month.entries)});
        entries += month.entries;
    }
    columns.row({"all", hours_in_words(rebuild.all_hours), std::to_string(entries)});
    return columns.text();
}

std::string spent_text(const Rebuild& rebuild) {
    if (rebuild.all_spent.empty()) return "nothing spent\n";
    Columns columns({"month", "spent"});
    for (const MonthSpent& month : rebuild.spent)
        columns.row({to_iso(month.month), to_words(month.spent)});
    if (!rebuild.undated.empty()) columns.row({"no date", to_words(rebuild.undated)});
    columns.row({"all", to_words(rebuild.all_spent)});
    return columns.text();
}

Json rebuild_json(const Rebuild& rebuild, const std::vector<Vehicle>& vehicles) {
    Json hours = Json::array(), spent = Json::array();
    for (const MonthHours& month : rebuild.hours)
        hours.push_back(Json{
            {"month", to_iso(month.month)}, {"hours", month.hours}, {"entries", month.entries}});
    for (const MonthSpent& month : rebuild.spent)
        spent.push_back(Json{{"month", to_iso(month.month)}, {"spent", by_currency(month.spent)}});
    return {
        {"groups", groups_json(rebuild, vehicles)}, {"positions", shares_json(rebuild.positions)},
        {"pieces", shares_json(rebuild.pieces)},    {"hours", std::move(hours)},
        {"all_hours", rebuild.all_hours},           {"spent", std::move(spent)},
        {"undated", by_currency(rebuild.undated)},  {"all_spent", by_currency(rebuild.all_spent)}};
}

Result<Report> rebuild_verb(const Call& call, const RebuildWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    VehicleId only;
    if (!wish.vehicle.empty()) {
        auto vehicle = vehicle_named(*notebook, wish.vehicle);
        if (!vehicle) return vehicle.failure();
        only = vehicle->id;
    }
    auto vehicles = list_vehicles(*notebook);
    if (!vehicles) return vehicles.failure();
    auto rebuild = read_rebuild(*notebook, only);
    if (!rebuild) return rebuild.failure();
    return Report{groups_text(*rebuild) + '\n' + hours_text(*rebuild) + '\n' + spent_text(*rebuild),
                  rebuild_json(*rebuild, *vehicles)};
}

} // namespace

void add_rebuild(Line& line) {
    add_verb(line, line.app, "rebuild",
             "Show the rebuild at a glance: groups, hours and costs by month", declare_rebuild,
             rebuild_verb);
}

} // namespace fettle::cli
