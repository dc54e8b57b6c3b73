// A picture cut into square tiles at every level, each level half the one below it, as one file
// that any tile can be read from without reading the rest.
//
// The file: the eight bytes FETTILE1, width and height of the picture (int32, this machine's order:
// the file is a cache and never leaves it), then the tiles level by level and row by row, four
// bytes a pixel as in Picture, those at the right and lower edges smaller. A level's size is the
// one below it halved and rounded up; the last is one tile. Levels are means of two by two pixels
// of the values as stored (not of the light they stand for: a thin bright line gets a little
// darker), as everywhere here.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstdint>
#include <filesystem>
#include <memory>

namespace fettle::photos {

inline constexpr int kTileSide = 512;

struct TilePlace {
    int level = 0, column = 0, row = 0;
};

// Where the tiles of a picture lie. Precondition: the size is positive and within kMostPixels.
class TileLayout {
  public:
    explicit TileLayout(Size full) : full_(full) {}
    int levels() const;
    Size level_size(int level) const;
    bool has(TilePlace place) const;
    Size tile_size(TilePlace place) const;       // precondition: has(place)
    std::uint64_t offset(TilePlace place) const; // precondition: has(place)
    std::uint64_t bytes() const;                 // of the whole file

  private:
    Size full_;
};

// In the worker, into a file that is open for reading and writing: it is made as large as it will
// be. `stored` is turned by `orientation` as it is cut. Fails (io) when the disk does not take it;
// the sentence's beginning, the picture's name, is for the caller to say.
Done write_tiles(int file, const Picture& stored, int orientation);

// An open file of tiles. May be read from any thread, and stays readable when the file is removed.
class TileFile {
  public:
    // Fails with not_found, or damaged when it is not whole.
    static Result<TileFile> open(const std::filesystem::path& file);

    Size full() const { return full_; }
    TileLayout layout() const { return TileLayout(full_); }
    // Fails (damaged) when it cannot be read, (invalid) when there is no such tile.
    Result<Picture> tile(TilePlace place) const;

  private:
    struct Handle;
    TileFile(std::shared_ptr<const Handle> handle, Size full)
        : handle_(std::move(handle)), full_(full) {}

    std::shared_ptr<const Handle> handle_; // shared by the threads that read tiles from it
    Size full_;
};

} // namespace fettle::photos
