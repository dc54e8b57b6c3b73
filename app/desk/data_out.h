// Everything the notebook holds, out into a folder of files that other programs read: JSON Lines
// and CSV with their schema in words, and the photos with sidecars where that is asked for.
#pragma once

#include "desk/sidecars.h"

#include <filesystem>
#include <functional>
#include <stop_token>

namespace fettle::desk {

struct DataOutWish {
    bool photos = false;
    std::stop_token stop; // then nothing is written
    // rows or photos done, in all, the table or photo; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct DataOutReport {
    std::filesystem::path folder;
    std::size_t tables = 0, rows = 0;
    OutReport photos;
};

// Into a new or empty folder, whole or not at all, as the notebook stands at one moment; others may
// write meanwhile. Fails with cancelled when it was stopped. A photo whose file is gone is left out
// and named; its record is in the tables all the same.
Result<DataOutReport> data_out(const std::filesystem::path& notebook,
                               const std::filesystem::path& folder, const DataOutWish& wish);

} // namespace fettle::desk
