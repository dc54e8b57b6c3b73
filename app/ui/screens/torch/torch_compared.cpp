#include "ui/frame/input_queue.h"
#include "ui/pictures/photo_paint.h"
#include "ui/screens/torch/torch_steps.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"
#include "ui/widgets/sliders.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace fettle::ui {
namespace {

constexpr float kStrip = 216;

Result<std::vector<MarkShown>> read_torch_marks(const Notebook& book) {
    auto marks = list_marks(book);
    if (!marks) return marks.failure();
    std::vector<MarkShown> found;
    for (const Mark& mark : *marks) {
        const auto recipe = desk::torch_recipe_of(mark);
        if (!recipe || !*recipe) continue; // what cannot be read is told where the mark is
        auto with = shown(book, mark);
        if (!with) return with.failure();
        found.push_back(std::move(*with));
    }
    return found;
}

void compare_with(Context& context, TorchState& state, const Mark& other) {
    const auto one = desk::torch_recipe_of(state.comparing.one);
    const auto two = desk::torch_recipe_of(other);
    if (!one || !*one || !two || !*two) return;
    state.trouble.clear();
    state.comparing.other = other;
    state.worker().compare(context.book, **one, **two);
}

std::string rounded(double value, int digits) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*f", digits, value);
    return text;
}

// By relief/compare.h, which says on what it was measured.
std::string meaning_of(double figure) {
    if (figure > relief::kLikely) return "one punch, or one much like it";
    if (figure < relief::kUnlikely) return "another punch";
    return "the figure does not decide";
}

void explain(Page& page, const relief::Alike& alike) {
    const std::string figure = rounded(alike.figure, 2);
    const std::string said = "alike by " + figure + ": " + meaning_of(alike.figure);
    words(page, said,
          alike.figure > relief::kLikely     ? Role::verdigris
          : alike.figure < relief::kUnlikely ? Role::ink
                                             : Role::brass);
    note(page, "torch.alike", said, figure);
    fine_print(page,
               "Measured on drawn stampings of five letters, eight pairs of each: one punch gave "
               "0.49 to 0.85, another 0.28 to 0.51, one of five letters other 0.62 to 0.77. Over " +
                   rounded(relief::kLikely, 2) + " it is one punch or one much like it, below " +
                   rounded(relief::kUnlikely, 2) +
                   " another; between them, and for punches that differ in a letter, look at both. "
                   "Worn metal may behave otherwise.");
    fine_words(page, "The second lies turned by " +
                         rounded(alike.pose.turn * 180 / std::numbers::pi, 1) + "°, " +
                         rounded(alike.pose.scale, 2) + " times as large, over " +
                         std::to_string(std::lround(alike.overlap * 100)) + " % of the first.");
}

// Left of the edge the one, right of it the other as it lies on it.
void paint(Page& page, const TorchComparing& comparing, const Rect& where) {
    const Texture& one = comparing.shown_one;
    ImDrawList* pen = ImGui::GetWindowDrawList();
    pen->AddRectFilled({where.left, where.top}, {where.right, where.bottom},
                       page.tone(Role::sheet));
    if (one.empty()) return;
    const float zoom =
        std::min(where.width() / float(one.width()), where.height() / float(one.height()));
    const float width = float(one.width()) * zoom, height = float(one.height()) * zoom;
    const ImVec2 low(where.left + (where.width() - width) / 2,
                     where.top + (where.height() - height) / 2);
    const ImVec2 high(low.x + width, low.y + height);
    const float share = float(comparing.edge), edge = low.x + share * width;
    pen->AddImage(one.id(), low, {edge, high.y}, {0, 0}, {share, 1});
    pen->AddImage(comparing.shown_other.id(), {edge, low.y}, high, {share, 0}, {1, 1});
    pen->AddLine({edge, low.y}, {edge, high.y}, page.tone(Role::red_lead), page.px(2));
    label_over(page, {low.x + page.px(8), low.y + page.px(8)}, comparing.one.reading);
    const std::string& other = comparing.other.reading;
    label_over(page,
               {high.x - ImGui::CalcTextSize(other.c_str()).x - page.px(8), low.y + page.px(8)},
               other);
}

void drag_edge(Page& page, TorchComparing& comparing, const Rect& where) {
    ImGui::InvisibleButton("torch.laid", ImVec2(where.width(), where.height()));
    note(page, "torch.laid", comparing.one.reading + " and " + comparing.other.reading,
         std::to_string(std::lround(comparing.edge * 100)) + " %");
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left))
        comparing.edge =
            std::clamp(double((ImGui::GetIO().MousePos.x - where.left) / where.width()), 0.0, 1.0);
    constexpr double kStep = 0.05;
    if (pressed({.key = ','})) comparing.edge = std::max(0.0, comparing.edge - kStep);
    if (pressed({.key = '.'})) comparing.edge = std::min(1.0, comparing.edge + kStep);
    if (pressed({.key = 'W'})) comparing.edge = comparing.edge < 0.5 ? 1 : 0;
    page.reg.note_key(", .", "move the edge");
    page.reg.note_key("W", "the one, the other");
}

// Back to the relief when there is one to go back to.
void leave(TorchState& state) {
    state.step = state.seen.done ? TorchState::Step::seeing : TorchState::Step::closed;
}

} // namespace

void draw_torch_others(Page& page, Context& context, TorchState& state) {
    TorchComparing& comparing = state.comparing;
    const auto& marks =
        comparing.marks.beside(context.side, context.book, 0,
                               [](const Notebook& book, int) { return read_torch_marks(book); });
    Flow flow(page, Measure::kGap);
    if (torch_back_act(page, flow, "back") && !state.running()) leave(state);
    fine_print(page, "Another stamping that may be of the same punch as " + comparing.one.reading +
                         ". Both reliefs are made again.");
    std::vector<const MarkShown*> others;
    for (const MarkShown& with : marks)
        if (with.mark.id != comparing.one.id) others.push_back(&with);
    if (others.empty() && !comparing.marks.nothing_yet())
        notice(page, "torch.others.none", Tell::info, "No other mark has a torch set.");
    draw_in_lines(
        page, comparing.lines, others.size(), {},
        [&](std::size_t i) -> const MarkShown& { return *others[i]; },
        [&](std::size_t i) {
            const std::string key = "torch.other." + std::to_string(others[i]->mark.id.value);
            ImGui::BeginGroup();
            draw_mark(page, context, key, *others[i]);
            const std::string hint = i < 9 ? std::to_string(i + 1) : std::string();
            const ButtonLook look{.key_hint = hint, .enabled = !state.running()};
            const bool by_key =
                look.enabled && i < 9 && pressed({.key = '1' + static_cast<int>(i)});
            if (button(page, key + ".compare", "compare", look) || by_key)
                compare_with(context, state, others[i]->mark);
            ImGui::EndGroup();
        });
}

void draw_torch_compared(Page& page, Context& context, TorchState& state) {
    TorchComparing& comparing = state.comparing;
    const Rect where = torch_area(page, kStrip);
    drag_edge(page, comparing, where);
    paint(page, comparing, where);
    explain(page, *comparing.alike);
    Flow flow(page, Measure::kGap);
    const ButtonLook look{.weight = Weight::quiet, .key_hint = "P"};
    flow.place_button("the photo of the other", look);
    if (button(page, "torch.other_photo", "the photo of the other", look) || pressed({.key = 'P'}))
        context.go = Place{"photos", comparing.other.photo.value, comparing.other.id.value};
    if (torch_back_act(page, flow, "another mark")) state.step = TorchState::Step::choosing_other;
}

} // namespace fettle::ui
