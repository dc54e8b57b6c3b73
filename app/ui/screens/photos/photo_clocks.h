// Camera clocks on the screen of photos: the cameras with how far their clocks are wrong, and
// putting one right by a photo of a clock, by two photos of one moment, or by its zone. What would
// move, and how far, is said before it is done. UI thread only.
#pragma once

#include "notebook/clocks.h"
#include "notebook/photos.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct ClocksQuestion {
    std::string make, model;
    std::vector<PhotoId> chosen;
    std::string showed, zone;
    bool operator==(const ClocksQuestion&) const = default;
};

// What putting right would do.
struct ClockPlan {
    std::string chosen;         // what is known of the chosen photos
    bool same_moment = false;   // two cameras' photos are chosen and no time is typed
    std::string error;          // what is wrong with what was typed or chosen; empty: nothing
    std::string field;          // the field it stands below
    std::optional<Clock> clock; // none: nothing to do yet
    std::string effect;         // "23 photos move back 1:02:02: 20:44:07 becomes 19:42:05"
};

// What a person is in the middle of.
struct ClocksState {
    bool open = false;
    bool wants_caret = false;
    std::string make, model; // of the camera looked at
    PhotoId followed{};      // the photo by which that camera was found
    std::string showed, zone;
    Snapshot<std::vector<Camera>> cameras;
    Snapshot<ClockPlan, ClocksQuestion> plan;
};

// "1:02:03 ahead", "right".
std::string ahead_words(std::chrono::milliseconds ahead);

// `chosen`: the photos acted on, in the order they were chosen.
void draw_clocks(Page& page, Context& context, ClocksState& state,
                 const std::vector<PhotoId>& chosen);

} // namespace fettle::ui
