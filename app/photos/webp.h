// WebP through libwebp; of a moving picture the first.
//
// In the worker only: these are foreign bytes. Failures are the rest of a sentence that begins with
// the file's name.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstddef>
#include <span>

namespace fettle::photos {

// The size the header claims, not turned.
Result<Size> webp_size(std::span<const std::byte> bytes);

// At full size, not turned, on white where it is transparent. Precondition: webp_size() was found
// acceptable.
Result<Picture> decode_webp(std::span<const std::byte> bytes);

} // namespace fettle::photos
