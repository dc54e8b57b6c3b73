// What one act changed, as SQLite's session extension records it: a changeset that can be turned
// round and applied again. Undo and redo, and later the exchange between two machines, are made of
// these bytes; their format is SQLite's own.
#pragma once

#include "store/database.h"
#include "store/tables.h"

#include <functional>

struct sqlite3_session;

namespace fettle::store {

// Records every change to the named tables from its construction on. Must end before its Database.
class Recorder {
  public:
    Recorder(Database& database, std::span<const char* const> tables);
    Blob changes() const; // empty when nothing changed

  private:
    struct Delete {
        void operator()(sqlite3_session* session) const;
    };
    std::unique_ptr<sqlite3_session, Delete> session_;
};

// Whether these bytes, which may come from anywhere, can be read as changes. All that follow ask
// it, and throw Trouble (damaged) where not.
bool has_form_of_changes(const Blob& bytes);

// The changes that take the given ones back.
Blob inverted(const Blob& changes);

// Applies all of it or throws Trouble: a row that is not as the changes expect stops everything.
// Run inside a Transaction.
void apply(Database& database, const Blob& changes);

// One row among changes.
struct Change {
    enum class Kind { added, changed, removed };
    Kind kind = Kind::changed;
    std::string table;
    RowKey key;
    std::vector<int> columns; // those that have another value, by their number; when changed
};
void each_change(const Blob& changes, const std::function<void(const Change&)>& look);

// What one row came to hold by the changes: the values written, by column; all of them where it was
// added, none where it was removed. Those of its key are always there.
struct WrittenRow {
    Change::Kind kind = Change::Kind::changed;
    std::string table;
    RowKey key;
    std::vector<std::optional<Cell>> values;
};
void each_written(const Blob& changes, const std::function<void(const WrittenRow&)>& look);

// What makes of the tables in the attached database `from` those in `to`: same columns, same keys.
Blob changes_between(Database& database, const std::string& from, const std::string& to,
                     std::span<const char* const> tables);

} // namespace fettle::store
