// Making a stamping legible in the large photo: the strip of sliders, and the picture painted as
// the filters make it. The settings belong to the photo being looked at, until they are kept with a
// mark.
#pragma once

#include "notebook/marks.h"
#include "photos/seen_with.h"
#include "ui/frame/page.h"
#include "ui/pictures/photo_view.h"
#include "ui/pictures/pixels.h"

namespace fettle::ui {

struct PhotoFiltersState {
    bool open = false; // the strip is
    photos::StampFilters filters;
    bool without = false;     // for a look at the photo as it is
    bool keys_moving = false; // ← and → move a slider in this frame

    bool shown() const { return filters.any() && !without; }
    void begin(const PhotoView& view);       // opens the strip, with something to begin from
    void take(const photos::SeenWith& seen); // as a mark was seen when it was read
};

// What is to be kept with a mark read now.
photos::SeenWith seen_now(const PhotoFiltersState& state, const PhotoView& view);
// "even light 70 %, local contrast 60 %, turned 90°"; empty when plain.
std::string in_words(const photos::SeenWith& seen);

// The sliders, and the keys that belong to them.
void draw_filters(Page& page, PhotoFiltersState& state, const PhotoView& view);

// Over the painted photo. True: what is seen is as the settings are.
bool paint_filtered(Pixels& pixels, const Photo& photo, const Rect& where, const PhotoView& view,
                    const photos::StampFilters& filters);

// A crop as in photo_paint.h, of a mark as it was seen.
bool mark_crop(Page& page, std::string_view key, Pixels& pixels, const Photo& photo,
               const Mark& mark, double zoom);

} // namespace fettle::ui
