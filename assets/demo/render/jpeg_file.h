// Writes a picture as JPEG of bounded size.
#pragma once

#include "lens.h"

#include <cstddef>
#include <string>
#include <vector>

namespace fettle::demo {

// Quality 84, or as much less as it takes to stay under `most` bytes.
std::vector<unsigned char> jpeg_of(const Pixels& pixels, size_t most);

} // namespace fettle::demo
