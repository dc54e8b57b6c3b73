#include "ui/screens/photos/photo_compare.h"

#include "base/text.h"
#include "notebook/ties.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/pictures/photo_paint.h"
#include "ui/screens/photos/photo_compare_strip.h"
#include "ui/screens/photos/photo_match.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr float kStrip = 152, kBetween = 6;
constexpr double kWheelStep = 1.25, kEdgeStep = 0.05;

int code(Key key) {
    return static_cast<int>(key);
}

std::string said_of(const Photo& photo, const std::vector<Tie>& ties) {
    const auto part = std::ranges::find_if(
        ties, [](const Tie& tie) { return std::holds_alternative<PartId>(tie.to); });
    const std::string when =
        photo.taken ? to_words(photo.taken->day()) : safe_utf8(photo.original_name);
    return part == ties.end() ? when : std::string(word(part->stage)) + ", " + when;
}

Result<ComparedFacts> read_compared(const Notebook& book, PhotoId one, PhotoId other) {
    ComparedFacts facts;
    for (const bool first : {true, false}) {
        auto photo = photo_by_id(book, first ? one : other);
        if (!photo) return photo.failure();
        auto ties = ties_of_photo(book, photo->id);
        if (!ties) return ties.failure();
        (first ? facts.one_said : facts.other_said) = said_of(*photo, *ties);
        (first ? facts.one : facts.other) = std::move(*photo);
    }
    auto pair = photo_pair(book, other, one);
    if (!pair) return pair.failure();
    facts.pair = std::move(*pair);
    auto others = photos_to_compare(book, one);
    if (!others) return others.failure();
    facts.others = std::move(*others);
    return facts;
}

struct Panes {
    Rect all;
    std::array<Rect, 2> seen;  // what shows the one, and the other
    std::array<Rect, 2> frame; // what their maps are about: of equal size
    Rect edge;                 // where laid on each other
};

Panes laid_out(const Page& page, const CompareState& state) {
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    const Rect all{at.x, at.y, at.x + room.x,
                   at.y + std::max(page.px(80), room.y - page.px(kStrip))};
    Panes panes{all, {all, all}, {all, all}, {}};
    if (state.way == CompareState::beside) {
        const float width = (all.width() - page.px(kBetween)) / 2;
        panes.seen[0].right = all.left + width;
        panes.seen[1].left = all.right - width;
        panes.frame = panes.seen;
        return panes;
    }
    panes.edge = all;
    if (state.edge_lies) {
        const float y = all.top + float(state.edge) * all.height();
        panes.seen[0].bottom = panes.seen[1].top = panes.edge.top = panes.edge.bottom = y;
    } else {
        const float x = all.left + float(state.edge) * all.width();
        panes.seen[0].right = panes.seen[1].left = panes.edge.left = panes.edge.right = x;
    }
    return panes;
}

void settle_view(CompareState& state, const ComparedFacts& facts, const Panes& panes) {
    const Rect& frame = panes.frame[0];
    state.view = state.fitted ? fitting_view(facts.one, frame, state.view)
                              : held_in(facts.one, frame, state.view);
}

void zoom_to(CompareState& state, const Photo& one, const Rect& frame, double zoom, ImVec2 at) {
    state.view = zoomed(one, frame, state.view, zoom, at.x, at.y);
    state.fitted = state.view.zoom <= fitting_view(one, frame, state.view).zoom;
}

void pan(CompareState& state, const Photo& one, const Rect& frame, double across, double down) {
    state.view = moved(one, frame, state.view, across, down);
}

void drag_edge(const Page& page, CompareState& state, const Panes& panes) {
    const ImGuiIO& io = ImGui::GetIO();
    const float reach = page.px(10);
    const float off =
        state.edge_lies ? io.MousePos.y - panes.edge.top : io.MousePos.x - panes.edge.left;
    const bool over = state.way == CompareState::wiped && std::abs(off) <= reach;
    if (ImGui::IsItemActivated() && over) state.edge_dragged = true;
    if (!ImGui::IsMouseDown(ImGuiMouseButton_Left)) state.edge_dragged = false;
    if (over && (ImGui::IsItemHovered() || state.edge_dragged))
        ImGui::SetMouseCursor(state.edge_lies ? ImGuiMouseCursor_ResizeNS
                                              : ImGuiMouseCursor_ResizeEW);
    if (!state.edge_dragged) return;
    const double share = state.edge_lies ? (io.MousePos.y - panes.all.top) / panes.all.height()
                                         : (io.MousePos.x - panes.all.left) / panes.all.width();
    state.edge = std::clamp(share, 0.0, 1.0);
}

