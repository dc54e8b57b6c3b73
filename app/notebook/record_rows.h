// The whole record of a notebook as rows of its described tables, for giving everything out.
#pragma once

#include "notebook/described.h"
#include "notebook/notebook.h"
#include "store/tables.h"

#include <functional>

namespace fettle {

using Cell = store::Cell;

// Runs `body` while readings of this notebook see one state, whoever writes meanwhile. For a
// notebook that is open for reading only.
Done in_one_state(const Notebook& notebook, const std::function<Done()>& body);

Result<std::int64_t> count_rows(const Notebook& notebook, const TableSaid& table);
// The cells as the table's columns are described, in the order of its key, until `take` gives
// false.
Done each_row(const Notebook& notebook, const TableSaid& table,
              const std::function<bool(std::span<const Cell>)>& take);

} // namespace fettle
