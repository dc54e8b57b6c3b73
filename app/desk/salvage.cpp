#include "desk/salvage.h"

#include "base/half_folder.h"
#include "base/text.h"
#include "desk/outside_photos.h"

#include <algorithm>
#include <array>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr const char* kCopy = "damaged.db"; // in the folder being made, gone when it is

bool is_within(const fs::path& inner, const fs::path& outer) {
    std::error_code error;
    const auto in = fs::weakly_canonical(fs::absolute(inner), error),
               out = fs::weakly_canonical(fs::absolute(outer), error);
    return std::mismatch(out.begin(), out.end(), in.begin(), in.end()).first == out.end();
}

void remove_copy(const fs::path& copy) {
    std::error_code error;
    for (const char* ending : {"", "-wal", "-shm", "-journal"})
        fs::remove(copy.native() + ending, error);
}

// The database and the log beside it, brought together in the copy as far as the log can be read.
Result<std::string> copied_together(const fs::path& database, const fs::path& copy) {
    std::error_code error;
    fs::copy_file(database, copy, error);
    if (error)
        return Failure{FailureKind::io, "The database " + safe_utf8(database.native()) +
                                            " cannot be read: " + error.message() + "."};
    bool has_log = false;
    for (const char* ending : {"-wal", "-journal"}) {
        const fs::path beside(database.native() + ending);
        if (!fs::is_regular_file(beside, error) || fs::file_size(beside, error) == 0) continue;
        has_log = true;
        fs::copy_file(beside, copy.native() + ending, error);
    }
    if (!has_log) return std::string();
    try {
        store::Database(copy, store::Access::write).gather();
    } catch (const store::Trouble&) {
        return std::string("The log of the last acts cannot be brought in: what stood in it alone "
                           "is missing.");
    }
    return std::string();
}

// What else lies in the notebook and is no record: papers.
void copy_papers(const fs::path& from, const fs::path& to) {
    std::error_code error;
    for (fs::directory_iterator at(from / "papers", error), end; !error && at != end;
         at.increment(error)) {
        std::error_code ignored;
        if (!fs::is_regular_file(at->symlink_status(ignored))) continue;
        fs::create_directory(to / "papers", ignored);
        fs::copy_file(at->path(), to / "papers" / at->path().filename(), ignored);
    }
}

} // namespace

Result<SalvageReport> salvage(const fs::path& damaged, const fs::path& out,
                              const SalvageWish& wish) {
    std::error_code error;
    const bool is_folder = fs::is_directory(damaged, error);
    const auto database = is_folder ? damaged / "notebook.db" : damaged;
    const auto folder = is_folder ? damaged : fs::absolute(damaged).parent_path();
    if (!fs::is_regular_file(database, error))
        return Failure{FailureKind::not_found, "There is no database " +
                                                   safe_utf8(database.native()) +
                                                   ": name the folder of a notebook."};
    if (is_within(out, folder))
        return Failure{FailureKind::refused, "The folder " + safe_utf8(out.native()) +
                                                 " is within the damaged notebook, which is left "
                                                 "as it is: name one elsewhere."};
    auto half = HalfFolder::start(out);
    if (!half) return half.failure();
    const auto copy = half->path() / kCopy;
    auto notice = copied_together(database, copy);
    if (!notice) return notice.failure();
    auto record = salvage_record(copy, half->path());
    remove_copy(copy);
    if (!record) return record.failure();
    SalvageReport report{half->wanted(), std::move(*record), 0, {}};
    if (!notice->empty()) report.record.notices.push_back(std::move(*notice));
    {
        auto book = Notebook::open(half->path(), store::Access::write);
        if (!book) return book.failure();
        auto brought = bring_photo_files(*book, folder / "photos", {wish.stop, wish.progress});
        if (!brought) return brought.failure();
        report.photos = brought->brought;
        report.missing_photos = std::move(brought->missing);
    }
    copy_papers(folder, half->path());
    if (auto settled = half->settle(); !settled) return settled.failure();
    return report;
}

} // namespace fettle::desk
