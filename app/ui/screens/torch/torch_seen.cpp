#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/pictures/photo_paint.h"
#include "ui/screens/torch/torch_sliders.h"
#include "ui/screens/torch/torch_steps.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <utility>

namespace fettle::ui {
namespace {

constexpr float kStrip = 232;

// The picture as large as it goes in the middle of the rectangle.
Rect picture_in(const Rect& where, const relief::Grid& grid) {
    const float zoom =
        std::min(where.width() / float(grid.width), where.height() / float(grid.height));
    const float width = float(grid.width) * zoom, height = float(grid.height) * zoom;
    const float left = where.left + (where.width() - width) / 2;
    const float top = where.top + (where.height() - height) / 2;
    return {left, top, left + width, top + height};
}

// As if the torch were held where the pointer is: over the middle it stands square above, at the
// nearest edge and beyond it grazes.
void light_from_pointer(relief::View& view, const Rect& picture) {
    const ImVec2 at = ImGui::GetIO().MousePos;
    const double x = double(at.x) - double(picture.left + picture.right) / 2;
    const double y = double(at.y) - double(picture.top + picture.bottom) / 2;
    const double reach = double(std::min(picture.width(), picture.height())) / 2;
    if (reach <= 0) return;
    const double side = std::atan2(x, -y) * 180 / std::numbers::pi;
    view.light_from = std::fmod(std::round(side + 360), 360);
    view.light_height = std::round(
        std::clamp(90 * (1 - std::hypot(x, y) / reach), relief::kLeastHeight, relief::kMostHeight));
}

std::string light_words(const relief::View& view) {
    return "from " + std::to_string(std::lround(view.light_from)) + "°, " +
           std::to_string(std::lround(view.light_height)) + "° high";
}

// What of the lights is shown.
bool takes_light(relief::Kind kind) {
    return kind == relief::Kind::lit || kind == relief::Kind::relief;
}

void by_pointer(Page& page, TorchSeen& seen, const Rect& where, const Rect& picture) {
    ImGui::InvisibleButton("torch.relief", ImVec2(where.width(), where.height()));
    if (std::exchange(seen.takes_keyboard, false)) put_keyboard_here();
    note_area(page, "torch.relief", std::string(relief::word(seen.view.kind)), picture,
              light_words(seen.view));
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left))
        light_from_pointer(seen.view, picture);
}

void draw_light(const Page& page, const relief::View& view, const Rect& picture) {
    const double share = 1 - view.light_height / 90;
    const double reach = double(std::min(picture.width(), picture.height())) / 2 * share;
    const double side = view.light_from * std::numbers::pi / 180;
    const ImVec2 at((picture.left + picture.right) / 2 + float(std::sin(side) * reach),
                    (picture.top + picture.bottom) / 2 - float(std::cos(side) * reach));
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddCircleFilled(at, page.px(7), page.tone(Role::paper, 0.9F));
    pen->AddCircle(at, page.px(7), page.tone(Role::red_lead), 0, page.px(2));
}

// Keys that Dear ImGui would move its focus with.
bool arrow(Key key, bool shift) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.WantTextInput || io.KeyCtrl || io.KeyAlt || io.KeyShift != shift ||
        !ImGui::IsKeyPressed(static_cast<int>(key), true))
        return false;
    ImGui::NavMoveRequestCancel();
    return true;
}

void light_by_keys(relief::View& view) {
    constexpr double kStep = 5; // degrees
    const auto turn = [&](double by) {
        view.light_from = std::fmod(view.light_from + by + 360, 360);
    };
    const auto raise = [&](double by) {
        view.light_height =
            std::clamp(view.light_height + by, relief::kLeastHeight, relief::kMostHeight);
    };
    if (arrow(Key::right, false)) turn(kStep);
    if (arrow(Key::left, false)) turn(-kStep);
    if (arrow(Key::up, false)) raise(kStep);
    if (arrow(Key::down, false)) raise(-kStep);
}

