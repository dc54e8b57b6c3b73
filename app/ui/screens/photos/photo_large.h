// One photo filling the screen: zoomed with the wheel down to its pixels, moved by dragging, turned
// and mirrored, marks read by drawing a box. Below it a strip of figures, ties and acts.
#pragma once

#include "notebook/photos.h"
#include "ui/pictures/photo_view.h"
#include "ui/screens/marks/mark_reading.h"
#include "ui/screens/photos/photo_compare.h"
#include "ui/screens/photos/photo_filters.h"
#include "ui/screens/photos/photo_measure.h"
#include "ui/screens/photos/photo_tying.h"

#include <optional>
#include <vector>

namespace fettle::ui {

struct PhotoFacts {
    Photo photo;
    std::vector<Tie> ties;
    std::vector<Mark> marks;
};

// What a person is in the middle of.
struct PhotoLargeState {
    PhotoId photo{}; // none: the screen shows all photos
    PhotoView view;
    bool fitted = true;                 // the view follows the size of the window
    std::int64_t look_at = 0;           // a mark to look at as soon as it is read
    bool takes_keyboard = false;        // it has just been opened
    double turn_wanted = 0;             // by an act of the strip, in degrees
    bool all_come = true;               // what is seen is there at its full sharpness
    bool boxing = false;                // the next drag draws a box
    std::optional<PicturePoint> corner; // where the box being drawn began
    std::optional<MarkReading> reading;
    std::optional<CompareState> compare; // in its place: two photos compared
    PhotoFiltersState filters;
    PhotoMeasureState measure;
    Snapshot<PhotoFacts, std::int64_t> facts;

    void open(PhotoId id, std::int64_t mark = 0);
    void open_compared(PhotoId one, PhotoId other);
    void lie_as_taken(); // not turned, not mirrored, all of it in sight
};

// `order` is what ← and → go through. Sets state.photo to none when it is left.
void draw_photo_large(Page& page, Context& context, PhotoLargeState& state, TyingState& tying,
                      const std::vector<Photo>& order, std::size_t place);

} // namespace fettle::ui
