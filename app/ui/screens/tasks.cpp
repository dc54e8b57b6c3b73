#include "ui/screens/tasks.h"

#include "base/text.h"
#include "ui/acts.h"
#include "ui/entry_panel.h"
#include "ui/flow.h"
#include "ui/input_queue.h"
#include "ui/keyboard_frame.h"
#include "ui/readings.h"

#include <imgui.h>

#include <algorithm>
#include <cstdio>

namespace fettle::ui {
namespace {

constexpr float kStateColumn = 72;

std::string figure_of(double hours) {
    char text[32];
    std::snprintf(text, sizeof text, "%.4g", hours);
    return text;
}

std::string hours_words(const TaskStanding& standing) {
    const auto& estimate = standing.task.estimate_hours;
    if (estimate && standing.spent_hours > 0)
        return figure_of(standing.spent_hours) + " of " + figure_of(*estimate) + " h";
    if (estimate) return figure_of(*estimate) + " h";
    if (standing.spent_hours > 0) return figure_of(standing.spent_hours) + " h spent";
    return {};
}

struct StateWords {
    std::string text;
    Role role = Role::pencil;
};

StateWords state_words(const TaskStanding& standing) {
    if (standing.ready()) return {"ready", Role::verdigris};
    if (standing.task.state == TaskState::open) return {"waits", Role::brass};
    return {std::string(word(standing.task.state)), Role::pencil};
}

std::string under_words(const TaskStanding& standing) {
    if (standing.task.state == TaskState::open) {
        if (!standing.waits.empty()) return "for " + join(standing.waits, "; ");
        const std::string_view note = trim(standing.task.note);
        return std::string(note.substr(0, note.find('\n')));
    }
    return standing.task.done_on ? to_words(*standing.task.done_on) : std::string();
}

void write_at(const Page& page, ImVec2 at, std::string_view text, Role role) {
    (void)page;
    ImGui::GetWindowDrawList()->AddText(at, page.tone(role), text.data(),
                                        text.data() + text.size());
}

bool done_key() {
    return pressed({.key = 'D'});
}

void change_state(Context& context, const Task& task) {
    const auto state = task.state == TaskState::open ? TaskState::done : TaskState::open;
    context.went_well(set_task_state(context.book, task.id, state, today()));
}

void open_form(Context& context, TasksState& state, TaskId id) {
    const auto task = task_by_id(context.book, id);
    if (!context.went_well(task)) return;
    state.form = form_of(context.book, *task);
    state.writing = true;
}

void take_frame(TasksState& state, TaskId id) {
    if (state.wanted == id) {
        put_keyboard_here();
        ImGui::SetScrollHereY(0.5F);
        state.wanted = {};
    }
    if (ImGui::IsItemFocused()) state.at = id;
}

void draw_task(Page& page, Context& context, TasksState& state, const TaskStanding& standing) {
    const Task& task = standing.task;
    const std::string key = "tasks.row." + std::to_string(task.id.value);
    const std::string hours = hours_words(standing), under = under_words(standing);
    const StateWords said = state_words(standing);
    const float height = under.empty() ? Measure::kRow : 54;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float room = ImGui::GetContentRegionAvail().x;
    if (row(page, key, {.label = "", .aside = hours, .height = height}))
        open_form(context, state, task.id);
    take_frame(state, task.id);
    const float line = ImGui::GetFontSize(), pad = page.px(12);
    const float top = at.y + (page.px(Measure::kRow) - line) / 2;
    const float left = at.x + pad + page.px(kStateColumn);
    const float aside = hours.empty() ? 0 : width_of(page, hours) + pad;
    write_at(page, ImVec2(at.x + pad, top), said.text, said.role);
    write_at(page, ImVec2(left, top), cut_to(page, task.title, at.x + room - left - aside - pad),
             task.state == TaskState::open ? Role::ink : Role::pencil);
    if (!under.empty()) {
        const InFace fine(page, Face::fine);
        write_at(page, ImVec2(left, top + line + page.px(2)),
                 cut_to(page, under, at.x + room - left - aside - pad, Face::fine),
                 standing.waits.empty() ? Role::pencil : Role::brass);
    }
    note_area(page, key + ".words", task.title, {at.x, at.y, at.x + room, at.y + 1},
              under.empty() ? said.text : said.text + " " + under);
}

struct Group {
    const char* key;
    const char* title;
    const char* none;
    std::vector<const TaskStanding*> tasks;
};

void draw_group(Page& page, Context& context, TasksState& state, const Group& group) {
    if (group.tasks.empty() && *group.none == '\0') return;
    gap(page, Measure::kGap);
    const bool over = std::string_view(group.key) == "over";
    double hours = 0;
    for (const TaskStanding* standing : group.tasks)
        hours += over ? standing->spent_hours : standing->task.estimate_hours.value_or(0);
    words(page, group.title);
    ImGui::SameLine(0, page.px(Measure::kStep));
    std::string count = std::to_string(group.tasks.size());
    if (hours > 0) count += "     " + figure_of(hours) + (over ? " h spent" : " h estimated");
    words(page, count, Role::pencil);
    note(page, std::string("tasks.") + group.key, group.title, std::to_string(group.tasks.size()));
    rule(page);
    if (group.tasks.empty()) body(page, group.none, Role::pencil);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), 0));
    for (const TaskStanding* standing : group.tasks)
        draw_task(page, context, state, *standing);
    ImGui::PopStyleVar();
}

