// Pixels in memory and the two things done to them: shrinking by area and turning upright.
//
// Knows no file and no file format. A Picture owns its pixels; textures are made of them elsewhere.
// All functions are pure and may be called from any thread.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace fettle::photos {

struct Size {
    int width = 0;
    int height = 0;
    bool operator==(const Size&) const = default;
};

// Rows from the top, four bytes a pixel (red, green, blue, 255), no padding. Always opaque: what
// was transparent in the file stands on white.
struct Picture {
    int width = 0;
    int height = 0;
    std::vector<std::byte> rgba;

    Size size() const { return {width, height}; }
};

struct DecodedPicture {
    Picture picture;
    std::string damage; // empty: whole; else what is wrong, the picture filled as far as data go
};

// A part of a picture in its pixels; fractions reach into a pixel. (0, 0) is the top left corner.
struct Area {
    double x = 0;
    double y = 0;
    double width = 0;
    double height = 0;
};

// Pixels with their transparency in the fourth byte, put on white and made opaque.
void put_on_white(std::vector<std::byte>& rgba);

// The size within `longest_side` that keeps the proportions; never larger than `full`, never 0.
Size fitted(Size full, int longest_side);

// The area of the picture drawn at `size`, each pixel the mean of what it covers.
// Precondition: the area lies within the picture and is not empty; `size` is positive.
Picture shrunk(const Picture& picture, const Area& area, Size size);
Picture shrunk(const Picture& picture, Size size);

// EXIF orientations 1 to 8 (EXIF 2.32, tag 0x0112). 5 to 8 lie on their side.
bool lies_on_its_side(int orientation);
Size upright_size(Size stored, int orientation);

// A part of the picture as it is meant to be seen, cut out at `at` of the upright one, into room
// for its pixels. Preconditions: orientation is 1 to 8; the part lies within the upright picture.
struct Corner {
    int x = 0, y = 0;
};
void copy_upright(const Picture& stored, int orientation, Corner at, Size part, std::byte* to);

// The picture as it is meant to be seen. Precondition: orientation is 1 to 8.
Picture turned_upright(Picture stored, int orientation);

} // namespace fettle::photos
