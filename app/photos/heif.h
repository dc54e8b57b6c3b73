// HEIC, HEIF and AVIF through libheif, which turns and mirrors the picture as the file says
// (ISO 23008-12, irot and imir): EXIF's orientation must not be applied on top.
//
// In the worker only: these are foreign bytes. Failures are the rest of a sentence that begins with
// the file's name.
#pragma once

#include "base/result.h"
#include "photos/picture.h"

#include <cstddef>
#include <span>
#include <vector>

namespace fettle::photos {

// The size of the main picture, upright.
Result<Size> heif_size(std::span<const std::byte> bytes);

// The main picture, upright, on white where it is transparent. There is no cheaper smaller scale.
// Precondition: heif_size() was found acceptable.
Result<Picture> decode_heif(std::span<const std::byte> bytes);

// Where the EXIF blocks of the main picture begin in the file (their byte order mark); none when
// the file cannot be read.
std::vector<std::size_t> heif_exif_starts(std::span<const std::byte> bytes);

} // namespace fettle::photos
