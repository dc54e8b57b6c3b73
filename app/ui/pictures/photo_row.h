// Photos in small: one thumbnail at a given height, and rows of them with a caption each.
// UI thread only.
#pragma once

#include "notebook/ties.h"
#include "ui/frame/page.h"
#include "ui/pictures/pixels.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

// The width a photo takes at this height; very long and very tall ones are cut at their ends.
float thumbnail_width(const Photo& photo, float height);
float thumbnail_width(int photo_width, int photo_height, float height);

// At the cursor, `height` in pixels; pressed like an image.
bool thumbnail(Page& page, std::string_view key, Pixels& pixels, const Photo& photo, float height,
               bool selected = false);

struct RowPhoto {
    Photo photo;
    std::string caption;
    bool selected = false;
};
// Side by side, and on to the next line; each has the key `key.ID`. The one pressed, if any.
std::optional<PhotoId> photo_row(Page& page, std::string_view key, Pixels& pixels,
                                 const std::vector<RowPhoto>& photos, float height = 112);

// "H7 before", "ream the shackle bush, during": a tie in the few words a caption holds.
std::string caption_of(const Tie& tie);
// "19:42", or the name of the file where no time is known.
std::string time_of(const Photo& photo);

} // namespace fettle::ui
