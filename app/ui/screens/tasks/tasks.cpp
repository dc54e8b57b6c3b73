#include "ui/screens/tasks/tasks.h"

#include "base/text.h"
#include "ui/entry/entry_panel.h"
#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/screens/tasks/task_words.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kStateColumn = 72, kTaskRow = 54;
constexpr std::size_t kChainTitles = 8;

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
    const std::string hours = task_hours_words(standing), under = task_under_words(standing);
    const std::string_view said = standing_word(standing);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float room = ImGui::GetContentRegionAvail().x;
    if (row(page, key, {.label = "", .aside = hours, .height = kTaskRow}))
        open_form(context, state, task.id);
    take_frame(state, task.id);
    const float line = ImGui::GetFontSize(), pad = page.px(12);
    const float top = at.y + page.px(under.empty() ? (kTaskRow - Measure::kBody) / 2 : 9);
    const float left = at.x + pad + page.px(kStateColumn);
    const float aside = hours.empty() ? 0 : width_of(page, hours) + pad;
    write_at(page, at.x + pad, top, said, role_of(standing));
    write_at(page, left, top, cut_to(page, task.title, at.x + room - left - aside - pad),
             task.state == TaskState::open ? Role::ink : Role::pencil);
    if (!under.empty()) {
        const InFace fine(page, Face::fine);
        write_at(page, left, top + line + page.px(2),
                 cut_to(page, under, at.x + room - left - aside - pad, Face::fine),
                 standing.waits.empty() ? Role::pencil : Role::brass);
    }
    note_area(page, key + ".words", task.title, {at.x, at.y, at.x + room, at.y + 1},
              under.empty() ? std::string(said) : std::string(said) + " " + under);
}

struct Group {
    const char* key;
    const char* title;
    const char* none;
    const std::vector<const TaskStanding*>& tasks;
};

void draw_group(Page& page, Context& context, TasksState& state, const Group& group) {
    if (group.tasks.empty() && *group.none == '\0') return;
    gap(page, Measure::kGap);
    heading(page, group.title);
    note(page, std::string("tasks.") + group.key, group.title, std::to_string(group.tasks.size()));
    rule(page);
    if (group.tasks.empty()) body(page, group.none, Role::pencil);
    const std::string list = std::string("tasks.list.") + group.key;
    const auto wanted = std::ranges::find(group.tasks, state.wanted,
                                          [](const TaskStanding* one) { return one->task.id; });
    if (state.wanted && wanted != group.tasks.end()) // it may be too far away to be drawn
        page.reg.ask_row(list, static_cast<int>(wanted - group.tasks.begin()));
    rows(page, list, static_cast<int>(group.tasks.size()), kTaskRow, [&](int i) {
        draw_task(page, context, state, *group.tasks[static_cast<std::size_t>(i)]);
    });
}

void begin_new(TasksState& state) {
    state.form = {};
    state.writing = true;
}

struct Acts {
    bool add = false, done = false, drop = false, change = false, entry = false, turn = false;
};

Acts ask_acts(Page& page, const TasksState& state, const Task* task) {
    Flow flow(page, Measure::kGap);
    const auto act = [&](std::string_view key, std::string_view label, const ButtonLook& look) {
        flow.place_button(label, look);
        return button(page, key, label, look);
    };
    const bool any = task != nullptr;
    const bool open = any && task->state == TaskState::open;
    const auto quiet = [&](std::string_view hint, bool enabled) {
        return ButtonLook{.weight = Weight::quiet, .key_hint = hint, .enabled = enabled};
    };
    Acts asked;
    asked.add = act("tasks.add", "add a task", {.key_hint = "N"}) || pressed({.key = 'N'});
    asked.turn = act("tasks.picture.turn", state.drawn ? "as a list" : "as a picture",
                     {.weight = Weight::quiet, .key_hint = "P"}) ||
                 pressed({.key = 'P'});
    asked.done = act("tasks.done", open || !any ? "done" : "open it again", quiet("D", any)) ||
                 pressed({.key = 'D'});
    asked.drop = act("tasks.drop", "drop", quiet("X", open)) || (pressed({.key = 'X'}) && open);
    asked.change = act("tasks.change", "change", quiet("Enter", any));
    asked.entry = act("tasks.entry", "into the entry", quiet("E", any)) || pressed({.key = 'E'});
    return asked;
}

void acts(Page& page, Context& context, TasksState& state, const std::vector<TaskStanding>& tasks) {
    const auto at = std::ranges::find_if(
        tasks, [&](const TaskStanding& standing) { return standing.task.id == state.at; });
    const Task* task = at == tasks.end() ? nullptr : &at->task;
    const Acts asked = ask_acts(page, state, task);
    if (asked.add) begin_new(state);
    if (asked.turn) {
        state.drawn = !state.drawn;
        state.picture.at = state.wanted = state.at;
        state.picture.take_keyboard = state.drawn;
    }
    if (!task) return;
    if (asked.done) change_state(context, *task);
    if (asked.drop)
        context.went_well(set_task_state(context.book, task->id, TaskState::dropped, today()));
    if (asked.change) open_form(context, state, task->id);
    if (asked.entry) put_in_task(context, task->id);
}

