// How trouble with the database is told: for this room only.
#pragma once

struct sqlite3;

namespace fettle::store {

// Throws Trouble with the kind and the sentence that go with SQLite's result code. The connection
// may be nullptr.
[[noreturn]] void throw_trouble(sqlite3* connection, int code);

} // namespace fettle::store
