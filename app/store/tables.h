// Any table of a database as rows of cells, without knowing what it is for: for giving everything
// out and taking it in again. Names of tables and columns come from the database itself. Trouble is
// thrown as elsewhere in this room.
#pragma once

#include "store/database.h"

#include <functional>
#include <span>
#include <variant>

namespace fettle::store {

// Nothing (NULL), a whole number, a number, a text, bytes.
using Cell = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;

enum class Holding { integer, real, text, blob };

struct Column {
    std::string name;
    Holding holding = Holding::text;
    bool required = false; // may not be nothing
    std::string refers_to; // the table whose key it holds; blank: none
};

struct Table {
    std::string name;
    std::vector<Column> columns;  // in the database's order
    std::vector<std::string> key; // the columns of the primary key
};

// The ordinary tables, by name; not SQLite's own and not those of the index of words.
std::vector<std::string> table_names(Database& database);
// Throws when there is no such table.
Table table_of(Database& database, const std::string& name);
// What names a row with these cells, one for each of the table's columns.
RowKey row_key(const Table& table, std::span<const Cell> cells);
std::int64_t row_count(Database& database, const Table& table);

// In the order of the key, until `take` gives false. The cells last until it returns.
void each_row(Database& database, const Table& table,
              const std::function<bool(std::span<const Cell>)>& take);

// Finds rows of one table by their key; ends before its Database. Precondition: it has a key.
class RowFinder {
  public:
    RowFinder(Database& database, const Table& table);
    // The row with the same key as this one, of which only the key need be known; nothing when
    // there is none. The cells last until the next call.
    std::optional<std::span<const Cell>> find(std::span<const std::optional<Cell>> row);

  private:
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    std::vector<std::size_t> key_; // the numbers of its columns
    std::vector<Cell> cells_;
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

// What a rule of the database has against a row.
struct Breach {
    enum class Rule { doubled, required, check, other };
    Rule rule = Rule::other;
    std::vector<std::string> columns; // those that are doubled or required
    std::string said;                 // SQLite's words
};

// Puts rows into one table; ends before its Database.
class RowWriter {
  public:
    // The named columns are given, in this order; the others take what the schema says.
    RowWriter(Database& database, const Table& table, std::span<const std::string> columns);
    // Nothing when the row is in. Precondition: as many cells as columns.
    std::optional<Breach> put(std::span<const Cell> cells);

  private:
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

// A value of the column whose record does not exist; nothing when all do. Precondition: the column
// refers to a table.
std::optional<std::int64_t> missing_reference(Database& database, const Table& table,
                                              const Column& column);

// References of the column whose record does not exist are taken out of their rows; a row that
// cannot do without goes itself.
struct LetGo {
    std::vector<std::int64_t> missing; // the records spoken of
    std::size_t references = 0;        // taken out
    std::size_t rows = 0;              // gone
};
LetGo let_go_of_missing(Database& database, const Table& table, const Column& column);

} // namespace fettle::store
