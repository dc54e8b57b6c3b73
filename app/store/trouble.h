// How trouble with the database is told: for this room only.
#pragma once

struct sqlite3;

namespace fettle::store {

inline constexpr const char* kDamagedDatabase =
    "The notebook's database is damaged: restore a backup into a new folder (fettlebook restore "
    "FILE "
    "DIR), or save what can be read (fettlebook salvage DIR OUT).";

// Throws Trouble with the kind and the sentence that go with SQLite's result code. The connection
// may be nullptr.
[[noreturn]] void throw_trouble(sqlite3* connection, int code);

} // namespace fettle::store
