#include "store/tables.h"

#include "store/quoted_name.h"
#include "store/trouble.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>

namespace fettle::store {
namespace {

template <class Names>
std::string listed(const Names& names) {
    std::string list;
    for (const auto& name : names)
        list += (list.empty() ? "" : ", ") + in_quotes(name);
    return list;
}

Holding holding_of(std::string_view type) {
    if (type == "INTEGER" || type == "INT") return Holding::integer;
    if (type == "REAL") return Holding::real;
    if (type == "BLOB") return Holding::blob;
    return Holding::text;
}

Cell cell_of(sqlite3_stmt* row, int column) {
    const auto size = static_cast<std::size_t>(sqlite3_column_bytes(row, column));
    switch (sqlite3_column_type(row, column)) {
    case SQLITE_INTEGER:
        return sqlite3_column_int64(row, column);
    case SQLITE_FLOAT:
        return sqlite3_column_double(row, column);
    case SQLITE_TEXT:
        return std::string(reinterpret_cast<const char*>(sqlite3_column_text(row, column)), size);
    case SQLITE_BLOB: {
        auto bytes = static_cast<const std::byte*>(sqlite3_column_blob(row, column));
        return bytes ? Blob(bytes, bytes + size) : Blob();
    }
    default:
        return std::monostate();
    }
}

int bind(sqlite3_stmt* statement, int parameter, const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell))
        return sqlite3_bind_int64(statement, parameter, *whole);
    if (const auto* number = std::get_if<double>(&cell))
        return sqlite3_bind_double(statement, parameter, *number);
    if (const auto* text = std::get_if<std::string>(&cell))
        return sqlite3_bind_text64(statement, parameter, text->data(), text->size(),
                                   SQLITE_TRANSIENT, SQLITE_UTF8);
    if (const auto* blob = std::get_if<Blob>(&cell))
        return sqlite3_bind_blob64(statement, parameter,
                                   blob->empty() ? "" : (const void*)blob->data(), blob->size(),
                                   SQLITE_TRANSIENT);
    return sqlite3_bind_null(statement, parameter);
}

[[noreturn]] void fail(sqlite3* connection) {
    const bool damaged = (sqlite3_errcode(connection) & 0xff) == SQLITE_CORRUPT;
    throw Trouble({damaged ? FailureKind::damaged : FailureKind::io,
                   damaged ? kDamagedDatabase : "The notebook's database refused the act.",
                   sqlite3_errmsg(connection)});
}

using Prepared = std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)>;

Prepared prepared(Database& database, const std::string& sql) {
    sqlite3_stmt* raw = nullptr;
    if (sqlite3_prepare_v2(database.connection(), sql.c_str(), -1, &raw, nullptr) != SQLITE_OK)
        fail(database.connection());
    return {raw, sqlite3_finalize};
}

// "UNIQUE constraint failed: parts.tag, parts.name" gives tag and name.
std::vector<std::string> columns_named(std::string_view said) {
    std::vector<std::string> columns;
    const auto colon = said.find(": ");
    if (colon == std::string_view::npos) return columns;
    said.remove_prefix(colon + 2);
    while (!said.empty()) {
        const auto end = std::min(said.find(", "), said.size());
        const auto name = said.substr(0, end);
        if (const auto dot = name.find('.'); dot != std::string_view::npos)
            columns.emplace_back(name.substr(dot + 1));
        said.remove_prefix(std::min(end + 2, said.size()));
    }
    return columns;
}

Breach breach_of(int code, const std::string& said) {
    switch (code) {
    case SQLITE_CONSTRAINT_UNIQUE:
    case SQLITE_CONSTRAINT_PRIMARYKEY:
    case SQLITE_CONSTRAINT_ROWID:
        return {Breach::Rule::doubled, columns_named(said), said};
    case SQLITE_CONSTRAINT_NOTNULL:
        return {Breach::Rule::required, columns_named(said), said};
    case SQLITE_CONSTRAINT_CHECK:
        return {Breach::Rule::check, {}, said};
    default:
        return {Breach::Rule::other, {}, said};
    }
}

} // namespace

