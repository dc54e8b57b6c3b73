// Parts on the wrong vehicle first. Then the makers, each with the crops of all marks read as
// theirs, side by side at one height; the marks without a maker below them. A crop leads to its
// photo at that place.
#pragma once

#include "notebook/marks.h"
#include "notebook/people.h"
#include "notebook/photos.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/marks/mark_shown.h"
#include "ui/screens/marks/marks_like.h"
#include "ui/screens/marks/wrong_vehicle.h"
#include "ui/screens/torch/torch.h"

#include <string>
#include <unordered_map>
#include <vector>

namespace fettle::ui {

struct MakerMarks {
    std::string maker; // empty: unknown
    std::string sign;  // what the mark looks like
    std::vector<MarkShown> marks;
};
struct VehicleMakers {
    Vehicle vehicle;
    std::vector<std::string> makers; // whose marks belong on it
};
struct MarksRead {
    std::vector<MakerMarks> makers; // by name, then the marks whose maker is not known
    std::vector<VehicleMakers> vehicles;
    std::vector<WrongVehicle> wrong;
};
Result<MarksRead> read_marks(const Notebook& book);

// What a person is in the middle of, and what has been read for it.
struct MarksState {
    MarkId at{}, wanted{};
    int last_frame = -1;
    MarksLikeState like;
    TorchState torch;
    Snapshot<MarksRead> makers;
    Clipped lines;
};

void draw_marks(Page& page, Context& context, MarksState& state);
// Brings the mark with that id into sight, or opens a torch set.
void lead_to(MarksState& state, const Place& place);

} // namespace fettle::ui
