// Which picture format some bytes are in, told by their first ones.
// Pure functions on bytes; what is behind the first ones is the decoders' matter.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace fettle::photos {

// "JPEG" (MPO too: several JPEGs in a row, of which the first counts), "PNG", "BMP", "GIF", "TGA",
// "HEIC", "HEIF", "AVIF", "WebP" or "TIFF". TGA has no mark of its own: the file's extension
// decides. A Failure (invalid) holds the rest of a sentence that begins with the file's name.
Result<std::string> format_of(std::span<const std::byte> bytes, std::string_view extension);

} // namespace fettle::photos
