// A zip file (ISO/IEC 21320-1, APPNOTE 6.3 with zip64), written and read entry by entry through
// minizip, each with the XXH3-128 of what it holds. Any thread, one at a time.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::desk {

struct ArchiveEntry {
    std::string name; // UTF-8, parts split by /
    std::string hash;
    std::uint64_t bytes = 0;
};

class ArchiveWriter {
  public:
    static Result<ArchiveWriter> create(const std::filesystem::path& file);
    // `packed`: made smaller; photos are as small as they get. Fails with not_found when the file
    // is gone, cancelled, or io.
    Result<ArchiveEntry> put_file(const std::string& name, const std::filesystem::path& from,
                                  bool packed, const std::stop_token& stop);
    Done put_text(const std::string& name, const std::string& text);
    // Whole and on the disk.
    Done finish();

  private:
    struct Close {
        void operator()(void* zip) const;
    };
    ArchiveWriter(std::filesystem::path file, void* zip);
    Failure failure() const;
    Done begin(const std::string& name, std::int64_t changed, bool packed);
    Done data(std::span<const std::byte> bytes);

    std::filesystem::path file_;
    std::unique_ptr<void, Close> zip_;
};

class ArchiveReader {
  public:
    // Fails with damaged for what is no whole zip file: one that was cut has lost its end.
    static Result<ArchiveReader> open(const std::filesystem::path& file);

    struct Head {
        std::string name; // as it stands there
        std::uint64_t bytes = 0;
        bool is_folder = false;
        bool is_plain = false; // neither a folder nor a link nor anything else
    };
    // Nothing at the end.
    Result<std::optional<Head>> next();
    // What the entry just met holds, piece by piece; its hash. `take` may refuse.
    Result<std::string> read(const std::function<Done(std::span<const std::byte>)>& take,
                             const std::stop_token& stop);

  private:
    struct Close {
        void operator()(void* zip) const;
    };
    ArchiveReader(std::filesystem::path file, void* zip);
    Failure damaged() const;

    std::filesystem::path file_;
    std::unique_ptr<void, Close> zip_;
    bool begun_ = false; // an entry has been met
};

} // namespace fettle::desk
