// Files of photos brought to a notebook that has their records: found by their content, copied, and
// counted only when their hash is that of the record.
#pragma once

#include "notebook/notebook.h"
#include "notebook/photos.h"

#include <functional>
#include <map>
#include <set>
#include <stop_token>
#include <vector>

namespace fettle::desk {

struct BringWish {
    std::stop_token stop; // fails with cancelled
    std::function<void(std::size_t, std::size_t, const std::string&)> progress;
};

struct Brought {
    std::size_t brought = 0;
    std::vector<std::string> missing; // the files as recorded
};

// For each photo whose file is not where its record says: the file with its hash below `from`,
// copied there. A photo that was left in place elsewhere and is not there any more goes below
// photos/outside/, and its record with it, as one act.
Result<Brought> bring_photo_files(Notebook& notebook, const std::filesystem::path& from,
                                  const BringWish& wish);

// Plain files below a folder by their hash; only those of the given sizes are read. Links are not
// followed.
Result<std::map<std::string, std::filesystem::path>>
files_by_hash(const std::filesystem::path& folder, const std::set<std::int64_t>& sizes,
              const std::stop_token& stop);

// Where the notebook keeps a photo that stood outside: "photos/outside/HASH.jpg".
std::filesystem::path place_within(const Photo& photo);

// Whether the file stands where its record says, in the recorded size.
bool stands_there(const Notebook& notebook, const Photo& photo);

} // namespace fettle::desk
