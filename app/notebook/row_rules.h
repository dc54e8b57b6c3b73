// What a row given from outside must be like before it may stand in a table: the rules that the
// acts keep by themselves and that the database cannot say. Pure; any thread.
#pragma once

#include "notebook/record_rows.h"

#include <optional>

namespace fettle {

struct RowFault {
    std::string column;
    std::string accepted; // "a day such as 2026-03-07"
};

// `table` as described, or null for one that is no longer described: then nothing is asked of it.
// Nothing when all is well.
std::optional<RowFault> row_fault(const TableSaid* table, std::span<const std::string> columns,
                                  std::span<const Cell> cells);

// Whether a photo's file that stands in the notebook is named as one: below photos/, nowhere else.
bool stays_within(const std::string& file);

} // namespace fettle
