// Whether a database is whole, and copies of one while others write to it.
#pragma once

#include "store/database.h"

#include <functional>
#include <stop_token>

namespace fettle::store {

// What SQLite's own integrity check finds, a line each, at most `most`; none: it is whole.
std::vector<std::string> integrity_faults(Database& database, int most = 20);

struct Dangling {
    std::string table;     // that refers
    std::string refers_to; // to a record there that does not exist
};
std::vector<Dangling> dangling_references(Database& database, int most = 20);

// One state of the database for as long as it lives, whoever writes meanwhile: the writer is not
// held up (WAL). Within a transaction, or within another of its kind, that one's state.
class OneState {
  public:
    explicit OneState(Database& database);
    ~OneState();
    OneState(const OneState&) = delete;
    OneState& operator=(const OneState&) = delete;

  private:
    Database& database_;
    bool outermost_;
};

// Copies page by page by SQLite's online backup interface, in one state. Pages done and in all are
// told now and then. False when it was stopped: then `into` is of no use.
bool copy_database(Database& from, Database& into, const std::stop_token& stop = {},
                   const std::function<void(int, int)>& progress = {});

// A copy of its own that nobody else sees and that goes with the object.
Database private_copy(Database& from);

} // namespace fettle::store