void lean_by_keys(relief::View& view) {
    constexpr double kStep = 0.02;
    const auto lean = [](double& value, double by) {
        value = std::clamp(value + by, -relief::kMostLean, relief::kMostLean);
    };
    if (arrow(Key::right, true)) lean(view.lean_right, kStep);
    if (arrow(Key::left, true)) lean(view.lean_right, -kStep);
    if (arrow(Key::down, true)) lean(view.lean_down, kStep);
    if (arrow(Key::up, true)) lean(view.lean_down, -kStep);
}

void note_keys(Register& reg, const relief::Relief& relief) {
    reg.note_key("← →", "the torch goes round");
    reg.note_key("↑ ↓", "the torch goes up and down");
    reg.note_key("1 2 3 4", "lit, relief, depth, albedo");
    reg.note_key(", .", "less and more steep");
    reg.note_key("+ -", "local contrast");
    if (!relief.lights_known) reg.note_key("Shift arrows", "lean it");
}

// Asks for a picture when the view has changed, and shows the last that has come.
void take_drawn(TorchState& state) {
    TorchSeen& seen = state.seen;
    if (seen.asked != seen.view) {
        state.worker().draw(*seen.done, seen.view);
        seen.asked = seen.view;
    }
    auto come = state.worker().take_drawn();
    if (!come) return;
    seen.texture = grey_texture(state.surface, come->seen.picture);
    come->seen.picture = {};
    seen.drawn = std::move(*come);
}

std::string rounded(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", std::abs(value) < 1 ? 3 : 2, value);
    return text;
}

// A strip of shades beside the picture, what is white at its top.
void draw_scale(Page& page, const relief::DepthScale& scale, const Rect& where) {
    const bool known = scale.black_mm.has_value();
    const std::string unit = known ? " mm" : " px";
    const std::string white = rounded(known ? *scale.white_mm : scale.white) + unit;
    const std::string black = rounded(known ? *scale.black_mm : scale.black) + unit;
    const float width = page.px(16), tall = std::min(page.px(160), where.height() / 2);
    const ImVec2 low(where.left + page.px(Measure::kStep), where.bottom - tall - page.px(32));
    const ImVec2 high(low.x + width, low.y + tall);
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddRectFilledMultiColor(low, high, IM_COL32(255, 255, 255, 255),
                                 IM_COL32(255, 255, 255, 255), IM_COL32(0, 0, 0, 255),
                                 IM_COL32(0, 0, 0, 255));
    pen->AddRect(low, high, page.tone(Role::ink));
    label_over(page, {high.x + page.px(4), low.y}, white);
    label_over(page, {high.x + page.px(4), high.y - page.px(20)}, black);
    note_area(page, "torch.scale", "black to white", {low.x, low.y, high.x, high.y},
              black + " to " + white);
}

void paint(Page& page, TorchSeen& seen, const Rect& where, const Rect& picture) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddRectFilled({where.left, where.top}, {where.right, where.bottom},
                       page.tone(Role::sheet));
    if (!seen.texture.empty())
        pen->AddImage(seen.texture.id(), {picture.left, picture.top},
                      {picture.right, picture.bottom});
    if (takes_light(seen.view.kind)) draw_light(page, seen.view, picture);
    if (seen.drawn && seen.drawn->seen.scale) draw_scale(page, *seen.drawn->seen.scale, where);
}

// What was found, and what stays a guess.
std::string figures_of(const relief::Relief& relief) {
    const auto& readings = relief.readings;
    const double all = double(std::max<std::size_t>(1, readings.all));
    const long dropped = std::lround(100 * double(readings.dropped()) / all);
    std::string said = std::to_string(relief.lights.size()) + " photos     ";
    said += relief.lights_known    ? "lights by the ball"
            : relief.slope_settled ? "lights worked out; what is struck in is a guess"
                                   : "lights worked out; how steep it is and what is struck in are "
                                     "guesses";
    return said + "     " + std::to_string(dropped) + " % of readings left out";
}

