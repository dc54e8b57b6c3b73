#include "desk/salvage.h"

#include "base/half_folder.h"
#include "base/text.h"
#include "desk/outside_photos.h"
#include "store/log_mark.h"
#include "store/write_ahead_log.h"

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

// The database and the log beside it, brought together in the copy: every page of the log that can
// be read. Returns what is to be told.
Result<std::string> copied_together(const fs::path& database, const fs::path& copy) {
    std::error_code error;
    fs::copy_file(database, copy, error);
    if (error)
        return Failure{FailureKind::io, "The database " + safe_utf8(database.native()) +
                                            " cannot be read: " + error.message() + "."};
    if (store::left_half_written(database)) {
        fs::copy_file(database.native() + "-journal", copy.native() + "-journal", error);
        try {
            store::settle_half_written(copy);
        } catch (const store::Trouble&) {
            return std::string("What was half written cannot be taken back: the last changes may "
                               "be there in part.");
        }
    }
    const auto log = store::WriteAheadLog::read(database);
    if (!log) return log.failure();
    if (auto laid = log->lay_over(copy); !laid) return laid.failure();
    const auto lost = store::lost_of_log(database);
    if (!lost) return lost.failure();
    if (*lost && (*lost)->is_gone)
        return std::string("The log of the last acts is gone: what stood in it alone is missing.");
    if (log->damaged() == 0) return std::string();
    return std::to_string(log->damaged()) + " of the pages in the log of the last acts cannot be "
                                            "read: what stood in them alone is missing.";
}

// Its own, or of the notebook in which it was kept as found.
fs::path photos_beside(const fs::path& folder) {
    std::error_code error;
    const auto within = fs::absolute(folder).lexically_normal();
    return fs::exists(within / "photos", error) ? within / "photos"
                                                : within.parent_path() / "photos";
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
    store::remove_database(copy);
    if (!record) return record.failure();
    SalvageReport report{half->wanted(), std::move(*record), 0, {}};
    if (!notice->empty()) report.record.notices.push_back(std::move(*notice));
    {
        auto book = Notebook::open(half->path(), store::Access::write);
        if (!book) return book.failure();
        auto brought = bring_photo_files(*book, photos_beside(folder), {wish.stop, wish.progress});
        if (!brought) return brought.failure();
        report.photos = brought->brought;
        report.missing_photos = std::move(brought->missing);
    }
    copy_papers(folder, half->path());
    if (auto settled = half->settle(); !settled) return settled.failure();
    return report;
}

} // namespace fettle::desk
