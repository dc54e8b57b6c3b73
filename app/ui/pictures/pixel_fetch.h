// The errands behind Pixels: what was asked for, in the order of need, and the workers that fetch
// it. Knows no texture. What is asked for in the newest frame goes first; what two frames no longer
// asked for is given up, even while it is being cut into tiles. One picture is cut at a time: whole
// pictures in memory are large. The UI thread asks and takes, the workers fetch; each worker owns a
// decoder and its connection to the thumbnail cache. Destroying it ends the workers.
#pragma once

#include "photos/decoder.h"
#include "photos/stamp_filters.h"
#include "photos/tile_file.h"

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <vector>

namespace fettle::ui {

struct Errand {
    enum class Kind { thumbnail, whole, region, cut, tile };
    std::string key;
    std::string hash; // of the photo
    std::filesystem::path file;
    Kind kind = Kind::thumbnail;
    int longest_side = 0;                       // of a whole
    photos::Region region;                      // of a region
    photos::StampFilters filters = {};          // it is seen through
    std::optional<photos::TileFile> tiles = {}; // of a tile
    photos::TilePlace place = {};
};

struct Fetched {
    std::string key, hash;
    Result<photos::Picture> picture;            // empty for a cut
    std::optional<photos::TileFile> tiles = {}; // of a cut
};

class PixelFetch {
  public:
    struct Settings {
        std::filesystem::path cache_folder, decode_program;
        std::function<void()> wake; // from a worker, after each picture
        unsigned workers = 2;
    };
    explicit PixelFetch(Settings settings);
    ~PixelFetch();
    PixelFetch(const PixelFetch&) = delete;
    PixelFetch& operator=(const PixelFetch&) = delete;

    void new_frame();
    void ask(Errand errand);
    // Pictures that have come, at least one and no more than fit the bytes; the rest comes later.
    std::vector<Fetched> take(std::size_t most_bytes);
    // Gives up what has that key; it comes as cancelled if it was under way.
    void stop(const std::string& key);
    // Until nothing is waiting or being fetched, or so much lies here that it must be taken first.
    void wait_idle();

  private:
    struct Waiting {
        Errand errand;
        std::uint64_t frame = 0, turn = 0; // when it was asked for last
    };
    struct Cutting {
        std::string key;
        std::uint64_t frame = 0; // when it was asked for last
        std::shared_ptr<std::atomic<bool>> stop;
    };
    void work(const std::stop_token& stop);
    std::vector<Waiting>::iterator next();
    bool full() const;
    std::shared_ptr<std::atomic<bool>> begin(const Errand& errand);
    void finish(Fetched fetched);

    Settings settings_;
    std::mutex held_;
    std::condition_variable_any changed_;
    std::vector<Waiting> waiting_;
    std::set<std::string> under_way_; // keys being fetched, or fetched and not yet taken
    std::size_t fetching_ = 0;
    std::optional<Cutting> cutting_;
    std::vector<Fetched> fetched_;
    std::size_t fetched_bytes_ = 0;
    std::uint64_t frame_ = 0, turn_ = 0;
    std::vector<std::jthread> workers_;
};

} // namespace fettle::ui
