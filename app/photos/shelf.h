// The shelf: where a notebook keeps its copies of originals, photos/YYYY/YYYY-MM-DD/.
//
// An original is opened for reading and never written. A copy appears under its name only when it
// is complete, on disk and has the hash of the look; whatever ends the copying early leaves
// nothing. Knows files only. Any thread; two at once do not get in each other's way.
#pragma once

#include "base/date.h"
#include "base/result.h"

#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>

namespace fettle::photos {

// Copies `original` into the notebook folder and gives the copy's path relative to that folder.
// `day` picks the subfolder; none: photos/undated. The copy keeps the original's time of change and
// a readable form of its name, with -2, -3, ... where that is taken; a file of the same hash that
// already stands there is used as it is. Failures: io, not_found, refused (the original is not the
// file that was looked at: its hash differs), cancelled.
Result<std::filesystem::path> put_on_shelf(const std::filesystem::path& notebook,
                                           const std::filesystem::path& original,
                                           const std::string& hash, std::optional<Day> day,
                                           const std::stop_token& stop = {});

// XXH3-128 of a file, 32 hex digits, read piece by piece: for checking what stands on the shelf.
Result<std::string> hash_of_file(const std::filesystem::path& file,
                                 const std::stop_token& stop = {});

// Removes half copies that a killed program left behind; how many. Only while nobody copies.
std::size_t sweep_half_copies(const std::filesystem::path& notebook);

// A file name that any file system takes and a person recognises: valid UTF-8, no separators or
// control characters, not hidden, at most 120 bytes with its extension kept.
std::string shelf_name(const std::filesystem::path& original);

} // namespace fettle::photos
