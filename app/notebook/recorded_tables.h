// The tables of the user's record: what history holds and what is carried between two machines; and
// how their fields hang together where both machines have changed a row. Static; any thread.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

// Lists of fields are written "a,b;c,d": two groups of two.
struct RecordedTable {
    const char* name;
    // Fields that change as one, because a rule holds between them; the first names the group. All
    // others stand for themselves.
    std::string_view together = {};
    // What may stand once in the table: both machines' rows of the same thing become one row.
    std::string_view once = {};
    // Of which no difference is shown: what the program works out by itself. "*": all fields.
    std::string_view quiet = {};
    // True on one machine only, never carried.
    std::string_view local = {};
};

std::span<const RecordedTable> recorded_tables();
// Their names, as the recorder of acts and sqlite3session_diff take them.
std::span<const char* const> recorded_names();
const RecordedTable* recorded_table(std::string_view name);

std::vector<std::vector<std::string>> groups_of_fields(std::string_view list);
// The field that stands for a column: itself, or the first of its group; empty for a local one.
std::string field_of(const RecordedTable& table, const std::string& column);
bool is_quiet(const RecordedTable& table, const std::string& field);

} // namespace fettle