// What was kept may have been taken back or removed.
void forget_lost_mark(Context& context, TorchSeen& seen) {
    if (!seen.mark.id) return;
    const bool there =
        seen.mark_there.of(context.book, seen.mark.id.value, [&](std::int64_t id) -> Result<bool> {
            auto marks = list_marks(context.book, {.photo = seen.mark.photo});
            if (!marks) return marks.failure();
            return std::ranges::any_of(*marks, [id](const Mark& m) { return m.id.value == id; });
        });
    if (!there) seen.mark.id = {};
}

void begin_keeping(TorchState& state) {
    TorchSeen& seen = state.seen;
    Mark mark = seen.mark;
    mark.photo = seen.done->recipe.photos.front();
    const auto& [x, y, width, height] = seen.done->recipe.region;
    mark.region = {x, y, width, height};
    seen.reading = MarkReading::of(mark);
    seen.reading->keeps = [&state](Context& context, const Mark& wanted) -> Done {
        if (wanted.reading.empty())
            return Failure{FailureKind::invalid,
                           "The reading of the mark is empty: write what stands on the metal."};
        state.worker().keep(context.book, context.taking_in, *state.seen.done, state.seen.view,
                            wanted);
        return done();
    };
}

void acts(Page& page, TorchState& state) {
    TorchSeen& seen = state.seen;
    Flow flow(page, Measure::kStep);
    const auto act = [&](std::string_view key, std::string_view label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    const bool idle = !state.running();
    const ButtonLook keep{.weight = Weight::next, .key_hint = "K", .enabled = idle};
    if (act("torch.keep", "keep with a mark", keep) || (idle && pressed({.key = 'K'})))
        begin_keeping(state);
    const bool kept = idle && bool(seen.mark.id);
    const ButtonLook compare{.weight = Weight::quiet, .key_hint = "V", .enabled = kept};
    if (act("torch.compare", "compare", compare) || (kept && pressed({.key = 'V'})))
        compare_torch(state, seen.mark.id);
    torch_help_act(page, flow, state);
    if (torch_back_act(page, flow, "the first photo") && idle) {
        state.step = TorchState::Step::setting_up;
        state.set_up.takes_keyboard = true;
    }
    if (!seen.mark.id) return;
    const std::string said = "kept with the mark " + seen.mark.reading;
    flow.place_words(said);
    words_beside(page, said, Role::verdigris);
    note(page, "torch.kept", said, std::to_string(seen.mark.id.value));
}

} // namespace

void see_torch(TorchState& state, TorchDone done) {
    TorchSeen& seen = state.seen;
    seen.done = std::move(done);
    seen.asked.reset();
    seen.drawn.reset();
    seen.takes_keyboard = true;
    state.step = TorchState::Step::seeing;
}

void draw_torch_seen(Page& page, Context& context, TorchState& state) {
    TorchSeen& seen = state.seen;
    const relief::Relief& relief = *seen.done->relief;
    take_drawn(state);
    forget_lost_mark(context, seen);
    const Rect where = torch_area(page, kStrip);
    const Rect picture = picture_in(where, seen.done->small->right);
    by_pointer(page, seen, where, picture);
    if (!seen.reading) {
        note_keys(page.reg, relief);
        if (!seen.keys_moving) {
            light_by_keys(seen.view);
            if (!relief.lights_known) lean_by_keys(seen.view);
        }
    }
    paint(page, seen, where, picture);
    const std::string figures = figures_of(relief);
    fine_words(page, figures);
    note(page, "torch.figures", "figures", figures);
    if (seen.reading) {
        if (read_mark(page, context, *seen.reading) == ReadingEnd::goes_on) return;
        seen.reading.reset();
        seen.takes_keyboard = true;
        return;
    }
    seen.keys_moving = torch_sliders(page, seen.view, *seen.done);
    acts(page, state);
}

} // namespace fettle::ui
