// Backups: one zip file with everything of a notebook, made while others may write to it, read once
// more before it counts; and a notebook made of one again.
//
// In it: notebook/ (the folder as it stands, without cache/, the database as one file),
// outside/HASH.ext (photos that were left in place elsewhere), hashes.txt (XXH3-128 of each entry,
// a line `HASH  NAME` as `xxhsum -H2` writes and checks it) and backup.json.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace fettle::desk {

struct BackupWish {
    std::stop_token stop; // then nothing is left behind
    // files done, in all, the file; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct BackupReport {
    std::filesystem::path file;
    std::string made; // ISO 8601
    std::size_t files = 0, photos = 0;
    std::uint64_t bytes = 0; // of what is in it
    // A sentence for each photo that could not be taken along, or is no longer what it was.
    std::vector<std::string> left_out;
};

// Written beside and given its name once it has been read through again: every entry's hash, and
// SQLite's check of the database. A backup of that name gives way to the new one; any other file
// there is refused, and so is a place within the notebook. Fails with damaged when the database is
// (an older backup is then worth more), cancelled, or io.
Result<BackupReport> back_up(const std::filesystem::path& notebook,
                             const std::filesystem::path& file, const BackupWish& wish);

struct RestoreReport {
    std::filesystem::path notebook;
    std::size_t files = 0;
    std::size_t moved_in = 0; // photos that stood outside and are below photos/outside/ now
    std::string made;         // when the backup was
};

// Into a new or empty folder, which has its name only when everything in it has been verified.
// Refused by one sentence: a damaged or cut backup, one by a later version, entries that would
// leave the folder, links.
Result<RestoreReport> restore(const std::filesystem::path& file,
                              const std::filesystem::path& notebook, const BackupWish& wish);

// The last backup that was made of a notebook, kept in its folder.
struct LastBackup {
    std::filesystem::path file;
    std::string made; // ISO 8601
    std::size_t files = 0;
};
std::optional<LastBackup> last_backup(const std::filesystem::path& notebook);

// A name for the next one: "rebuild-2026-03-07.zip" in the home folder, or beside the last.
std::filesystem::path proposed_backup(const std::filesystem::path& notebook);

} // namespace fettle::desk
