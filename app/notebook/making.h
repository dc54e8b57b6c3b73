// A notebook made of rows instead of acts: everything that was given out, taken in again. Nothing
// of it counts before it is finished. One thread.
#pragma once

#include "notebook/record_rows.h"

#include <map>
#include <memory>
#include <optional>

namespace fettle {

// A row that speaks of a record which is not there.
struct MissingRecord {
    std::string table, column;
    std::int64_t number = 0;
    std::string refers_to; // the table that lacks it
};

class NotebookInMaking {
  public:
    // In a new or empty folder. `schema` is the one the rows were written under, of 1 to
    // kNewestSchema: they go into its tables, which are then brought up.
    static Result<NotebookInMaking> begin(const std::filesystem::path& folder, int schema);
    NotebookInMaking(NotebookInMaking&&) noexcept;
    ~NotebookInMaking();

    // The table at that schema; nothing when there is none that rows may go into.
    std::optional<store::Table> table(const std::string& name);
    // Nothing when the row is in. Precondition: `table` and `columns` as that schema has them.
    Result<std::optional<store::Breach>> put(const store::Table& table,
                                             std::span<const std::string> columns,
                                             std::span<const Cell> cells);
    // After the last row.
    Result<std::optional<MissingRecord>> missing();
    // The same, and what speaks of missing records no longer does, or goes: for rows of which some
    // are lost. By table; those without are left out.
    Result<std::map<std::string, store::LetGo>> let_go_of_missing();
    // Keeps the rows. The notebook can be opened from now on.
    Done finish();

  private:
    struct Parts;
    explicit NotebookInMaking(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

} // namespace fettle
