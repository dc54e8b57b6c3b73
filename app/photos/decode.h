// One door to all picture formats: what the bytes are, what EXIF says of them, their pixels.
//
// In the worker only: these are foreign bytes. Failures are the rest of a sentence that begins with
// the file's name.
#pragma once

#include "base/result.h"
#include "photos/look.h"
#include "photos/picture.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace fettle::photos {

struct Recognised {
    std::string format;
    Size stored; // at full size, before turning
};

// `extension` in small letters, with its dot. The size is what the header claims, unchecked.
Result<Recognised> recognise(std::span<const std::byte> bytes, std::string_view extension);

// The orientation is the one still to be applied to decoded pixels: 1 where the decoder turned them
// itself.
ExifFacts exif_of(const Recognised& recognised, std::span<const std::byte> bytes);

// Pixels as stored (not turned), no smaller than `wanted` unless the picture is; at full size where
// a format gives nothing cheaper. Precondition: the size was found acceptable.
Result<DecodedPicture> decode(const Recognised& recognised, std::span<const std::byte> bytes,
                              Size wanted);

// The size decode() gives.
Size decoded_size(const std::string& format, Size stored, Size wanted);

} // namespace fettle::photos
