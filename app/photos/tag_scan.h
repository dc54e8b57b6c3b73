// The cheap test whether a picture may show a tag: looks along every third row for the squares in
// a QR code's corners (ISO/IEC 18004, 7.3.2: dark, light, dark, light, dark as 1:1:3:1:1 on every
// line through the middle), checks them along the column, and says where a code may lie.
// Reads nothing. Pure functions on samples.
#pragma once

#include "photos/grey.h"

#include <vector>

namespace fettle::photos {

// A corner square: its middle, and how wide one module is in pixels where it is seen narrowest and
// widest of four directions (on the diagonal of a square it is 1.4 times as wide).
struct Finder {
    double x = 0;
    double y = 0;
    double narrowest = 0;
    double widest = 0;
    bool is_sure = false; // the pattern was found along both diagonals, not only along one
};

std::vector<Finder> find_finders(const Grey& grey);

// Where a code may lie, with the light border it needs.
struct TagPlace {
    Box box;
    Finder square;           // the one it was told from
    double module = 0;       // pixels
    std::size_t squares = 0; // that were found there: three a code, if none is hidden
};

// In pixels of `grey`, the likeliest first, several for one code; none for nearly all pictures
// without a code. Made for modules of three pixels and up.
std::vector<TagPlace> tag_places(const Grey& grey);

} // namespace fettle::photos
