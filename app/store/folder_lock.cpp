#include "store/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>

namespace fettle::store {

Result<FolderLock> FolderLock::take(const std::filesystem::path& folder) {
    const auto path = folder / "notebook.lock";
    int file = open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (file < 0)
        return Failure{FailureKind::io,
                       "The notebook in " + folder.string() +
                           " cannot be opened for writing: " + std::strerror(errno) + "."};
    if (flock(file, LOCK_EX | LOCK_NB) != 0) {
        char holder[32] = {};
        ssize_t got = pread(file, holder, sizeof holder - 1, 0);
        close(file);
        return Failure{FailureKind::busy,
                       "The notebook in " + folder.string() + " is already open for writing" +
                           (got > 0 ? " by process " + std::string(holder) : std::string()) +
                           ": close it there first."};
    }
    const auto mine = std::to_string(getpid());
    // Only a courtesy to whoever finds the lock taken: failing to write it changes nothing.
    if (ftruncate(file, 0) != 0 || pwrite(file, mine.data(), mine.size(), 0) < 0) errno = 0;
    return FolderLock(file);
}

FolderLock& FolderLock::operator=(FolderLock&& other) noexcept {
    if (this != &other) {
        release();
        file_ = std::exchange(other.file_, -1);
    }
    return *this;
}

void FolderLock::release() {
    if (file_ >= 0) close(file_); // closing lets the lock go
    file_ = -1;
}

} // namespace fettle::store
