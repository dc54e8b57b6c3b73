// What the rebuild cost: costs as they were paid, the prices parts were bought for, and what was
// reckoned with, by the groups of the parts list. Currencies are kept apart everywhere.
// All acts can be undone.
#pragma once

#include "base/date.h"
#include "notebook/money.h"
#include "notebook/notebook.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

// Money that went out for something other than buying a part. It belongs to one part, task or
// consignment, or to none.
struct Cost {
    CostId id{};
    Day on{};
    Money amount;
    std::string what;
    PartId part{};
    TaskId task{};
    ConsignmentId consignment{};
    std::string paid_to; // a contact, by name; may be blank
    std::string of;      // read only: "H7 spring hanger", "consignment 3 to Saltash Row"
};

// Adds the cost, or overwrites the one with that id. Refused: nothing said of what for, nothing
// paid, more than one of part, task and consignment.
Result<CostId> keep_cost(Notebook& notebook, const Cost& cost);
Done remove_cost(Notebook& notebook, CostId id);
Result<Cost> cost_by_id(const Notebook& notebook, CostId id);
Result<std::vector<Cost>> list_costs(const Notebook& notebook); // the newest first

struct Estimate {
    VehicleId vehicle{};
    std::string group; // of the parts list
    Money amount;
    std::string vehicle_name; // read only
};
// One for each vehicle, group and currency; an amount of 0 takes it away. Refused: a group that has
// no position on the vehicle (the sentence lists those that have).
Done set_estimate(Notebook& notebook, const Estimate& estimate);
Result<std::vector<Estimate>> list_estimates(const Notebook& notebook);
// The groups of a vehicle's parts list, in its order.
Result<std::vector<std::string>> groups_of(const Notebook& notebook, VehicleId vehicle);

enum class CostBy { part, task, consignment, group, month };
inline constexpr std::array kCostBy = {CostBy::part, CostBy::task, CostBy::consignment,
                                       CostBy::group, CostBy::month};
std::string_view word(CostBy by);
Result<CostBy> cost_by(std::string_view text);

struct CostRow {
    std::string label;   // "H7 spring hanger", "Front axle", "2026-03"; what belongs to none has
                         // words too: "no part"
    std::int64_t id = 0; // of the part, task or consignment; 0: none
    Purse spent;
    Purse estimate; // by group only
};
// Every amount spent stands in exactly one row, so all groupings have the same total. A part's
// price counts once, however many pieces it holds, on the day it was acquired. A cost of a part
// goes to its position's group; one of a task or consignment to the group of its positions or items
// where they are of one, else to "several groups". Months without a date are "no date".
struct CostTable {
    std::vector<CostRow> rows;
    Purse spent, estimate;
};
Result<CostTable> cost_table(const Notebook& notebook, CostBy by);

// How what was spent stands to the estimate: "29.50 GBP left", "over by 12.00 GBP", "as reckoned".
std::string against_words(std::int64_t spent, std::int64_t estimate, const std::string& currency);

} // namespace fettle
