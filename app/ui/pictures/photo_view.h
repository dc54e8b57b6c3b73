// A photo seen through a rectangle of the screen at any zoom, turned and mirrored at will: the
// geometry, as maps between the picture's pixels and the screen's. Painting is photo_paint.h.
#pragma once

#include "notebook/marks.h"
#include "notebook/photos.h"
#include "photos/plane_map.h"
#include "ui/frame/page.h"

#include <array>

namespace fettle::ui {

using PicturePoint = photos::PlanePoint; // pixels of the upright picture

// Where one looks: picture pixels of the upright picture, and screen pixels for each of them.
struct PhotoView {
    double zoom = 1;
    double x = 0, y = 0;   // the place of the picture in the middle of the rectangle
    double turn = 0;       // degrees clockwise on the screen, 0 to 360
    bool mirrored = false; // left and right changed before it is turned
};

inline constexpr double kMostZoom = 16;

// The whole picture in the rectangle, turned as `like` is; small pictures are not blown up.
PhotoView fitting_view(const Photo& photo, const Rect& where, const PhotoView& like = {});
// A region in the middle with some of its surroundings.
PhotoView view_of_region(const Photo& photo, const Rect& where, const Region& region,
                         const PhotoView& like = {});
// Zoomed so that what is under the pointer stays there, between the fitting view and kMostZoom.
PhotoView zoomed(const Photo& photo, const Rect& where, PhotoView view, double zoom, float at_x,
                 float at_y);
// Turned about the middle of the rectangle, clockwise.
PhotoView turned(const Photo& photo, const Rect& where, PhotoView view, double degrees);
// As seen in a mirror: left and right of the screen change places.
PhotoView mirrored(PhotoView view);
// What lies under the pointer goes with it, by so many screen pixels.
PhotoView moved(const Photo& photo, const Rect& where, PhotoView view, double across, double down);
// Moved back so far that the picture does not leave the rectangle.
PhotoView held_in(const Photo& photo, const Rect& where, PhotoView view);

// From the picture to the screen, and back with photos::undone().
photos::PlaneMap to_screen(const Rect& where, const PhotoView& view);
PicturePoint picture_point(const Rect& where, const PhotoView& view, float x, float y);

// Screen pixels for a picture pixel near a point.
double scale_at(const photos::PlaneMap& map, PicturePoint point);
// The corners of a region on the screen, in the order left top, right top, right low, left low of
// the picture; and the upright box round them.
std::array<PicturePoint, 4> screen_corners(const photos::PlaneMap& map, const Region& region);
Rect screen_box(const photos::PlaneMap& map, const Region& region);
// What of the picture a box of the screen holds: the least region round its corners.
Region region_under(const Photo& photo, const photos::PlaneMap& map, const Rect& box);

} // namespace fettle::ui
