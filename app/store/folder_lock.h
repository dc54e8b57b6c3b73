// One writer a notebook: an advisory lock on a file in its folder, let go when the process ends,
// however it ends. Readers need none.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <utility>

namespace fettle::store {

class FolderLock {
  public:
    // Fails with busy, naming the process that holds it, or with io.
    static Result<FolderLock> take(const std::filesystem::path& folder);

    FolderLock(FolderLock&& other) noexcept : file_(std::exchange(other.file_, -1)) {}
    FolderLock& operator=(FolderLock&& other) noexcept;
    ~FolderLock() { release(); }

  private:
    explicit FolderLock(int file) : file_(file) {}
    void release();
    int file_ = -1;
};

} // namespace fettle::store
