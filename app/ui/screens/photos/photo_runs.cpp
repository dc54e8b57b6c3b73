#include "ui/screens/photos/photo_runs.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/screens/photos/photos.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr Chord kAccept{'C'}, kAcceptAll{'C', false, true}, kDismiss{'N'}, kNext{'R'};
constexpr Chord kFirst{'F'}, kLast{'L'}, kAgain{'P'}, kUndo{'U'};

bool is_proposed(const Run& run) {
    return run.state == RunState::proposed;
}

// The first photo of the run that is shown and waits for a yes.
PhotoId first_to_confirm(const PhotoList& list, const Run& run) {
    for (const RunPhoto& each : run.photos)
        if (!each.shows_tag && list.find(each.photo)) return each.photo;
    return {};
}

// Puts the keyboard on the run that keys act on; on the next proposed one when it is there already,
// or when that one is done with.
void go_to_next(PhotosState& state, const PhotoList& list, bool is_done = false) {
    const auto current = std::ranges::find(list.runs, state.runs.at, &Run::id);
    const std::size_t count = list.runs.size();
    const auto start = std::size_t(current - list.runs.begin());
    const Run* under = list.run_at(state.at);
    const bool goes_on = is_done || (under && under->id == state.runs.at);
    for (std::size_t i = goes_on || start == count ? 1 : 0; i <= count; ++i) {
        const Run& run = list.runs[(start + i) % count];
        if (!is_proposed(run)) continue;
        const PhotoId photo = first_to_confirm(list, run);
        if (!photo) continue;
        state.runs.at = run.id;
        state.wanted = photo;
        return;
    }
}

// The run that keys act on follows the keyboard's frame into runs, and stays when it leaves them.
const Run* followed_run(PhotosState& state, const PhotoList& list) {
    if (state.runs.followed != state.at) {
        state.runs.followed = state.at;
        if (const Run* run = list.run_at(state.at)) state.runs.at = run->id;
    }
    if (const Run* run = list.run_with(state.runs.at)) return run;
    const auto proposed = std::ranges::find_if(list.runs, is_proposed);
    if (proposed == list.runs.end()) return nullptr;
    state.runs.at = proposed->id;
    return &*proposed;
}

void accept(Context& context, PhotosState& state, const PhotoList& list, const Run& run) {
    if (!context.went_well(accept_run(context.book, run.id, state.tying.stage))) return;
    state.runs.at = run.id;
    go_to_next(state, list, true);
    if (state.runs.at == run.id) state.wanted = state.at;
}

void dismiss(Context& context, PhotosState& state, const PhotoList& list, const Run& run) {
    if (!context.went_well(dismiss_run(context.book, run.id))) return;
    state.runs.at = run.id;
    go_to_next(state, list, true);
    if (state.runs.at == run.id) state.wanted = state.at;
}

void accept_all(Context& context, PhotosState& state, const PhotoList& list) {
    const auto step = context.book.new_step();
    if (!context.went_well(step)) return;
    for (const Run& run : list.runs)
        if (is_proposed(run) &&
            !context.went_well(accept_run(context.book, run.id, state.tying.stage, *step)))
            return;
    state.wanted = state.at;
}

void look_again(Context& context) {
    context.went_well(propose_runs(context.book));
}

// Photos that a tag has found, and tags that have found no part.
void tags_line(Page& page, Context& context, PhotosState& state) {
    const auto& waiting =
        state.runs.waiting.of(context.book, 0, [&](int) { return tags_waiting(context.book); });
    if (waiting.photos > 0) {
        const std::string said = count_words(std::size_t(waiting.photos)) +
                                 (waiting.photos == 1 ? " shows a tag" : " show a tag") +
                                 " that is on a part now";
        words_beside(page, said, Role::brass);
        note(page, "photos.tags.found", said);
        ImGui::SameLine(0, page.px(Measure::kGap));
        const bool go = button(page, "photos.tags.tie", "tie by the tag",
                               {.weight = Weight::quiet, .key_hint = "P"});
        if (go || pressed(kAgain)) look_again(context);
    }
    if (waiting.without_part.empty()) return;
    const std::string said = "Tags on no part yet: " + join(waiting.without_part, ", ") +
                             ". Add the part on Parts; its photos are then found here.";
    fine_print(page, said, Role::brass);
    note(page, "photos.tags.without", said);
}

