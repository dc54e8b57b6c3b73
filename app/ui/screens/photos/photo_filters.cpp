#include "ui/screens/photos/photo_filters.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/pictures/photo_paint.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/sliders.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

using photos::StampFilters;

struct Amount {
    const char *key, *label;
    double StampFilters::*value;
};
constexpr Amount kAmounts[] = {{"filters.flatten", "even light", &StampFilters::flatten},
                               {"filters.contrast", "local contrast", &StampFilters::contrast},
                               {"filters.relief", "relief", &StampFilters::relief},
                               {"filters.sharpen", "sharpen", &StampFilters::sharpen}};
constexpr float kSlider = 136, kDial = 148;

std::string percent(double share) {
    return std::to_string(std::lround(share * 100)) + " %";
}

// From the photo's side to the side of the screen it is seen at, and back.
double side_on_screen(double side, const PhotoView& view) {
    return std::fmod((view.mirrored ? 360 - side : side) + view.turn + 720, 360);
}
double side_in_photo(double side, const PhotoView& view) {
    const double turned_back = std::fmod(side - view.turn + 720, 360);
    return std::fmod(view.mirrored ? 360 - turned_back : turned_back, 360);
}

bool sliders(Page& page, Flow& flow, StampFilters& filters) {
    bool focused = false;
    for (const Amount& amount : kAmounts) {
        flow.place(page.px(kSlider));
        const std::string shown = percent(filters.*amount.value);
        focused |= slider(page, amount.key, filters.*amount.value,
                          {.label = amount.label, .shown = shown, .width = kSlider})
                       .focused;
    }
    // By ratios: from 4 to 8 is as much as from 40 to 80.
    double size = std::log2(filters.radius);
    const std::string shown = std::to_string(std::lround(filters.radius)) + " px";
    flow.place(page.px(kSlider));
    const Slid slid = slider(page, "filters.radius", size,
                             {.label = "size of the letters",
                              .shown = shown,
                              .least = std::log2(photos::kLeastRadius),
                              .most = std::log2(photos::kMostRadius),
                              .width = kSlider});
    if (slid.changed)
        filters.radius = std::clamp(std::exp2(size), photos::kLeastRadius, photos::kMostRadius);
    return focused || slid.focused;
}

bool light_side(Page& page, Flow& flow, StampFilters& filters, const PhotoView& view) {
    double side = side_on_screen(filters.light_from, view);
    flow.place(page.px(kDial));
    ImGui::BeginDisabled(filters.relief <= 0);
    const Slid slid = side_dial(page, "filters.side", "relief lit from", side);
    ImGui::EndDisabled();
    if (slid.changed) filters.light_from = side_in_photo(side, view);
    return slid.focused;
}

void acts(Page& page, Flow& flow, PhotoFiltersState& state) {
    const auto act = [&](std::string_view key, std::string_view label, std::string_view hint,
                         bool enabled = true) {
        const ButtonLook look{.weight = Weight::quiet, .key_hint = hint, .enabled = enabled};
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    flow.place(width_of(page, "dark for light") + width_of(page, "N", Face::fine) +
               page.px(Measure::kRow));
    if (pressed({.key = 'N'})) state.filters.invert = !state.filters.invert;
    check(page, "filters.invert", "dark for light", state.filters.invert);
    ImGui::SameLine(0, page.px(Measure::kStep));
    words_beside(page, "N", Role::pencil, Face::fine);
    const bool any = state.filters.any();
    if (act("filters.without", state.without ? "with filters" : "without", "W", any) ||
        (any && pressed({.key = 'W'})))
        state.without = !state.without;
    if (act("filters.reset", "reset", "Z") || pressed({.key = 'Z'})) {
        const double radius = state.filters.radius;
        state.filters = {.radius = radius};
        state.without = false;
    }
}

} // namespace

void PhotoFiltersState::begin(const PhotoView& view) {
    open = true;
    without = false;
    if (filters.any()) return;
    // Letters as they mostly stand on the screen when one looks for them.
    filters.radius = std::clamp(40 / view.zoom, photos::kLeastRadius, photos::kMostRadius);
    filters.flatten = 0.7;
    filters.contrast = 0.6;
}

void PhotoFiltersState::take(const photos::SeenWith& seen) {
    filters = seen.filters;
    without = false;
}

photos::SeenWith seen_now(const PhotoFiltersState& state, const PhotoView& view) {
    photos::SeenWith seen{{}, view.turn, view.mirrored};
    if (state.shown()) seen.filters = state.filters;
    return seen;
}

std::string in_words(const photos::SeenWith& seen) {
    std::vector<std::string> said;
    for (const Amount& amount : kAmounts)
        if (seen.filters.*amount.value > 0)
            said.push_back(amount.label + (" " + percent(seen.filters.*amount.value)));
    if (seen.filters.invert) said.push_back("dark for light");
    if (seen.turn != 0) said.push_back("turned " + std::to_string(std::lround(seen.turn)) + "°");
    if (seen.mirrored) said.push_back("mirrored");
    return join(said, ", ");
}

void draw_filters(Page& page, PhotoFiltersState& state, const PhotoView& view) {
    Flow flow(page, Measure::kGap);
    state.keys_moving = sliders(page, flow, state.filters);
    state.keys_moving |= light_side(page, flow, state.filters, view);
    Flow next(page, Measure::kGap);
    acts(page, next, state);
}

bool paint_filtered(Pixels& pixels, const Photo& photo, const Rect& where, const PhotoView& view,
                    const photos::StampFilters& filters) {
    if (photo.width <= 0 || photo.height <= 0 || where.empty()) return true;
    if (!pixels.wait_for_cut(photo)) return false;
    const auto map = to_screen(where, view);
    const Region seen = region_under(photo, map, where);
    const int level = std::max(0, int(std::floor(std::log2(1 / view.zoom))));
    const auto shown = pixels.filtered("large", photo, level, seen, filters);
    if (!shown) return false;
    shown->texture->show_pixels(view.zoom >= 2);
    const auto corners = screen_corners(map, shown->region);
    const auto at = [&](std::size_t corner) {
        return ImVec2(float(corners[corner].x), float(corners[corner].y));
    };
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->PushClipRect(ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), true);
    pen->AddImageQuad(shown->texture->id(), at(0), at(1), at(2), at(3));
    pen->PopClipRect();
    return true;
}

bool mark_crop(Page& page, std::string_view key, Pixels& pixels, const Photo& photo,
               const Mark& mark, double zoom) {
    const bool pressed = crop(page, key, mark.reading, pixels, photo, mark.region, zoom);
    if (mark.seen_with.empty() || !ImGui::IsItemVisible()) return pressed;
    const auto seen = photos::seen_with_from_json(mark.seen_with);
    if (!seen || !seen->filters.any()) return pressed;
    const auto shown = pixels.filtered_crop(photo, mark.region, zoom, seen->filters);
    if (!shown) return pressed;
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const Region &part = shown->region, &box = mark.region;
    const auto u = [&](int x) { return float(x - part.x) / float(part.w); };
    const auto v = [&](int y) { return float(y - part.y) / float(part.h); };
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddImage(shown->texture->id(), low, high, ImVec2(u(box.x), v(box.y)),
                  ImVec2(u(box.x + box.w), v(box.y + box.h)));
    if (ImGui::IsItemHovered() || ImGui::IsItemFocused())
        pen->AddRect(low, high, page.tone(Role::blue_steel), 0, 0, page.px(2));
    return pressed;
}

} // namespace fettle::ui
