// A photo seen through a rectangle of the screen at any zoom, down to its pixels: the geometry, and
// the painting of it from the shrunken whole and the tiles that have come. UI thread only.
#pragma once

#include "notebook/marks.h"
#include "ui/page.h"
#include "ui/pixels.h"

namespace fettle::ui {

// Where one looks: picture pixels of the upright picture, and screen pixels for each of them.
struct PhotoView {
    double zoom = 1;
    double x = 0, y = 0; // the place of the picture in the middle of the rectangle
};

inline constexpr double kMostZoom = 16;

// The whole picture in the rectangle; small pictures are not blown up.
PhotoView fitting_view(const Photo& photo, const Rect& where);
// A region in the middle with some of its surroundings.
PhotoView view_of_region(const Photo& photo, const Rect& where, const Region& region);
// Zoomed so that what is under the pointer stays there, between the fitting view and kMostZoom.
PhotoView zoomed(const Photo& photo, const Rect& where, PhotoView view, double zoom, float at_x,
                 float at_y);
// Moved back so far that the picture does not leave the rectangle.
PhotoView held_in(const Photo& photo, const Rect& where, PhotoView view);

struct PicturePoint {
    double x = 0, y = 0;
};
PicturePoint picture_point(const Rect& where, const PhotoView& view, float x, float y);
Rect screen_rect(const Rect& where, const PhotoView& view, const Region& region);

// Paints what of the photo lies in the rectangle. Below the tiles lies the whole shrunk to
// `underlay` pixels (0: the thumbnail). True: everything that is wanted has come.
bool paint_photo(const Page& page, Pixels& pixels, const Photo& photo, const Rect& where,
                 const PhotoView& view, int underlay);

// A region cut out of the photo, drawn at `zoom`, at the cursor; pressed like an image.
bool crop(Page& page, std::string_view key, std::string_view label, Pixels& pixels,
          const Photo& photo, const Region& region, double zoom);

} // namespace fettle::ui
