// What can be saved of a damaged notebook's record: rows read straight off the pages of its
// database, and those brought back by the changes that its history keeps. Into a notebook in the
// making; the damaged files are only read. One thread.
#pragma once

#include "notebook/notebook.h"

#include <string>
#include <vector>

namespace fettle {

struct SalvagedTable {
    std::string name;
    std::size_t saved = 0;        // rows in the new notebook
    std::size_t from_changes = 0; // of those: brought back from the changes kept
    std::size_t strays = 0;       // of those: on pages that nothing leads to any more
    std::size_t unread = 0;       // pages and rows that cannot be read; one page may hold many rows
    std::vector<std::string> lost; // rows that were there by all that is known, by their numbers
    std::size_t left_out = 0;      // rows that say nothing without a lost one, and went with it
    std::size_t unnamed = 0;       // references to lost rows that were taken out of saved ones
    std::vector<std::string> doubtful; // "12: place": is not what was written last
    bool is_whole() const {
        return unread == 0 && lost.empty() && left_out == 0 && unnamed == 0 && doubtful.empty() &&
               strays == 0;
    }
};

struct Salvaged {
    int schema = 0;
    std::vector<SalvagedTable> tables; // that hold rows or have lost some
    std::vector<std::string> notices;  // sentences
    bool is_whole() const;
};

// Makes a notebook of `database` and the log beside it in the folder, which must be new or empty.
// Fails with damaged when not one row can be read. The history itself and what two machines know of
// each other do not come along. Not for a notebook that this process has open: reading its file
// past SQLite would let go of its locks.
Result<Salvaged> salvage_record(const std::filesystem::path& database,
                                const std::filesystem::path& folder);

} // namespace fettle
