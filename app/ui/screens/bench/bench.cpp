#include "ui/screens/bench/bench.h"

#include "desk/drafting.h"
#include "notebook/weather.h"
#include "ui/entry/entry_panel.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/keeping/keeping.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/day_words.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kThreeColumns = 600; // narrower than that they stand below each other

bool waits_outside(const TaskStanding* standing) {
    return std::ranges::any_of(standing->waits,
                               [](const Wait& wait) { return wait.on != WaitsOn::task; });
}

Result<BenchRead> read_bench(const Notebook& book, Day day) {
    auto all = on_bench(book, day);
    if (!all) return all.failure();
    BenchRead read{.all = std::move(*all)};
    read.next = what_next(read.all.tasks, read.all.hours);
    for (const TaskStanding& standing : read.all.tasks)
        if (standing.task.state == TaskState::open && !standing.ready())
            read.waits.push_back(&standing);
    std::ranges::stable_sort(read.waits, {}, [](const TaskStanding* standing) {
        return std::pair(!waits_outside(standing), -standing->after.hours);
    });
    return read;
}

void keep_hours(Context& context, BenchState& state) {
    const auto hours = desk::parse_hours(state.hours);
    if (!hours) {
        state.hours_error = hours.failure().sentence;
        return;
    }
    if (*hours == state.hours_shown) return;
    const Done kept = set_hours_of_day(context.book, today(), *hours);
    state.hours_error = kept ? "" : kept.failure().sentence;
    if (kept) state.hours_shown = *hours;
}

void hours_field(Page& page, Context& context, BenchState& state, const BenchRead& read) {
    // Typed elsewhere, or taken back. What is being typed stays, whatever comes meanwhile.
    const bool is_newest = !state.read.is_reading() && !state.hours_active;
    if (is_newest && state.hours_shown != read.all.hours) {
        state.hours_shown = read.all.hours;
        state.hours = read.all.hours ? said_number(*read.all.hours) : "";
        state.hours_error.clear();
    }
    constexpr Chord kHours{'H'};
    const FieldChange change = text_field(page, "bench.hours", state.hours,
                                          {.label = "hours today",
                                           .hint = "any",
                                           .error = state.hours_error,
                                           .key_hint = "H",
                                           .width = 96,
                                           .take_focus = pressed(kHours)});
    state.hours_active = change.active;
    if (change.edited) state.hours_error.clear();
    if (change.entered || change.left) keep_hours(context, state);
}

std::string fitting_words(const BenchRead& read) {
    const auto fit = std::ranges::count_if(read.next, &NextTask::fits);
    std::string said = std::to_string(fit) + (fit == 1 ? " task fits" : " tasks fit");
    if (read.all.hours) said += " " + hours_in_words(*read.all.hours);
    if (read.all.temperature_c)
        said += std::string(read.all.hours ? " and " : " ") + said_number(*read.all.temperature_c) +
                " °C";
    else
        said += read.all.hours ? "; set the day's temperature above" : " today";
    return said;
}

void name_and_view(Page& page, BenchState& state) {
    heading(page, "Bench");
    ImGui::SameLine(0, page.px(Measure::kGap));
    words_beside(page, with_weekday(today()), Role::pencil);
    ImGui::SameLine(0, page.px(Measure::kMargin));
    choice(page, "bench.view", {"today's work", "the rebuild"}, state.view);
    ImGui::SameLine(0, page.px(Measure::kGap));
    words_beside(page, "R", Role::pencil, Face::fine);
    page.reg.note_key("R", "the other view");
    if (pressed({.key = 'R'})) state.view = 1 - state.view;
}

void head(Page& page, Context& context, BenchState& state, const BenchRead& read) {
    ImGui::BeginGroup();
    hours_field(page, context, state, read);
    ImGui::EndGroup();
    ImGui::SameLine(0, page.px(Measure::kMargin));
    ImGui::BeginGroup();
    gap(page, Measure::kMargin);
    const std::string fitting = fitting_words(read);
    const float room = ImGui::GetContentRegionAvail().x;
    words(page, cut_to(page, fitting, room));
    note(page, "bench.fitting", fitting);
    fine_words(page,
               cut_to(page, "Enter opens     D  done     E  into the entry", room, Face::fine));
    ImGui::EndGroup();
    gap(page);
}

