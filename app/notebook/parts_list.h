// A vehicle's parts list as a table from outside: which column is which, what each row would do,
// and taking it in, all of it or nothing.
#pragma once

#include "base/csv.h"
#include "notebook/vehicles.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

enum class ListColumn { group, number, name, quantity, spec };
inline constexpr std::array<const char*, 5> kListColumns{"group", "number", "name", "quantity",
                                                         "spec"};

// For each ListColumn the table's column it is read from, counted from 0. Number and name are
// needed; without a quantity each row counts one.
struct ListColumns {
    std::array<std::optional<std::size_t>, kListColumns.size()> from;
    bool has_heading = true; // the first row names the columns and is no position
    std::optional<std::size_t>& operator[](ListColumn column) {
        return from[static_cast<std::size_t>(column)];
    }
    const std::optional<std::size_t>& operator[](ListColumn column) const {
        return from[static_cast<std::size_t>(column)];
    }
    bool operator==(const ListColumns&) const = default;
};

// By the words in the first row, in any case and with the usual other words ("Part no.", "qty",
// "description", "section"). Where none of them fits there is no heading, and the columns are taken
// in the order of ListColumn.
ListColumns match_columns(const CsvTable& table);

// What is wrong with one field.
struct RowTrouble {
    int row = 0;        // as a spreadsheet counts
    std::string column; // as the table heads it, else "column 3"
    std::string sentence;
};

enum class RowDoes { adds, changes, nothing };

struct ListRow {
    int row = 0;
    Position position; // its id when there is one with the number
    RowDoes does = RowDoes::adds;
};

struct ListPreview {
    std::vector<ListRow> rows; // those without trouble
    std::vector<RowTrouble> troubles;
    int adds = 0, changes = 0;
};

// What taking the table in would do to the vehicle's positions. Troubles: a blank number or name, a
// quantity that is no whole number of at least 1, a number twice in the table.
Result<ListPreview> preview_list(const Notebook& notebook, VehicleId vehicle, const CsvTable& table,
                                 const ListColumns& columns);

// One act. Refused, with the first trouble and how many there are, when there is any; positions
// that are not in the table stay.
Done take_in_list(Notebook& notebook, VehicleId vehicle, const ListPreview& preview);

} // namespace fettle
