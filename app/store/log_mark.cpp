#include "store/log_mark.h"

#include "base/whole_file.h"
#include "store/big_endian.h"
#include "store/write_ahead_log.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <fstream>

namespace fettle::store {
namespace {

namespace fs = std::filesystem;

constexpr int kPagesToBringIn = 1000; // SQLite's own measure

struct Mark {
    std::uint64_t salt = 0;
    std::size_t frames = 0;
    bool operator==(const Mark&) const = default;
};

fs::path mark_of(const fs::path& database) {
    return database.native() + "-mark";
}

// Nothing, too, for what a power cut left of one.
std::optional<Mark> read_mark(const fs::path& database) {
    std::ifstream file(mark_of(database));
    Mark mark;
    if (file >> std::hex >> mark.salt >> std::dec >> mark.frames) return mark;
    return std::nullopt;
}

// Whoever writes holds a lock on the mark.
bool is_being_kept(const fs::path& database) {
    const int file = open(mark_of(database).c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
    if (file < 0) return false;
    const bool kept = flock(file, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK;
    close(file); // which lets go of it
    return kept;
}

// The log may have been begun anew since the mark, when all before was in the database.
bool is_later(std::uint64_t salt, std::uint64_t than) {
    const auto turns =
        static_cast<std::uint32_t>(salt >> 32) - static_cast<std::uint32_t>(than >> 32);
    return turns != 0 && turns < 0x80000000u;
}

std::optional<LostLog> missing(const Mark& mark, const WriteAheadLog& log) {
    if (log.empty()) return LostLog{true, mark.frames};
    if (log.has_sound_head() && is_later(log.salt(), mark.salt)) return std::nullopt;
    if (log.salt() != mark.salt) return LostLog{true, mark.frames};
    if (log.readable() >= mark.frames) return std::nullopt;
    return LostLog{false, mark.frames - log.readable()};
}

} // namespace

Result<std::optional<LostLog>> lost_of_log(const fs::path& database) {
    const auto mark = read_mark(database);
    if (!mark || is_being_kept(database)) return std::optional<LostLog>();
    auto log = WriteAheadLog::read(database);
    if (!log) return log.failure();
    const auto lost = missing(*mark, *log);
    // Somebody may have begun to write, or ended, between these looks.
    if (lost && (is_being_kept(database) || read_mark(database) != mark))
        return std::optional<LostLog>();
    return lost;
}

void forget_log_mark(const fs::path& database) {
    std::error_code ignored;
    fs::remove(mark_of(database), ignored);
}

LogMark::LogMark(Database& database, const fs::path& file)
    : connection_(database.connection()), database_(file) {
    sqlite3_wal_hook(connection_, on_commit, this);
}

LogMark::~LogMark() {
    sqlite3_wal_hook(connection_, nullptr, nullptr);
    if (file_ >= 0) close(file_);
    std::error_code error;
    if (!fs::exists(mark_of(database_), error)) return;
    int frames = 0, in = 0;
    const int code =
        sqlite3_wal_checkpoint_v2(connection_, "main", SQLITE_CHECKPOINT_PASSIVE, &frames, &in);
    if (code == SQLITE_OK && frames == in) {
        forget_log_mark(database_);
        sync_folder(database_.parent_path());
    } else {
        // Then the log is to stay, too.
        sqlite3_db_config(connection_, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
    }
}

int LogMark::on_commit(void* self, sqlite3* connection, const char* name, int frames) {
    sqlite3_file* log = nullptr;
    unsigned char salt[8];
    if (sqlite3_file_control(connection, name, SQLITE_FCNTL_JOURNAL_POINTER,
                             static_cast<void*>(&log)) == SQLITE_OK &&
        log && log->pMethods && log->pMethods->xRead(log, salt, sizeof salt, 16) == SQLITE_OK)
        static_cast<LogMark*>(self)->note(big_endian(salt, sizeof salt), frames);
    if (frames >= kPagesToBringIn) sqlite3_wal_checkpoint(connection, name);
    return SQLITE_OK;
}

// One line of always the same length. Failing to write it costs nothing but the telling.
void LogMark::note(std::uint64_t salt, int frames) {
    if (file_ < 0) {
        file_ = open(mark_of(database_).c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
        if (file_ >= 0) flock(file_, LOCK_EX); // at most somebody looks whether it is
    }
    char line[40];
    const int size = std::snprintf(line, sizeof line, "%016llx %010d\n",
                                   static_cast<unsigned long long>(salt), frames);
    if (file_ >= 0 && pwrite(file_, line, static_cast<std::size_t>(size), 0) < 0) errno = 0;
}

} // namespace fettle::store