void begin_new(TasksState& state) {
    state.form = {};
    state.writing = true;
}

void acts(Page& page, Context& context, TasksState& state, const std::vector<TaskStanding>& tasks) {
    const auto at = std::ranges::find_if(
        tasks, [&](const TaskStanding& standing) { return standing.task.id == state.at; });
    const Task* task = at == tasks.end() ? nullptr : &at->task;
    Flow flow(page, Measure::kGap);
    const auto act = [&](std::string_view key, std::string_view label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    const bool any = task != nullptr;
    if (act("tasks.add", "add a task", {.key_hint = "N"}) || pressed({.key = 'N'}))
        begin_new(state);
    const char* turn = any && task->state != TaskState::open ? "open it again" : "done";
    if ((act("tasks.done", turn, {.weight = Weight::quiet, .key_hint = "D", .enabled = any}) ||
         done_key()) &&
        any)
        change_state(context, *task);
    if (act("tasks.change", "change",
            {.weight = Weight::quiet, .key_hint = "Enter", .enabled = any}) &&
        any)
        open_form(context, state, task->id);
    const ButtonLook entry{.weight = Weight::quiet, .key_hint = "E", .enabled = any};
    if ((act("tasks.entry", "into the entry", entry) || pressed({.key = 'E'})) && any)
        put_in_task(context, task->id);
}

void come_in(TasksState& state, const std::vector<TaskStanding>& tasks) {
    const auto there = [&](TaskId id) {
        return std::ranges::any_of(
            tasks, [&](const TaskStanding& standing) { return standing.task.id == id; });
    };
    if (!there(state.at)) state.at = tasks.empty() ? TaskId{} : tasks.front().task.id;
    if (just_came_in(state.last_frame)) state.wanted = state.at;
}

void list_screen(Page& page, Context& context, TasksState& state) {
    const auto& tasks = state.list.of(context.book, today(),
                                      [&](Day day) { return list_tasks(context.book, day); });
    if (!state.list.failure().empty())
        notice(page, "tasks.trouble", Tell::stop, state.list.failure());
    heading(page, "Tasks");
    if (tasks.empty()) {
        if (empty_page(page, "tasks.empty",
                       {"A task is a piece of work: what must be done first, which positions it "
                        "needs filled, what else it waits for. What can be done today comes first.",
                        "add the first task", "N"}) ||
            pressed({.key = 'N'}))
            begin_new(state);
        return;
    }
    gap(page, Measure::kHair);
    acts(page, context, state, tasks);
    come_in(state, tasks);
    Group groups[] = {{"ready", "Can be done now", "Nothing can be done now.", {}},
                      {"waits", "Waits", "", {}},
                      {"over", "Done", "", {}}};
    for (const TaskStanding& standing : tasks)
        groups[standing.ready()                         ? 0
               : standing.task.state == TaskState::open ? 1
                                                        : 2]
            .tasks.push_back(&standing);
    for (const Group& group : groups)
        draw_group(page, context, state, group);
    gap(page, Measure::kMargin);
}

} // namespace

void draw_tasks(Page& page, Context& context, TasksState& state) {
    if (state.form.wanted) {
        const TaskId id = state.form.wanted;
        state.form = {};
        state.at = id;
        open_form(context, state, id);
    }
    if (!state.writing) {
        list_screen(page, context, state);
        return;
    }
    if (draw_task_form(page, context, state.form) != FormEnd::goes_on) state.writing = false;
}

void lead_to(TasksState& state, const Place& place) {
    if (place.record != 0) state.form.wanted = TaskId{place.record};
}

} // namespace fettle::ui
