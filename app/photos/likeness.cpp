#include "photos/likeness.h"

#include <algorithm>
#include <functional>
#include <vector>

namespace fettle::photos {
namespace {

constexpr int kMostSide = 1100; // judged at half, a quarter ... of its size until it is below this
constexpr int kTile = 25;       // pixels
// Tiles whose brightness varies less hold noise and no edge.
constexpr double kLeastVariance = 60;
constexpr std::size_t kLeastTiles = 4;
constexpr std::size_t kSharpest = 10; // one tile in so many counts; and as many tell the noise

struct Tile {
    double edges = 0, contrast = 0; // variances of the Laplacian and of brightness
};

struct Sums {
    std::int64_t sum = 0, squares = 0;
    double variance(int count) const {
        const double mean = double(sum) / count;
        return double(squares) / count - mean * mean;
    }
};

// Precondition: the tile does not touch the picture's edge.
Tile tile_at(const Grey& grey, int left, int top) {
    Sums light, edges;
    for (int y = top; y < top + kTile; ++y) {
        const auto *above = grey.row(y - 1) + left, *here = grey.row(y) + left,
                   *below = grey.row(y + 1) + left;
        int sum = 0, squares = 0, edge_sum = 0, edge_squares = 0;
        for (int x = 0; x < kTile; ++x) {
            const int value = here[x];
            const int edge = above[x] + below[x] + here[x - 1] + here[x + 1] - 4 * value;
            sum += value;
            squares += value * value;
            edge_sum += edge;
            edge_squares += edge * edge;
        }
        light.sum += sum, light.squares += squares;
        edges.sum += edge_sum, edges.squares += edge_squares;
    }
    constexpr int kCount = kTile * kTile;
    return {edges.variance(kCount), light.variance(kCount)};
}

} // namespace

std::optional<double> sharpness_of(const Grey& grey) {
    Grey scaled;
    const Grey* judged = &grey;
    while (std::max(judged->width, judged->height) > kMostSide &&
           std::min(judged->width, judged->height) > 1) {
        scaled = halved(*judged);
        judged = &scaled;
    }
    std::vector<Tile> tiles;
    for (int top = 1; top + kTile < judged->height; top += kTile)
        for (int left = 1; left + kTile < judged->width; left += kTile)
            tiles.push_back(tile_at(*judged, left, top));
    if (tiles.size() < kLeastTiles) return std::nullopt;
    std::ranges::sort(tiles, std::greater(), &Tile::edges);
    const std::size_t counted = std::max<std::size_t>(1, tiles.size() / kSharpest);
    const double noise = tiles[tiles.size() - counted].edges;
    Tile all;
    for (std::size_t i = 0; i < counted; ++i) {
        if (tiles[i].contrast < kLeastVariance) continue;
        all.edges += tiles[i].edges - noise;
        all.contrast += tiles[i].contrast;
    }
    if (all.contrast == 0) return std::nullopt;
    return all.edges / all.contrast;
}

std::optional<std::uint64_t> likeness_of(const Grey& grey) {
    constexpr Size kFields{9, 8};
    if (grey.width < kFields.width || grey.height < kFields.height) return std::nullopt;
    const Grey fields = shrunk(grey, grey.size(), kFields);
    std::uint64_t bits = 0;
    for (int y = 0; y < kFields.height; ++y)
        for (int x = 0; x + 1 < kFields.width; ++x)
            bits = bits << 1 | std::uint64_t(fields.row(y)[x] > fields.row(y)[x + 1]);
    return bits;
}

} // namespace fettle::photos
