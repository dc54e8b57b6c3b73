#include "photos/tile_cache.h"

#include "base/half_folder.h"
#include "base/private_place.h"

#include <algorithm>
#include <system_error>
#include <vector>

namespace fettle::photos {
namespace {

namespace fs = std::filesystem;

struct Kept {
    fs::path file;
    fs::file_time_type used;
    std::uint64_t bytes = 0;
};

std::vector<Kept> files_in(const fs::path& folder) {
    std::vector<Kept> files;
    std::error_code error;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        std::error_code gone; // another program may clear up as well
        Kept kept{at->path(), at->last_write_time(gone), at->file_size(gone)};
        if (!gone) files.push_back(std::move(kept));
    }
    return files;
}

} // namespace

TileCache::TileCache(const fs::path& cache_folder, std::uint64_t most_bytes)
    : folder_(cache_folder / "tiles"), most_bytes_(most_bytes) {}

Result<TileFile> TileCache::find_or_cut(const std::string& hash, const fs::path& file,
                                        Decoder& decoder, const std::atomic<bool>& stop) {
    const fs::path kept = folder_ / (hash + ".tiles");
    std::error_code error;
    if (auto tiles = TileFile::open(kept)) {
        fs::last_write_time(kept, fs::file_time_type::clock::now(), error); // looked at last
        return tiles;
    }
    fs::create_directories(folder_, error);
    // Under another name until it is whole.
    sweep_left_halves(folder_, "", ".part");
    const fs::path fresh = private_name(folder_, hash + '.', ".part");
    auto cut = decoder.cut(file, fresh, &stop);
    if (!cut) return cut.failure();
    fs::rename(fresh, kept, error);
    auto tiles = TileFile::open(error ? fresh : kept);
    make_room(kept);
    return tiles;
}

void TileCache::make_room(const fs::path& kept) const {
    auto files = files_in(folder_);
    std::ranges::sort(files, std::ranges::less(), &Kept::used);
    std::uint64_t all = 0;
    for (const Kept& file : files)
        all += file.bytes;
    std::error_code error;
    for (const Kept& file : files) {
        if (all <= most_bytes_) return;
        if (file.file == kept) continue;
        if (fs::remove(file.file, error)) all -= file.bytes;
    }
}

} // namespace fettle::photos
