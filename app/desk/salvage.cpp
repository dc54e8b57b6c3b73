#include "desk/salvage.h"

#include "base/half_folder.h"
#include "base/text.h"
#include "desk/outside_photos.h"

#include <algorithm>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

bool is_within(const fs::path& inner, const fs::path& outer) {
    std::error_code error;
    const auto in = fs::weakly_canonical(fs::absolute(inner), error),
               out = fs::weakly_canonical(fs::absolute(outer), error);
    return std::mismatch(out.begin(), out.end(), in.begin(), in.end()).first == out.end();
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
    auto record = salvage_record(database, half->path());
    if (!record) return record.failure();
    SalvageReport report{half->wanted(), std::move(*record), 0, {}};
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
