#include "ui/pictures/filtered_parts.h"

#include <algorithm>

namespace fettle::ui {
namespace {

using photos::Brightness;
using photos::kTileSide;

// The filters look around each pixel as far as their blurs reach; what lies farther away than this
// many samples makes no difference one could see.
constexpr double kMostSurroundings = 192;

// In samples of the level.
struct Cut {
    int left = 0, top = 0, right = 0, bottom = 0;
    int width() const { return right - left; }
    int height() const { return bottom - top; }
    std::string words() const {
        return std::to_string(left) + " " + std::to_string(top) + " " + std::to_string(right) +
               " " + std::to_string(bottom);
    }
};

Cut cut_of(const FilteredParts::Wanted& wanted) {
    const int step = 1 << wanted.level;
    const int around = int(std::min(2 * wanted.filters.radius / step, kMostSurroundings)) + 1;
    const photos::Size whole = wanted.tiles.layout().level_size(wanted.level);
    const Region& region = wanted.region;
    return {std::max(0, region.x / step - around), std::max(0, region.y / step - around),
            std::min(whole.width, (region.x + region.w + step - 1) / step + around),
            std::min(whole.height, (region.y + region.h + step - 1) / step + around)};
}

void copy(const Brightness& tile, int tile_left, int tile_top, Brightness& into) {
    const int left = std::max(0, tile_left), right = std::min(into.width, tile_left + tile.width);
    const int bottom = std::min(into.height, tile_top + tile.height);
    if (right <= left) return;
    for (int y = std::max(0, tile_top); y < bottom; ++y)
        std::copy_n(&tile.samples[std::size_t(y - tile_top) * tile.width + (left - tile_left)],
                    right - left, &into.samples[std::size_t(y) * into.width + left]);
}

// A tile that cannot be read stays black; the photo below says so itself.
Brightness read(const photos::TileFile& tiles, int level, const Cut& cut) {
    Brightness whole{cut.width(), cut.height(), {}};
    whole.samples.resize(std::size_t(whole.width) * whole.height);
    for (int row = cut.top / kTileSide; row * kTileSide < cut.bottom; ++row)
        for (int column = cut.left / kTileSide; column * kTileSide < cut.right; ++column)
            if (const auto tile = tiles.tile({level, column, row}))
                copy(photos::brightness_of(*tile), column * kTileSide - cut.left,
                     row * kTileSide - cut.top, whole);
    return whole;
}

} // namespace

void FilteredParts::want(const std::string& slot, const Wanted& wanted) {
    const Cut cut = cut_of(wanted);
    if (cut.width() <= 0 || cut.height() <= 0) return;
    const std::string of = wanted.hash + " " + std::to_string(wanted.level) + " " + cut.words();
    const std::string asked = of + to_json(wanted.filters);
    Slot& made = slots_[slot];
    if (made.asked == asked) return;
    made.asked = asked;
    const int level = wanted.level, step = 1 << level;
    const Region region{cut.left * step, cut.top * step, cut.width() * step, cut.height() * step};
    work_.ask<Made>(made.coming, [=, hash = wanted.hash, tiles = wanted.tiles,
                                  filters = wanted.filters,
                                  bright = made.cut == of ? made.bright : nullptr]() mutable {
        if (!bright) bright = std::make_shared<const Brightness>(read(tiles, level, cut));
        auto seen = photos::filtered(*bright, filters, 1.0 / step);
        return Made{hash, region, photos::grey_picture(seen), of, std::move(bright)};
    });
}

std::vector<FilteredParts::Come> FilteredParts::take() {
    std::vector<Come> come;
    for (auto& [slot, made] : slots_)
        if (auto fresh = made.coming->take()) {
            made.cut = std::move(fresh->cut);
            made.bright = std::move(fresh->bright);
            come.push_back({slot, fresh->hash, fresh->region, std::move(fresh->picture)});
        }
    return come;
}

} // namespace fettle::ui
