#include "desk/leftovers.h"

#include "base/half_folder.h"
#include "notebook/notebook.h"

#include <algorithm>

namespace fettle::desk {

namespace fs = std::filesystem;

std::vector<fs::path> cut_short(const fs::path& notebook) {
    const auto place = fs::absolute(notebook / ".").lexically_normal().parent_path();
    std::vector<fs::path> left;
    const auto add = [&](const std::vector<fs::path>& more) {
        left.insert(left.end(), more.begin(), more.end());
    };
    // Of its making: as it is a notebook now, that is over.
    add(left_of_making(place));
    if (const auto file = place / "last-backup.json.half"; fs::is_symlink(file) || fs::exists(file))
        left.push_back(file); // of an earlier version
    add(left_halves(place, "last-backup.json-", ".half"));
    add(left_halves(place / "met", "", ".half"));
    add(left_halves(place / "met", "unpacking-", ""));
    // Of a restoring or beginning in its place.
    add(left_halves(place.parent_path(), "." + place.filename().native() + ".half-", ""));
    return left;
}

} // namespace fettle::desk
