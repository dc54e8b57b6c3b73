// States of a notebook: what is recorded and who wrote it at one moment, as a SQLite file of bare
// tables (keys, but no other rule, no index and no trigger). The tables stand in the same columns
// as in notebook.db, so that SQLite's session extension can tell one state from another. Where
// photos lie on a machine is left blank. For this room only.
#pragma once

#include "store/changes.h"

#include <string>
#include <vector>

namespace fettle {

// A table as it stands in a state.
struct TableShape {
    std::string name;
    std::vector<std::string> columns;
    std::vector<std::string> key; // its columns
    bool has_id() const { return key.size() == 1 && key.front() == "id"; }
    std::string row(const std::string& of = {}) const; // SQL for what names a row of `of`
    std::string where_row() const;                     // SQL for the row that ?1 names
};
TableShape shape_of(store::Database& database, const std::string& schema, const std::string& table);

// All tables of a state: the recorded ones and the stamps.
std::vector<std::string> state_tables();

// Writes the live notebook's state, or one without a row, into a new file; outside a transaction.
void write_state(store::Database& live, const std::filesystem::path& file);
void write_empty_state(store::Database& live, const std::filesystem::path& file);

// What makes the state in `to` of the one in `from`, as a changeset.
store::Blob changes_between_states(const std::filesystem::path& from,
                                   const std::filesystem::path& to);
// Makes another state of the one in the file. Throws Trouble when the changes do not fit it.
void change_state(const std::filesystem::path& file, const store::Blob& changes);

// Opens a state for changing; nothing of it needs to outlive a power cut.
store::Database open_state(const std::filesystem::path& file);
void attach(store::Database& database, const std::filesystem::path& file, const std::string& name);

} // namespace fettle
