#include "ui/photo_view.h"

#include "ui/acts.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr int kDeepestLevel = 8;

double fitting_zoom(const Photo& photo, const Rect& where) {
    if (photo.width <= 0 || photo.height <= 0) return 1;
    return std::min(
        {1.0, double(where.width()) / photo.width, double(where.height()) / photo.height});
}

// Along one side: in the middle when all of it is seen, else without empty room at the ends.
double held(double at, double seen, double length) {
    if (seen >= length) return length / 2;
    return std::clamp(at, seen / 2, length - seen / 2);
}

Rect whole_of(const Photo& photo, const Rect& where, const PhotoView& view) {
    return screen_rect(where, view, {0, 0, photo.width, photo.height});
}

void paint(const Texture& texture, const Rect& at) {
    ImGui::GetWindowDrawList()->AddImage(texture.id(), ImVec2(at.left, at.top),
                                         ImVec2(at.right, at.bottom));
}

// In the large photo; a crop in a list is easier to read with its pixels running together.
bool square_pixels(const PhotoView& view, int underlay) {
    return underlay > 0 && view.zoom >= 2;
}

bool paint_whole(const Page& page, Pixels& pixels, const Photo& photo, const Rect& at,
                 const PhotoView& view, int underlay) {
    const Texture* whole = underlay > 0 ? pixels.picture(photo, underlay) : nullptr;
    const bool come = whole != nullptr;
    if (!whole) whole = pixels.thumbnail(photo);
    if (whole) {
        whole->show_pixels(square_pixels(view, underlay) && whole->width() == photo.width);
        paint(*whole, at);
    } else {
        ImGui::GetWindowDrawList()->AddRectFilled(
            ImVec2(at.left, at.top), ImVec2(at.right, at.bottom), page.tone(Role::rule, 0.5F));
    }
    return underlay > 0 ? come : whole != nullptr;
}

bool paint_tiles(Pixels& pixels, const Photo& photo, const Rect& where, const PhotoView& view,
                 int underlay) {
    const int level = std::clamp(int(std::floor(std::log2(1 / view.zoom))), 0, kDeepestLevel);
    const int side = Pixels::kTile << level;
    const auto low = picture_point(where, view, where.left, where.top);
    const auto high = picture_point(where, view, where.right, where.bottom);
    const int first_column = std::max(0, int(low.x) / side);
    const int first_row = std::max(0, int(low.y) / side);
    const int last_column = std::min(photo.width - 1, int(high.x)) / side;
    const int last_row = std::min(photo.height - 1, int(high.y)) / side;
    bool all = true;
    for (int row = first_row; row <= last_row; ++row)
        for (int column = first_column; column <= last_column; ++column) {
            const Texture* tile = pixels.tile(photo, level, column, row);
            all = all && tile != nullptr;
            if (!tile) continue;
            tile->show_pixels(square_pixels(view, underlay));
            const Region area{column * side, row * side,
                              std::min(side, photo.width - column * side),
                              std::min(side, photo.height - row * side)};
            paint(*tile, screen_rect(where, view, area));
        }
    return all;
}

} // namespace

PhotoView fitting_view(const Photo& photo, const Rect& where) {
    return {fitting_zoom(photo, where), photo.width / 2.0, photo.height / 2.0};
}

PhotoView view_of_region(const Photo& photo, const Rect& where, const Region& region) {
    const double wanted = std::min(where.width() / (2.5 * std::max(1, region.w)),
                                   where.height() / (2.5 * std::max(1, region.h)));
    const double least = fitting_zoom(photo, where);
    return held_in(photo, where,
                   {std::clamp(wanted, least, std::max(least, 4.0)), region.x + region.w / 2.0,
                    region.y + region.h / 2.0});
}

PhotoView zoomed(const Photo& photo, const Rect& where, PhotoView view, double zoom, float at_x,
                 float at_y) {
    const auto under = picture_point(where, view, at_x, at_y);
    const double fresh = std::clamp(zoom, fitting_zoom(photo, where), kMostZoom);
    view.x = under.x - (at_x - (where.left + where.right) / 2) / fresh;
    view.y = under.y - (at_y - (where.top + where.bottom) / 2) / fresh;
    view.zoom = fresh;
    return held_in(photo, where, view);
}

PhotoView held_in(const Photo& photo, const Rect& where, PhotoView view) {
    view.x = held(view.x, where.width() / view.zoom, photo.width);
    view.y = held(view.y, where.height() / view.zoom, photo.height);
    return view;
}

PicturePoint picture_point(const Rect& where, const PhotoView& view, float x, float y) {
    return {view.x + (x - (where.left + where.right) / 2) / view.zoom,
            view.y + (y - (where.top + where.bottom) / 2) / view.zoom};
}

Rect screen_rect(const Rect& where, const PhotoView& view, const Region& region) {
    const double middle_x = (where.left + where.right) / 2;
    const double middle_y = (where.top + where.bottom) / 2;
    const auto across = [&](double x) { return float(middle_x + (x - view.x) * view.zoom); };
    const auto down = [&](double y) { return float(middle_y + (y - view.y) * view.zoom); };
    return {across(region.x), down(region.y), across(region.x + region.w),
            down(region.y + region.h)};
}

bool paint_photo(const Page& page, Pixels& pixels, const Photo& photo, const Rect& where,
                 const PhotoView& view, int underlay) {
    if (photo.width <= 0 || photo.height <= 0 || where.empty()) return true;
    ImGui::GetWindowDrawList()->PushClipRect(ImVec2(where.left, where.top),
                                             ImVec2(where.right, where.bottom), true);
    const int longest = std::max(photo.width, photo.height);
    const int whole_side = underlay > 0 ? underlay : 320;
    bool all = paint_whole(page, pixels, photo, whole_of(photo, where, view), view, underlay);
    // The shrunken whole does until it would have to be drawn larger than it is.
    if (view.zoom * longest > whole_side && longest > whole_side)
        all = paint_tiles(pixels, photo, where, view, underlay) && all;
    ImGui::GetWindowDrawList()->PopClipRect();
    return all;
}

bool crop(Page& page, std::string_view key, std::string_view label, Pixels& pixels,
          const Photo& photo, const Region& region, double zoom) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = std::max(1.0F, float(region.w * zoom));
    const float height = std::max(1.0F, float(region.h * zoom));
    const bool pressed = image(page, key, label, {.width = width, .height = height});
    if (!ImGui::IsItemVisible()) return pressed;
    const bool awake = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    const Rect where{at.x, at.y, at.x + width, at.y + height};
    const PhotoView view{zoom, region.x + region.w / 2.0, region.y + region.h / 2.0};
    paint_photo(page, pixels, photo, where, view, 0);
    if (awake)
        ImGui::GetWindowDrawList()->AddRect(at, ImVec2(where.right, where.bottom),
                                            page.tone(Role::blue_steel), 0, 0, page.px(2));
    return pressed;
}

} // namespace fettle::ui
