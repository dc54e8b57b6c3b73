// Painting a photo through any map from its pixels to the screen, from what has come of it: the
// shrunken whole, then tiles, the nearest coarser one where the right one is still coming. UI
// thread only.
#pragma once

#include "ui/pictures/photo_view.h"
#include "ui/pictures/pixels.h"

#include <imgui.h>

#include <string>

namespace fettle::ui {

// How closely a photo is looked at: a crop in a list, or a large photo, for which the picture is
// cut into tiles at all levels once and for all.
enum class Closeness { crop, large };

// Paints what of the photo lies in the rectangle. True: everything that is wanted has come.
bool paint_photo(const Page& page, Pixels& pixels, const Photo& photo, const Rect& where,
                 const photos::PlaneMap& map, Closeness closeness);

// A region cut out of the photo, drawn at `zoom`, at the cursor; pressed like an image.
bool crop(Page& page, std::string_view key, std::string_view label, Pixels& pixels,
          const Photo& photo, const Region& region, double zoom);

// A few words over a picture, on a ground of their own so that they can be read.
Rect label_over(const Page& page, ImVec2 at, const std::string& said);

} // namespace fettle::ui
