#include "relief/shot.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr int kLimit = 254; // what JPEG may make of 255

std::array<float, 256> linear_light() {
    std::array<float, 256> table{};
    for (int code = 0; code < 256; ++code) {
        const double share = code / 255.0;
        table[code] =
            float(share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4));
    }
    return table;
}

} // namespace

Shot shot_of(std::span<const std::byte> rgba, int width, int height) {
    assert(rgba.size() == std::size_t(width) * height * 4);
    static const std::array<float, 256> table = linear_light();
    Shot shot{width, height, std::vector<std::uint16_t>(std::size_t(width) * height)};
    for (std::size_t i = 0; i < shot.light.size(); ++i) {
        const int red = int(rgba[4 * i]), green = int(rgba[4 * i + 1]), blue = int(rgba[4 * i + 2]);
        const float light = 0.2126F * table[red] + 0.7152F * table[green] + 0.0722F * table[blue];
        shot.light[i] = std::max({red, green, blue}) >= kLimit
                            ? kClipped
                            : std::uint16_t(std::min(65534.0F, light * 65535 + 0.5F));
    }
    return shot;
}

Shot cut_out(const Shot& shot, const Rectangle& part) {
    assert(part.x >= 0 && part.y >= 0 && part.x + part.width <= shot.width &&
           part.y + part.height <= shot.height);
    Shot cut{part.width, part.height, {}};
    cut.light.reserve(std::size_t(part.width) * part.height);
    for (int y = 0; y < part.height; ++y) {
        const auto from = shot.light.begin() + std::ptrdiff_t(part.y + y) * shot.width + part.x;
        cut.light.insert(cut.light.end(), from, from + part.width);
    }
    return cut;
}

Grid light_of(const Shot& shot) {
    return light_of(shot, 1);
}

Grid light_of(const Shot& shot, int by) {
    Grid grid(shot.width / by, shot.height / by);
    const float share = 1 / (65535.0F * float(by * by));
    for (int y = 0; y < grid.height; ++y) {
        float* out = grid.row(y);
        for (int line = 0; line < by; ++line) {
            const std::uint16_t* row = shot.light.data() + std::size_t(y * by + line) * shot.width;
            for (int x = 0; x < grid.width; ++x)
                for (int at = 0; at < by; ++at)
                    out[x] += float(row[x * by + at]) * share;
        }
    }
    return grid;
}

} // namespace fettle::relief
