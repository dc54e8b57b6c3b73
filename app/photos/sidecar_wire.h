// Sidecars in the conversation between Decoder and the worker (wire.h), as JSON.
#pragma once

#include "base/process.h"
#include "base/result.h"
#include "photos/sidecar.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::photos {

// The body of a question about sidecars; `sidecar` is what is to be written, if anything.
struct SidecarWish {
    Lie lie;
    Sidecar sidecar;
};

std::string to_text(const SidecarWish& wish);
Result<SidecarWish> sidecar_wish_from(std::string_view text);

Frame answer_frame(const Sidecar& sidecar);
Frame answer_frame(std::vector<std::byte> bytes);

Result<Sidecar> sidecar_from(Frame frame);
Result<std::vector<std::byte>> bytes_from(Frame frame);

} // namespace fettle::photos
