#include "calc/library_folders.h"

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <system_error>

namespace fettle::calc {
namespace {

namespace fs = std::filesystem;

// One file or folder by itself; `way_to_it`: a folder further up, where others may have entries of
// their own as long as they cannot put them in place of this one. Precondition: no link.
std::optional<std::string> who_else_may_write(const fs::path& path, bool way_to_it = false) {
    struct stat found {};
    if (lstat(path.c_str(), &found) != 0)
        return path.string() + " cannot be examined: " + std::strerror(errno) + ".";
    if (found.st_uid != 0 && found.st_uid != geteuid())
        return path.string() + " belongs to another user, who could change it; plugins are loaded "
                               "only from what belongs to you or to root.";
    const bool only_own_entries = way_to_it && (found.st_mode & S_ISVTX) != 0; // as in /tmp
    if ((found.st_mode & (S_IWGRP | S_IWOTH)) != 0 && !only_own_entries)
        return path.string() +
               " may be written by others, who could put code of theirs there; take "
               "that right away with: chmod go-w \"" +
               path.string() + "\"";
    return std::nullopt;
}

} // namespace

std::optional<std::string> why_not_trusted(const fs::path& path) {
    std::error_code error;
    const fs::path resolved = fs::canonical(path, error);
    if (error) return path.string() + " cannot be found: " + error.message() + ".";
    if (auto reason = who_else_may_write(resolved)) return reason;
    fs::path above = resolved.parent_path();
    if (!fs::is_directory(resolved, error)) {
        if (auto reason = who_else_may_write(above)) return reason;
        above = above.parent_path();
    }
    for (;; above = above.parent_path()) {
        if (auto reason = who_else_may_write(above, true)) return reason;
        if (above == above.root_path()) return std::nullopt;
    }
}

Result<std::vector<fs::path>> libraries_in(const fs::path& folder) {
    std::error_code error;
    if (!fs::exists(folder, error) && !error) return std::vector<fs::path>{};
    if (auto reason = why_not_trusted(folder)) return Failure{FailureKind::refused, *reason};
    std::vector<fs::path> libraries;
    fs::directory_iterator listing(folder, error);
    for (; !error && listing != fs::directory_iterator(); listing.increment(error))
        if (listing->path().extension() == ".so") libraries.push_back(listing->path());
    if (error)
        return Failure{FailureKind::io, "The plugin folder " + folder.string() +
                                            " cannot be read: " + error.message() + "."};
    std::ranges::sort(libraries);
    return libraries;
}

} // namespace fettle::calc
