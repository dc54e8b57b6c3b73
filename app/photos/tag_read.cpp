#include "photos/tag_read.h"

#include "base/tag.h"

#include <ReadBarcode.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <span>

namespace fettle::photos {
namespace {

// One way of looking: how many pixels a module is made to have, and how much it is sharpened. An
// unsharp mask as wide as `reach` modules undoes blur of up to half a module.
struct Way {
    double pixels;
    double reach;
    double strength;
    bool is_mirrored = false; // cameras that see themselves store what a mirror shows
};

// In the order of how much they read over the sweep of tests/campaigns, each after the first what
// the ones before it miss.
constexpr Way kWays[] = {{5, 1, 3}, {4, 1, 3},       {8, 1, 4},      {5, 0.6, 2},
                         {6, 0, 0}, {5, 1, 3, true}, {4, 1, 3, true}};
// A piece that is looked at larger than this comes from texture, not from a code.
constexpr int kMostSide = 2500;

// The mean over (2 reach + 1) squared pixels, from running sums; at the border over those there
// are.
std::vector<std::uint8_t> box_blurred(const Grey& grey, int reach) {
    const int width = grey.width, height = grey.height;
    std::vector<std::uint32_t> sums(std::size_t(width) * height); // along rows
    for (int y = 0; y < height; ++y) {
        const auto* row = grey.row(y);
        auto* to = sums.data() + std::size_t(y) * width;
        std::uint32_t sum = 0;
        for (int x = 0; x < std::min(reach, width); ++x)
            sum += row[x];
        for (int x = 0; x < width; ++x) {
            if (x + reach < width) sum += row[x + reach];
            if (x - reach - 1 >= 0) sum -= row[x - reach - 1];
            to[x] = sum;
        }
    }
    std::vector<std::uint8_t> blurred(sums.size());
    std::vector<std::uint32_t> column(width, 0);
    const auto add = [&](int y, bool is_in) {
        if (y < 0 || y >= height) return;
        const auto* row = sums.data() + std::size_t(y) * width;
        for (int x = 0; x < width; ++x)
            column[x] = is_in ? column[x] + row[x] : column[x] - row[x];
    };
    for (int y = 0; y < reach; ++y)
        add(y, true);
    for (int y = 0; y < height; ++y) {
        add(y + reach, true);
        add(y - reach - 1, false);
        const int down = std::min(y + reach, height - 1) - std::max(y - reach, 0) + 1;
        for (int x = 0; x < width; ++x) {
            const int across = std::min(x + reach, width - 1) - std::max(x - reach, 0) + 1;
            blurred[std::size_t(y) * width + x] =
                static_cast<std::uint8_t>(column[x] / std::uint32_t(down * across));
        }
    }
    return blurred;
}

void sharpen(Grey& grey, int reach, double strength) {
    const auto blurred = box_blurred(grey, reach);
    for (std::size_t at = 0; at < grey.samples.size(); ++at) {
        const double sample = grey.samples[at];
        grey.samples[at] = static_cast<std::uint8_t>(
            std::clamp(sample + strength * (sample - blurred[at]), 0.0, 255.0));
    }
}

Grey as_seen(const Grey& piece, double module, const Way& way) {
    const double factor = way.pixels / module;
    const auto scaled = [&](int side) {
        return std::clamp(static_cast<int>(std::lround(side * factor)), 1, kMostSide);
    };
    const Size size{scaled(piece.width), scaled(piece.height)};
    auto seen = factor > 1 ? enlarged(piece, size) : shrunk(piece, piece.size(), size);
    if (way.strength > 0)
        sharpen(seen, std::max(1, static_cast<int>(std::lround(way.reach * way.pixels))),
                way.strength);
    return seen;
}

void mirror(Grey& grey) {
    for (int y = 0; y < grey.height; ++y) {
        const auto row = grey.samples.begin() + std::ptrdiff_t(y) * grey.width;
        std::reverse(row, row + grey.width);
    }
}

// The box round a code, in pixels of the piece it was read from.
Box box_of(const ZXing::Position& corners, const Grey& seen, const Grey& piece, bool is_mirrored) {
    const auto [left, right] =
        std::minmax({corners[0].x, corners[1].x, corners[2].x, corners[3].x});
    const auto [top, bottom] =
        std::minmax({corners[0].y, corners[1].y, corners[2].y, corners[3].y});
    const double scale = double(piece.width) / seen.width;
    const int start = is_mirrored ? seen.width - right : left;
    return {static_cast<int>(start * scale), static_cast<int>(top * scale),
            static_cast<int>((right - left) * scale), static_cast<int>((bottom - top) * scale)};
}

bool is_known(const std::vector<TagRead>& tags, const TagRead& fresh) {
    return std::ranges::any_of(tags, [&](const TagRead& known) {
        return known.tag == fresh.tag && std::abs(known.box.x - fresh.box.x) < fresh.box.width &&
               std::abs(known.box.y - fresh.box.y) < fresh.box.height;
    });
}

} // namespace

std::vector<TagRead> tags_in(const Grey& piece, double module, std::size_t codes, Effort effort) {
    const auto hints = ZXing::DecodeHints()
                           .setFormats(ZXing::BarcodeFormat::QRCode)
                           .setTryHarder(true)
                           .setTryRotate(false)
                           .setTryDownscale(false);
    std::vector<TagRead> tags;
    const auto ways = std::span(kWays).first(effort == Effort::quick ? 2 : std::size(kWays));
    for (const auto& way : ways) {
        if (way.is_mirrored && !tags.empty()) break;
        auto seen = as_seen(piece, module, way);
        if (way.is_mirrored) mirror(seen);
        for (const auto& code : ZXing::ReadBarcodes(
                 {seen.samples.data(), seen.width, seen.height, ZXing::ImageFormat::Lum}, hints)) {
            auto tag = code.isValid() ? tag_of_code(code.text()) : std::nullopt;
            if (!tag) continue;
            TagRead read{std::move(*tag), box_of(code.position(), seen, piece, way.is_mirrored)};
            if (!is_known(tags, read)) tags.push_back(std::move(read));
        }
        if (tags.size() >= codes) break;
    }
    return tags;
}

} // namespace fettle::photos
