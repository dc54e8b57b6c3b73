#include "notebook/tasks.h"

#include "base/quantity.h"
#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/drafting.h"

#include <algorithm>
#include <cmath>

namespace fettle::cli {
namespace {

constexpr const char* kTaskFields =
    "{task, title, state, ready, waits, needs, positions, waits_for,\nleast_temperature_c, hours, "
    "spent_hours, done_on, note}; waits lists sentences, needs task numbers,\npositions {position, "
    "condition}";

struct AddWish {
    std::string title, hours, least_temperature, waits_for, note;
    std::vector<std::string> needs, positions;
};

void declare_add(CLI::App& verb, AddWish& wish) {
    verb.add_option("TITLE", wish.title, "What is to be done")->required();
    add_repeated(verb, "--needs", wish.needs, "A task that must be done first; may be repeated")
        ->option_text("ID");
    add_repeated(verb, "--position", wish.positions,
                 "A position that must be filled, and how far along; may be repeated")
        ->option_text("NUMBER=CONDITION");
    verb.add_option("--hours", wish.hours, "How long it will take")->option_text("HOURS");
    verb.add_option("--least-temperature", wish.least_temperature,
                    "The least temperature in the workshop, such as \"15 °C\"")
        ->option_text("T");
    verb.add_option("--waits-for", wish.waits_for, "What else it waits for: a delivery, an answer")
        ->option_text("TEXT");
    verb.add_option("--note", wish.note, "Whatever else there is to say")->option_text("TEXT");
    verb.footer(std::string("JSON: ") + kTaskFields + ".");
}

Result<std::optional<double>> parse_celsius(const std::string& text) {
    if (text.empty()) return std::optional<double>();
    auto temperature = parse_quantity(text, "temperature", "°C");
    if (!temperature) return temperature.failure();
    auto celsius = to_unit(temperature->si, "temperature", "°C");
    if (!celsius) return celsius.failure();
    return std::optional(std::round(*celsius * 1e6) / 1e6); // 15 °C is 288.15 K and back again
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

Result<Task> task_of(const Notebook& notebook, const AddWish& wish) {
    Task task{.title = wish.title, .note = wish.note, .waits_for = wish.waits_for};
    auto hours = desk::parse_hours(wish.hours);
    if (!hours) return hours.failure();
    task.estimate_hours = *hours;
    auto celsius = parse_celsius(wish.least_temperature);
    if (!celsius) return celsius.failure();
    task.least_temperature_c = *celsius;
    auto needs = parse_ids<TaskId>("task", wish.needs);
    if (!needs) return needs.failure();
    task.needs = std::move(*needs);
    for (const auto& text : wish.positions) {
        auto needed = parse_needed_position(notebook, text);
        if (!needed) return needed.failure();
        task.positions.push_back(*needed);
    }
    return task;
}

// The task as it stands today.
Result<TaskStanding> standing_of(const Notebook& notebook, TaskId id) {
    if (auto there = task_by_id(notebook, id); !there) return there.failure();
    auto standings = list_tasks(notebook, today());
    if (!standings) return standings.failure();
    return *std::ranges::find(*standings, id, [](const TaskStanding& one) { return one.task.id; });
}

// "ready" and "waits" instead of "open".
std::string standing_word(const TaskStanding& standing) {
    if (standing.ready()) return "ready";
    return standing.task.state == TaskState::open ? "waits"
                                                  : std::string(word(standing.task.state));
}

Result<Report> task_report(const Notebook& notebook, TaskId id) {
    auto standing = standing_of(notebook, id);
    if (!standing) return standing.failure();
    auto names = names_in(notebook);
    if (!names) return names.failure();
    return Report{"task " + std::to_string(id.value) + "  " + standing_word(*standing) + '\n',
                  to_json(*standing, *names)};
}

Result<Report> add(const Call& call, const AddWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto task = task_of(*notebook, wish);
    if (!task) return task.failure();
    auto id = keep_task(*notebook, *task);
    if (!id) return id.failure();
    return task_report(*notebook, *id);
}

struct ListWish {
    bool ready = false;
};

void declare_list(CLI::App& verb, ListWish& wish) {
    verb.add_flag("--ready", wish.ready, "Only what can be done now");
    verb.footer(
        std::string("Ready tasks first, then those that wait, then the others.\nJSON: a list "
                    "of ") +
        kTaskFields + ".");
}

Result<Report> list(const Call& call, const ListWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto standings = list_tasks(*notebook, today());
    if (!standings) return standings.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    Columns columns({"task", "", "title", "hours", "waits for"});
    Json json = Json::array();
    for (const auto& standing : *standings) {
        if (wish.ready && !standing.ready()) continue;
        const Task& task = standing.task;
        columns.row({std::to_string(task.id.value), standing_word(standing), task.title,
                     hours_words(task.estimate_hours), join(standing.waits, "; ")});
        json.push_back(to_json(standing, *names));
    }
    return Report{columns.empty() ? "no tasks\n" : columns.text(), std::move(json)};
}

struct ShowWish {
    std::string task;
};

void declare_show(CLI::App& verb, ShowWish& wish) {
    verb.add_option("ID", wish.task, "The task")->required();
    verb.footer(std::string("JSON: ") + kTaskFields +
                ";\nand photos [{photo, taken, name, stage}], entries as in `log --list`.");
}

std::string facts(const TaskStanding& standing, const Names& names) {
    const Task& task = standing.task;
    Columns facts;
    facts.fact("waits for", join(standing.waits, "; "));
    for (auto needed : task.needs)
        facts.fact("needs", "task " + std::to_string(needed.value));
    for (const auto& needed : task.positions)
        facts.fact("needs", "position " + names.position(needed.position) + ", " +
                                std::string(word(needed.condition)));
    if (task.least_temperature_c)
        facts.fact("needs", "at least " + format_number(*task.least_temperature_c, 3) + " °C");
    facts.fact("hours", hours_words(task.estimate_hours));
    facts.fact("spent", standing.spent_hours > 0 ? hours_words(standing.spent_hours) : "");
    facts.fact("done on", task.done_on ? to_words(*task.done_on) : "");
    facts.fact("note", task.note);
    return one_line("task " + std::to_string(task.id.value) + "  " + task.title + ", " +
                    standing_word(standing)) +
           '\n' + facts.text(2);
}

Result<Report> show(const Call& call, const ShowWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto id = parse_id<TaskId>("task", wish.task);
    if (!id) return id.failure();
    auto standing = standing_of(*notebook, *id);
    if (!standing) return standing.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    auto ties = ties_to(*notebook, *id);
    if (!ties) return ties.failure();
    auto photos = tied_photos(*notebook, *ties);
    if (!photos) return photos.failure();
    auto entries = list_entries(*notebook, {.task = *id});
    if (!entries) return entries.failure();

    Columns tied;
    for (const auto& tie : *ties)
        tied.row({"photo " + std::to_string(tie.photo.value), std::string(word(tie.stage))});
    for (const auto& entry : *entries)
        tied.row({"entry " + std::to_string(entry.id.value), to_words(entry.day)});
    Json json = to_json(*standing, *names);
    json["photos"] = std::move(*photos);
    json["entries"] = Json::array();
    for (const auto& entry : *entries)
        json["entries"].push_back(to_json(entry, *names));
    return Report{facts(*standing, *names) + tied.text(2), std::move(json)};
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
    auto& group = add_group(line, "task", "Add, show, list and finish tasks");
    add_verb(line, group, "add", "Add a task", declare_add, add);
    add_verb(line, group, "show", "Show a task, what it waits for, its photos and entries",
             declare_show, show);
    add_verb(line, group, "list", "List tasks, or what is ready", declare_list, list);
    add_verb(line, group, "done", "Say that a task is done", declare_done, finish);
}

} // namespace fettle::cli
