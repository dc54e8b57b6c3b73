#include "ui/screens/photo_large.h"

#include "ui/acts.h"
#include "ui/input_queue.h"
#include "ui/keyboard_frame.h"
#include "ui/readings.h"
#include "ui/screens/photo_strip.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr int kUnderlay = 2048;
constexpr float kStrip = 160, kReadingStrip = 240;
constexpr double kWheelStep = 1.25;

Rect picture_area(const Page& page, const PhotoLargeState& state, const TyingState& tying) {
    const bool taller = state.reading || tying.open;
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    const float strip = page.px(taller ? kReadingStrip : kStrip);
    return {at.x, at.y, at.x + room.x, at.y + std::max(page.px(80), room.y - strip)};
}

// Dear ImGui would move its focus with the keys that move the picture.
bool key_taken(const Chord& chord) {
    if (!pressed(chord)) return false;
    ImGui::NavMoveRequestCancel();
    return true;
}

int code(Key key) {
    return static_cast<int>(key);
}

void zoom_to(PhotoLargeState& state, const Photo& photo, const Rect& where, double zoom,
             ImVec2 at) {
    state.view = zoomed(photo, where, state.view, zoom, at.x, at.y);
    state.fitted = state.view.zoom <= fitting_view(photo, where).zoom;
}

ImVec2 middle_of(const Rect& where) {
    return {(where.left + where.right) / 2, (where.top + where.bottom) / 2};
}

void move_by(PhotoLargeState& state, const Photo& photo, const Rect& where, double x, double y) {
    state.view.x += x / state.view.zoom;
    state.view.y += y / state.view.zoom;
    state.view = held_in(photo, where, state.view);
}

void zoom_by_keys(PhotoLargeState& state, const Photo& photo, const Rect& where) {
    const ImVec2 middle = middle_of(where);
    if (pressed({.key = '0'})) state.fitted = true;
    if (pressed({.key = '1'})) zoom_to(state, photo, where, 1, middle);
    if (pressed({.key = '='}) || pressed({.key = '=', .shift = true}))
        zoom_to(state, photo, where, state.view.zoom * 1.5, middle);
    if (pressed({.key = '-'})) zoom_to(state, photo, where, state.view.zoom / 1.5, middle);
    const double across = where.width() / 4, down = where.height() / 4;
    if (key_taken({.key = code(Key::left), .shift = true}))
        move_by(state, photo, where, -across, 0);
    if (key_taken({.key = code(Key::right), .shift = true}))
        move_by(state, photo, where, across, 0);
    if (key_taken({.key = code(Key::up), .shift = true})) move_by(state, photo, where, 0, -down);
    if (key_taken({.key = code(Key::down), .shift = true})) move_by(state, photo, where, 0, down);
}

void begin_reading(PhotoLargeState& state, const Region& region) {
    state.boxing = false;
    state.corner.reset();
    if (region.w < 2 || region.h < 2) return;
    state.reading = MarkReading::of({.photo = state.photo, .region = region});
}

// A box grows from where the button went down to where the pointer is.
void draw_box(PhotoLargeState& state, const Photo& photo, const Rect& where, bool active) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const auto here = picture_point(where, state.view, pointer.x, pointer.y);
    if (ImGui::IsItemActivated() && active) state.corner = here;
    if (!state.corner || active) return;
    begin_reading(state, region_between(photo, *state.corner, here));
}

void press_mark(PhotoLargeState& state, const PhotoFacts& facts, const Rect& where) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    for (const Mark& mark : facts.marks) {
        const Rect box = screen_rect(where, state.view, mark.region);
        if (pointer.x < box.left || pointer.x > box.right || pointer.y < box.top ||
            pointer.y > box.bottom)
            continue;
        state.reading = MarkReading::of(mark);
        return;
    }
}

void by_pointer(Page& page, PhotoLargeState& state, const PhotoFacts& facts, const Rect& where) {
    const bool clicked =
        ImGui::InvisibleButton("photo.picture", ImVec2(where.width(), where.height())) &&
        ImGui::IsMouseReleased(ImGuiMouseButton_Left);
    if (state.takes_keyboard) put_keyboard_here();
    state.takes_keyboard = false;
    note(page, "photo.picture", facts.photo.original_name,
         std::to_string(std::lround(state.view.zoom * 100)) + " %");
    const ImGuiIO& io = ImGui::GetIO();
    const bool active = ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (ImGui::IsItemHovered() && io.MouseWheel != 0)
        zoom_to(state, facts.photo, where,
                state.view.zoom * std::pow(kWheelStep, double(io.MouseWheel)), io.MousePos);
    if (state.boxing) {
        draw_box(state, facts.photo, where, active);
        return;
    }
    const bool dragged = ImGui::IsMouseDragging(ImGuiMouseButton_Left);
    if (active && dragged) {
        move_by(state, facts.photo, where, -double(io.MouseDelta.x), -double(io.MouseDelta.y));
        ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    }
    const float moved = io.MouseDragMaxDistanceSqr[0];
    if (clicked && moved < io.MouseDragThreshold * io.MouseDragThreshold)
        press_mark(state, facts, where);
}

void outline(const Page& page, const Rect& box, Role role, float thick) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const float thin = page.px(1);
    // A light line beside the dark one: seen on rust as well as on paint.
    pen->AddRect(ImVec2(box.left - thin, box.top - thin),
                 ImVec2(box.right + thin, box.bottom + thin), page.tone(Role::paper, 0.8F), 0, 0,
                 page.px(thick) + 2 * thin);
    pen->AddRect(ImVec2(box.left, box.top), ImVec2(box.right, box.bottom), page.tone(role), 0, 0,
                 page.px(thick));
}

