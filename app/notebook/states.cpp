#include "notebook/states.h"

#include "base/text.h"
#include "notebook/recorded_tables.h"
#include "store/quoted_name.h"

#include <algorithm>

namespace fettle {
namespace {

namespace fs = std::filesystem;

// The tables of the live notebook in the attached file, without their rows.
void make_tables(store::Database& live, const std::string& into) {
    for (const auto& table : state_tables()) {
        std::vector<std::string> lines;
        auto column = live.query("SELECT name, type FROM pragma_table_info(?) ORDER BY cid", table);
        while (column.next())
            lines.push_back(column.get<std::string>(0) + ' ' + column.get<std::string>(1));
        const auto shape = shape_of(live, "main", table);
        lines.push_back("PRIMARY KEY (" + join(shape.key, ", ") + ')');
        live.run("CREATE TABLE " + store::in_quotes(into, table) + " (" + join(lines, ", ") +
                 ") STRICT");
    }
}

// What stands for a column: a blank for what is true on this machine only.
std::string carried_value(const std::string& table, const std::string& column) {
    const auto recorded = recorded_table(table);
    if (!recorded || !field_of(*recorded, column).empty()) return column;
    return column == "in_place" ? "0" : "''";
}

void fill_tables(store::Database& live, const std::string& into) {
    for (const auto& table : state_tables()) {
        std::vector<std::string> values;
        for (const auto& column : shape_of(live, "main", table).columns)
            values.push_back(carried_value(table, column));
        live.run("INSERT INTO " + store::in_quotes(into, table) + " SELECT " + join(values, ", ") +
                 " FROM main." + store::in_quotes(table));
    }
}

void write(store::Database& live, const fs::path& file, bool full) {
    std::error_code error;
    fs::remove(file, error);
    attach(live, file, "state");
    try {
        live.run_script("PRAGMA state.journal_mode = MEMORY; PRAGMA state.synchronous = OFF;");
        store::Transaction transaction(live);
        make_tables(live, "state");
        if (full) fill_tables(live, "state");
        transaction.commit();
    } catch (...) {
        live.run("DETACH state");
        throw;
    }
    live.run("DETACH state");
}

} // namespace

std::string TableShape::row(const std::string& of) const {
    const std::string dot = of.empty() ? "" : of + '.';
    if (key.size() == 1) return dot + key.front();
    return '(' + dot + key[0] + " || ',' || " + dot + key[1] + ')';
}

std::string TableShape::where_row() const {
    if (key.size() == 1) return key.front() + " = ?1";
    return key[0] + " = substr(?1, 1, instr(?1, ',') - 1) AND " + key[1] +
           " = substr(?1, instr(?1, ',') + 1)";
}

TableShape shape_of(store::Database& database, const std::string& schema,
                    const std::string& table) {
    TableShape shape{table, {}, {}};
    auto column =
        database.query("SELECT name, pk FROM pragma_table_info(?, ?) ORDER BY cid", table, schema);
    while (column.next()) {
        shape.columns.push_back(column.get<std::string>(0));
        if (column.get<int>(1) > 0) shape.key.push_back(column.get<std::string>(0));
    }
    return shape;
}

std::vector<std::string> state_tables() {
    std::vector<std::string> names;
    for (const char* name : recorded_names())
        names.emplace_back(name);
    names.emplace_back("stamps");
    return names;
}

void write_state(store::Database& live, const fs::path& file) {
    write(live, file, true);
}

void write_empty_state(store::Database& live, const fs::path& file) {
    write(live, file, false);
}

store::Database open_state(const fs::path& file) {
    return {file, store::Access::scratch};
}

void attach(store::Database& database, const fs::path& file, const std::string& name) {
    database.run("ATTACH DATABASE ? AS " + store::in_quotes(name), file.string());
}

store::Blob changes_between_states(const fs::path& from, const fs::path& to) {
    store::Database database = open_state(to);
    attach(database, from, "before");
    const auto tables = state_tables();
    std::vector<const char*> names;
    for (const auto& table : tables)
        names.push_back(table.c_str());
    return store::changes_between(database, "before", "main", names);
}

void change_state(const fs::path& file, const store::Blob& changes) {
    store::Database database = open_state(file);
    store::Transaction transaction(database);
    if (!changes.empty()) store::apply(database, changes);
    transaction.commit();
}

} // namespace fettle
