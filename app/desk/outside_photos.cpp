#include "desk/outside_photos.h"

#include "base/text.h"
#include "photos/file_bytes.h"
#include "photos/shelf.h"

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

Failure stopped() {
    return {FailureKind::cancelled, "Stopped; nothing was made."};
}

Done copy_checked(const fs::path& from, const fs::path& to, const Photo& photo,
                  const std::stop_token& stop) {
    std::error_code error;
    fs::create_directories(to.parent_path(), error);
    if (!error) fs::copy_file(from, to, error);
    if (error)
        return Failure{FailureKind::io, "The photo " + safe_utf8(from.native()) +
                                            " cannot be copied: " + error.message() + "."};
    auto hash = photos::hash_of_file(to, stop);
    if (!hash) return hash.failure();
    if (*hash == photo.hash) return done();
    return Failure{FailureKind::damaged, "The photo " + safe_utf8(from.native()) +
                                             " changed while it was being copied: try again."};
}

} // namespace

fs::path place_within(const Photo& photo) {
    const auto extension = fs::path(photo.original_name).extension().native();
    return fs::path("photos") / "outside" / (photo.hash + extension);
}

bool stands_there(const Notebook& notebook, const Photo& photo) {
    std::error_code error;
    const auto size = fs::file_size(photo_file(notebook, photo), error);
    return !error && static_cast<std::int64_t>(size) == photo.bytes;
}

Result<std::map<std::string, fs::path>> files_by_hash(const fs::path& folder,
                                                      const std::set<std::int64_t>& sizes,
                                                      const std::stop_token& stop) {
    std::map<std::string, fs::path> found;
    std::error_code error;
    for (fs::recursive_directory_iterator at(folder, error), end; !error && at != end;
         at.increment(error)) {
        if (stop.stop_requested()) return stopped();
        std::error_code ignored;
        if (!fs::is_regular_file(at->symlink_status(ignored)) ||
            !sizes.contains(static_cast<std::int64_t>(at->file_size(ignored))))
            continue;
        auto hash = photos::hash_of_file(at->path(), stop);
        if (hash) found.emplace(*hash, at->path());
    }
    return found;
}

Result<Brought> bring_photo_files(Notebook& notebook, const fs::path& from, const BringWish& wish) {
    auto photos = list_photos(notebook);
    if (!photos) return photos.failure();
    std::erase_if(*photos, [&](const Photo& photo) { return stands_there(notebook, photo); });
    std::set<std::int64_t> sizes;
    for (const auto& photo : *photos)
        sizes.insert(photo.bytes);
    auto found = files_by_hash(from, sizes, wish.stop);
    if (!found) return found.failure();
    auto step = notebook.new_step();
    if (!step) return step.failure();

    Brought brought;
    std::size_t at = 0;
    for (const auto& photo : *photos) {
        if (wish.stop.stop_requested()) return stopped();
        if (wish.progress) wish.progress(++at, photos->size(), photo.original_name);
        const auto file = found->find(photo.hash);
        if (file == found->end()) {
            brought.missing.push_back(safe_utf8(photo.file.native()));
            continue;
        }
        const auto place = photo.in_place ? place_within(photo) : photo.file;
        if (auto copied = copy_checked(file->second, notebook.folder() / place, photo, wish.stop);
            !copied)
            return copied.failure();
        if (photo.in_place)
            if (auto put = put_photo_file(notebook, photo.id, place, false, *step); !put)
                return put.failure();
        ++brought.brought;
    }
    return brought;
}

} // namespace fettle::desk
