#include "photos/picture.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace fettle::photos {
namespace {

constexpr int kChannels = 4;

// The source pixels [first, first + weights.size()) that one drawn pixel covers, with their shares
// of it; the shares add up to 1.
struct Cover {
    int first = 0;
    std::vector<float> weights;
};

Cover cover(double from, double to, int limit) {
    const int first = std::clamp(static_cast<int>(std::floor(from)), 0, limit - 1);
    const int end = std::clamp(static_cast<int>(std::ceil(to)), first + 1, limit);
    Cover cover{first, {}};
    double sum = 0;
    for (int at = first; at < end; ++at)
        sum += std::max(0.0, std::min(to, at + 1.0) - std::max<double>(from, at));
    for (int at = first; at < end; ++at) {
        double share = std::max(0.0, std::min(to, at + 1.0) - std::max<double>(from, at));
        cover.weights.push_back(static_cast<float>(sum > 0 ? share / sum : 1.0 / (end - first)));
    }
    return cover;
}

std::vector<Cover> covers(double start, double length, int count, int limit) {
    std::vector<Cover> all;
    all.reserve(count);
    for (int at = 0; at < count; ++at)
        all.push_back(cover(start + length * at / count, start + length * (at + 1) / count, limit));
    return all;
}

// Adds a stretch of samples, weighted, onto `sums`.
void add_row(const std::byte* samples, float weight, std::vector<float>& sums) {
    auto from = reinterpret_cast<const std::uint8_t*>(samples);
    for (std::size_t at = 0; at < sums.size(); ++at)
        sums[at] += weight * from[at];
}

void draw_row(const std::vector<float>& sums, const std::vector<Cover>& columns, int first_column,
              std::byte* to) {
    for (const auto& column : columns) {
        float pixel[kChannels] = {};
        const float* from = sums.data() + std::size_t(column.first - first_column) * kChannels;
        for (float weight : column.weights)
            for (float& channel : pixel)
                channel += weight * *from++;
        // What is below nothing is clamped, however it is rounded, and std::lround costs a call
        // each.
        for (float channel : pixel) // NOLINTNEXTLINE(bugprone-incorrect-roundings)
            *to++ = static_cast<std::byte>(std::clamp(static_cast<int>(channel + 0.5f), 0, 255));
    }
}

// Where the upright pixel (0, 0) lies in the stored picture, and the steps, in pixels, that follow
// the upright rows and columns.
struct Walk {
    std::ptrdiff_t origin, right, down;
};

Walk walk(Size stored, int orientation) {
    const std::ptrdiff_t w = stored.width, h = stored.height;
    switch (orientation) {
    case 2:
        return {w - 1, -1, w};
    case 3:
        return {w * h - 1, -1, -w};
    case 4:
        return {w * (h - 1), 1, -w};
    case 5:
        return {0, w, 1};
    case 6:
        return {w * (h - 1), -w, 1};
    case 7:
        return {w * h - 1, -w, -1};
    case 8:
        return {w - 1, w, -1};
    default:
        return {0, 1, w};
    }
}

} // namespace

void put_on_white(std::vector<std::byte>& rgba) {
    auto* pixel = reinterpret_cast<std::uint8_t*>(rgba.data());
    for (const auto* end = pixel + rgba.size(); pixel != end; pixel += kChannels) {
        const unsigned alpha = pixel[3];
        for (int channel = 0; channel < 3; ++channel)
            pixel[channel] = static_cast<std::uint8_t>(
                (pixel[channel] * alpha + 255 * (255 - alpha) + 127) / 255);
        pixel[3] = 255;
    }
}

Size fitted(Size full, int longest_side) {
    const int longest = std::max(full.width, full.height);
    if (longest <= longest_side) return full;
    auto shorter = [&](int side) {
        const double exact = static_cast<double>(side) * longest_side / longest;
        return std::max(1, static_cast<int>(std::lround(exact)));
    };
    return {shorter(full.width), shorter(full.height)};
}

Picture shrunk(const Picture& picture, const Area& area, Size size) {
    assert(area.x >= 0 && area.y >= 0 && area.width > 0 && area.height > 0);
    const auto columns = covers(area.x, area.width, size.width, picture.width);
    const auto rows = covers(area.y, area.height, size.height, picture.height);
    const int first_column = columns.front().first;
    const int end_column = columns.back().first + static_cast<int>(columns.back().weights.size());

    Picture drawn{size.width, size.height, {}};
    drawn.rgba.resize(std::size_t(size.width) * size.height * kChannels);
    std::vector<float> sums(std::size_t(end_column - first_column) * kChannels);
    for (int y = 0; y < size.height; ++y) {
        std::fill(sums.begin(), sums.end(), 0.0f);
        int source_row = rows[y].first;
        for (float weight : rows[y].weights) {
            const auto pixel = std::size_t(source_row++) * picture.width + first_column;
            add_row(picture.rgba.data() + pixel * kChannels, weight, sums);
        }
        draw_row(sums, columns, first_column,
                 drawn.rgba.data() + std::size_t(y) * size.width * kChannels);
    }
    return drawn;
}

Picture shrunk(const Picture& picture, Size size) {
    return shrunk(picture, {0, 0, double(picture.width), double(picture.height)}, size);
}

bool lies_on_its_side(int orientation) {
    return orientation >= 5 && orientation <= 8;
}

Size upright_size(Size stored, int orientation) {
    return lies_on_its_side(orientation) ? Size{stored.height, stored.width} : stored;
}

void copy_upright(const Picture& stored, int orientation, Corner at, Size part, std::byte* to) {
    assert(orientation >= 1 && orientation <= 8);
    const auto [origin, right, down] = walk(stored.size(), orientation);
    for (int y = at.y; y < at.y + part.height; ++y) {
        std::ptrdiff_t from = origin + down * y + right * at.x;
        if (right == 1) { // as it lies: whole rows
            const auto row = std::size_t(part.width) * kChannels;
            std::memcpy(to, stored.rgba.data() + from * kChannels, row);
            to += row;
            continue;
        }
        for (int x = 0; x < part.width; ++x, from += right, to += kChannels)
            std::memcpy(to, stored.rgba.data() + from * kChannels, kChannels);
    }
}

Picture turned_upright(Picture stored, int orientation) {
    if (orientation == 1) return stored;
    const auto [width, height] = upright_size(stored.size(), orientation);
    Picture upright{width, height, std::vector<std::byte>(stored.rgba.size())};
    copy_upright(stored, orientation, {}, upright.size(), upright.rgba.data());
    return upright;
}

} // namespace fettle::photos