std::string in_quotes(std::string_view name) {
    std::string quoted = "\"";
    for (const char sign : name)
        quoted += sign == '"' ? std::string("\"\"") : std::string(1, sign);
    return quoted + '"';
}

std::string in_quotes(std::string_view schema, std::string_view table) {
    return in_quotes(schema) + '.' + in_quotes(table);
}

std::vector<std::string> table_names(Database& database) {
    std::vector<std::string> names;
    auto rows = database.query("SELECT name FROM pragma_table_list WHERE schema = 'main' AND "
                               "type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' "
                               "ORDER BY name");
    while (rows.next())
        names.push_back(rows.get<std::string>(0));
    return names;
}

Table table_of(Database& database, const std::string& name) {
    Table table{name, {}, {}};
    std::vector<std::pair<int, std::string>> key;
    auto columns = database.query(
        "SELECT name, type, \"notnull\", pk FROM pragma_table_info(?) ORDER BY cid", name);
    while (columns.next()) {
        const int place = columns.get<int>(3);
        table.columns.push_back({columns.get<std::string>(0),
                                 holding_of(columns.get<std::string>(1)),
                                 columns.get<bool>(2) || place > 0,
                                 {}});
        if (place > 0) key.emplace_back(place, table.columns.back().name);
    }
    if (table.columns.empty())
        throw Trouble({FailureKind::damaged,
                       "The notebook's database is damaged: it has no table " + name + "."});
    auto references =
        database.query("SELECT \"from\", \"table\" FROM pragma_foreign_key_list(?)", name);
    while (references.next()) {
        const auto from = references.get<std::string>(0);
        const auto column = std::ranges::find(table.columns, from, &Column::name);
        if (column != table.columns.end()) column->refers_to = references.get<std::string>(1);
    }
    std::ranges::sort(key);
    for (auto& [place, column] : key)
        table.key.push_back(std::move(column));
    return table;
}

RowKey row_key(const Table& table, std::span<const Cell> cells) {
    RowKey key;
    int parts = 0;
    for (std::size_t at = 0; at < cells.size(); ++at) {
        if (std::ranges::find(table.key, table.columns[at].name) == table.key.end()) continue;
        const auto* number = std::get_if<std::int64_t>(&cells[at]);
        const auto* text = std::get_if<std::string>(&cells[at]);
        const std::string part = number ? std::to_string(*number) : text ? *text : std::string();
        if (parts++ == 0 && number)
            key = *number;
        else if (parts == 1)
            key = part;
        else if (const auto* first = std::get_if<std::int64_t>(&key))
            key = std::to_string(*first) + ',' + part;
        else
            key = std::get<std::string>(key) + ',' + part;
    }
    return key;
}

std::int64_t row_count(Database& database, const Table& table) {
    auto row = database.query("SELECT count(*) FROM " + in_quotes(table.name));
    row.next();
    return row.get<std::int64_t>(0);
}

namespace {
std::vector<std::string> names_of(const std::vector<Column>& columns) {
    std::vector<std::string> names;
    for (const auto& column : columns)
        names.push_back(column.name);
    return names;
}
} // namespace

void each_row(Database& database, const Table& table,
              const std::function<bool(std::span<const Cell>)>& take) {
    const auto names = names_of(table.columns);
    const auto rows =
        prepared(database, "SELECT " + listed(names) + " FROM " + in_quotes(table.name) +
                               (table.key.empty() ? "" : " ORDER BY " + listed(table.key)));
    std::vector<Cell> cells(names.size());
    for (;;) {
        const int code = sqlite3_step(rows.get());
        if (code == SQLITE_DONE) return;
        if (code != SQLITE_ROW) fail(database.connection());
        for (std::size_t at = 0; at < cells.size(); ++at)
            cells[at] = cell_of(rows.get(), static_cast<int>(at));
        if (!take(cells)) return;
    }
}

void RowFinder::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

