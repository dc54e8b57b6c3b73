#include "ui/screens/photos/photo_large.h"

#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/pictures/photo_paint.h"
#include "ui/screens/photos/photo_strip.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fettle::ui {
namespace {

constexpr float kStrip = 160, kReadingStrip = 240;
constexpr double kWheelStep = 1.25;
constexpr double kFineTurn = 1, kFinestTurn = 0.1; // degrees

Rect picture_area(const Page& page, const PhotoLargeState& state, const TyingState& tying) {
    const bool taller = state.reading || tying.open || state.filters.open || state.measure.open;
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    const float strip = page.px(taller ? kReadingStrip : kStrip);
    return {at.x, at.y, at.x + room.x, at.y + std::max(page.px(80), room.y - strip)};
}

int code(Key key) {
    return static_cast<int>(key);
}

void zoom_to(PhotoLargeState& state, const Photo& photo, const Rect& where, double zoom,
             ImVec2 at) {
    state.view = zoomed(photo, where, state.view, zoom, at.x, at.y);
    state.fitted = state.view.zoom <= fitting_view(photo, where, state.view).zoom;
}

ImVec2 middle_of(const Rect& where) {
    return {(where.left + where.right) / 2, (where.top + where.bottom) / 2};
}

void move_by(PhotoLargeState& state, const Photo& photo, const Rect& where, double x, double y) {
    state.view = moved(photo, where, state.view, -x, -y);
}

// Pressed with nothing but Shift beside it, again and again while it is held.
bool held_down(int key) {
    const ImGuiIO& io = ImGui::GetIO();
    return !io.WantTextInput && !io.KeyCtrl && !io.KeyAlt && ImGui::IsKeyPressed(key, true);
}

void turn_by_keys(PhotoLargeState& state, const Photo& photo, const Rect& where) {
    const auto turn = [&](double degrees) {
        state.view = turned(photo, where, state.view, degrees);
    };
    if (pressed({.key = 'R'})) turn(90);
    if (pressed({.key = 'R', .shift = true})) turn(-90);
    const double fine = ImGui::GetIO().KeyShift ? kFinestTurn : kFineTurn;
    if (held_down('.')) turn(fine);
    if (held_down(',')) turn(-fine);
    if (pressed({.key = 'X'})) state.view = mirrored(state.view);
    if (pressed({.key = code(Key::home)})) state.lie_as_taken();
}

void note_keys(Register& reg) {
    reg.note_key("R", "turn to the right; Shift R to the left");
    reg.note_key(". ,", "turn a little; with Shift less");
    reg.note_key("X", "mirror");
    reg.note_key("Home", "as it was taken");
    reg.note_key("+ -", "nearer, further");
    reg.note_key("0 1", "all of it, pixel for pixel");
    reg.note_key("Shift arrows", "move it");
    reg.note_key("M", "box a mark with the arrows; Enter reads it");
}

void zoom_by_keys(PhotoLargeState& state, const Photo& photo, const Rect& where) {
    const ImVec2 middle = middle_of(where);
    if (pressed({.key = '0'})) state.fitted = true;
    if (pressed({.key = '1'})) zoom_to(state, photo, where, 1, middle);
    if (plus_pressed()) zoom_to(state, photo, where, state.view.zoom * 1.5, middle);
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

// What a drag over the screen from the corner to the pointer holds of the picture.
Region boxed(const PhotoLargeState& state, const Photo& photo, const Rect& where) {
    const auto map = to_screen(where, state.view);
    const auto corner = map(*state.corner);
    const ImVec2 at = ImGui::GetIO().MousePos;
    return region_under(photo, map,
                        {std::min(float(corner.x), at.x), std::min(float(corner.y), at.y),
                         std::max(float(corner.x), at.x), std::max(float(corner.y), at.y)});
}

// A box grows from where the button went down to where the pointer is.
void draw_box(PhotoLargeState& state, const Photo& photo, const Rect& where, bool active) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    if (ImGui::IsItemActivated() && active)
        state.corner = picture_point(where, state.view, pointer.x, pointer.y);
    if (!state.corner || active) return;
    begin_reading(state, boxed(state, photo, where));
}

// As it was read: through the same filters, turned the same way.
void see_as_read(PhotoLargeState& state, const Mark& mark) {
    const auto seen = photos::seen_with_from_json(mark.seen_with);
    if (!seen || seen->plain()) return;
    state.filters.take(*seen);
    state.view.turn = seen->turn;
    state.view.mirrored = seen->mirrored;
}

void press_mark(PhotoLargeState& state, const PhotoFacts& facts, const Rect& where) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const auto at = picture_point(where, state.view, pointer.x, pointer.y);
    for (const Mark& mark : facts.marks) {
        const Region& box = mark.region;
        if (at.x < box.x || at.x > box.x + box.w || at.y < box.y || at.y > box.y + box.h) continue;
        state.reading = MarkReading::of(mark);
        see_as_read(state, mark);
        return;
    }
}

void by_pointer(Page& page, Context& context, PhotoLargeState& state, const PhotoFacts& facts,
                const Rect& where) {
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
    const bool pressed_here =
        clicked && io.MouseDragMaxDistanceSqr[0] < io.MouseDragThreshold * io.MouseDragThreshold;
    if (state.measure.open &&
        measure_by_pointer(context, state.measure, {facts.photo, where, state.view}, pressed_here))
        return;
    const bool dragged = ImGui::IsMouseDragging(ImGuiMouseButton_Left);
    if (active && dragged) {
        move_by(state, facts.photo, where, -double(io.MouseDelta.x), -double(io.MouseDelta.y));
        ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    }
    if (pressed_here && !state.measure.open) press_mark(state, facts, where);
}

