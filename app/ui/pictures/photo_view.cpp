#include "ui/pictures/photo_view.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fettle::ui {
namespace {

using photos::PlaneMap;

// Turned and mirrored: from picture directions to screen directions, row by row.
struct Axes {
    double xx, xy, yx, yy;
};

Axes axes_of(const PhotoView& view) {
    // Quarter turns without the last digits of pi, so that their pixels stay in place.
    const double quarters = view.turn / 90;
    const bool even = quarters == std::floor(quarters);
    const int quarter = even ? int(std::lround(quarters)) & 3 : 0;
    constexpr double kCosines[] = {1, 0, -1, 0};
    const double angle = view.turn * std::numbers::pi / 180;
    const double c = even ? kCosines[quarter] : std::cos(angle);
    const double s = even ? kCosines[(quarter + 3) & 3] : std::sin(angle);
    const double way = view.mirrored ? -1 : 1;
    return {c * way, -s, s * way, c};
}

struct Across {
    double width, height;
};

// The upright box round the turned picture, in picture pixels.
Across box_of(const Photo& photo, const Axes& axes) {
    return {std::abs(axes.xx) * photo.width + std::abs(axes.xy) * photo.height,
            std::abs(axes.yx) * photo.width + std::abs(axes.yy) * photo.height};
}

double fitting_zoom(const Photo& photo, const Rect& where, const PhotoView& view) {
    if (photo.width <= 0 || photo.height <= 0) return 1;
    const auto [width, height] = box_of(photo, axes_of(view));
    return std::min({1.0, double(where.width()) / width, double(where.height()) / height});
}

// Along one side: how far the middle of the box may lie from the middle of the screen.
double held(double away, double seen, double length) {
    const double most = std::max(0.0, (length - seen) / 2);
    return std::clamp(away, -most, most);
}

} // namespace

PhotoView fitting_view(const Photo& photo, const Rect& where, const PhotoView& like) {
    return {fitting_zoom(photo, where, like), photo.width / 2.0, photo.height / 2.0, like.turn,
            like.mirrored};
}

PhotoView view_of_region(const Photo& photo, const Rect& where, const Region& region,
                         const PhotoView& like) {
    const double wanted = std::min(where.width() / (2.5 * std::max(1, region.w)),
                                   where.height() / (2.5 * std::max(1, region.h)));
    const double least = fitting_zoom(photo, where, like);
    return held_in(photo, where,
                   {std::clamp(wanted, least, std::max(least, 4.0)), region.x + region.w / 2.0,
                    region.y + region.h / 2.0, like.turn, like.mirrored});
}

PhotoView zoomed(const Photo& photo, const Rect& where, PhotoView view, double zoom, float at_x,
                 float at_y) {
    const auto under = picture_point(where, view, at_x, at_y);
    view.zoom = std::clamp(zoom, fitting_zoom(photo, where, view), kMostZoom);
    const auto now = to_screen(where, view)(under);
    return moved(photo, where, view, at_x - now.x, at_y - now.y);
}

PhotoView turned(const Photo& photo, const Rect& where, PhotoView view, double degrees) {
    view.turn = std::fmod(std::fmod(view.turn + degrees, 360) + 360, 360);
    view.zoom = std::max(view.zoom, fitting_zoom(photo, where, view));
    return held_in(photo, where, view);
}

PhotoView mirrored(PhotoView view) {
    // A mirror before the turning, and the turning the other way, is a mirror after it.
    view.turn = std::fmod(360 - view.turn, 360);
    view.mirrored = !view.mirrored;
    return view;
}

PhotoView moved(const Photo& photo, const Rect& where, PhotoView view, double across, double down) {
    const Axes a = axes_of(view); // undone by its transpose
    view.x -= (a.xx * across + a.yx * down) / view.zoom;
    view.y -= (a.xy * across + a.yy * down) / view.zoom;
    return held_in(photo, where, view);
}

PhotoView held_in(const Photo& photo, const Rect& where, PhotoView view) {
    const Axes a = axes_of(view);
    const auto box = box_of(photo, a);
    const double x = photo.width / 2.0 - view.x, y = photo.height / 2.0 - view.y;
    const double across = held(a.xx * x + a.xy * y, where.width() / view.zoom, box.width);
    const double down = held(a.yx * x + a.yy * y, where.height() / view.zoom, box.height);
    view.x = photo.width / 2.0 - (a.xx * across + a.yx * down);
    view.y = photo.height / 2.0 - (a.xy * across + a.yy * down);
    return view;
}

PlaneMap to_screen(const Rect& where, const PhotoView& view) {
    const Axes a = axes_of(view);
    const double z = view.zoom;
    const double x = (where.left + where.right) / 2 - z * (a.xx * view.x + a.xy * view.y);
    const double y = (where.top + where.bottom) / 2 - z * (a.yx * view.x + a.yy * view.y);
    return {{z * a.xx, z * a.xy, x, z * a.yx, z * a.yy, y, 0, 0, 1}};
}

PicturePoint picture_point(const Rect& where, const PhotoView& view, float x, float y) {
    return photos::undone(to_screen(where, view))({x, y});
}

double scale_at(const PlaneMap& map, PicturePoint point) {
    const auto& m = map.m;
    const double det = m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) +
                       m[2] * (m[3] * m[7] - m[4] * m[6]);
    const double depth = std::abs(map.depth(point));
    return std::sqrt(std::abs(det) / std::max(1e-12, depth * depth * depth));
}

std::array<PicturePoint, 4> screen_corners(const PlaneMap& map, const Region& region) {
    const double left = region.x, top = region.y;
    const double right = left + region.w, low = top + region.h;
    return {map({left, top}), map({right, top}), map({right, low}), map({left, low})};
}

Rect screen_box(const PlaneMap& map, const Region& region) {
    const auto corners = screen_corners(map, region);
    const auto [left, right] = std::ranges::minmax(corners, {}, &PicturePoint::x);
    const auto [top, low] = std::ranges::minmax(corners, {}, &PicturePoint::y);
    return {float(left.x), float(top.y), float(right.x), float(low.y)};
}

Region region_under(const Photo& photo, const PlaneMap& map, const Rect& box) {
    const PlaneMap back = photos::undone(map);
    double left = photo.width, top = photo.height, right = 0, low = 0;
    for (const PicturePoint at : {PicturePoint{box.left, box.top},
                                  {box.right, box.top},
                                  {box.right, box.bottom},
                                  {box.left, box.bottom}}) {
        const auto there = back(at);
        left = std::min(left, there.x);
        right = std::max(right, there.x);
        top = std::min(top, there.y);
        low = std::max(low, there.y);
    }
    const auto inside = [](double at, int length) {
        return static_cast<int>(std::lround(std::clamp(at, 0.0, double(length))));
    };
    const int x = inside(left, photo.width), y = inside(top, photo.height);
    return {x, y, std::max(0, inside(right, photo.width) - x),
            std::max(0, inside(low, photo.height) - y)};
}

} // namespace fettle::ui
