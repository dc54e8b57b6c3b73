#include "notebook/tasks.h"

#include "cli/task_report.h"
#include "cli/typed.h"
#include "cli/verbs.h"
#include "desk/drafting.h"
#include "notebook/vehicles.h"

#include <algorithm>

namespace fettle::cli {

void add_task_lists(Line& line, CLI::App& group); // task_list.cpp

namespace {

// What `add` and `set` take alike. What is not given stays as it is; a blank text clears a field.
struct FieldsWish {
    std::optional<std::string> hours, least_temperature, waits_for, note;
    std::vector<std::string> needs, positions, deliveries;
};

void declare_fields(CLI::App& verb, FieldsWish& wish) {
    add_repeated(verb, "--needs", wish.needs, "A task that must be done first; may be repeated")
        ->option_text("ID");
    add_repeated(verb, "--position", wish.positions,
                 "A position that must be filled, and how far along; may be repeated")
        ->option_text("NUMBER=CONDITION");
    add_repeated(verb, "--delivery", wish.deliveries,
                 "A consignment that must have come; may be repeated")
        ->option_text("ID");
    verb.add_option("--hours", wish.hours, "How long it will take")->option_text("HOURS");
    verb.add_option("--least-temperature", wish.least_temperature,
                    "The least temperature in the workshop, such as \"15 °C\"")
        ->option_text("T");
    verb.add_option("--waits-for", wish.waits_for, "What else it waits for, in words")
        ->option_text("TEXT");
    verb.add_option("--note", wish.note, "Whatever else there is to say")->option_text("TEXT");
}

Result<NeededPosition> parse_needed_position(const Notebook& notebook, const std::string& text) {
    auto pair = parse_pair(text, SplitAt::last, "NUMBER=CONDITION, such as 12-4=cleaned");
    if (!pair) return pair.failure();
    auto position = find_position(notebook, pair->first);
    if (!position) return position.failure();
    auto condition = from_word<Condition>(pair->second);
    if (!condition) return condition.failure();
    return NeededPosition{position->id, *condition};
}

template <class One>
void add_once(std::vector<One>& all, const std::vector<One>& more) {
    for (const One& one : more)
        if (std::ranges::find(all, one) == all.end()) all.push_back(one);
}

Done put_prerequisites(const Notebook& notebook, Task& task, const FieldsWish& wish) {
    auto needs = parse_ids<TaskId>("task", wish.needs);
    if (!needs) return needs.failure();
    add_once(task.needs, *needs);
    auto deliveries = parse_ids<ConsignmentId>("consignment", wish.deliveries);
    if (!deliveries) return deliveries.failure();
    add_once(task.deliveries, *deliveries);
    for (const auto& text : wish.positions) {
        auto needed = parse_needed_position(notebook, text);
        if (!needed) return needed.failure();
        std::erase_if(task.positions, [&](const NeededPosition& known) {
            return known.position == needed->position;
        });
        task.positions.push_back(*needed);
    }
    return done();
}

Done put_fields(const Notebook& notebook, Task& task, const FieldsWish& wish) {
    if (wish.hours) {
        auto hours = desk::parse_hours(*wish.hours);
        if (!hours) return hours.failure();
        task.estimate_hours = *hours;
    }
    if (wish.least_temperature) {
        auto celsius = parse_celsius(*wish.least_temperature);
        if (!celsius) return celsius.failure();
        task.least_temperature_c = *celsius;
    }
    if (wish.waits_for) task.waits_for = *wish.waits_for;
    if (wish.note) task.note = *wish.note;
    return put_prerequisites(notebook, task, wish);
}

struct AddWish {
    std::string title;
    FieldsWish fields;
};

void declare_add(CLI::App& verb, AddWish& wish) {
    verb.add_option("TITLE", wish.title, "What is to be done")->required();
    declare_fields(verb, wish.fields);
    verb.footer(std::string("JSON: ") + kTaskFields + ".");
}

Result<Report> add(const Call& call, const AddWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    Task task{.title = wish.title};
    if (auto put = put_fields(*notebook, task, wish.fields); !put) return put.failure();
    auto id = keep_task(*notebook, task);
    if (!id) return id.failure();
    return task_report(*notebook, *id);
}

struct SetWish {
    std::string task;
    std::optional<std::string> title, state;
    FieldsWish fields;
    std::vector<std::string> without_needs, without_positions, without_deliveries;
};

void declare_set(CLI::App& verb, SetWish& wish) {
    verb.add_option("ID", wish.task, "The task")->required();
    verb.add_option("--title", wish.title, "What is to be done")->option_text("TEXT");
    verb.add_option("--state", wish.state, "Open it again, or drop it")
        ->option_text("open|done|dropped");
    declare_fields(verb, wish.fields);
    add_repeated(verb, "--without-need", wish.without_needs, "A task it does not need after all")
        ->option_text("ID");
    add_repeated(verb, "--without-position", wish.without_positions,
                 "A position it does not need after all")
        ->option_text("NUMBER");
    add_repeated(verb, "--without-delivery", wish.without_deliveries,
                 "A consignment it does not wait for after all")
        ->option_text("ID");
    verb.footer(std::string("What is not given stays; \"\" clears hours, temperature, waits-for "
                            "and note.\nJSON: ") +
                kTaskFields + ".");
}

template <class One>
Done leave_out(std::vector<One>& all, const std::vector<One>& gone, const std::string& noun) {
    for (const One& one : gone)
        if (std::erase(all, one) == 0)
            return Failure{FailureKind::not_found, "The task does not wait for " + noun + " " +
                                                       std::to_string(one.value) +
                                                       ": `task show` lists what it needs."};
    return done();
}

Done leave_out_prerequisites(const Notebook& notebook, Task& task, const SetWish& wish) {
    auto needs = parse_ids<TaskId>("task", wish.without_needs);
    if (!needs) return needs.failure();
    if (auto left = leave_out(task.needs, *needs, "task"); !left) return left;
    auto deliveries = parse_ids<ConsignmentId>("consignment", wish.without_deliveries);
    if (!deliveries) return deliveries.failure();
    if (auto left = leave_out(task.deliveries, *deliveries, "consignment"); !left) return left;
    for (const auto& number : wish.without_positions) {
        auto position = find_position(notebook, number);
        if (!position) return position.failure();
        const auto gone = std::erase_if(task.positions, [&](const NeededPosition& needed) {
            return needed.position == position->id;
        });
        if (gone == 0)
            return Failure{FailureKind::not_found, "The task does not need position " +
                                                       position->number +
                                                       ": `task show` lists what it needs."};
    }
    return done();
}

Done put_state(Task& task, const std::string& text) {
    auto state = from_word<TaskState>(text);
    if (!state) return state.failure();
    if (*state != task.state)
        task.done_on = *state == TaskState::done ? std::optional(today()) : std::nullopt;
    task.state = *state;
    return done();
}

Result<Report> set(const Call& call, const SetWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<TaskId>("task", wish.task);
    if (!id) return id.failure();
    auto task = task_by_id(*notebook, *id);
    if (!task) return task.failure();
    if (wish.title) task->title = *wish.title;
    if (wish.state)
        if (auto put = put_state(*task, *wish.state); !put) return put.failure();
    if (auto left = leave_out_prerequisites(*notebook, *task, wish); !left) return left.failure();
    if (auto put = put_fields(*notebook, *task, wish.fields); !put) return put.failure();
    if (auto kept = keep_task(*notebook, *task); !kept) return kept.failure();
    return task_report(*notebook, *id);
}

struct DoneWish {
    std::string task, on;
};

void declare_done(CLI::App& verb, DoneWish& wish) {
    verb.add_option("ID", wish.task, "The task")->required();
    verb.add_option("--on", wish.on, "The day it was finished; without it today")
        ->option_text("DATE");
    verb.footer(std::string("JSON: ") + kTaskFields + ".");
}

Result<Report> finish(const Call& call, const DoneWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<TaskId>("task", wish.task);
    if (!id) return id.failure();
    auto on = parse_day_or_today(wish.on);
    if (!on) return on.failure();
    if (auto set = set_task_state(*notebook, *id, TaskState::done, *on); !set) return set.failure();
    return task_report(*notebook, *id);
}

} // namespace

void add_tasks(Line& line) {
    auto& group = add_group(line, "task", "Add, change, show, list and finish tasks");
    add_verb(line, group, "add", "Add a task", declare_add, add);
    add_verb(line, group, "set", "Change a task and what it needs", declare_set, set);
    add_task_lists(line, group);
    add_verb(line, group, "done", "Say that a task is done", declare_done, finish);
}

} // namespace fettle::cli
