// A copy of a picture file without the place it was taken at. In the worker only: these are foreign
// bytes.
//
// EXIF and XMP are rewritten by exiv2 where it can write the format; what then still holds GPS
// figures (further pictures in the same file, formats of the ISO 14496-12 kind such as HEIC) has
// them set to zero where they stand. Everything else in the file stays as it is, pixels included.
#pragma once

#include "base/result.h"

#include <cstddef>
#include <string>
#include <vector>

namespace fettle::photos {

// `format` as format_of() names it. Fails (refused) with the rest of a sentence that begins with
// the file's name when the place cannot be taken out.
Result<std::vector<std::byte>> without_place(std::vector<std::byte> file,
                                             const std::string& format);

} // namespace fettle::photos
