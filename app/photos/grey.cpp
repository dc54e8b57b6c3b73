#include "photos/grey.h"

#include <algorithm>
#include <cassert>

namespace fettle::photos {

Grey grey_of(const Picture& picture) {
    Grey grey{picture.width, picture.height, {}};
    grey.samples.resize(std::size_t(picture.width) * picture.height);
    auto* from = reinterpret_cast<const std::uint8_t*>(picture.rgba.data());
    for (auto& sample : grey.samples) {
        // 0.299, 0.587 and 0.114 in 256ths.
        sample = static_cast<std::uint8_t>((77u * from[0] + 150u * from[1] + 29u * from[2]) >> 8);
        from += 4;
    }
    return grey;
}

Grey halved(const Grey& grey) {
    assert(grey.width >= 2 && grey.height >= 2);
    Grey half{grey.width / 2, grey.height / 2, {}};
    half.samples.resize(std::size_t(half.width) * half.height);
    auto* to = half.samples.data();
    for (int y = 0; y < half.height; ++y) {
        const auto* above = grey.row(2 * y);
        const auto* below = grey.row(2 * y + 1);
        for (int x = 0; x < half.width; ++x, above += 2, below += 2)
            *to++ = static_cast<std::uint8_t>((above[0] + above[1] + below[0] + below[1] + 2) >> 2);
    }
    return half;
}

Grey cropped(const Grey& grey, const Box& box) {
    assert(box.x >= 0 && box.y >= 0 && box.width > 0 && box.height > 0);
    assert(box.x + box.width <= grey.width && box.y + box.height <= grey.height);
    Grey piece{box.width, box.height, {}};
    piece.samples.reserve(std::size_t(box.width) * box.height);
    for (int y = box.y; y < box.y + box.height; ++y)
        piece.samples.insert(piece.samples.end(), grey.row(y) + box.x,
                             grey.row(y) + box.x + box.width);
    return piece;
}

Grey shrunk(const Grey& grey, Size from, Size size) {
    assert(from.width <= grey.width && from.height <= grey.height);
    assert(size.width <= from.width && size.height <= from.height);
    Grey small{size.width, size.height, {}};
    small.samples.resize(std::size_t(size.width) * size.height);
    std::vector<std::uint32_t> sums(from.width);
    // Whole pixels, each counted once: at the factors in use the rest does not show.
    auto start = [](int at, int full, int count) {
        return static_cast<int>(std::int64_t(at) * full / count);
    };
    for (int y = 0; y < size.height; ++y) {
        const int top = start(y, from.height, size.height);
        const int bottom = start(y + 1, from.height, size.height);
        std::fill(sums.begin(), sums.end(), 0u);
        for (int row = top; row < bottom; ++row) {
            const auto* sample = grey.row(row);
            for (int x = 0; x < from.width; ++x)
                sums[x] += sample[x];
        }
        for (int x = 0; x < size.width; ++x) {
            const int left = start(x, from.width, size.width);
            const int right = start(x + 1, from.width, size.width);
            std::uint32_t sum = 0;
            for (int column = left; column < right; ++column)
                sum += sums[column];
            const auto count = static_cast<std::uint32_t>((right - left) * (bottom - top));
            small.samples[std::size_t(y) * size.width + x] =
                static_cast<std::uint8_t>((sum + count / 2) / count);
        }
    }
    return small;
}

Grey enlarged(const Grey& grey, Size size) {
    Grey large{size.width, size.height, {}};
    large.samples.resize(std::size_t(size.width) * size.height);
    // Where a pixel's middle lies between the middles of two, in 256ths.
    struct Between {
        int first, second, share;
    };
    const auto between = [](int at, int full, int count) {
        const double exact = std::clamp((at + 0.5) * full / count - 0.5, 0.0, full - 1.0);
        const int first = static_cast<int>(exact);
        return Between{first, std::min(first + 1, full - 1),
                       static_cast<int>((exact - first) * 256)};
    };
    std::vector<Between> columns;
    for (int x = 0; x < size.width; ++x)
        columns.push_back(between(x, grey.width, size.width));
    auto* to = large.samples.data();
    for (int y = 0; y < size.height; ++y) {
        const auto rows = between(y, grey.height, size.height);
        const auto *above = grey.row(rows.first), *below = grey.row(rows.second);
        for (const auto& [first, second, share] : columns) {
            const int top = above[first] * (256 - share) + above[second] * share;
            const int bottom = below[first] * (256 - share) + below[second] * share;
            *to++ = static_cast<std::uint8_t>(
                (top * (256 - rows.share) + bottom * rows.share + (1 << 15)) >> 16);
        }
    }
    return large;
}

} // namespace fettle::photos
