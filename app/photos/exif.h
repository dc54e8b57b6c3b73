// What the EXIF block of a picture says, read by exiv2. In the worker only: these are foreign
// bytes.
#pragma once

#include "photos/look.h"

#include <cstddef>
#include <span>

namespace fettle::photos {

// `file` is the whole file. A file without EXIF, or with a broken one, gives what could be read of
// it, in the worst case nothing.
ExifFacts read_exif(std::span<const std::byte> file);

} // namespace fettle::photos
