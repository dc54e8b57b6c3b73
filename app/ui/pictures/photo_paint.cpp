#include "ui/pictures/photo_paint.h"

#include "ui/widgets/acts.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

using photos::PlaneMap;

constexpr int kUnderlay = 2048, kThumbnail = 320;
constexpr int kDeepestLevel = 8;
constexpr int kMostCells = 24; // a side, of a picture seen at a slant

// A part of the picture in its pixels, and where in a texture it is drawn: u and v go from 0 to 1.
struct Piece {
    double x, y, width, height;
    double u0 = 0, v0 = 0, u1 = 1, v1 = 1;
};

ImVec2 on_screen(const PlaneMap& map, double x, double y) {
    const auto at = map({x, y});
    return {float(at.x), float(at.y)};
}

// Triangles bend a slanted picture: how many cells a side keep that below a quarter of a pixel.
int cells_for(const PlaneMap& map, const Piece& piece) {
    if (map.is_affine()) return 1;
    const double right = piece.x + piece.width, low = piece.y + piece.height;
    const auto a = map({piece.x, piece.y}), b = map({right, piece.y}), c = map({right, low}),
               d = map({piece.x, low});
    const auto middle = map({piece.x + piece.width / 2, piece.y + piece.height / 2});
    const double bent =
        std::hypot((a.x + b.x + c.x + d.x) / 4 - middle.x, (a.y + b.y + c.y + d.y) / 4 - middle.y);
    return std::clamp(int(std::ceil(std::sqrt(bent / 0.25))), 1, kMostCells);
}

void paint(const Texture& texture, const PlaneMap& map, const Piece& piece) {
    const int cells = cells_for(map, piece);
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const auto between = [cells](double from, double to, int at) {
        return from + (to - from) * at / cells;
    };
    for (int row = 0; row < cells; ++row)
        for (int column = 0; column < cells; ++column) {
            const double left = piece.x + between(0, piece.width, column);
            const double right = piece.x + between(0, piece.width, column + 1);
            const double top = piece.y + between(0, piece.height, row);
            const double low = piece.y + between(0, piece.height, row + 1);
            if (!map.is_affine() &&
                std::min({map.depth({left, top}), map.depth({right, top}), map.depth({right, low}),
                          map.depth({left, low})}) <= 0)
                continue; // beyond the horizon
            const auto u0 = float(between(piece.u0, piece.u1, column));
            const auto u1 = float(between(piece.u0, piece.u1, column + 1));
            const auto v0 = float(between(piece.v0, piece.v1, row));
            const auto v1 = float(between(piece.v0, piece.v1, row + 1));
            pen->AddImageQuad(texture.id(), on_screen(map, left, top), on_screen(map, right, top),
                              on_screen(map, right, low), on_screen(map, left, low), {u0, v0},
                              {u1, v0}, {u1, v1}, {u0, v1});
        }
}

// What is being painted, and how.
struct Painting {
    const Page& page;
    Pixels& pixels;
    const Photo& photo;
    const Rect& where;
    const PlaneMap& map;
    Closeness closeness;
    double scale = 1; // screen pixels for a picture pixel, the most that is seen

    bool large() const { return closeness == Closeness::large; }
    // In the large photo; a crop in a list is easier to read with its pixels running together.
    bool square_pixels() const { return large() && scale >= 2; }
};

// The part of the picture that the rectangle shows, as a box in its pixels; empty: none of it.
Region seen_part(const Painting& of) {
    const PlaneMap back = photos::undone(of.map);
    const Rect& where = of.where;
    for (const PicturePoint at :
         {PicturePoint{where.left, where.top}, PicturePoint{where.right, where.top},
          PicturePoint{where.right, where.bottom}, PicturePoint{where.left, where.bottom}})
        if (back.depth(at) <= 0) return {0, 0, of.photo.width, of.photo.height};
    return region_under(of.photo, of.map,
                        {where.left - 1, where.top - 1, where.right + 1, where.bottom + 1});
}

double most_scale(const PlaneMap& map, const Region& seen) {
    double most = 0;
    for (const double x : {double(seen.x), double(seen.x + seen.w)})
        for (const double y : {double(seen.y), double(seen.y + seen.h)})
            most = std::max(most, scale_at(map, {x, y}));
    return most;
}

bool paint_whole(const Painting& of) {
    const Texture* whole = of.large() ? of.pixels.picture(of.photo, kUnderlay) : nullptr;
    const bool come = whole != nullptr;
    if (!whole) whole = of.pixels.thumbnail(of.photo);
    if (whole) {
        whole->show_pixels(of.square_pixels() && whole->width() == of.photo.width);
        paint(*whole, of.map, {0, 0, double(of.photo.width), double(of.photo.height)});
    } else {
        const auto corners = screen_corners(of.map, {0, 0, of.photo.width, of.photo.height});
        ImVec2 points[4];
        for (std::size_t i = 0; i < 4; ++i)
            points[i] = {float(corners[i].x), float(corners[i].y)};
        ImGui::GetWindowDrawList()->AddConvexPolyFilled(points, 4, of.page.tone(Role::rule, 0.5F));
    }
    return of.large() ? come : whole != nullptr;
}

// The tiles of a level that a box of the picture touches, the last ones included.
struct TileBox {
    int first_column, first_row, last_column, last_row;
};

TileBox tiles_under(const Region& seen, const Photo& photo, int level, int around) {
    const int side = Pixels::kTile << level;
    const int columns = (photo.width - 1) / side, rows = (photo.height - 1) / side;
    return {std::max(0, seen.x / side - around), std::max(0, seen.y / side - around),
            std::min(columns, (seen.x + std::max(1, seen.w) - 1) / side + around),
            std::min(rows, (seen.y + std::max(1, seen.h) - 1) / side + around)};
}

