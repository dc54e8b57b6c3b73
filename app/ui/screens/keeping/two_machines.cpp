#include "ui/screens/keeping/two_machines.h"

#include "base/text.h"
#include "ui/beside/carry_job.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/scripts.h"
#include "ui/screens/photos/photo_intake.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

constexpr Chord kCarry{'C'}, kMeet{'N'}, kHere{'H'}, kThere{'T'}, kLeave{'S'}, kType{'E'};
constexpr Chord kUp{static_cast<int>(Key::up)}, kDown{static_cast<int>(Key::down)};
constexpr Chord kEscape{static_cast<int>(Key::escape)};
constexpr float kPath = 420;

Result<TwoMachinesRead> read_all(const Notebook& book) {
    auto sides = sides_of(book);
    if (!sides) return sides.failure();
    auto differences = list_differences(book);
    if (!differences) return differences.failure();
    return TwoMachinesRead{std::move(*sides), std::move(*differences)};
}

void open_path(TwoMachinesState& state, PathFor what) {
    if (state.path_for != what) state.path.clear();
    state.path_for = what;
    state.wants_caret = true;
    state.error.clear();
}

void start(Context& context, TwoMachinesState& state) {
    const bool meet = state.path_for == PathFor::meet;
    if (trim(state.path).empty()) {
        state.error = meet ? "Type the file that was carried from the other machine."
                           : "Type the file to carry in, such as /media/stick/garage.carried.";
        state.wants_caret = true;
        return;
    }
    const auto file = std::filesystem::absolute(path_of(std::string(trim(state.path))));
    if (context.exchange) context.exchange({file, meet});
    state.path_for = PathFor::nothing;
}

void path_line(Page& page, Context& context, TwoMachinesState& state) {
    const bool meet = state.path_for == PathFor::meet;
    const bool escaped = pressed(kEscape, true);
    const FieldChange field =
        text_field(page, "machines.path", state.path,
                   {.label = meet ? "the file that was carried from the other machine"
                                  : "a file for what has changed, on a stick or in a shared folder",
                    .hint = "/media/stick/garage.carried",
                    .error = state.error,
                    .width = kPath,
                    .take_focus = std::exchange(state.wants_caret, false)});
    if (field.edited) state.error.clear();
    const bool go = button(page, "machines.go", meet ? "meet it" : "carry it",
                           {.weight = Weight::next, .key_hint = "Enter"});
    ImGui::SameLine(0, page.px(Measure::kGap));
    words_beside(page, "Esc leaves", Role::pencil, Face::fine);
    if (go || field.entered)
        start(context, state);
    else if (escaped)
        state.path_for = PathFor::nothing;
    gap(page);
}

// Which machines there are, and when the others were last met.
std::string standing(const Sides& sides) {
    const Side* own = sides.at(sides.own);
    std::string words = own ? "This is " + own->name + "." : "";
    for (const Side& side : sides.sides) {
        if (side.number == sides.own || side.copy.empty()) continue;
        words += " What " + side.name + " wrote is known here";
        words += side.met ? " up to " + to_words(day_of_moment(side.met)) + "." : ".";
    }
    if (std::ranges::count_if(sides.sides, [](const Side& s) { return !s.copy.empty(); }) < 2)
        words += " Nothing has come from the other machine yet.";
    return words;
}

void acts(Page& page, TwoMachinesState& state) {
    const bool carry =
        button(page, "machines.carry", "carry to a file", {.key_hint = words_of(kCarry)});
    ImGui::SameLine(0, page.px(Measure::kGap));
    const bool meet = button(page, "machines.meet", "meet a file", {.key_hint = words_of(kMeet)});
    if (carry || pressed(kCarry)) open_path(state, PathFor::carry);
    if (meet || pressed(kMeet)) open_path(state, PathFor::meet);
    gap(page);
}

// One side's value in a column of its own; true when it was taken.
bool side_cell(Page& page, const std::string& key, const OneSide& side, bool here, bool chosen,
               float width) {
    ImGui::BeginGroup();
    const std::string where =
        std::string(here ? "here, " : "there, ") + side.side + ", " + to_words(side.day);
    fine_words(page, cut_to(page, where, width, Face::fine));
    const std::string said = side.words.empty() ? "nothing" : side.words;
    const float top = ImGui::GetCursorPosY();
    ImGui::TextUnformatted(as_drawn(broken_to(page, said, width)).c_str());
    note(page, key, here ? "here" : "there", said);
    fine_words(page, side.stands ? "stands now" : " ", Role::verdigris);
    bool taken = false;
    if (chosen) {
        const Chord chord = here ? kHere : kThere;
        taken = button(page, key + ".take", here ? "take what is here" : "take what is there",
                       {.key_hint = words_of(chord)}) ||
                pressed(chord);
    }
    // The column is as wide, whatever it says.
    ImGui::SetCursorPosY(std::max(ImGui::GetCursorPosY(), top));
    ImGui::Dummy(ImVec2(width, 0));
    ImGui::EndGroup();
    return taken;
}

void settle(Context& context, TwoMachinesState& state, const Difference& one, Settle how) {
    if (context.went_well(settle_difference(context.book, one.id, how))) state.typing = false;
}

