#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/pictures/photo_paint.h"
#include "ui/screens/torch/torch_steps.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kStrip = 168;
constexpr double kWheelStep = 1.25;

struct Pointed {
    PicturePoint from, to;
};

Pointed dragged(const TorchSetUp& up, const Rect& where) {
    const ImVec2 at = ImGui::GetIO().MousePos;
    return {*up.began, picture_point(where, up.view, at.x, at.y)};
}

// From edge to edge of the ball.
relief::Ball circle_of(const Pointed& drag) {
    const auto& [from, to] = drag;
    return {(from.x + to.x) / 2, (from.y + to.y) / 2, std::hypot(to.x - from.x, to.y - from.y) / 2};
}

Region box_of(const Pointed& drag, const Photo& photo) {
    const auto& [from, to] = drag;
    const auto held = [](double at, int most) {
        return std::clamp(static_cast<int>(std::lround(at)), 0, most);
    };
    const int left = held(std::min(from.x, to.x), photo.width);
    const int top = held(std::min(from.y, to.y), photo.height);
    return {left, top, held(std::max(from.x, to.x), photo.width) - left,
            held(std::max(from.y, to.y), photo.height) - top};
}

void take_drag(TorchSetUp& up, const Photo& photo, const Pointed& drag) {
    constexpr double kLeast = 2; // less is a press
    if (up.draws_ball) {
        const auto circle = circle_of(drag);
        if (circle.radius < kLeast) return;
        up.circle = circle;
        up.ball = TorchSetUp::circled;
        up.draws_ball = false;
        return;
    }
    const Region box = box_of(drag, photo);
    if (box.w >= kLeast && box.h >= kLeast) up.region = box;
}

void by_pointer(Page& page, TorchSetUp& up, const Photo& photo, const Rect& where) {
    ImGui::InvisibleButton("torch.photo", ImVec2(where.width(), where.height()));
    if (std::exchange(up.takes_keyboard, false)) put_keyboard_here();
    note(page, "torch.photo", photo.original_name,
         std::to_string(std::lround(up.view.zoom * 100)) + " %");
    const ImGuiIO& io = ImGui::GetIO();
    if (ImGui::IsItemHovered() && io.MouseWheel != 0) {
        up.view = zoomed(photo, where, up.view,
                         up.view.zoom * std::pow(kWheelStep, double(io.MouseWheel)), io.MousePos.x,
                         io.MousePos.y);
        up.fitted = up.view.zoom <= fitting_view(photo, where, up.view).zoom;
    }
    const bool active = ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (ImGui::IsItemActivated() && active)
        up.began = picture_point(where, up.view, io.MousePos.x, io.MousePos.y);
    if (!up.began || active) return;
    take_drag(up, photo, dragged(up, where));
    up.began.reset();
}

void outline(const Page& page, const photos::PlaneMap& map, const Region& region) {
    if (region.w <= 0 || region.h <= 0) return;
    const Rect box = screen_box(map, region);
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const ImVec2 low(box.left, box.top), high(box.right, box.bottom);
    pen->AddRect(low, high, page.tone(Role::paper, 0.8F), 0, 0, page.px(4));
    pen->AddRect(low, high, page.tone(Role::red_lead), 0, 0, page.px(2));
}

void circle(const Page& page, const photos::PlaneMap& map, const relief::Ball& ball) {
    if (ball.radius <= 0) return;
    const auto at = map({ball.x, ball.y});
    const float reach = float(ball.radius * scale_at(map, {ball.x, ball.y}));
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const ImVec2 middle(static_cast<float>(at.x), static_cast<float>(at.y));
    pen->AddCircle(middle, reach, page.tone(Role::paper, 0.8F), 0, page.px(4));
    pen->AddCircle(middle, reach, page.tone(Role::brass), 0, page.px(2));
}

void draw_over(const Page& page, const TorchSetUp& up, const Photo& photo, const Rect& where) {
    const auto map = to_screen(where, up.view);
    ImGui::PushClipRect(ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), true);
    const bool drags_box = up.began && !up.draws_ball, drags_ball = up.began && up.draws_ball;
    outline(page, map, drags_box ? box_of(dragged(up, where), photo) : up.region);
    if (drags_ball || up.ball == TorchSetUp::circled)
        circle(page, map, drags_ball ? circle_of(dragged(up, where)) : up.circle);
    ImGui::PopClipRect();
}

std::string region_words(const Region& region) {
    if (region.w <= 0) return "not drawn yet";
    return std::to_string(region.x) + "," + std::to_string(region.y) + "," +
           std::to_string(region.w) + "," + std::to_string(region.h);
}

std::string ball_words(const relief::Ball& ball) {
    if (ball.radius <= 0) return "not drawn yet";
    return std::to_string(std::lround(ball.x)) + "," + std::to_string(std::lround(ball.y)) +
           ", radius " + std::to_string(std::lround(ball.radius));
}

// What is still to be done before it can be worked out; empty: nothing.
std::string todo(const TorchSetUp& up) {
    if (up.draws_ball) return "Drag across the ball, from edge to edge.";
    if (up.region.w <= 0) return "Drag a box round the stamping; M takes what is seen.";
    if (up.ball == TorchSetUp::circled && up.circle.radius <= 0)
        return "Press B and drag across the ball, from edge to edge.";
    return {};
}

