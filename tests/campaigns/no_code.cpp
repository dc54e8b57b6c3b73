#include "no_code.h"

#include "photos/tag_scene.h"

#include <algorithm>
#include <cmath>

namespace tag_tests {
namespace {

using fettle::photos::Area;
using fettle::photos::Picture;

int any(std::mt19937& random, int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random);
}

void fill(Picture& picture, int left, int top, int width, int height, int shade) {
    for (int y = std::max(0, top); y < std::min(picture.height, top + height); ++y)
        for (int x = std::max(0, left); x < std::min(picture.width, left + width); ++x) {
            auto* pixel = picture.rgba.data() + (std::size_t(y) * picture.width + x) * 4;
            std::fill_n(pixel, 3, static_cast<std::byte>(shade));
        }
}

// A corner square as codes have it.
void corner_square(Picture& picture, int x, int y, int module) {
    fill(picture, x, y, 7 * module, 7 * module, 25);
    fill(picture, x + module, y + module, 5 * module, 5 * module, 230);
    fill(picture, x + 2 * module, y + 2 * module, 3 * module, 3 * module, 25);
}

// Light and dark modules at random on a light card; with the three corner squares of a code or
// without. What is between them is no code's.
void grid(Picture& picture, bool has_corners, std::mt19937& random) {
    const int module = any(random, 3, 14), side = 21 + 4 * any(random, 0, 3);
    const int x = any(random, 0, std::max(1, picture.width - module * side));
    const int y = any(random, 0, std::max(1, picture.height - module * side));
    fill(picture, x - 4 * module, y - 4 * module, (side + 8) * module, (side + 8) * module, 230);
    for (int row = 0; row < side; ++row)
        for (int column = 0; column < side; ++column)
            if (any(random, 0, 1))
                fill(picture, x + column * module, y + row * module, module, module, 25);
    if (!has_corners) return;
    const int far = (side - 7) * module;
    for (const auto& [dx, dy] : {std::pair{0, 0}, {far, 0}, {0, far}}) {
        fill(picture, x + dx - module, y + dy - module, 9 * module, 9 * module, 230);
        corner_square(picture, x + dx, y + dy, module);
    }
}

void nested_squares(Picture& picture, std::mt19937& random) {
    for (int count = any(random, 2, 30); count > 0; --count)
        corner_square(picture, any(random, 0, picture.width), any(random, 0, picture.height),
                      any(random, 3, 12));
}

void stripes(Picture& picture, std::mt19937& random) {
    const int pitch = any(random, 3, 30), checked = any(random, 0, 1);
    for (int y = 0; y < picture.height; y += pitch)
        for (int x = 0; x < picture.width; x += pitch)
            if ((x / pitch + (checked ? y / pitch : 0)) % 2)
                fill(picture, x, y, pitch, pitch, any(random, 10, 60));
}

void noise(Picture& picture, std::mt19937& random) {
    for (std::size_t at = 0; at < picture.rgba.size(); ++at)
        if (at % 4 != 3) picture.rgba[at] = static_cast<std::byte>(random());
}

Picture piece_of(const Picture& photograph, std::mt19937& random) {
    const double width = any(random, photograph.width / 4, photograph.width);
    const double height = std::min<double>(photograph.height, width * 0.75);
    const Area area{any(random, 0, int(photograph.width - width)) * 1.0,
                    any(random, 0, int(photograph.height - height)) * 1.0, width, height};
    const double scale = any(random, 40, 100) / 100.0;
    auto piece = shrunk(photograph, area, {int(width * scale), int(height * scale)});
    return turned_upright(std::move(piece), any(random, 1, 8));
}

} // namespace

Picture NoCodes::picture(unsigned number) const {
    std::mt19937 random(number);
    const int kind = int(number % 10);
    if (kind >= 6 && !photographs_.empty())
        return piece_of(photographs_[std::size_t(any(random, 0, int(photographs_.size()) - 1))],
                        random);
    // Every hundredth at the size of a camera's picture, the others small, for there are many.
    const int width = number % 100 == 0 ? 4000 : any(random, 500, 1400);
    auto picture = workshop_texture(width, width * 3 / 4, random);
    switch (kind) {
    case 1:
        grid(picture, false, random);
        break;
    case 2:
        grid(picture, true, random);
        break;
    case 3:
        nested_squares(picture, random);
        break;
    case 4:
        stripes(picture, random);
        break;
    case 5: {
        if (number % 3 == 0) {
            noise(picture, random);
            break;
        }
        // Somebody else's code.
        TagView view{.module = any(random, 4, 12) * 1.0, .turn = any(random, 0, 359) * 1.0};
        draw_tag(picture, number % 3 == 1 ? "https://example.org/H7" : "FETTLEBOOK H7", view,
                 random);
        break;
    }
    default:
        break;
    }
    return picture;
}

} // namespace tag_tests
