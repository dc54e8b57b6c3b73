// Gives a JPEG the EXIF block that a phone would have written.
#pragma once

#include "shots.h"

namespace fettle::demo {

// Throws Exiv2::Error when the bytes are no JPEG.
std::vector<unsigned char> with_exif(const std::vector<unsigned char>& jpeg, const Shot& shot,
                                     int width, int height);

} // namespace fettle::demo
