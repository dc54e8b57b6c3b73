#include "base/half_folder.h"
#include "base/text.h"
#include "desk/backup.h"
#include "desk/backup_contents.h"
#include "desk/outside_photos.h"
#include "notebook/record_faults.h"

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

Failure stopped() {
    return {FailureKind::cancelled, "Stopped; nothing was restored."};
}

// Photos that stood outside: where they still do, the copy from the backup goes; else their records
// lead to it. How many do.
Result<std::size_t> settle_outside(const fs::path& folder) {
    std::error_code error;
    if (!fs::is_directory(folder / "photos" / "outside", error)) return std::size_t{0};
    auto book = Notebook::open(folder, store::Access::write);
    if (!book) return book.failure();
    auto photos = list_photos(*book);
    if (!photos) return photos.failure();
    auto step = book->new_step();
    if (!step) return step.failure();
    std::size_t moved = 0;
    for (const auto& photo : *photos) {
        const auto place = place_within(photo);
        if (!photo.in_place || !fs::exists(folder / place, error)) continue;
        if (stands_there(*book, photo)) {
            fs::remove(folder / place, error);
            continue;
        }
        if (auto put = put_photo_file(*book, photo.id, place, false, *step); !put)
            return put.failure();
        ++moved;
    }
    if (fs::is_empty(folder / "photos" / "outside", error))
        fs::remove(folder / "photos" / "outside", error);
    return moved;
}

} // namespace

Result<RestoreReport> restore(const fs::path& file, const fs::path& notebook,
                              const BackupWish& wish) {
    auto half = HalfFolder::start(notebook);
    if (!half) return half.failure();
    auto contents = read_through(file, half->path(), wish);
    if (!contents)
        return contents.failure().kind == FailureKind::cancelled ? stopped() : contents.failure();
    auto sound = look_at_database(half->path() / "notebook.db");
    if (!sound)
        return Failure{sound.failure().kind,
                       "The backup " + safe_utf8(file.native()) +
                           " is not used: its database is damaged, missing, or not ours.",
                       sound.failure().sentence};
    std::error_code error;
    fs::create_directory(half->path() / "photos", error);
    fs::create_directory(half->path() / "cache", error);
    auto moved = settle_outside(half->path());
    if (!moved) return moved.failure();
    if (auto settled = half->settle(); !settled) return settled.failure();
    return RestoreReport{half->wanted(), contents->entries.size(), *moved, contents->made};
}

} // namespace fettle::desk