void choices(Page& page, TorchSetUp& up) {
    Flow flow(page, Measure::kGap);
    const std::string said = "box " + region_words(up.region);
    flow.place_words(said);
    words_beside(page, said, up.region.w > 0 ? Role::ink : Role::pencil);
    note(page, "torch.region", "box", region_words(up.region));
    flow.place_words("a ball:");
    words_beside(page, "a ball:", Role::pencil);
    ImGui::SameLine(0, page.px(Measure::kStep));
    choice(page, "torch.ball", {"look for it", "circled", "there is none"}, up.ball);
    if (pressed({.key = 'N'})) up.ball = (up.ball + 1) % 3;
    page.reg.note_key("N", "look for a ball, circled, none");
    if (up.ball == TorchSetUp::circled) {
        flow.place_words(ball_words(up.circle));
        words_beside(page, ball_words(up.circle), Role::pencil);
        note(page, "torch.circle", "ball", ball_words(up.circle));
    }
    flow.place(width_of(page, "the camera stood still") + page.px(Measure::kMargin));
    if (pressed({.key = 'C'})) up.still = !up.still;
    check(page, "torch.still", "the camera stood still", up.still);
    ImGui::SameLine(0, page.px(Measure::kStep));
    words_beside(page, "C", Role::pencil, Face::fine);
}

desk::TorchRecipe recipe_of(const TorchSetUp& up) {
    desk::TorchRecipe recipe;
    for (const Photo& photo : up.photos)
        recipe.photos.push_back(photo.id);
    recipe.region = {up.region.x, up.region.y, up.region.w, up.region.h};
    if (up.ball == TorchSetUp::circled) recipe.ball = up.circle;
    recipe.still = up.still;
    return recipe;
}

void acts(Page& page, Context& context, TorchState& state, const Rect& where) {
    TorchSetUp& up = state.set_up;
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    const bool ready = todo(up).empty() && !state.running();
    const ButtonLook go{.weight = Weight::next, .key_hint = "W", .enabled = ready};
    if (act("torch.go", "work it out", go) || (ready && pressed({.key = 'W'})))
        state.worker().work_out(context.book, {recipe_of(up), up.ball == TorchSetUp::sought});
    if (act("torch.seen", "box what is seen", {.weight = Weight::quiet, .key_hint = "M"}) ||
        pressed({.key = 'M'}))
        up.region = region_under(up.photos.front(), to_screen(where, up.view), where);
    if (act("torch.circle_it", "circle the ball", {.weight = Weight::quiet, .key_hint = "B"}) ||
        pressed({.key = 'B'}))
        up.draws_ball = !up.draws_ball;
    torch_help_act(page, flow, state);
    if (!torch_back_act(page, flow, state.from_photos ? "back to Photos" : "other photos")) return;
    if (up.draws_ball) {
        up.draws_ball = false;
        return;
    }
    if (state.running()) return;
    state.step = state.from_photos ? TorchState::Step::closed : TorchState::Step::choosing;
    if (std::exchange(state.from_photos, false)) context.go = Place{"photos"};
}

void move_by_keys(TorchSetUp& up, const Photo& photo, const Rect& where) {
    const auto zoom = [&](double times) {
        up.view = zoomed(photo, where, up.view, up.view.zoom * times,
                         (where.left + where.right) / 2, (where.top + where.bottom) / 2);
        up.fitted = up.view.zoom <= fitting_view(photo, where, up.view).zoom;
    };
    if (plus_pressed()) zoom(1.5);
    if (pressed({.key = '-'})) zoom(1 / 1.5);
    if (pressed({.key = '0'})) up.fitted = true;
    const auto by = [&](Key key, double x, double y) {
        if (pressed({.key = static_cast<int>(key), .shift = true}))
            up.view = moved(photo, where, up.view, x * where.width() / 4, y * where.height() / 4);
    };
    by(Key::left, 1, 0);
    by(Key::right, -1, 0);
    by(Key::up, 0, 1);
    by(Key::down, 0, -1);
}

void note_keys(Register& reg) {
    reg.note_key("+ -", "nearer, further");
    reg.note_key("0", "all of it");
    reg.note_key("Shift arrows", "move it");
}

} // namespace

void set_up_torch(TorchState& state, std::vector<Photo> photos) {
    state.trouble.clear();
    state.set_up = {};
    state.set_up.photos = std::move(photos);
    state.set_up.takes_keyboard = true;
    state.seen = {};
    state.step = TorchState::Step::setting_up;
}

void draw_torch_set_up(Page& page, Context& context, TorchState& state) {
    TorchSetUp& up = state.set_up;
    const Photo& photo = up.photos.front();
    const Rect where = torch_area(page, kStrip);
    up.view = up.fitted ? fitting_view(photo, where, up.view) : held_in(photo, where, up.view);
    by_pointer(page, up, photo, where);
    note_keys(page.reg);
    move_by_keys(up, photo, where);
    up.view = up.fitted ? fitting_view(photo, where, up.view) : held_in(photo, where, up.view);
    ImGui::GetWindowDrawList()->AddRectFilled(
        ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), page.tone(Role::sheet));
    paint_photo(page, context.pixels, photo, where, to_screen(where, up.view), Closeness::large);
    draw_over(page, up, photo, where);
    const std::string said = "the first of " + std::to_string(up.photos.size()) +
                             " photos: " + safe_utf8(photo.original_name);
    fine_words(page, said);
    note(page, "torch.photos", said, std::to_string(up.photos.size()));
    const std::string next = todo(up);
    fine_words(page, next, Role::red_lead);
    note(page, "torch.todo", "to be done", next);
    choices(page, up);
    acts(page, context, state, where);
}

} // namespace fettle::ui
