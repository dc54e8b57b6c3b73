// What the worker answers about sidecars and places; Decoder is its counterpart. Failures are whole
// sentences.
#pragma once

#include "base/result.h"
#include "photos/sidecar_wire.h"

#include <cstddef>
#include <filesystem>
#include <vector>

namespace fettle::photos {

Result<Sidecar> sidecar_in_file(const std::filesystem::path& file, const Lie& lie);
// From what stands at `file`, if anything does.
Result<std::vector<std::byte>> packet_for(const std::filesystem::path& file,
                                          const SidecarWish& wish);
Result<std::vector<std::byte>> copy_without_place(const std::filesystem::path& picture);

} // namespace fettle::photos
