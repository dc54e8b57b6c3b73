// How far a database's log was written, noted beside it with every act, so that a log that was
// deleted or damaged after its program's sudden end is told. Without it SQLite would take what is
// gone for never written, and the last acts would be missing in silence.
#pragma once

#include "store/database.h"

#include <filesystem>
#include <optional>

namespace fettle::store {

// What is missing of the log, by the mark of the program that wrote last.
struct LostLog {
    bool is_gone = false;   // all of it; else
    std::size_t frames = 0; // so many pages that acts had written, from some place to its end
};
// Nothing when the log is whole, the database was closed as it should be, or is being written to
// now. Fails with io.
Result<std::optional<LostLog>> lost_of_log(const std::filesystem::path& database);
// Once that was told.
void forget_log_mark(const std::filesystem::path& database);

// Keeps the mark while it lives, for the one connection that writes; then brings the log into the
// database and removes the mark, or leaves both when that cannot be. Also brings the log in every
// thousand pages, as SQLite would by itself. Lives no longer than the connection.
class LogMark {
  public:
    LogMark(Database& database, const std::filesystem::path& file);
    LogMark(const LogMark&) = delete;
    LogMark& operator=(const LogMark&) = delete;
    ~LogMark();

  private:
    static int on_commit(void* self, sqlite3* connection, const char* name, int frames);
    void note(std::uint64_t salt, int frames);

    sqlite3* connection_;
    std::filesystem::path database_;
    int file_ = -1; // of the mark, once there is one
};

} // namespace fettle::store