void move_edge(Context& context, PhotosState& state, RunId run, bool first, PhotoId photo) {
    context.went_well(first ? move_run_start(context.book, run, photo)
                            : move_run_end(context.book, run, photo));
    state.runs.at = run;
    state.wanted = photo;
}

struct BarAct {
    std::string_view key, label, hint;
    Chord chord;
    bool enabled = true;
};

bool act(Page& page, Flow& flow, const BarAct& shown) {
    const ButtonLook look{
        .weight = Weight::quiet, .key_hint = shown.hint, .enabled = shown.enabled};
    flow.place_button(shown.label, look);
    const bool clicked = button(page, shown.key, shown.label, look);
    return clicked || (shown.enabled && pressed(shown.chord));
}

void acts_on_run(Page& page, Context& context, PhotosState& state, const PhotoList& list,
                 const Run& run, int proposed) {
    Flow flow(page, Measure::kStep);
    const std::string said = proposed == 0   ? "no run waits"
                             : proposed == 1 ? "1 run waits"
                                             : std::to_string(proposed) + " runs wait";
    flow.place_words(said);
    words_beside(page, said, proposed > 0 ? Role::brass : Role::pencil);
    note(page, "photos.runs", said, std::to_string(proposed));
    const std::string yes_label = "accept " + run.tag;
    const bool yes =
        act(page, flow, {"photos.run.accept", yes_label, "C", kAccept, is_proposed(run)});
    const bool no = act(page, flow, {"photos.run.dismiss", "dismiss", "N", kDismiss});
    const bool starts =
        act(page, flow, {"photos.run.starts", "starts here", "F", kFirst, bool(state.at)});
    const bool ends = act(page, flow, {"photos.run.ends", "ends here", "L", kLast, bool(state.at)});
    const bool next = act(page, flow, {"photos.run.next", "next", "R", kNext, proposed > 0});
    const bool all =
        act(page, flow, {"photos.run.all", "all", "Shift C", kAcceptAll, proposed > 0});
    const bool back =
        act(page, flow, {"photos.run.undo", "undo", "U", kUndo, !context.book.next_undo().empty()});
    if (all)
        accept_all(context, state, list);
    else if (yes)
        accept(context, state, list, run);
    else if (no)
        dismiss(context, state, list, run);
    else if (starts || ends)
        move_edge(context, state, run.id, starts, state.at);
    else if (next)
        go_to_next(state, list);
    else if (back && context.went_well(context.book.undo()))
        state.wanted = state.at;
}

} // namespace

bool is_edge(const PhotoList& list, const Run& run, PhotoId photo, bool first) {
    const auto shown = [&list](const RunPhoto& each) { return list.find(each.photo) != nullptr; };
    if (first) {
        const auto found = std::ranges::find_if(run.photos, shown);
        return found != run.photos.end() && found->photo == photo;
    }
    const auto found = std::find_if(run.photos.rbegin(), run.photos.rend(), shown);
    return found != run.photos.rend() && found->photo == photo;
}

void runs_bar(Page& page, Context& context, PhotosState& state, const PhotoList& list) {
    tags_line(page, context, state);
    const Run* run = followed_run(state, list);
    if (!run) return;
    const auto proposed = static_cast<int>(std::ranges::count_if(list.runs, is_proposed));
    acts_on_run(page, context, state, list, *run, proposed);
}

void draw_run_head(Page& page, Context& context, PhotosState& state, const PhotoList& list,
                   const PhotoLine& line) {
    const Run& run = list.runs[line.run];
    const std::string key = "photos.run." + std::to_string(run.id.value);
    const bool starts = is_edge(list, run, list.photos[line.first].id, true);
    const bool current = state.runs.at == run.id;
    ImGui::PushItemFlag(ImGuiItemFlags_NoNav, true); // the arrows go from photo to photo
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + page.px(kRunInset));
    if (!is_proposed(run)) {
        fine_words(page, run.tag + " " + run.part_name + ", " + count_words(run.photos.size()) +
                             ", accepted");
        if (starts) note(page, key, run.tag, "accepted");
        ImGui::PopItemFlag();
        return;
    }
    const std::string piece = std::to_string(line.first);
    const std::string to_confirm = std::to_string(run.to_confirm()) + " to confirm";
    if (tag_chip(page, starts ? key + ".part" : key + ".part." + piece, run.tag))
        context.go = Place{"parts", run.part.value};
    Flow flow(page, Measure::kStep);
    flow.go_on();
    const std::string name = cut_to(page, run.part_name, page.px(200));
    flow.place_words(name);
    words_beside(page, name, Role::ink);
    const std::string count = starts ? to_confirm : "continued";
    flow.place_words(count);
    words_beside(page, count, Role::brass);
    if (starts) {
        note(page, key, run.tag + " " + run.part_name, to_confirm);
        const ButtonLook yes{.weight = Weight::quiet, .key_hint = current ? "C" : ""};
        flow.place_button("accept", yes);
        if (button(page, key + ".accept", "accept", yes)) accept(context, state, list, run);
        const ButtonLook no{.weight = Weight::quiet, .key_hint = current ? "N" : ""};
        flow.place_button("dismiss", no);
        if (button(page, key + ".dismiss", "dismiss", no)) dismiss(context, state, list, run);
    }
    ImGui::PopItemFlag();
}

