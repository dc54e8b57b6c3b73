#include "photos/tile_file.h"

#include "photos/decoder.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cerrno>
#include <cstring>
#include <string>
#include <utility>

namespace fettle::photos {
namespace {

constexpr std::size_t kChannels = 4;
constexpr std::array<char, 8> kMagic = {'F', 'E', 'T', 'T', 'I', 'L', 'E', '1'};

struct Header {
    std::array<char, 8> magic = kMagic;
    std::int32_t width = 0, height = 0;
};

int tiles_along(int length) {
    return (length + kTileSide - 1) / kTileSide;
}

std::size_t bytes_of(Size size) {
    return std::size_t(size.width) * std::size_t(size.height) * kChannels;
}

// The file while it is written: as large as it will be, seen as memory.
class Sheet {
  public:
    static Result<Sheet> make(int fd, std::uint64_t bytes) {
        // Asked for in full: a disk that fills up later would end the process instead.
        const int full = posix_fallocate(fd, 0, static_cast<off_t>(bytes));
        void* at = full == 0 ? mmap(nullptr, bytes, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0)
                             : MAP_FAILED;
        const int why = full != 0 ? full : errno;
        if (at == MAP_FAILED)
            return Failure{FailureKind::io, "cannot be kept in tiles: see that the disk has room",
                           std::strerror(why)};
        return Sheet(static_cast<std::byte*>(at), bytes);
    }
    Sheet(Sheet&& other) noexcept : at_(std::exchange(other.at_, nullptr)), bytes_(other.bytes_) {}
    Sheet& operator=(Sheet&&) = delete;
    ~Sheet() {
        if (at_) munmap(at_, bytes_);
    }
    std::byte* at() const { return at_; }

  private:
    Sheet(std::byte* at, std::uint64_t bytes) : at_(at), bytes_(bytes) {}

    std::byte* at_;
    std::uint64_t bytes_;
};

template <class Act>
void each_tile(const TileLayout& layout, int level, Act&& act) {
    const auto [width, height] = layout.level_size(level);
    for (int row = 0; row < tiles_along(height); ++row)
        for (int column = 0; column < tiles_along(width); ++column)
            act(TilePlace{level, column, row});
}

// Means of two by two pixels; at an odd end the last ones count twice.
void halve(const std::byte* from, Size size, std::byte* to, int to_width) {
    const auto* pixels = reinterpret_cast<const std::uint8_t*>(from);
    for (int y = 0; y < size.height; y += 2) {
        const auto* upper = pixels + std::size_t(y) * size.width * kChannels;
        const auto* lower =
            y + 1 < size.height ? upper + std::size_t(size.width) * kChannels : upper;
        auto* out = reinterpret_cast<std::uint8_t*>(to) + std::size_t(y / 2) * to_width * kChannels;
        for (int x = 0; x < size.width; x += 2, out += kChannels) {
            const std::size_t left = std::size_t(x) * kChannels;
            const std::size_t right = x + 1 < size.width ? left + kChannels : left;
            for (std::size_t c = 0; c < kChannels; ++c)
                out[c] = static_cast<std::uint8_t>(
                    (upper[left + c] + upper[right + c] + lower[left + c] + lower[right + c] + 2) /
                    4);
        }
    }
}

// A tile fills a quarter of the one above it.
void halve_up(const TileLayout& layout, TilePlace place, std::byte* sheet) {
    const TilePlace above{place.level + 1, place.column / 2, place.row / 2};
    const Size size = layout.tile_size(place), wide = layout.tile_size(above);
    const std::size_t x = std::size_t(place.column % 2) * (kTileSide / 2);
    const std::size_t y = std::size_t(place.row % 2) * (kTileSide / 2);
    halve(sheet + layout.offset(place), size,
          sheet + layout.offset(above) + (y * std::size_t(wide.width) + x) * kChannels, wide.width);
}

bool read_at(int fd, void* to, std::size_t bytes, std::uint64_t offset) {
    auto* at = static_cast<char*>(to);
    while (bytes > 0) {
        const ssize_t got = pread(fd, at, bytes, static_cast<off_t>(offset));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) return false;
        at += got;
        bytes -= static_cast<std::size_t>(got);
        offset += static_cast<std::uint64_t>(got);
    }
    return true;
}

} // namespace

