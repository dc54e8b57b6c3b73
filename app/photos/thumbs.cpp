#include "photos/thumbs.h"

#include "photos/file_bytes.h"
#include "photos/jpeg.h"

#include <sqlite3.h>

#include <utility>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

constexpr int kPatienceMs = 2000; // while another process writes

struct CloseDatabase {
    void operator()(sqlite3* database) const { sqlite3_close(database); }
};
struct FinalizeStatement {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Database = std::unique_ptr<sqlite3, CloseDatabase>;
using Statement = std::unique_ptr<sqlite3_stmt, FinalizeStatement>;

constexpr const char* kPrepareFile = "PRAGMA journal_mode = WAL;"
                                     "PRAGMA synchronous = NORMAL;"
                                     "CREATE TABLE IF NOT EXISTS thumbnails ("
                                     " hash TEXT PRIMARY KEY, jpeg BLOB NOT NULL) STRICT;";

Statement prepared(sqlite3* database, const char* sql) {
    sqlite3_stmt* statement = nullptr;
    sqlite3_prepare_v2(database, sql, -1, &statement, nullptr);
    return Statement(statement);
}

void remove_files(const fs::path& file) {
    for (const char* ending : {"", "-wal", "-shm", "-journal"}) {
        std::error_code ignored;
        fs::remove(fs::path(file.native() + ending), ignored);
    }
}

} // namespace

struct ThumbnailCache::Connection {
    fs::path file;
    Database database;
    Statement find, put;

    // Opens the file, making it if need be; an SQLite result code.
    int open() {
        close();
        sqlite3* opened = nullptr;
        int rc = sqlite3_open_v2(file.c_str(), &opened,
                                 SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX,
                                 nullptr);
        database.reset(opened);
        if (rc != SQLITE_OK) return rc;
        sqlite3_busy_timeout(opened, kPatienceMs);
        rc = sqlite3_exec(opened, kPrepareFile, nullptr, nullptr, nullptr);
        if (rc != SQLITE_OK) return rc;
        find = prepared(opened, "SELECT jpeg FROM thumbnails WHERE hash = ?1");
        put = prepared(opened, "INSERT OR REPLACE INTO thumbnails (hash, jpeg) VALUES (?1, ?2)");
        return find && put ? SQLITE_OK : SQLITE_CORRUPT; // a database, but not this one
    }

    void close() {
        find.reset();
        put.reset();
        database.reset();
    }

    // Opens the file; one that does not read as it should is thrown away and made anew.
    int open_or_recreate() {
        if (const int rc = open(); rc == SQLITE_OK || rc == SQLITE_BUSY || rc == SQLITE_CANTOPEN)
            return rc;
        close();
        remove_files(file);
        return open();
    }

    // Runs `step`; when the file turns out to be damaged, starts a new one and runs it again.
    template <class Step>
    int run(Step&& step) {
        if (!database && open_or_recreate() != SQLITE_OK) return SQLITE_CANTOPEN;
        const int rc = step();
        if (rc != SQLITE_CORRUPT && rc != SQLITE_NOTADB) return rc;
        close();
        remove_files(file);
        if (const int reopened = open(); reopened != SQLITE_OK) return reopened;
        return step();
    }
};

ThumbnailCache::ThumbnailCache(std::unique_ptr<Connection> connection)
    : connection_(std::move(connection)) {}
ThumbnailCache::ThumbnailCache(ThumbnailCache&&) noexcept = default;
ThumbnailCache& ThumbnailCache::operator=(ThumbnailCache&&) noexcept = default;
ThumbnailCache::~ThumbnailCache() = default;

Result<ThumbnailCache> ThumbnailCache::open(const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error) return file_failure(folder, "cannot be made", error.value());
    auto connection = std::make_unique<Connection>();
    connection->file = folder / "thumbs.db";
    if (const int rc = connection->open_or_recreate(); rc != SQLITE_OK)
        return Failure{FailureKind::io,
                       "The thumbnail cache " + connection->file.string() + " cannot be written.",
                       sqlite3_errstr(rc)};
    return ThumbnailCache(std::move(connection));
}

std::optional<std::vector<std::byte>> ThumbnailCache::find(std::string_view hash) {
    std::optional<std::vector<std::byte>> jpeg;
    connection_->run([&] {
        auto* statement = connection_->find.get();
        sqlite3_bind_text(statement, 1, hash.data(), int(hash.size()), SQLITE_TRANSIENT);
        const int rc = sqlite3_step(statement);
        if (rc == SQLITE_ROW) {
            auto from = static_cast<const std::byte*>(sqlite3_column_blob(statement, 0));
            jpeg.emplace(from, from + sqlite3_column_bytes(statement, 0));
        }
        sqlite3_reset(statement);
        return rc;
    });
    return jpeg;
}

Done ThumbnailCache::put(std::string_view hash, std::span<const std::byte> jpeg) {
    const int rc = connection_->run([&] {
        auto* statement = connection_->put.get();
        sqlite3_bind_text(statement, 1, hash.data(), int(hash.size()), SQLITE_TRANSIENT);
        sqlite3_bind_blob64(statement, 2, jpeg.data(), jpeg.size(), SQLITE_TRANSIENT);
        const int stepped = sqlite3_step(statement);
        sqlite3_reset(statement);
        return stepped;
    });
    if (rc == SQLITE_DONE) return done();
    return Failure{FailureKind::io, "A thumbnail could not be put into the cache.",
                   sqlite3_errstr(rc)};
}

Result<Picture> decode_thumbnail(std::span<const std::byte> jpeg) {
    constexpr int kMostSide = 1024;
    auto size = jpeg_size(jpeg);
    if (!size || size->width > kMostSide || size->height > kMostSide)
        return Failure{FailureKind::damaged, "The thumbnail does not read as one of ours."};
    auto decoded = decode_jpeg(jpeg, *size);
    if (!decoded || !decoded->damage.empty())
        return Failure{FailureKind::damaged, "The thumbnail is damaged."};
    return std::move(decoded->picture);
}

} // namespace fettle::photos
