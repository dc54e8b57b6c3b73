#include "photos/find_pictures.h"

#include "base/text.h"
#include "photos/file_bytes.h"

#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <set>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

class Search {
  public:
    void take(const fs::path& path) {
        struct stat status {};
        if (stat(path.c_str(), &status) != 0) {
            const int error = errno;
            auto failure = file_failure(path, "cannot be taken in", error);
            if (error == ELOOP)
                failure.sentence = spoken_name(path) + " is a link that leads in a circle.";
            found_.unreadable.emplace_back(path, failure);
        } else if (S_ISDIR(status.st_mode)) {
            enter(path);
        } else {
            found_.files.push_back(path);
        }
    }

    FoundPictures found() && { return std::move(found_); }

  private:
    // Folders are told apart by device and inode: a link to one that was seen leads nowhere new.
    void enter(const fs::path& folder) {
        struct stat status {};
        if (stat(folder.c_str(), &status) != 0 ||
            !entered_.emplace(status.st_dev, status.st_ino).second)
            return;
        std::error_code error;
        std::vector<fs::path> entries;
        for (fs::directory_iterator at(folder, error), end; !error && at != end;
             at.increment(error))
            entries.push_back(at->path());
        if (error)
            found_.unreadable.emplace_back(
                folder, file_failure(folder, "cannot be searched", error.value()));
        std::sort(entries.begin(), entries.end());
        for (const auto& entry : entries)
            visit(entry);
    }

    void visit(const fs::path& entry) {
        std::error_code error;
        const auto status = fs::status(entry, error);
        const bool is_folder = fs::is_directory(status);
        if (is_left_out(entry, is_folder)) return;
        if (is_folder)
            enter(entry);
        else if (is_picture_name(entry))
            take(entry);
    }

    FoundPictures found_;
    std::set<std::pair<std::uint64_t, std::uint64_t>> entered_;
};

} // namespace

bool is_left_out(const fs::path& entry, bool is_folder) {
    const auto name = entry.filename().native();
    return name.starts_with('.') || (is_folder && name == "cache");
}

bool is_picture_name(const fs::path& file) {
    constexpr std::array<std::string_view, 15> extensions{
        ".jpg", ".jpeg", ".jpe", ".mpo",  ".heic", ".heif", ".hif", ".avif",
        ".png", ".webp", ".tif", ".tiff", ".bmp",  ".tga",  ".gif"};
    const auto extension = lower_ascii(file.extension().native());
    return std::find(extensions.begin(), extensions.end(), extension) != extensions.end();
}

FoundPictures find_pictures(const std::vector<fs::path>& paths) {
    Search search;
    for (const auto& path : paths)
        search.take(path);
    return std::move(search).found();
}

} // namespace fettle::photos
