// TIFF through libtiff: the first picture of the file, whatever its compression and colours, as
// 8 bits a sample.
//
// In the worker only: these are foreign bytes. Failures are the rest of a sentence that begins with
// the file's name.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstddef>
#include <span>

namespace fettle::photos {

// The size the header claims, not turned. Fails (invalid) for raw pictures of cameras, which are
// TIFF too but show only a preview there, and for kinds of pixels that cannot be shown.
Result<Size> tiff_size(std::span<const std::byte> bytes);

// At full size, not turned, on white where it is transparent. Precondition: tiff_size() was found
// acceptable.
Result<Picture> decode_tiff(std::span<const std::byte> bytes);

} // namespace fettle::photos
