// Whether a notebook is sound: its database, the files of its photos, its cache, and what was left
// lying about; each finding with what to do. And what can be mended by itself.
#pragma once

#include "notebook/notebook.h"

#include <functional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::desk {

enum class FindingKind {
    database,      // damaged, a reference to nothing, or a rule between rows that is broken
    words,         // the index does not agree with the records
    photo_gone,    // its file is not in its place, nor elsewhere in the notebook
    photo_moved,   // its file stands elsewhere in the notebook
    photo_altered, // its file is not the one that was taken in
    cache,         // made anew when deleted
    leftover,      // a file that no record speaks of: told, nothing wrong
    let_in, // others may write to the notebook's folder, or it is theirs: told, nothing wrong
};
std::string_view word(FindingKind kind); // "photo gone"

struct CheckFinding {
    FindingKind kind = FindingKind::database;
    std::string sentence;
    std::string advice;
    bool mended = false;
    bool is_wrong() const {
        return kind != FindingKind::leftover && kind != FindingKind::let_in && !mended;
    }
};

struct CheckWish {
    std::stop_token stop;
    // photos done, in all, the file; called on the calling thread
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct CheckReport {
    std::vector<CheckFinding> findings;
    std::size_t photos = 0; // looked at
    std::size_t wrong() const;
};

// Reads everything; works while others write. Fails where there is no notebook and with cancelled
// when it was stopped; a database that cannot be opened is a finding.
Result<CheckReport> check(const std::filesystem::path& folder, const CheckWish& wish);

// The same, and mends: the index of words is made anew, photos found elsewhere are noted there (one
// act, which undo takes back), a damaged cache and what killed programs left is deleted.
// Precondition: the notebook is open for writing.
Result<CheckReport> check_and_mend(Notebook& notebook, const CheckWish& wish);

} // namespace fettle::desk
