#include "photos/thumbs.h"

#include "photos/file_bytes.h"
#include "photos/jpeg.h"
#include "store/soundness.h"

#include <utility>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;
using store::Trouble;

// NORMAL, not FULL: what a power cut takes away is made again.
constexpr const char* kPrepareFile = "PRAGMA synchronous = NORMAL;"
                                     "CREATE TABLE IF NOT EXISTS thumbnails ("
                                     " hash TEXT PRIMARY KEY, jpeg BLOB NOT NULL) STRICT;";
constexpr const char* kFileName = "thumbs.db";
constexpr const char* kFind = "SELECT jpeg FROM thumbnails WHERE hash = ?1";
constexpr const char* kPut = "INSERT OR REPLACE INTO thumbnails (hash, jpeg) VALUES (?1, ?2)";

} // namespace

struct ThumbnailCache::Connection {
    fs::path file;
    std::optional<store::Database> database;

    void open() {
        database.reset();
        database.emplace(file, store::Access::write);
        database->run_script(kPrepareFile);
        database->query(kFind); // a table of that name, but not this one, is found out here
    }

    void recreate() {
        database.reset();
        store::remove_database(file);
        open();
    }

    // A file that does not read as it should is thrown away and made anew.
    void open_or_recreate() {
        try {
            open();
        } catch (const Trouble& trouble) {
            if (trouble.failure().kind == FailureKind::busy) throw;
            recreate();
        }
    }

    // Runs `step`; when the file turns out to be damaged, runs it again on a new one.
    template <class Step>
    void run(Step&& step) {
        if (!database) open_or_recreate();
        try {
            step();
        } catch (const Trouble& trouble) {
            if (trouble.failure().kind != FailureKind::damaged) throw;
            recreate();
            step();
        }
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
    connection->file = folder / kFileName;
    try {
        connection->open_or_recreate();
    } catch (const Trouble& trouble) {
        return Failure{FailureKind::io,
                       "The thumbnail cache " + connection->file.string() + " cannot be written.",
                       trouble.failure().detail};
    }
    return ThumbnailCache(std::move(connection));
}

std::optional<std::vector<std::byte>> ThumbnailCache::find(std::string_view hash) {
    std::optional<std::vector<std::byte>> jpeg;
    try {
        connection_->run([&] {
            auto row = connection_->database->query(kFind, hash);
            if (row.next()) jpeg = row.get<store::Blob>(0);
        });
    } catch (const Trouble&) {
        return {}; // as good as not there
    }
    return jpeg;
}

Done ThumbnailCache::put(std::string_view hash, std::span<const std::byte> jpeg) {
    try {
        connection_->run([&] { connection_->database->run(kPut, hash, jpeg); });
    } catch (const Trouble& trouble) {
        return Failure{trouble.failure().kind, "A thumbnail could not be put into the cache.",
                       trouble.failure().detail};
    }
    return done();
}

bool thumbnails_are_sound(const fs::path& folder) {
    std::error_code error;
    if (!fs::exists(folder / kFileName, error)) return true;
    try {
        // Whoever opens it for writing next goes on with a making that was cut short.
        if (store::left_half_written(folder / kFileName)) return true;
        store::Database database(folder / kFileName, store::Access::read);
        if (!database.query("SELECT 1 FROM sqlite_schema").next()) return true;
        database.query(kFind);
        return store::integrity_faults(database, 1).empty();
    } catch (const Trouble& trouble) {
        return trouble.failure().kind == FailureKind::busy;
    }
}

void drop_thumbnails(const fs::path& folder) {
    store::remove_database(folder / kFileName);
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
