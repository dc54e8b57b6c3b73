// The rebuild at a glance: how far each group of the parts list has come, the hours worked and the
// money spent in each month. Computed from entries, positions and costs, never stored.
#pragma once

#include "base/date.h"
#include "notebook/entries.h"
#include "notebook/money.h"
#include "notebook/notebook.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

using CalendarMonth = std::chrono::year_month;
std::string to_words(CalendarMonth month); // "Mar 2026"
std::string to_iso(CalendarMonth month);   // "2026-03"

// Each of what is counted stands in exactly one of the three. Missing is what list_missing() says
// is missing; fitted what is in its place for good: used pieces of lots, and parts whose condition
// is fitted; there what is neither.
struct Shares {
    int fitted = 0, there = 0, missing = 0;
    int all() const { return fitted + there + missing; }
    bool operator==(const Shares&) const = default;
};
std::string to_words(const Shares& shares); // "3 fitted, 2 there, 4 missing"

struct GroupShares {
    VehicleId vehicle{};
    std::string group; // as the parts list has it, may be blank
    std::string label; // the group, and of which vehicle where several have positions
    // A position is missing while a piece of it is, and fitted when all its pieces are.
    Shares positions;
    Shares pieces;
    PositionId first{}; // of its positions
};

struct MonthHours {
    CalendarMonth month{};
    double hours = 0;
    int entries = 0;
};

struct MonthSpent {
    CalendarMonth month{};
    Purse spent;
};

struct Rebuild {
    std::vector<GroupShares> groups; // in the order of list_positions()
    Shares positions, pieces;        // of all groups
    // Every month between the first and the last, each list for itself.
    std::vector<MonthHours> hours;
    std::vector<MonthSpent> spent;
    Purse undated; // spent on no day that is known
    double all_hours = 0;
    Purse all_spent; // the total of cost_table()
    bool nothing_yet() const { return groups.empty() && hours.empty() && all_spent.empty(); }
};
// Groups of one vehicle, or of all; hours and money are always those of the whole notebook, since
// neither entries nor costs belong to a vehicle.
Result<Rebuild> read_rebuild(const Notebook& notebook, VehicleId vehicle = {});

// Entries without hours count with none.
std::vector<MonthHours> hours_by_month(const std::vector<Entry>& entries);
double sum_of(const std::vector<MonthHours>& months);

} // namespace fettle