void come_in(TasksState& state, const TaskGroups& groups) {
    const auto there = [&](const TaskStanding& standing) { return standing.task.id == state.at; };
    if (std::ranges::none_of(groups.tasks, there))
        state.at =
            groups.ready.empty() ? groups.tasks.front().task.id : groups.ready.front()->task.id;
    if (!just_came_in(state.last_frame)) return;
    state.wanted = state.at;
    state.picture.take_keyboard = state.drawn;
}

// The longest chain in words: how many tasks and hours, and which.
std::string chain_words(const std::vector<TaskStanding>& tasks) {
    const auto chain = longest_chain(tasks);
    if (chain.empty()) return {};
    double hours = 0;
    std::vector<std::string> titles;
    for (const TaskStanding* standing : chain) {
        hours += standing->left_hours;
        if (titles.size() < kChainTitles) titles.push_back(standing->task.title);
    }
    return "The longest chain: " + std::to_string(chain.size()) + " tasks, " +
           hours_in_words(hours) + ": " + join(titles, " → ") +
           (titles.size() < chain.size() ? " → …" : "");
}

Result<TaskGroups> read_tasks(const Notebook& book, Day day) {
    auto tasks = list_tasks(book, day);
    if (!tasks) return tasks.failure();
    TaskGroups groups{.tasks = std::move(*tasks)};
    for (const NextTask& next : what_next(groups.tasks))
        groups.ready.push_back(next.standing);
    for (const TaskStanding& standing : groups.tasks)
        if (!standing.ready())
            (standing.task.state == TaskState::open ? groups.waits : groups.over)
                .push_back(&standing);
    groups.chain = chain_words(groups.tasks);
    return groups;
}

// All of it, or what hangs on one task; with what is over, or without.
void choose_shown(Page& page, const TaskGroups& groups, TaskPictureState& picture) {
    LayoutWish wish = picture.wish;
    const auto there = [&](const TaskStanding& one) { return one.task.id == wish.only; };
    if (wish.only && std::ranges::none_of(groups.tasks, there)) wish.only = {};
    bool only = static_cast<bool>(wish.only);
    check(page, "tasks.picture.over", "with what is done or dropped", wish.with_over);
    ImGui::SameLine(0, page.px(Measure::kMargin));
    const std::string label = "only what hangs on this task   O";
    if (check(page, "tasks.picture.only", label, only) || pressed({.key = 'O'}))
        wish.only = wish.only ? TaskId{} : picture.at;
    if (wish.only != picture.wish.only) {
        picture.at = wish.only ? wish.only : picture.at;
        picture.placed = false;
        picture.take_keyboard = true;
    }
    picture.wish = wish;
}

void picture_screen(Page& page, Context& context, TasksState& state, const TaskGroups& groups) {
    TaskPictureState& picture = state.picture;
    if (!groups.chain.empty()) {
        const float room = ImGui::GetContentRegionAvail().x;
        fine_words(page, cut_to(page, groups.chain, room, Face::fine));
        note(page, "tasks.chain", groups.chain);
    }
    choose_shown(page, groups, picture);
    const auto& layout = picture.layout.of(context.book, {state.list.readings(), picture.wish},
                                           [&](const auto& asked) -> Result<TaskLayout> {
                                               return layout_of(groups.tasks, asked.second);
                                           });
    if (layout.nodes.empty()) body(page, "Nothing is open.", Role::pencil);
    const TaskId opened = draw_task_picture(page, layout, picture);
    if (picture.at) state.at = picture.at;
    if (opened) open_form(context, state, opened);
}

void list_groups(Page& page, Context& context, TasksState& state, const TaskGroups& read) {
    draw_group(page, context, state,
               {"ready", "Can be done now", "Nothing can be done now.", read.ready});
    draw_group(page, context, state, {"waits", "Waits", "", read.waits});
    draw_group(page, context, state, {"over", "Done or dropped", "", read.over});
    gap(page, Measure::kMargin);
}

void list_screen(Page& page, Context& context, TasksState& state) {
    const TaskGroups& groups = state.list.beside(context.side, context.book, today(), read_tasks);
    const auto& tasks = groups.tasks;
    if (!state.list.failure().empty())
        notice(page, "tasks.trouble", Tell::stop, state.list.failure());
    heading(page, "Tasks");
    if (state.list.nothing_yet()) return being_read(page, "tasks.reading");
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
    come_in(state, groups);
    if (state.drawn)
        picture_screen(page, context, state, groups);
    else
        list_groups(page, context, state, groups);
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
    if (place.view == "new") begin_new(state);
    if (place.record != 0) state.form.wanted = TaskId{place.record};
}

} // namespace fettle::ui
