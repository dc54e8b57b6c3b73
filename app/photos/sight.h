// The one decoding that serves a look: the small picture for the thumbnail and the tags come from
// the same pixels, at half size where a picture is large. Only where the cheap test finds that a
// code may lie is a large JPEG decoded once more, whole.
//
// In the worker only: these are foreign bytes. Failures are the rest of a sentence that begins with
// the file's name.
#pragma once

#include "photos/decode.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::photos {

struct Sight {
    Picture small; // as stored, not turned
    std::string damage;
    std::vector<std::string> tags;
    std::optional<double> sharpness; // see likeness.h
};

// `small` is the size the small picture shall have. Precondition: the stored size was found
// acceptable.
Result<Sight> see(const Recognised& recognised, std::span<const std::byte> bytes, Size small);

} // namespace fettle::photos