// The item drawn last takes the wheel and drags for the photo in that frame.
void move_by_pointer(CompareState& state, const ComparedFacts& facts, const Rect& frame) {
    const ImGuiIO& io = ImGui::GetIO();
    if (ImGui::IsItemHovered() && io.MouseWheel != 0)
        zoom_to(state, facts.one, frame,
                state.view.zoom * std::pow(kWheelStep, double(io.MouseWheel)), io.MousePos);
    if (!ImGui::IsItemActive() || !ImGui::IsMouseDragging(ImGuiMouseButton_Left)) return;
    pan(state, facts.one, frame, double(io.MouseDelta.x), double(io.MouseDelta.y));
    ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
}

std::array<ComparedPane, 2> panes_of(const CompareState& state, const Laid& laid,
                                     const Panes& panes) {
    const photos::PlaneMap& onto = state.matching.on ? state.matching.map : laid.map;
    return {ComparedPane{true, panes.seen[0], to_screen(panes.frame[0], state.view)},
            ComparedPane{false, panes.seen[1],
                         photos::after_each_other(onto, to_screen(panes.frame[1], state.view))}};
}

void button_over(Page& page, CompareState& state, const Rect& area, const char* key,
                 const std::string& label) {
    ImGui::SetCursorScreenPos({area.left, area.top});
    ImGui::InvisibleButton(key, {area.width(), area.height()},
                           ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight);
    if (std::exchange(state.takes_keyboard, false)) put_keyboard_here();
    note(page, key, label, std::to_string(std::lround(state.view.zoom * 100)) + " %");
}

void by_pointer(Page& page, Context& context, CompareState& state, const ComparedFacts& facts,
                const Laid& laid, const Panes& panes) {
    if (state.way == CompareState::wiped) {
        button_over(page, state, panes.all, "compare.laid", "one over the other");
        drag_edge(page, state, panes);
        if (!state.edge_dragged) move_by_pointer(state, facts, panes.all);
        return;
    }
    for (const ComparedPane& pane : panes_of(state, laid, panes)) {
        button_over(page, state, pane.where, pane.is_one ? "compare.one" : "compare.other",
                    pane.is_one ? facts.one_said : facts.other_said);
        if (state.matching.on && match_by_pointer(page, context, state, facts, pane)) continue;
        move_by_pointer(state, facts, panes.frame[pane.is_one ? 0 : 1]);
    }
}

void draw_pane(Page& page, Context& context, CompareState& state, const ComparedFacts& facts,
               const ComparedPane& pane) {
    const Photo& photo = pane.is_one ? facts.one : facts.other;
    const Rect& where = pane.where;
    ImGui::GetWindowDrawList()->AddRectFilled({where.left, where.top}, {where.right, where.bottom},
                                              page.tone(Role::sheet));
    const bool come = paint_photo(page, context.pixels, photo, where, pane.map, Closeness::large);
    state.all_come = state.all_come && come;
    ImGui::PushClipRect({where.left, where.top}, {where.right, where.bottom}, true);
    if (state.matching.on) draw_points(page, state, facts, pane);
    const std::string& said = pane.is_one ? facts.one_said : facts.other_said;
    const float pad = page.px(Measure::kStep);
    // The other's words stand at the far end, so that a wiped pair shows both.
    const bool far_end = !pane.is_one && state.way == CompareState::wiped;
    const float width = ImGui::CalcTextSize(said.c_str()).x;
    label_over(
        page,
        far_end && !state.edge_lies
            ? ImVec2(std::max(where.left, where.right - width - pad), where.top + pad)
            : ImVec2(where.left + pad, far_end ? where.bottom - page.px(32) : where.top + pad),
        said);
    ImGui::PopClipRect();
}

