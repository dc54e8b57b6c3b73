// What the rows of a notebook came to hold by the changes kept in its history: a second copy of
// what was written, to hold the tables against and to bring back rows that are lost. One thread.
#pragma once

#include "notebook/record_rows.h"
#include "store/changes.h"

#include <map>

namespace fettle {

class WrittenRows {
  public:
    struct Row {
        bool is_whole = false;   // its adding is among the changes: all values are known
        bool is_removed = false; // and then has no values
        std::vector<std::optional<Cell>> values; // by column
    };
    using Table = std::map<store::RowKey, Row>;

    // In the order in which they were made, without what was undone. Throws store::Trouble for
    // changes that are damaged; what went before them is then still known.
    void take(const store::Blob& changes);
    // After a meeting: its changes are not kept.
    void forget() { tables_.clear(); }

    const std::map<std::string, Table>& tables() const { return tables_; }

  private:
    std::map<std::string, Table> tables_;
};

// Equal, whether a number stands there with a fraction of nothing or without.
bool same_value(const Cell& one, const Cell& other);

// Where the tables do not hold what was written last: a sentence for each, at most `most`. Changes
// that cannot be read end the comparing with a sentence of their own.
std::vector<std::string> faults_against_changes(store::Database& database, std::size_t most = 20);

} // namespace fettle