void draw_bracket(Page& page, const PhotosState& state, const PhotoList& list,
                  const PhotoLine& line) {
    const Run& run = list.runs[line.run];
    const Role role = is_proposed(run) ? Role::brass : Role::rule;
    const float thick = page.px(state.runs.at == run.id ? 4 : 2), arm = page.px(Measure::kStep);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float bottom = at.y + line.height - page.px(Measure::kStep);
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const bool ends =
        line.kind == LineOf::photos && (line.first + line.count == list.photos.size() ||
                                        list.run_of[line.first + line.count] != line.run);
    pen->AddRectFilled(at, ImVec2(at.x + thick, ends ? bottom : at.y + line.height),
                       page.tone(role));
    if (line.kind == LineOf::run)
        pen->AddRectFilled(at, ImVec2(at.x + arm, at.y + thick), page.tone(role));
    if (ends)
        pen->AddRectFilled(ImVec2(at.x, bottom - thick), ImVec2(at.x + arm, bottom),
                           page.tone(role));
}

void draw_edge(Page& page, PhotosState& state, const Run& run, bool first, float tall) {
    const std::string key =
        "photos.run." + std::to_string(run.id.value) + (first ? ".first" : ".last");
    const float width = page.px(kRunEdge);
    ImGui::PushItemFlag(ImGuiItemFlags_NoNav, true);
    ImGui::InvisibleButton(key.c_str(), ImVec2(width, tall));
    ImGui::PopItemFlag();
    note(page, key, first ? "first photo of the run" : "last photo of the run");
    const bool held = ImGui::IsItemActive();
    const bool awake = held || ImGui::IsItemHovered();
    if (awake) ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
    if (held && !state.runs.drag) state.runs.drag = RunsState::Drag{run.id, first, {}};
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const float x = (low.x + high.x) / 2, middle = (low.y + high.y) / 2, reach = page.px(22);
    const unsigned tone = page.tone(awake              ? Role::ink
                                    : is_proposed(run) ? Role::brass
                                                       : Role::pencil);
    ImDrawList* pen = ImGui::GetWindowDrawList();
    for (const float aside : {-2.0F, 2.0F}) // two strokes, as on a thing that slides
        pen->AddRectFilled(ImVec2(x + page.px(aside) - page.px(1), middle - reach),
                           ImVec2(x + page.px(aside) + page.px(1), middle + reach), tone);
}

void drag_over(Page& page, PhotosState& state, PhotoId photo) {
    if (!state.runs.drag) return;
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    if (!ImGui::IsMouseHoveringRect(low, high)) return;
    state.runs.drag->over = photo;
    const float edge = state.runs.drag->first ? low.x : high.x, half = page.px(3);
    ImGui::GetWindowDrawList()->AddRectFilled(
        ImVec2(edge - half, low.y), ImVec2(edge + half, high.y), page.tone(Role::red_lead));
}

void finish_drag(Context& context, PhotosState& state) {
    if (!state.runs.drag) return;
    if (ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
        // Held near the upper or lower end of the sheet, what lies beyond comes in.
        const float top = ImGui::GetWindowPos().y, bottom = top + ImGui::GetWindowHeight();
        const float y = ImGui::GetIO().MousePos.y, near = 36, step = 12;
        if (y < top + near) ImGui::SetScrollY(std::max(0.0F, ImGui::GetScrollY() - step));
        if (y > bottom - near) ImGui::SetScrollY(ImGui::GetScrollY() + step);
        return;
    }
    const RunsState::Drag drag = *state.runs.drag;
    state.runs.drag.reset();
    if (drag.over) move_edge(context, state, drag.run, drag.first, drag.over);
}

} // namespace fettle::ui