RowFinder::RowFinder(Database& database, const Table& table) : cells_(table.columns.size()) {
    std::string where;
    for (std::size_t at = 0; at < table.columns.size(); ++at) {
        const std::string& column = table.columns[at].name;
        if (std::ranges::find(table.key, column) == table.key.end()) continue;
        key_.push_back(at);
        where += (where.empty() ? "" : " AND ") + in_quotes(column) + " = ?";
    }
    const auto names = names_of(table.columns);
    statement_.reset(prepared(database, "SELECT " + listed(names) + " FROM " +
                                            in_quotes(table.name) + " WHERE " + where)
                         .release());
}

std::optional<std::span<const Cell>> RowFinder::find(std::span<const std::optional<Cell>> row) {
    auto* connection = sqlite3_db_handle(statement_.get());
    for (std::size_t at = 0; at < key_.size(); ++at) {
        const Cell cell = key_[at] < row.size() ? row[key_[at]].value_or(Cell()) : Cell();
        if (bind(statement_.get(), static_cast<int>(at) + 1, cell) != SQLITE_OK) fail(connection);
    }
    const int code = sqlite3_step(statement_.get());
    if (code != SQLITE_DONE && code != SQLITE_ROW) fail(connection);
    for (std::size_t at = 0; code == SQLITE_ROW && at < cells_.size(); ++at)
        cells_[at] = cell_of(statement_.get(), static_cast<int>(at));
    sqlite3_reset(statement_.get());
    if (code == SQLITE_DONE) return std::nullopt;
    return cells_;
}

void RowWriter::Finalize::operator()(sqlite3_stmt* statement) const {
    sqlite3_finalize(statement);
}

RowWriter::RowWriter(Database& database, const Table& table, std::span<const std::string> columns) {
    std::string places;
    for (std::size_t at = 0; at < columns.size(); ++at)
        places += at == 0 ? "?" : ", ?";
    statement_.reset(prepared(database, "INSERT INTO " + in_quotes(table.name) + "(" +
                                            listed(columns) + ") VALUES (" + places + ")")
                         .release());
}

std::optional<Breach> RowWriter::put(std::span<const Cell> cells) {
    auto* connection = sqlite3_db_handle(statement_.get());
    for (std::size_t at = 0; at < cells.size(); ++at)
        if (bind(statement_.get(), static_cast<int>(at) + 1, cells[at]) != SQLITE_OK)
            fail(connection);
    const int code = sqlite3_step(statement_.get());
    const std::string said = sqlite3_errmsg(connection);
    if (code != SQLITE_DONE && (code & 0xff) != SQLITE_CONSTRAINT) fail(connection);
    sqlite3_reset(statement_.get());
    if (code == SQLITE_DONE) return std::nullopt;
    return breach_of(code, said);
}

namespace {
// The condition that a row's column refers to a record that does not exist.
std::string refers_to_none(Database& database, const Column& column) {
    const Table parent = table_of(database, column.refers_to);
    return in_quotes(column.name) + " IS NOT NULL AND " + in_quotes(column.name) +
           " NOT IN (SELECT " + in_quotes(parent.key.front()) + " FROM " + in_quotes(parent.name) +
           ")";
}
} // namespace

std::optional<std::int64_t> missing_reference(Database& database, const Table& table,
                                              const Column& column) {
    auto row =
        database.query("SELECT " + in_quotes(column.name) + " FROM " + in_quotes(table.name) +
                       " WHERE " + refers_to_none(database, column) + " LIMIT 1");
    if (!row.next()) return std::nullopt;
    return row.get<std::int64_t>(0);
}

LetGo let_go_of_missing(Database& database, const Table& table, const Column& column) {
    const auto name = in_quotes(table.name), field = in_quotes(column.name);
    const auto none = refers_to_none(database, column);
    LetGo gone;
    auto missing = database.query("SELECT DISTINCT " + field + " FROM " + name + " WHERE " + none);
    while (missing.next())
        gone.missing.push_back(missing.get<std::int64_t>(0));
    if (gone.missing.empty()) return gone;
    database.run("UPDATE OR IGNORE " + name + " SET " + field + " = NULL WHERE " + none);
    gone.references = static_cast<std::size_t>(database.rows_changed());
    database.run("DELETE FROM " + name + " WHERE " + none);
    gone.rows = static_cast<std::size_t>(database.rows_changed());
    return gone;
}

} // namespace fettle::store
