#include "base/whole_file.h"

#include "base/half_folder.h"
#include "base/private_place.h"
#include "base/text.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <system_error>

namespace fettle {

namespace fs = std::filesystem;

namespace {

fs::path folder_of(const fs::path& file) {
    return file.has_parent_path() ? file.parent_path() : ".";
}

// On the disk, and as open to others as the file it becomes; errno, or 0.
int settled(int descriptor, const fs::path& file) {
    if (const int reason = let_others(descriptor, mode_in_place_of(file, S_IFREG, 0666));
        reason != 0)
        return reason;
    return fsync(descriptor) == 0 || errno == EINVAL ? 0 : errno;
}

// `reason` is what went wrong so far, or 0; what went wrong in all.
int moved(const fs::path& half, const fs::path& file, int reason) {
    std::error_code error;
    if (reason == 0) fs::rename(half, file, error);
    if (error) reason = error.value();
    if (reason != 0)
        fs::remove(half, error);
    else
        sync_folder(folder_of(file));
    return reason;
}

Failure not_written(const fs::path& file, int reason) {
    return {FailureKind::io, "The file " + safe_utf8(file.native()) +
                                 " cannot be written: " + std::strerror(reason) + '.'};
}

} // namespace

WholeFile::WholeFile(fs::path file) : file_(std::move(file)) {
    const auto folder = folder_of(file_);
    const auto before = file_.filename().native() + '-';
    sweep_left_halves(folder, before, ".half");
    descriptor_ = make_private_file(folder, before, ".half", half_);
    if (descriptor_ < 0) error_ = errno;
}

WholeFile::~WholeFile() {
    if (descriptor_ < 0) return;
    close(descriptor_);
    std::error_code ignored;
    fs::remove(half_, ignored);
}

bool WholeFile::write(std::string_view bytes) {
    while (error_ == 0 && !bytes.empty()) {
        const auto written = ::write(descriptor_, bytes.data(), bytes.size());
        if (written > 0)
            bytes.remove_prefix(static_cast<std::size_t>(written));
        else if (errno != EINTR)
            error_ = errno;
    }
    return error_ == 0;
}

Done WholeFile::keep() {
    if (descriptor_ >= 0) {
        if (error_ == 0) error_ = settled(descriptor_, file_);
        if (close(descriptor_) != 0 && error_ == 0) error_ = errno;
        descriptor_ = -1;
        error_ = moved(half_, file_, error_);
    }
    return error_ == 0 ? done() : not_written(file_, error_);
}

Done write_whole(const fs::path& file, std::string_view bytes) {
    WholeFile whole(file);
    whole.write(bytes);
    return whole.keep();
}

Done keep_whole(const fs::path& half, const fs::path& file) {
    const int descriptor = open(half.c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
    int reason = descriptor < 0 ? errno : settled(descriptor, file);
    if (descriptor >= 0) close(descriptor);
    reason = moved(half, file, reason);
    return reason == 0 ? done() : not_written(file, reason);
}

void sync_folder(const fs::path& folder) {
    const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;
    fsync(descriptor);
    close(descriptor);
}

} // namespace fettle
