// Files that are written whole or not at all.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <string_view>

namespace fettle {

// A file that grows beside its place, open to nobody else, and stands there only when it is kept:
// whole and on the disk, as open to others as what stood there or as the umask says. Until then,
// and when it is dropped, what stood there stays. One thread.
class WholeFile {
  public:
    explicit WholeFile(std::filesystem::path file);
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;
    ~WholeFile();
    // False when it cannot be; keep() says why.
    bool write(std::string_view bytes);
    // Fails with io, naming the file.
    Done keep();

  private:
    std::filesystem::path file_, half_;
    int descriptor_ = -1;
    int error_ = 0; // errno of what went wrong first
};

// The same for bytes that are there already.
Done write_whole(const std::filesystem::path& file, std::string_view bytes);

// The same for a file that was made beside its place by other means: brought to the disk and moved.
Done keep_whole(const std::filesystem::path& half, const std::filesystem::path& file);

// Brings the names in a folder to the disk, so that a file moved there is found after a power cut.
// What a file system cannot do here is left undone.
void sync_folder(const std::filesystem::path& folder);

} // namespace fettle
