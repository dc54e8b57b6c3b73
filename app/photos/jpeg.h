// JPEG through libjpeg-turbo: header, pixels at a reduced scale, writing.
//
// Knows bytes, no files and no EXIF. Foreign bytes are given to it in the worker only; thumbnails
// of our own making anywhere. Failures are the rest of a sentence that begins with the file's name.
#pragma once

#include "base/result.h"
#include "photos/grey.h"
#include "photos/picture.h"

#include <cstddef>
#include <optional>
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

// Brightness and colour apart, as JPEG stores them (ITU-T T.871), colour often at half the size.
struct JpegPlanes {
    Size size;                // of the picture
    Grey brightness;          // of that size
    std::vector<Grey> colour; // blue and red difference; none for a grey JPEG
    Size colour_size;         // what of the planes belongs to the picture
    std::string damage;       // as of DecodedPicture
};

// At `eighths` of the size. Nothing for a JPEG in other colours (four inks, red green blue) and
// when a plane would be smaller than `least`. Failures and precondition as of decode_jpeg.
Result<std::optional<JpegPlanes>> decode_jpeg_planes(std::span<const std::byte> bytes, int eighths,
                                                     Size least);

// The planes as one picture. Precondition: no plane is smaller than `size`.
Picture thumbnail_of(const JpegPlanes& planes, Size size);

// Brightness alone, at full size. Failures and precondition as of decode_jpeg.
Result<Grey> decode_jpeg_grey(std::span<const std::byte> bytes);

// The same pixels as they are coded, turned upright, without whatever else the file holds. Nothing
// where that cannot be done without loss: the sides are no whole blocks, or the data are damaged.
// Precondition: orientation is 1 to 8.
std::optional<std::vector<std::byte>> bare_jpeg(std::span<const std::byte> bytes, int orientation);

Result<std::vector<std::byte>> encode_jpeg(const Picture& picture);

} // namespace fettle::photos
