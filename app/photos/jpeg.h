// JPEG through libjpeg-turbo: header, pixels at a reduced scale, writing.
//
// Knows bytes, no files and no EXIF. Foreign bytes are given to it in the worker only; thumbnails
// of our own making anywhere. Failures are the rest of a sentence that begins with the file's name.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstddef>
#include <span>
#include <vector>

namespace fettle::photos {

// The size the header claims. Fails (damaged) when there is no header or it claims no pixels.
Result<Size> jpeg_size(std::span<const std::byte> bytes);

// Pixels at the least of the scales 1/8, 2/8 ... 8/8 that still covers `wanted`, both as stored
// (not turned). Fails (damaged) when no pixel can be had. Precondition: jpeg_size() was found
// acceptable.
Result<DecodedPicture> decode_jpeg(std::span<const std::byte> bytes, Size wanted);

// The size decode_jpeg gives for a picture of size `full`.
Size decoded_size(Size full, Size wanted);

Result<std::vector<std::byte>> encode_jpeg(const Picture& picture);

} // namespace fettle::photos
