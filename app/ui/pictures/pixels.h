// Pictures on their way to the screen: thumbnails and parts of photos, fetched by worker threads,
// turned into textures on the UI thread, within a bound of memory. Asking is cheap and never waits:
// a picture that is not here yet comes with a later frame (the window is woken for it).
// UI thread only. Owns its workers; destroying it ends them.
#pragma once

#include "base/process.h"
#include "notebook/marks.h"
#include "notebook/photos.h"
#include "photos/stamp_filters.h"
#include "photos/tile_file.h"
#include "ui/frame/textures.h"

#include <functional>
#include <memory>
#include <optional>

namespace fettle::ui {

using photos::TilePlace;

class Pixels {
  public:
    struct Settings {
        std::size_t most_texture_bytes = 256u << 20;
        std::function<void()> wake; // called from worker threads when a picture has come
        Surface surface = Surface::opengl;
        std::filesystem::path decode_program = helper_program("fettlebook-decode");
    };
    Pixels(const Notebook& book, const Settings& settings);
    ~Pixels();

    // Takes finished pictures over into textures; once at the start of a frame.
    void receive();

    // The thumbnail (longest side 320, upright), or nullptr while it is being fetched.
    const Texture* thumbnail(const Photo& photo);
    // The whole picture shrunk to fit `longest_side`, or nullptr while it is being fetched.
    const Texture* picture(const Photo& photo, int longest_side);
    // A square tile of the picture at 1/2^level of its pixels, kTile pixels a side in the texture
    // (less at the right and lower edges); nullptr while it is being fetched.
    static constexpr int kTile = photos::kTileSide;
    const Texture* tile(const Photo& photo, const TilePlace& place);

    // For looking at a photo closely it is cut into tiles once, in the worker and the cache folder
    // (photos/tile_cache.h); from then on each tile is one reading of the disk. False while that is
    // going on or was stopped; true when it is done, or cannot be done and tile() has to serve.
    bool wait_for_cut(const Photo& photo);
    bool is_cut(const Photo& photo) const;
    enum class Cutting { no, going_on, stopped };
    Cutting cutting(const Photo& photo) const;
    void stop_cutting(const Photo& photo);
    void go_on_cutting(const Photo& photo);
    // A tile of a photo that is_cut(), kTile pixels a side, less at the edges; nullptr while it is
    // being fetched. The second asks for nothing.
    const Texture* large_tile(const Photo& photo, const TilePlace& place);
    const Texture* large_tile_here(const Photo& photo, const TilePlace& place);
    std::size_t texture_bytes() const;

    // A part of a photo through filters, and which part the texture shows: some of what lies around
    // it as well, and in a slot still the last part or settings while the next is made. None before
    // anything has come. In a slot the photo must be cut; at 1/2^level of its pixels.
    struct Filtered {
        const Texture* texture = nullptr;
        Region region;
    };
    std::optional<Filtered> filtered(const std::string& slot, const Photo& photo, int level,
                                     const Region& region, const photos::StampFilters& filters);
    // The same for a crop in a list, decoded for it alone.
    std::optional<Filtered> filtered_crop(const Photo& photo, const Region& region, double zoom,
                                          const photos::StampFilters& filters);
    // Why a photo cannot be shown; empty when nothing is known against it.
    std::string failure(const Photo& photo) const;

    // For tests: waits until nothing is being fetched and receives it.
    void settle();

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

} // namespace fettle::ui