void outline(const Page& page, const photos::PlaneMap& map, const Region& region, Role role,
             float thick) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const auto corners = screen_corners(map, region);
    ImVec2 points[4];
    for (std::size_t i = 0; i < 4; ++i)
        points[i] = {float(corners[i].x), float(corners[i].y)};
    // A light line round the dark one: seen on rust as well as on paint.
    pen->AddPolyline(points, 4, page.tone(Role::paper, 0.8F), ImDrawFlags_Closed,
                     page.px(thick) + page.px(2));
    pen->AddPolyline(points, 4, page.tone(role), ImDrawFlags_Closed, page.px(thick));
}

void draw_mark(Page& page, const Mark& mark, const photos::PlaneMap& map) {
    outline(page, map, mark.region, Role::ink, 1);
    const Rect box = screen_box(map, mark.region);
    const std::string said = mark.maker.empty() ? mark.reading : mark.reading + ", " + mark.maker;
    label_over(page, {box.left, box.bottom + page.px(2)}, said);
    note_area(page, "photo.mark." + std::to_string(mark.id.value), said, box, mark.maker);
}

void draw_marks(Page& page, const PhotoLargeState& state, const PhotoFacts& facts,
                const Rect& where) {
    const auto map = to_screen(where, state.view);
    for (const Mark& mark : facts.marks)
        draw_mark(page, mark, map);
    if (state.reading) outline(page, map, state.reading->mark.region, Role::red_lead, 2);
    if (state.corner) outline(page, map, boxed(state, facts.photo, where), Role::red_lead, 2);
}

// Everything that lies over the picture, in screen pixels by to_screen().
void draw_over(Page& page, Context& context, PhotoLargeState& state, const PhotoFacts& facts,
               const Rect& where) {
    ImGui::PushClipRect(ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), true);
    draw_marks(page, state, facts, where);
    if (state.measure.open)
        draw_measured(page, context, state.measure, {facts.photo, where, state.view});
    ImGui::PopClipRect();
}

void settle_view(PhotoLargeState& state, const PhotoFacts& facts, const Rect& where) {
    if (state.look_at != 0)
        for (const Mark& mark : facts.marks)
            if (mark.id.value == state.look_at) {
                see_as_read(state, mark);
                state.view = view_of_region(facts.photo, where, mark.region, state.view);
                state.fitted = false;
            }
    state.look_at = 0;
    state.view = state.fitted ? fitting_view(facts.photo, where, state.view)
                              : held_in(facts.photo, where, state.view);
}

void boxing_by_keys(PhotoLargeState& state, const Photo& photo, const Rect& where) {
    if (pressed({.key = 'M'})) {
        state.boxing = !state.boxing;
        return;
    }
    if (!state.boxing || !pressed({.key = code(Key::enter)})) return;
    begin_reading(state, region_under(photo, to_screen(where, state.view), where));
}

void step(PhotoLargeState& state, const std::vector<Photo>& order, std::size_t place) {
    if (key_taken({.key = code(Key::left)}) && place > 0 && place < order.size())
        state.open(order[place - 1].id);
    if (key_taken({.key = code(Key::right)}) && place + 1 < order.size())
        state.open(order[place + 1].id);
}

} // namespace

void PhotoLargeState::lie_as_taken() {
    view = {};
    fitted = true;
}

void PhotoLargeState::open(PhotoId id, std::int64_t mark) {
    photo = id;
    lie_as_taken();
    takes_keyboard = true;
    look_at = mark;
    boxing = false;
    corner.reset();
    reading.reset();
    compare.reset();
    if (!filters.open) filters = {};
    measure.leave_photo();
}

void PhotoLargeState::open_compared(PhotoId one, PhotoId other) {
    open(one);
    compare.emplace();
    compare->one = one;
    compare->other = other;
}

void draw_photo_large(Page& page, Context& context, PhotoLargeState& state, TyingState& tying,
                      const std::vector<Photo>& order, std::size_t place) {
    if (state.compare) {
        if (draw_photo_compare(page, context, *state.compare)) return;
        state.compare.reset();
        state.takes_keyboard = true;
        return;
    }
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
    if (const double turn = std::exchange(state.turn_wanted, 0); turn != 0)
        state.view = turned(facts.photo, where, state.view, turn);
    settle_view(state, facts, where);
    by_pointer(page, context, state, facts, where);
    if (!state.reading && !tying.open) {
        note_keys(page.reg);
        zoom_by_keys(state, facts.photo, where);
        turn_by_keys(state, facts.photo, where);
    }
    settle_view(state, facts, where);
    ImGui::GetWindowDrawList()->AddRectFilled(
        ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), page.tone(Role::sheet));
    state.all_come = paint_photo(page, context.pixels, facts.photo, where,
                                 to_screen(where, state.view), Closeness::large);
    if (state.filters.shown())
        state.all_come =
            paint_filtered(context.pixels, facts.photo, where, state.view, state.filters.filters);
    draw_over(page, context, state, facts, where);
    if (!state.reading && !tying.open) boxing_by_keys(state, facts.photo, where);
    draw_strip(page, context, state, tying, facts, {place, order.size()});
    if (!state.reading && !tying.open && !state.filters.keys_moving) step(state, order, place);
}

} // namespace fettle::ui
