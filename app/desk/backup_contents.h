// Reading a backup through, for verifying and for restoring. For backup.cpp and restore.cpp.
#pragma once

#include "desk/archive.h"
#include "desk/backup.h"

#include <map>

namespace fettle::desk {

inline constexpr std::string_view kNotebookPart = "notebook/", kOutsidePart = "outside/",
                                  kHashList = "hashes.txt", kBackupHead = "backup.json";
inline constexpr int kBackupForm = 1;

struct BackupContents {
    std::string made;
    int schema = 0;
    std::map<std::string, ArchiveEntry> entries; // by name, without the two last above
};

// Reads all of it; every entry must have the hash of the list, and none may be missing. With `into`
// the entries are written below that folder: notebook/X as X, outside/X as photos/outside/X.
// Names that would leave the folder, links and doubled names are refused.
Result<BackupContents> read_through(const std::filesystem::path& file,
                                    const std::optional<std::filesystem::path>& into,
                                    const BackupWish& wish);

// Whether the file is a backup of ours, by its last entry.
bool is_backup(const std::filesystem::path& file);

} // namespace fettle::desk
