// Files as bytes: read whole into memory, hashed, and the sentences when that cannot be.
// Knows no picture. Files are opened for reading only.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace fettle::photos {

// Which state of which file: equal stamps mean the same bytes.
struct FileStamp {
    std::uint64_t device = 0;
    std::uint64_t inode = 0;
    std::uint64_t bytes = 0;
    std::int64_t changed_ns = 0;
    bool operator==(const FileStamp&) const = default;
};

// An open file, for reading. Move-only.
class OpenFile {
  public:
    // Fails for what is not there, may not be read, is a folder or anything else but a plain file.
    static Result<OpenFile> open(const std::filesystem::path& path);
    OpenFile(OpenFile&& other) noexcept;
    OpenFile& operator=(OpenFile&&) = delete;
    ~OpenFile();

    const FileStamp& stamp() const { return stamp_; }
    int descriptor() const { return descriptor_; }
    // From the present position; fewer bytes than room only at the end of the file.
    Result<std::size_t> read(std::span<std::byte> room);
    Result<std::vector<std::byte>> read_all();

  private:
    OpenFile(std::filesystem::path path, int descriptor, FileStamp stamp)
        : path_(std::move(path)), descriptor_(descriptor), stamp_(stamp) {}
    std::filesystem::path path_;
    int descriptor_;
    FileStamp stamp_;
};

// How a file is called in a sentence: its last name, as valid UTF-8.
std::string spoken_name(const std::filesystem::path& path);

// The sentence for an errno met at `path`: "IMG_1.jpg may not be read: Permission denied."
Failure file_failure(const std::filesystem::path& path, const std::string& what, int error);

// XXH3-128 as 32 hex digits.
std::string hash_of(std::span<const std::byte> bytes);

} // namespace fettle::photos