void draw_mark(Page& page, const Mark& mark, const Rect& box) {
    outline(page, box, Role::ink, 1);
    const InFace fine(page, Face::fine);
    const std::string said = mark.maker.empty() ? mark.reading : mark.reading + ", " + mark.maker;
    const ImVec2 size = ImGui::CalcTextSize(said.c_str());
    const float pad = page.px(3);
    const ImVec2 low(box.left, box.bottom + page.px(2));
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddRectFilled(low, ImVec2(low.x + size.x + 2 * pad, low.y + size.y + pad),
                       page.tone(Role::paper, 0.9F));
    pen->AddText(ImVec2(low.x + pad, low.y + pad / 2), page.tone(Role::ink), said.c_str());
    note_area(page, "photo.mark." + std::to_string(mark.id.value), said, box, mark.maker);
}

void draw_marks(Page& page, const PhotoLargeState& state, const PhotoFacts& facts,
                const Rect& where) {
    ImGui::PushClipRect(ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), true);
    for (const Mark& mark : facts.marks)
        draw_mark(page, mark, screen_rect(where, state.view, mark.region));
    if (state.reading)
        outline(page, screen_rect(where, state.view, state.reading->mark.region), Role::red_lead,
                2);
    if (state.corner) {
        const ImVec2 pointer = ImGui::GetIO().MousePos;
        const auto here = picture_point(where, state.view, pointer.x, pointer.y);
        const Region box = region_between(facts.photo, *state.corner, here);
        outline(page, screen_rect(where, state.view, box), Role::red_lead, 2);
    }
    ImGui::PopClipRect();
}

void settle_view(PhotoLargeState& state, const PhotoFacts& facts, const Rect& where) {
    if (state.look_at != 0)
        for (const Mark& mark : facts.marks)
            if (mark.id.value == state.look_at) {
                state.view = view_of_region(facts.photo, where, mark.region);
                state.fitted = false;
            }
    state.look_at = 0;
    state.view =
        state.fitted ? fitting_view(facts.photo, where) : held_in(facts.photo, where, state.view);
}

void boxing_by_keys(PhotoLargeState& state, const Photo& photo, const Rect& where) {
    if (pressed({.key = 'M'})) {
        state.boxing = !state.boxing;
        return;
    }
    if (!state.boxing || !pressed({.key = code(Key::enter)})) return;
    begin_reading(state,
                  region_between(photo, picture_point(where, state.view, where.left, where.top),
                                 picture_point(where, state.view, where.right, where.bottom)));
}

void step(PhotoLargeState& state, const std::vector<Photo>& order, std::size_t place) {
    if (key_taken({.key = code(Key::left)}) && place > 0 && place < order.size())
        state.open(order[place - 1].id);
    if (key_taken({.key = code(Key::right)}) && place + 1 < order.size())
        state.open(order[place + 1].id);
}

} // namespace

void PhotoLargeState::open(PhotoId id, std::int64_t mark) {
    photo = id;
    fitted = true;
    takes_keyboard = true;
    look_at = mark;
    boxing = false;
    corner.reset();
    reading.reset();
}

Region region_between(const Photo& photo, PicturePoint one, PicturePoint other) {
    const auto inside = [](double at, int length) {
        return static_cast<int>(std::lround(std::clamp(at, 0.0, double(length))));
    };
    const int left = inside(std::min(one.x, other.x), photo.width);
    const int top = inside(std::min(one.y, other.y), photo.height);
    return {left, top, inside(std::max(one.x, other.x), photo.width) - left,
            inside(std::max(one.y, other.y), photo.height) - top};
}

void draw_photo_large(Page& page, Context& context, PhotoLargeState& state, TyingState& tying,
                      const std::vector<Photo>& order, std::size_t place) {
    const PhotoFacts& facts =
        state.facts.of(context.book, state.photo.value, [&](std::int64_t) -> Result<PhotoFacts> {
            auto photo = photo_by_id(context.book, state.photo);
            if (!photo) return photo.failure();
            auto ties = ties_of_photo(context.book, state.photo);
            if (!ties) return ties.failure();
            auto marks = list_marks(context.book, {.photo = state.photo});
            if (!marks) return marks.failure();
            return PhotoFacts{std::move(*photo), std::move(*ties), std::move(*marks)};
        });
    if (!state.facts.failure().empty() || facts.photo.id != state.photo) {
        notice(page, "photo.trouble", Tell::stop, state.facts.failure());
        if (button(page, "photo.back", "back", {.key_hint = "Esc"}) ||
            pressed({.key = code(Key::escape)}))
            state.photo = {};
        return;
    }
    const Rect where = picture_area(page, state, tying);
    settle_view(state, facts, where);
    by_pointer(page, state, facts, where);
    if (!state.reading && !tying.open) zoom_by_keys(state, facts.photo, where);
    settle_view(state, facts, where);
    ImGui::GetWindowDrawList()->AddRectFilled(
        ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), page.tone(Role::sheet));
    paint_photo(page, context.pixels, facts.photo, where, state.view, kUnderlay);
    draw_marks(page, state, facts, where);
    if (!state.reading && !tying.open) boxing_by_keys(state, facts.photo, where);
    draw_strip(page, context, state, tying, facts, {place, order.size()});
    if (!state.reading && !tying.open) step(state, order, place);
}

} // namespace fettle::ui
