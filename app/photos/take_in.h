// Takes a list of picture files in: several workers look at them at once, the caller keeps them one
// by one. Knows no notebook: what is held and what keeping means comes in through hooks.
// All hooks are called on the calling thread, in the order of the list. One bad file stops nothing.
#pragma once

#include "base/result.h"
#include "photos/look.h"

#include <cstddef>
#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

namespace fettle::photos {

struct TakeInHooks {
    // Hashes the notebook holds before the start. A file with one of them, or with the hash of a
    // file kept earlier in the same run, is counted as already held and not decoded or kept.
    std::unordered_set<std::string> held;
    // Stores the picture (shelf, record, thumbnail). A Failure counts the file as unreadable, one
    // of kind cancelled ends the run as stopped.
    std::function<Done(const Look& look, const std::filesystem::path& original)> keep;
    // The rest may be empty.
    std::function<void(const std::filesystem::path& file, const Failure& why)> unreadable;
    std::function<void(const std::filesystem::path& file, const std::string& hash)> already_held;
    // After each file: how many are done, of how many, and the one just done.
    std::function<void(std::size_t done, std::size_t total, const std::filesystem::path& file)>
        progress;
};

struct TakeInCounts {
    std::size_t taken = 0;
    std::size_t damaged = 0; // of those taken
    std::size_t already_held = 0;
    std::size_t unreadable = 0; // could not be read, or could not be kept
    bool stopped = false;       // the user pressed stop before the end of the list
};

// `workers` = 0: as many as there are cores. `stop` is heeded between files. An exception from a
// hook stops the run and is passed on.
TakeInCounts take_in(const std::vector<std::filesystem::path>& files, const TakeInHooks& hooks,
                     unsigned workers, const std::stop_token& stop,
                     const std::filesystem::path& decode_program);
// With fettlebook-decode beside this program.
TakeInCounts take_in(const std::vector<std::filesystem::path>& files, const TakeInHooks& hooks,
                     unsigned workers, const std::stop_token& stop);

} // namespace fettle::photos