// What to do first where there is nothing yet.
void empty_bench(Page& page, Context& context) {
    heading(page, "Bench");
    gap(page, Measure::kGap);
    const char* what_for =
        "Here stands, each day, what can be done now, what waits for what, and what needs a look. "
        "Nothing is in this notebook yet. Begin with any of these:";
    body(page, what_for, Role::pencil);
    note(page, "bench.empty", what_for);
    gap(page, Measure::kGap);
    if (button(page, "bench.first.photos", "take photos in", {.weight = Weight::next}))
        context.go = Place{.screen = "photos", .view = "take-in"};
    body(page, "Or drop files, or a whole folder, on the window.", Role::pencil);
    gap(page);
    if (button(page, "bench.first.part", "add the first part"))
        context.go = Place{.screen = "parts", .view = "new"};
    body(page, "What came off the vehicle, each with a tag; or a whole parts list.", Role::pencil);
    gap(page);
    if (button(page, "bench.first.task", "add the first task"))
        context.go = Place{.screen = "tasks", .view = "new"};
    body(page, "What must be done, and what it waits for.", Role::pencil);
    gap(page);
    if (button(page, "bench.first.entry", "write the first entry")) context.write_on = true;
    body(page, "What was done today; the entry stands beside every screen.", Role::pencil);
}

using List = void (*)(Page&, Context&, BenchState&, const BenchRead&);
constexpr List kLists[] = {draw_can_be_done, draw_waits, draw_needs_a_look};

void lists(Page& page, Context& context, BenchState& state, const BenchRead& read) {
    if (ImGui::GetContentRegionAvail().x < page.px(kThreeColumns)) {
        for (const List list : kLists)
            list(page, context, state, read);
        return;
    }
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, ImVec2(page.px(Measure::kStep), 0));
    ImGui::PushStyleColor(ImGuiCol_TableBorderLight, page.tone(Role::rule));
    constexpr auto kTable = ImGuiTableFlags_BordersInnerV | ImGuiTableFlags_SizingStretchSame;
    if (ImGui::BeginTable("bench.lists", 3, kTable)) {
        for (const List list : kLists) {
            ImGui::TableNextColumn();
            list(page, context, state, read);
        }
        ImGui::EndTable();
    }
    ImGui::PopStyleColor();
    ImGui::PopStyleVar();
}

void by_keys(Context& context, const BenchState& state) {
    if (!state.at) return;
    if (pressed({.key = 'D'}))
        context.went_well(set_task_state(context.book, state.at, TaskState::done, today()));
    if (pressed({.key = 'E'})) put_in_task(context, state.at);
}

} // namespace

void draw_bench(Page& page, Context& context, BenchState& state) {
    const BenchRead& read = state.read.beside(context.side, context.book, today(), read_bench);
    if (!state.read.failure().empty())
        notice(page, "bench.trouble", Tell::stop, state.read.failure());
    if (state.read.nothing_yet()) {
        heading(page, "Bench");
        return being_read(page, "bench.reading");
    }
    if (just_came_in(state.last_frame)) {
        state.take_keyboard = true;
        state.backup = backup_wanted(context.book);
    }
    if (read.all.nothing_yet && context.draft.blank()) {
        empty_bench(page, context);
        return;
    }
    name_and_view(page, state);
    state.at = {};
    if (state.view == 1) {
        draw_rebuild(page, context, state.rebuild);
        return;
    }
    head(page, context, state, read);
    lists(page, context, state, read);
    by_keys(context, state);
    gap(page, Measure::kMargin);
}

void lead_to(BenchState& state, const Place& place) {
    if (!place.view.empty()) state.view = place.view == "rebuild" ? 1 : 0;
}

} // namespace fettle::ui
