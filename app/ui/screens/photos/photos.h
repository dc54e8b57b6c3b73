// All photos in working spells, those with something untied first; choosing some and tying them to
// a part, a task or an entry, accepting and mending the runs of tags, putting camera clocks right,
// putting photos into the entry being written, opening one large. All by keys alone as well.
#pragma once

#include "ui/context.h"
#include "ui/screens/photos/photo_clocks.h"
#include "ui/screens/photos/photo_intake.h"
#include "ui/screens/photos/photo_large.h"
#include "ui/screens/photos/photo_out.h"
#include "ui/screens/photos/photo_runs.h"
#include "ui/screens/photos/photo_spells.h"
#include "ui/screens/photos/photo_tying.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct PhotosQuestion {
    int show = 0;
    PartId part{};
    bool untied_first = false;
    bool operator==(const PhotosQuestion&) const = default;
};

// What a person is in the middle of, and what has been read for it.
struct PhotosState {
    enum Show { all, untied, of_a_part };
    int show = all;
    bool untied_first = true; // of all photos
    PartId part{};
    std::string part_name; // "H7 spring hanger"
    FindLine part_line;
    std::vector<PhotoId> chosen;
    PhotoId at{};     // under the keyboard's frame
    PhotoId anchor{}; // where a range begins
    PhotoId wanted{}; // to be brought into sight and under the frame
    TyingState tying;
    PhotoLargeState large;
    IntakeState intake;
    GiveOutState out;
    RunsState runs;
    ClocksState clocks;

    Snapshot<PhotoList, PhotosQuestion> list;
    TieWords ties;
    PhotoPage laid_out;
    std::uint64_t laid_out_for = 0; // the reading
    std::uint64_t read_at = 0;      // the notebook's change counter when it was looked at last
    float laid_out_width = 0;
    std::uint64_t leads_after = 0; // the reading that knows of the act that wanted a photo
    int last_frame = -1;
    bool extending = false; // an arrow was pressed with Shift
    int seen_focused = -1;  // the frame in which the keyboard was on a photo
};

void draw_photos(Page& page, Context& context, PhotosState& state);

// Shows the photo with that id large, at a mark when one is given; 0: the screen as it is.
void lead_to(PhotosState& state, const Place& place);
// Shows the photos of one part.
void show_photos_of(PhotosState& state, PartId part, const std::string& name);

} // namespace fettle::ui