void text_line(Page& page, Context& context, TwoMachinesState& state, const Difference& one) {
    const bool escaped = pressed(kEscape, true);
    const FieldChange field = text_field(page, "machines.text", state.text,
                                         {.label = "another text",
                                          .error = state.text_error,
                                          .width = kPath,
                                          .take_focus = std::exchange(state.wants_caret, false)});
    if (field.edited) state.text_error.clear();
    const bool keep = button(page, "machines.text.keep", "keep it",
                             {.weight = Weight::next, .key_hint = "Enter"});
    if (keep || field.entered) {
        const auto kept = settle_with_text(context.book, one.id, state.text);
        state.text_error = kept ? "" : kept.failure().sentence;
        if (kept)
            state.typing = false;
        else
            state.wants_caret = true;
    } else if (escaped) {
        state.typing = false;
    }
}

// What can be done with the chosen one besides taking a side.
void other_acts(Page& page, Context& context, TwoMachinesState& state, const Difference& one) {
    if (state.typing) return text_line(page, context, state, one);
    if (button(page, "machines.leave", "leave it as it stands", {.key_hint = words_of(kLeave)}) ||
        pressed(kLeave))
        settle(context, state, one, Settle::as_it_stands);
    if (!one.free_text || one.kind == DifferenceKind::circle) return;
    ImGui::SameLine(0, page.px(Measure::kGap));
    if (button(page, "machines.type", "type another", {.key_hint = words_of(kType)}) ||
        pressed(kType)) {
        state.typing = state.wants_caret = true;
        state.text = one.here.stands ? one.here.words : one.there.words;
        state.text_error.clear();
    }
}

void draw_difference(Page& page, Context& context, TwoMachinesState& state, const Difference& one) {
    const std::string key = "machines.difference." + std::to_string(one.id.value);
    const bool chosen = state.at == one.id;
    if (row(page, key, {.label = one.of, .aside = one.field, .selected = chosen})) {
        state.at = one.id;
        state.typing = false;
    }
    ImGui::Indent(page.px(12));
    if (!one.before.empty()) fine_print(page, "before: " + one.before);
    const bool two_values = one.kind == DifferenceKind::changed;
    if (two_values) {
        const float between = page.px(Measure::kMargin);
        const float width = (ImGui::GetContentRegionAvail().x - between) / 2;
        const bool here = side_cell(page, key + ".here", one.here, true, chosen, width);
        ImGui::SameLine(0, between);
        const bool there = side_cell(page, key + ".there", one.there, false, chosen, width);
        if (here) settle(context, state, one, Settle::here);
        if (there) settle(context, state, one, Settle::there);
    } else {
        body(page, one.said());
        if (one.kind != DifferenceKind::removed)
            fine_print(page, one.here.side + ": " + one.here.words + "   " + one.there.side + ": " +
                                 one.there.words);
    }
    if (chosen) other_acts(page, context, state, one);
    ImGui::Unindent(page.px(12));
    gap(page);
    rule(page);
}

// Up and down go through the list.
void choose(TwoMachinesState& state, const std::vector<Difference>& all) {
    auto at = std::ranges::find(all, state.at, &Difference::id);
    if (at == all.end()) {
        state.at = all.front().id;
        state.typing = false;
        return;
    }
    if (state.typing) return;
    if (pressed(kUp) && at != all.begin()) state.at = std::prev(at)->id;
    if (pressed(kDown) && std::next(at) != all.end()) state.at = std::next(at)->id;
}

void draw_differences(Page& page, Context& context, TwoMachinesState& state,
                      const std::vector<Difference>& all) {
    heading(page, "What both machines changed");
    if (all.empty()) {
        body(page, "Nothing is to be settled.", Role::pencil);
        note(page, "machines.none", "nothing to settle");
        return;
    }
    fine_print(page, "The value written later stands until you say which is to be. The other "
                     "machine takes over what you choose.");
    gap(page);
    choose(state, all);
    for (const Difference& one : all)
        draw_difference(page, context, state, one);
}

constexpr const char* kWhatFor =
    "One notebook on two machines, the laptop in the garage and the computer in the house. Carry "
    "writes what has changed here into one file, photos and all; on the other machine meet brings "
    "it in. What both changed differently is shown here side by side, and nothing is lost. The "
    "other machine begins with `fettlebook meet FILE` in an empty folder.";

} // namespace

void draw_two_machines(Page& page, Context& context, TwoMachinesState& state) {
    const TwoMachinesRead& read =
        state.read.of(context.book, 0, [&](int) { return read_all(context.book); });
    heading(page, "Two machines");
    if (!state.read.failure().empty())
        notice(page, "machines.trouble", Tell::stop, state.read.failure());
    if (state.path_for != PathFor::nothing) return path_line(page, context, state);
    if (read.sides.notebook.empty()) {
        if (empty_page(page, "machines.empty",
                       {kWhatFor, "carry it to a file", words_of(kCarry)}) ||
            pressed(kCarry))
            open_path(state, PathFor::carry);
        return;
    }
    const std::string where = standing(read.sides);
    body(page, where, Role::pencil);
    note(page, "machines.standing", "machines", where);
    gap(page);
    acts(page, state);
    gap(page);
    draw_differences(page, context, state, read.differences);
    gap(page, Measure::kMargin);
}

std::string to_settle(int differences) {
    return differences == 0 ? "" : std::to_string(differences);
}

} // namespace fettle::ui
