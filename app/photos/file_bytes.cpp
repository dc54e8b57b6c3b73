#include "photos/file_bytes.h"

#include "base/text.h"
#include "photos/hashing.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

namespace fettle::photos {
namespace {

FileStamp stamp_of(const struct stat& status) {
    return {status.st_dev, status.st_ino, static_cast<std::uint64_t>(status.st_size),
            status.st_mtim.tv_sec * 1'000'000'000 + status.st_mtim.tv_nsec};
}

} // namespace

std::string spoken_name(const std::filesystem::path& path) {
    const auto name = path.filename().native();
    return safe_utf8(name.empty() ? path.native() : name);
}

Failure file_failure(const std::filesystem::path& path, const std::string& what, int error) {
    return {error == ENOENT ? FailureKind::not_found : FailureKind::io,
            spoken_name(path) + " " + what + ": " + std::strerror(error) + ".",
            safe_utf8(path.native())};
}

Result<OpenFile> OpenFile::open(const std::filesystem::path& path) {
    // Without O_NONBLOCK a named pipe would keep us waiting for a writer.
    const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    if (descriptor < 0) {
        if (errno == ENOENT || errno == ENOTDIR)
            return Failure{FailureKind::not_found,
                           "There is no file " + spoken_name(path) + " in " +
                               safe_utf8(path.parent_path().native()) + ".",
                           safe_utf8(path.native())};
        return file_failure(path, "may not be read", errno);
    }
    OpenFile file(path, descriptor, {});
    struct stat status {};
    if (fstat(descriptor, &status) != 0) return file_failure(path, "cannot be read", errno);
    if (S_ISDIR(status.st_mode))
        return Failure{FailureKind::invalid,
                       spoken_name(path) + " is a folder, not a picture file."};
    if (!S_ISREG(status.st_mode))
        return Failure{FailureKind::invalid,
                       spoken_name(path) + " is a device or a pipe, not a picture file."};
    file.stamp_ = stamp_of(status);
    return file;
}

OpenFile::OpenFile(OpenFile&& other) noexcept
    : path_(std::move(other.path_)),
      descriptor_(std::exchange(other.descriptor_, -1)),
      stamp_(other.stamp_) {}

OpenFile::~OpenFile() {
    if (descriptor_ >= 0) close(descriptor_);
}

Result<std::size_t> OpenFile::read(std::span<std::byte> room) {
    std::size_t have = 0;
    while (have < room.size()) {
        const ssize_t got = ::read(descriptor_, room.data() + have, room.size() - have);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return file_failure(path_, "cannot be read", errno);
        if (got == 0) break;
        have += static_cast<std::size_t>(got);
    }
    return have;
}

Result<std::vector<std::byte>> OpenFile::read_all() {
    std::vector<std::byte> bytes(stamp_.bytes);
    auto have = read(bytes);
    if (!have) return have.failure();
    bytes.resize(*have); // shortened meanwhile
    return bytes;
}

std::string hash_of(std::span<const std::byte> bytes) {
    Hashing hashing;
    hashing.add(bytes);
    return hashing.digits();
}

} // namespace fettle::photos