void draw_edge(Page& page, const CompareState& state, const Panes& panes) {
    const Rect& edge = panes.edge;
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const ImVec2 from{edge.left, edge.top}, to{edge.right, edge.bottom};
    pen->AddLine(from, to, page.tone(Role::paper, 0.9F), page.px(4));
    pen->AddLine(from, to, page.tone(Role::red_lead), page.px(2));
    const ImVec2 middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
    pen->AddCircleFilled(middle, page.px(8), page.tone(Role::paper, 0.9F));
    pen->AddCircle(middle, page.px(8), page.tone(Role::red_lead), 0, page.px(2));
    const float grip = page.px(8);
    note_area(page, "compare.edge", "edge",
              {middle.x - grip, middle.y - grip, middle.x + grip, middle.y + grip},
              std::to_string(std::lround(state.edge * 100)) + " %");
}

void note_keys(Register& reg) {
    reg.note_key("+ -", "nearer, further");
    reg.note_key("1", "pixel for pixel");
    reg.note_key("arrows", "move both");
    reg.note_key("R", "turn to the right; Shift R to the left");
    reg.note_key("X", "mirror");
    reg.note_key(", .", "move the edge between the two");
}

void by_keys(CompareState& state, const ComparedFacts& facts, const Panes& panes) {
    const Rect& frame = panes.frame[0];
    const ImVec2 middle{(frame.left + frame.right) / 2, (frame.top + frame.bottom) / 2};
    if (pressed({.key = '1'})) zoom_to(state, facts.one, frame, 1, middle);
    if (plus_pressed()) zoom_to(state, facts.one, frame, state.view.zoom * 1.5, middle);
    if (pressed({.key = '-'})) zoom_to(state, facts.one, frame, state.view.zoom / 1.5, middle);
    const double across = frame.width() / 4, down = frame.height() / 4;
    for (const bool shift : {false, true}) {
        if (key_taken({.key = code(Key::left), .shift = shift}))
            pan(state, facts.one, frame, across, 0);
        if (key_taken({.key = code(Key::right), .shift = shift}))
            pan(state, facts.one, frame, -across, 0);
        if (key_taken({.key = code(Key::up), .shift = shift}))
            pan(state, facts.one, frame, 0, down);
        if (key_taken({.key = code(Key::down), .shift = shift}))
            pan(state, facts.one, frame, 0, -down);
    }
    if (pressed({.key = 'R'})) state.view = turned(facts.one, frame, state.view, 90);
    if (pressed({.key = 'R', .shift = true}))
        state.view = turned(facts.one, frame, state.view, -90);
    if (pressed({.key = 'X'})) state.view = mirrored(state.view);
    if (state.way != CompareState::wiped) return;
    if (pressed({.key = ','})) state.edge = std::max(0.0, state.edge - kEdgeStep);
    if (pressed({.key = '.'})) state.edge = std::min(1.0, state.edge + kEdgeStep);
}

} // namespace

bool draw_photo_compare(Page& page, Context& context, CompareState& state) {
    const ComparedFacts& facts =
        state.facts.of(context.book, {state.one.value, state.other.value}, [&](const auto&) {
            return read_compared(context.book, state.one, state.other);
        });
    if (facts.one.id != state.one || facts.other.id != state.other) {
        notice(page, "compare.trouble", Tell::stop, state.facts.failure());
        return !button(page, "compare.back", "back", {.key_hint = "Esc"}) &&
               !pressed({.key = code(Key::escape)});
    }
    const Laid laid = laid_on(facts, state.only_turned);
    const Panes panes = laid_out(page, state);
    settle_view(state, facts, panes);
    by_pointer(page, context, state, facts, laid, panes);
    note_keys(page.reg);
    by_keys(state, facts, panes);
    settle_view(state, facts, panes);
    state.all_come = true;
    const Panes drawn = state.way == CompareState::wiped
                            ? [&] {
                                  ImGui::SetCursorScreenPos({panes.all.left, panes.all.top});
                                  return laid_out(page, state); // the edge may have moved
                              }()
                            : panes;
    for (const ComparedPane& pane : panes_of(state, laid, drawn))
        draw_pane(page, context, state, facts, pane);
    if (state.way == CompareState::wiped) draw_edge(page, state, drawn);
    ImGui::SetCursorScreenPos({panes.all.left, panes.all.bottom + page.px(Measure::kHair)});
    return draw_compare_strip(page, context, state, facts, laid);
}

} // namespace fettle::ui
