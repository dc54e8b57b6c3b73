// Pictures cut into tiles, in cache/tiles of a notebook, by content hash; the ones looked at last
// within a bound of bytes. A cache: it may be deleted at any time, and pictures are cut anew.
// Several threads and programs may use one folder.
#pragma once

#include "photos/decoder.h"
#include "photos/tile_file.h"

#include <atomic>
#include <filesystem>
#include <string>

namespace fettle::photos {

inline constexpr std::uint64_t kMostTileBytes = 2ull << 30;

class TileCache {
  public:
    explicit TileCache(const std::filesystem::path& cache_folder,
                       std::uint64_t most_bytes = kMostTileBytes);

    // The tiles of a picture, cut now unless they are there; that takes about a second for 50
    // megapixels. Fails as Decoder does, and with cancelled when `stop` has become true meanwhile.
    Result<TileFile> find_or_cut(const std::string& hash, const std::filesystem::path& file,
                                 Decoder& decoder, const std::atomic<bool>& stop);

  private:
    void make_room(const std::filesystem::path& kept) const;

    std::filesystem::path folder_;
    std::uint64_t most_bytes_;
};

} // namespace fettle::photos