Size TileLayout::level_size(int level) const {
    const auto halved = [level](int side) { return (side + (1 << level) - 1) >> level; };
    return {halved(full_.width), halved(full_.height)};
}

int TileLayout::levels() const {
    int level = 0;
    while (std::max(level_size(level).width, level_size(level).height) > kTileSide)
        ++level;
    return level + 1;
}

bool TileLayout::has(TilePlace place) const {
    if (place.level < 0 || place.level >= levels() || place.column < 0 || place.row < 0)
        return false;
    const auto [width, height] = level_size(place.level);
    return place.column < tiles_along(width) && place.row < tiles_along(height);
}

Size TileLayout::tile_size(TilePlace place) const {
    const auto [width, height] = level_size(place.level);
    return {std::min(kTileSide, width - place.column * kTileSide),
            std::min(kTileSide, height - place.row * kTileSide)};
}

std::uint64_t TileLayout::offset(TilePlace place) const {
    std::uint64_t at = sizeof(Header);
    for (int level = 0; level < place.level; ++level)
        at += bytes_of(level_size(level));
    // Whole rows of tiles above, then the tiles before it in its own row, all as high as it is.
    const int width = level_size(place.level).width, height = tile_size(place).height;
    at += bytes_of({width, place.row * kTileSide});
    return at + bytes_of({place.column * kTileSide, height});
}

std::uint64_t TileLayout::bytes() const {
    std::uint64_t at = sizeof(Header);
    for (int level = 0; level < levels(); ++level)
        at += bytes_of(level_size(level));
    return at;
}

Done write_tiles(int file, const Picture& stored, int orientation) {
    const Size full = upright_size(stored.size(), orientation);
    const TileLayout layout(full);
    auto sheet = Sheet::make(file, layout.bytes());
    if (!sheet) return sheet.failure();
    const Header header{.width = full.width, .height = full.height};
    std::memcpy(sheet->at(), &header, sizeof header);
    each_tile(layout, 0, [&](TilePlace place) {
        const Size size = layout.tile_size(place);
        copy_upright(stored, orientation, {place.column * kTileSide, place.row * kTileSide}, size,
                     sheet->at() + layout.offset(place));
    });
    for (int level = 0; level + 1 < layout.levels(); ++level)
        each_tile(layout, level, [&](TilePlace place) { halve_up(layout, place, sheet->at()); });
    return done();
}

struct TileFile::Handle {
    explicit Handle(int opened) : fd(opened) {}
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    ~Handle() { ::close(fd); }
    int fd;
};

Result<TileFile> TileFile::open(const std::filesystem::path& file) {
    const int fd = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return Failure{FailureKind::not_found, "There are no tiles in " + file.string() + ".",
                       std::strerror(errno)};
    auto handle = std::make_shared<const Handle>(fd);
    const Failure damaged{FailureKind::damaged,
                          "The tiles in " + file.string() + " are not whole."};
    Header header;
    struct stat facts {};
    if (fstat(fd, &facts) != 0 || !read_at(fd, &header, sizeof header, 0)) return damaged;
    const Size full{header.width, header.height};
    if (header.magic != kMagic || full.width <= 0 || full.height <= 0 ||
        std::int64_t(full.width) * full.height > kMostPixels ||
        TileLayout(full).bytes() != std::uint64_t(facts.st_size))
        return damaged;
    return TileFile(std::move(handle), full);
}

Result<Picture> TileFile::tile(TilePlace place) const {
    const TileLayout all = layout();
    if (!all.has(place))
        return Failure{FailureKind::invalid, "There is no such tile of the picture."};
    const auto [width, height] = all.tile_size(place);
    Picture picture{width, height, std::vector<std::byte>(bytes_of({width, height}))};
    if (!read_at(handle_->fd, picture.rgba.data(), picture.rgba.size(), all.offset(place)))
        return Failure{FailureKind::damaged, "A tile of the picture could not be read."};
    return picture;
}

} // namespace fettle::photos
