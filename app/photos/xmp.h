// XMP packets read and made by exiv2. In the worker only: what stands in a sidecar is foreign.
// Failures are the rest of a sentence that begins with the file's name.
#pragma once

#include "base/result.h"
#include "photos/sidecar.h"

#include <string>
#include <string_view>

namespace fettle::photos {

// What this program wrote in the packet (kOwnSubject, kOwnBox), whatever else is there; places are
// left alone. Boxes whose figures make no sense are left out. Fails (damaged) when it is no XMP.
Result<Sidecar> read_xmp(std::string_view packet, const Lie& lie);

// `packet` (may be empty) with what this program wrote before replaced by `sidecar`. What others
// wrote stays as it is, their description too; a place only goes in, or out, with `sidecar.place`.
Result<std::string> with_sidecar(std::string_view packet, const Sidecar& sidecar, const Lie& lie);

} // namespace fettle::photos