Piece piece_of(const Photo& photo, const TilePlace& tile) {
    const int side = Pixels::kTile << tile.level;
    const int x = tile.column * side, y = tile.row * side;
    return {double(x), double(y), double(std::min(side, photo.width - x)),
            double(std::min(side, photo.height - y))};
}

// Levels halve and round up, so the last texel of a row may reach beyond the picture.
void reach_to_the_edge(Piece& piece, const Texture& texture, int level) {
    piece.u1 = piece.width / double(texture.width() << level);
    piece.v1 = piece.height / double(texture.height() << level);
}

// A part of the nearest coarser tile that has come, in place of one that has not.
void paint_coarser(const Painting& of, const TilePlace& wanted) {
    for (int level = wanted.level + 1; level <= kDeepestLevel; ++level) {
        const int up = level - wanted.level;
        const TilePlace place{level, wanted.column >> up, wanted.row >> up};
        const Texture* tile = of.pixels.large_tile_here(of.photo, place);
        if (!tile) continue;
        Piece piece = piece_of(of.photo, wanted);
        const Piece whole = piece_of(of.photo, place);
        const double across = double(tile->width() << level),
                     down = double(tile->height() << level);
        piece.u0 = (piece.x - whole.x) / across;
        piece.v0 = (piece.y - whole.y) / down;
        piece.u1 = (piece.x + piece.width - whole.x) / across;
        piece.v1 = (piece.y + piece.height - whole.y) / down;
        tile->show_pixels(false);
        paint(*tile, of.map, piece);
        return;
    }
}

bool in_sight(const Painting& of, const Piece& piece) {
    if (!of.map.is_affine()) return true;
    const Rect box = screen_box(of.map, {int(piece.x), int(piece.y), int(std::ceil(piece.width)),
                                         int(std::ceil(piece.height))});
    return box.left <= of.where.right && box.right >= of.where.left && box.top <= of.where.bottom &&
           box.bottom >= of.where.top;
}

bool paint_tile(const Painting& of, const TilePlace& place) {
    Piece piece = piece_of(of.photo, place);
    if (!in_sight(of, piece)) return true;
    const bool cut = of.large() && of.pixels.is_cut(of.photo);
    const Texture* tile =
        cut ? of.pixels.large_tile(of.photo, place) : of.pixels.tile(of.photo, place);
    if (!tile) {
        if (cut) paint_coarser(of, place);
        return false;
    }
    if (cut) reach_to_the_edge(piece, *tile, place.level);
    tile->show_pixels(of.square_pixels());
    paint(*tile, of.map, piece);
    return true;
}

// Those just out of sight, so that they are there when the picture is moved.
void ask_around(const Painting& of, const Region& seen, int level) {
    const auto box = tiles_under(seen, of.photo, level, 1);
    for (int row = box.first_row; row <= box.last_row; ++row)
        for (int column = box.first_column; column <= box.last_column; ++column)
            (void)of.pixels.large_tile(of.photo, {level, column, row});
}

bool paint_tiles(const Painting& of, const Region& seen) {
    if (of.large() && !of.pixels.wait_for_cut(of.photo)) return false;
    const int level = std::clamp(int(std::floor(std::log2(1 / of.scale))), 0, kDeepestLevel);
    const auto box = tiles_under(seen, of.photo, level, 0);
    bool all = true;
    for (int row = box.first_row; row <= box.last_row; ++row)
        for (int column = box.first_column; column <= box.last_column; ++column)
            all = paint_tile(of, {level, column, row}) && all;
    if (all && of.large() && of.pixels.is_cut(of.photo)) ask_around(of, seen, level);
    return all;
}

} // namespace

bool paint_photo(const Page& page, Pixels& pixels, const Photo& photo, const Rect& where,
                 const PlaneMap& map, Closeness closeness) {
    if (photo.width <= 0 || photo.height <= 0 || where.empty()) return true;
    Painting of{page, pixels, photo, where, map, closeness};
    const Region seen = seen_part(of);
    if (seen.w <= 0 || seen.h <= 0) return true;
    of.scale = most_scale(map, seen);
    ImGui::GetWindowDrawList()->PushClipRect(ImVec2(where.left, where.top),
                                             ImVec2(where.right, where.bottom), true);
    const int longest = std::max(photo.width, photo.height);
    const int whole_side = of.large() ? kUnderlay : kThumbnail;
    bool all = paint_whole(of);
    // The shrunken whole does until it would have to be drawn larger than it is.
    if (of.scale * longest > whole_side && longest > whole_side) all = paint_tiles(of, seen) && all;
    ImGui::GetWindowDrawList()->PopClipRect();
    return all;
}

Rect label_over(const Page& page, ImVec2 at, const std::string& said) {
    const InFace fine(page, Face::fine);
    const ImVec2 size = ImGui::CalcTextSize(said.c_str());
    const float pad = page.px(3);
    const ImVec2 low(at.x + size.x + 2 * pad, at.y + size.y + pad);
    ImGui::GetWindowDrawList()->AddRectFilled(at, low, page.tone(Role::paper, 0.9F));
    write_at(page, at.x + pad, at.y + pad / 2, said);
    return {at.x, at.y, low.x, low.y};
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
    paint_photo(page, pixels, photo, where, to_screen(where, view), Closeness::crop);
    if (awake)
        ImGui::GetWindowDrawList()->AddRect(at, ImVec2(where.right, where.bottom),
                                            page.tone(Role::blue_steel), 0, 0, page.px(2));
    return pressed;
}

} // namespace fettle::ui
