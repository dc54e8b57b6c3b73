// A notebook of any size for measuring: the demo world's words at random from a seed, written by
// the same functions as everything else, an act a record, so that history, triggers and the index
// of words are as in life. For figures only: nothing in it means anything.
#pragma once

#include "notebook/notebook.h"

#include <cstdint>
#include <filesystem>

namespace fettle::benchmarks {

struct BigBook {
    int photos = 1000; // with a fifth as many parts and entries each, a fiftieth as many tasks
    std::uint32_t seed = 1936;
    // Whether every photo gets a small JPEG of its own, with the hash that it truly has; without,
    // its file is missing and its hash is made up, and only the database is as in life.
    bool files = true;

    int parts() const { return photos / 5; }
    int entries() const { return photos / 5; }
    int tasks() const { return photos / 50; }
    int positions() const { return photos / 25; }
    int consignments() const { return photos / 500; }
};

// Makes it in a folder that holds none. Written without waiting for the disk: a power cut may spoil
// it. Throws std::runtime_error.
Notebook make_big_book(const std::filesystem::path& folder, const BigBook& wish);

} // namespace fettle::benchmarks
