// How a mark was looked at when it was read: the filters, and how the picture was turned. Kept with
// the mark, so that it can be seen that way again. Pure; any thread.
#pragma once

#include "photos/stamp_filters.h"

#include <string>

namespace fettle::photos {

struct SeenWith {
    StampFilters filters;
    double turn = 0;       // degrees clockwise, 0 to 360
    bool mirrored = false; // left and right changed before it was turned
    std::string torch;     // a torch set, as JSON (desk/torch_marks.h); blank: none

    bool plain() const { return !filters.any() && turn == 0 && !mirrored && torch.empty(); }
    bool operator==(const SeenWith&) const = default;
};

// {"filters": {...}, "turn": 90, "mirrored": false, "torch": {...}}, each left out where it changes
// nothing; blank when all is as in the photo.
std::string to_json(const SeenWith& seen);
// Blank is plain. Refused (invalid): no JSON object, an unknown name, a turn outside 0 to 360, a
// torch set that is no object (what is in it is not looked at), and as filters_from_json does.
Result<SeenWith> seen_with_from_json(std::string_view text);

} // namespace fettle::photos
