#include "notebook/rebuild.h"

#include "notebook/costs.h"
#include "notebook/positions.h"
#include "notebook/rules.h"
#include "notebook/vehicles.h"

#include <map>

namespace fettle {
namespace {

// What there is of each month, and what is blank of those between.
template <class One>
std::vector<One> without_gaps(const std::map<CalendarMonth, One>& known) {
    std::vector<One> all;
    if (known.empty()) return all;
    for (CalendarMonth month = known.begin()->first; month <= known.rbegin()->first;
         month += std::chrono::months(1)) {
        const auto found = known.find(month);
        all.push_back(found == known.end() ? One{} : found->second);
        all.back().month = month;
    }
    return all;
}

void add_hours(std::map<CalendarMonth, MonthHours>& months, Day day, double hours) {
    MonthHours& month = months[day.year() / day.month()];
    month.hours += hours;
    ++month.entries;
}

Shares shares_of(const PositionFill& fill) {
    const int there = fill.position.quantity - fill.missing();
    const int fitted = std::min(fill.fitted, there);
    return {fitted, there - fitted, fill.missing()};
}

void add(Shares& sum, const Shares& more) {
    sum.fitted += more.fitted;
    sum.there += more.there;
    sum.missing += more.missing;
}

Shares as_one_position(const Shares& pieces) {
    if (pieces.missing > 0) return {.missing = 1};
    return pieces.there > 0 ? Shares{.there = 1} : Shares{.fitted = 1};
}

void add_position_to(Rebuild& rebuild, const PositionFill& fill) {
    const Position& at = fill.position;
    auto& groups = rebuild.groups;
    if (groups.empty() || groups.back().vehicle != at.vehicle || groups.back().group != at.group)
        groups.push_back({.vehicle = at.vehicle, .group = at.group, .first = at.id});
    const Shares pieces = shares_of(fill);
    const Shares position = as_one_position(pieces);
    add(groups.back().pieces, pieces);
    add(groups.back().positions, position);
    add(rebuild.pieces, pieces);
    add(rebuild.positions, position);
}

void label_groups(Rebuild& rebuild, const std::vector<Vehicle>& vehicles) {
    auto& groups = rebuild.groups;
    const bool several = !groups.empty() && groups.front().vehicle != groups.back().vehicle;
    for (GroupShares& one : groups) {
        one.label = one.group.empty() ? "no group" : one.group;
        if (several)
            one.label += " of " + std::ranges::find(vehicles, one.vehicle, &Vehicle::id)->name;
    }
}

Done add_groups(const Notebook& notebook, VehicleId vehicle, Rebuild& rebuild) {
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    auto fills = vehicle ? list_positions(notebook, vehicle) : list_all_positions(notebook);
    if (!fills) return fills.failure();
    for (const PositionFill& fill : *fills)
        add_position_to(rebuild, fill);
    label_groups(rebuild, *vehicles);
    return done();
}

Done add_spent(const Notebook& notebook, Rebuild& rebuild) {
    auto table = cost_table(notebook, CostBy::month);
    if (!table) return table.failure();
    std::map<CalendarMonth, MonthSpent> months;
    for (CostRow& row : table->rows) {
        if (const auto first = parse_day(row.label + "-01"))
            months[first->year() / first->month()].spent = std::move(row.spent);
        else
            rebuild.undated = std::move(row.spent); // "no date"
    }
    rebuild.spent = without_gaps(months);
    rebuild.all_spent = std::move(table->spent);
    return done();
}

Done add_worked_hours(const Notebook& notebook, Rebuild& rebuild) {
    auto months = notebook.read([](store::Database& database) {
        std::map<CalendarMonth, MonthHours> all;
        auto row = database.query("SELECT on_date, ifnull(hours, 0) FROM entries");
        while (row.next())
            if (const auto day = parse_day(row.get<std::string>(0)))
                add_hours(all, *day, row.get<double>(1));
        return all;
    });
    if (!months) return months.failure();
    rebuild.hours = without_gaps(*months);
    rebuild.all_hours = sum_of(rebuild.hours);
    return done();
}

} // namespace

std::string to_words(CalendarMonth month) {
    return to_words(month / 1).substr(2); // without its "1 "
}

std::string to_iso(CalendarMonth month) {
    return to_iso(month / 1).substr(0, 7);
}

std::string to_words(const Shares& shares) {
    return std::to_string(shares.fitted) + " fitted, " + std::to_string(shares.there) + " there, " +
           std::to_string(shares.missing) + " missing";
}

Result<Rebuild> read_rebuild(const Notebook& notebook, VehicleId vehicle) {
    Rebuild rebuild;
    if (auto added = add_groups(notebook, vehicle, rebuild); !added) return added.failure();
    if (auto added = add_worked_hours(notebook, rebuild); !added) return added.failure();
    if (auto added = add_spent(notebook, rebuild); !added) return added.failure();
    return rebuild;
}

std::vector<MonthHours> hours_by_month(const std::vector<Entry>& entries) {
    std::map<CalendarMonth, MonthHours> months;
    for (const Entry& entry : entries)
        add_hours(months, entry.day, entry.hours.value_or(0));
    return without_gaps(months);
}

double sum_of(const std::vector<MonthHours>& months) {
    double hours = 0;
    for (const MonthHours& month : months)
        hours += month.hours;
    return hours;
}

} // namespace fettle
