// Thumbnails by content hash, in cache/thumbs.db of a notebook. A cache: it may be deleted at any
// time and is made anew, without a word, when it does not read as it should.
// Owns its database connection. Not thread-safe: one a thread; several may share the file.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace fettle::photos {

class ThumbnailCache {
  public:
    // `folder` is the notebook's cache folder; it is made if need be. Fails (io) only when no
    // database can be written there.
    static Result<ThumbnailCache> open(const std::filesystem::path& folder);

    ThumbnailCache(ThumbnailCache&&) noexcept;
    ThumbnailCache& operator=(ThumbnailCache&&) noexcept;
    ~ThumbnailCache();

    // The JPEG bytes put under this hash, or nothing.
    std::optional<std::vector<std::byte>> find(std::string_view hash);
    // A thumbnail put twice replaces itself.
    Done put(std::string_view hash, std::span<const std::byte> jpeg);

  private:
    struct Connection;
    explicit ThumbnailCache(std::unique_ptr<Connection> connection);
    std::unique_ptr<Connection> connection_;
};

// Whether thumbs.db in that cache folder reads as it should; true when there is none.
bool thumbnails_are_sound(const std::filesystem::path& folder);
// Throws all of them away.
void drop_thumbnails(const std::filesystem::path& folder);

// A thumbnail of ours as pixels, in this process: at most 1024 pixels a side.
Result<Picture> decode_thumbnail(std::span<const std::byte> jpeg);

} // namespace fettle::photos
