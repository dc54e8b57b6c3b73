// A new notebook of what can be saved of a damaged one: its rows, the changes kept, its photos.
#pragma once

#include "base/result.h"
#include "notebook/salvage.h"

#include <functional>
#include <stop_token>

namespace fettle::desk {

struct SalvageWish {
    std::stop_token stop; // then nothing is made
    // photos done, in all, the photo; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct SalvageReport {
    std::filesystem::path notebook;
    Salvaged record;
    std::size_t photos = 0;                  // whose files were copied
    std::vector<std::string> missing_photos; // as recorded; their records are kept
};

// `damaged` is the folder of a notebook, or its database file: read only, never written to. `out`
// is a new or empty folder outside of it, made whole or not at all.
Result<SalvageReport> salvage(const std::filesystem::path& damaged,
                              const std::filesystem::path& out, const SalvageWish& wish);

} // namespace fettle::desk
