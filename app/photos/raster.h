// The pixels of PNG, BMP, GIF and TGA through stb_image.
//
// In the worker only: these are foreign bytes. Failures are the rest of a sentence that begins with
// the file's name.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstddef>
#include <span>

namespace fettle::photos {

// TGA has no mark of its own: whether the header reads as that of one.
bool is_readable_tga(std::span<const std::byte> bytes);

// The size the header claims.
Result<Size> raster_size(std::span<const std::byte> bytes);

// At full size, on white where it is transparent; of an animation the first picture. Precondition:
// raster_size() was found acceptable.
Result<Picture> decode_raster(std::span<const std::byte> bytes);

} // namespace fettle::photos
