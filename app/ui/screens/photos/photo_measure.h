// Measuring in the large photo: what is known is set by pressing its ends or corners and typing its
// size, then distances are measured by pressing their ends. Every point can be drawn elsewhere
// afterwards. What is set is kept with the photo at once, as acts.
#pragma once

#include "notebook/photo_scales.h"
#include "notebook/photos.h"
#include "photos/picture_measure.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/pictures/photo_view.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

// What is kept with a photo, and what it comes to.
struct MeasuredPhoto {
    struct Line {
        photos::Distance ends;
        std::optional<photos::MeasuredDistance> figure; // none: `trouble` says why
        std::string metric, inch, trouble;
    };
    PhotoId photo{};
    std::optional<photos::KnownInPicture> known;
    std::string known_words; // "25.4 mm"
    std::vector<Line> lines;
    std::string trouble; // why what is kept cannot be read
};
Result<MeasuredPhoto> read_measured(const Notebook& book, PhotoId photo);

// A point of the picture that can be drawn: one of those being set, of what is known, or an end of
// a distance.
struct Grip {
    enum class Of { setting, known, distance };
    Of of = Of::setting;
    std::size_t distance = 0, point = 0;
    bool operator==(const Grip&) const = default;
};

struct PhotoMeasureState {
    bool open = false;
    bool by_rectangle = false;
    bool changing = false;                     // what is known is being typed anew
    std::vector<photos::ClickedPoint> setting; // what will be known, so far
    std::optional<photos::ClickedPoint> from;  // the first end of a distance
    std::string length, width, height;         // as typed
    std::string error;
    bool take_caret = false;
    std::optional<Grip> held;
    photos::ClickedPoint held_at;
    Snapshot<MeasuredPhoto, std::int64_t> kept;

    std::size_t points_needed() const { return by_rectangle ? 4 : 2; }
    bool setting_up(const MeasuredPhoto& measured) const { return changing || !measured.known; }
    void leave_photo(); // what was begun is given up
};

struct MeasureView {
    const Photo& photo;
    const Rect& where;
    const PhotoView& view;
};

// With the item of the picture drawn last; `clicked`: pressed and let go on one spot. True: the
// pointer draws a point, and must not move the picture.
bool measure_by_pointer(Context& context, PhotoMeasureState& state, const MeasureView& on,
                        bool clicked);
// Lines, points and figures over the picture.
void draw_measured(Page& page, Context& context, PhotoMeasureState& state, const MeasureView& on);
void draw_measure_strip(Page& page, Context& context, PhotoMeasureState& state, const Photo& photo);

} // namespace fettle::ui
