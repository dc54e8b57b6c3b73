// Times for photos that have none, by the photos beside them: cameras count their pictures, so the
// numbers in the names of one folder tell what was taken between what. Pure; knows no notebook.
#pragma once

#include "base/date.h"
#include "base/ids.h"

#include <filesystem>
#include <optional>
#include <vector>

namespace fettle::desk {

struct Dated {
    std::filesystem::path file;
    PhotoId photo;
    std::optional<Moment> taken;
};

struct Guess {
    PhotoId photo;
    Moment taken;
    PhotoId near; // the neighbour it hangs on
};

// For each photo without a time that has a numbered neighbour with one, at most 50 numbers away, in
// its folder and series: in between two by their numbers, beside one a second for each number.
std::vector<Guess> guess_by_neighbours(const std::vector<Dated>& photos);

} // namespace fettle::desk
