// The life of a part in one list, from the day it came: what was paid, how far it got and when,
// where it was sent, what was measured and done.
#pragma once

#include "base/date.h"
#include "notebook/money.h"
#include "notebook/notebook.h"

#include <string>
#include <vector>

namespace fettle {

struct LifeLine {
    Day day;
    std::string kind;  // came, condition, coming, out, back, settled, measured, work, cost
    std::string words; // "4 of 8 to Saltash Row Blasting for blasting"
    EntryId entry{};   // where it can be read in full
    ConsignmentId consignment{};
    std::optional<double> hours;
    std::optional<Money> cost;
};

// The earliest first. What has no day (a price without one) stands first, on the day it is first
// heard of.
Result<std::vector<LifeLine>> life_of(const Notebook& notebook, PartId part);

// What was paid for it so far, by currency: its price and what else was written down for it.
Result<std::vector<Money>> costs_of_part(const Notebook& notebook, PartId part);

} // namespace fettle
