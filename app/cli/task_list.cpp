#include "cli/task_report.h"
#include "cli/typed.h"
#include "cli/verbs.h"
#include "desk/drafting.h"
#include "notebook/weather.h"

#include <algorithm>

namespace fettle::cli {
namespace {

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
    Columns columns({"task", "", "title", "hours", "unlocks", "waits for"});
    Json json = Json::array();
    for (const auto& standing : *standings) {
        if (wish.ready && !standing.ready()) continue;
        const Task& task = standing.task;
        columns.row({std::to_string(task.id.value), std::string(standing_word(standing)),
                     task.title, hours_words(task.estimate_hours), unlocks_in_words(standing),
                     waits_in_words(standing)});
        json.push_back(to_json(standing, *names));
    }
    return Report{columns.empty() ? "no tasks\n" : columns.text(), std::move(json)};
}

struct NextWish {
    std::string hours, temperature;
};

void declare_next(CLI::App& verb, NextWish& wish) {
    verb.add_option("--hours", wish.hours, "How long one has; without it the hours of the day")
        ->option_text("HOURS");
    verb.add_option("--temperature", wish.temperature,
                    "How warm it is, such as \"12 °C\"; without it the day's temperature")
        ->option_text("T");
    verb.footer(std::string("What fits the hours first; of that, what unlocks most. A task "
                            "without an estimate\ncounts as 1 h.\nJSON: a list of ") +
                kTaskFields + ";\nand fits.");
}

Result<std::optional<double>> hours_at_hand(const Notebook& notebook, const std::string& typed) {
    auto hours = desk::parse_hours(typed);
    if (!hours || *hours) return hours;
    return hours_of_day(notebook, today());
}

// What is asked for, beside a task that may be begun.
std::string notes_on(const NextTask& next) {
    const Task& task = next.standing->task;
    std::string said = next.fits ? "" : "longer than there is time";
    if (task.least_temperature_c)
        said += (said.empty() ? "" : ", ") + std::string("from ") +
                in_degrees(*task.least_temperature_c);
    return said;
}

Result<Report> next(const Call& call, const NextWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto hours = hours_at_hand(*notebook, wish.hours);
    if (!hours) return hours.failure();
    auto celsius = parse_celsius(wish.temperature);
    if (!celsius) return celsius.failure();
    auto standings = list_tasks(*notebook, today(), *celsius);
    if (!standings) return standings.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    Columns columns({"task", "title", "to do", "unlocks", ""});
    Json json = Json::array();
    for (const NextTask& one : what_next(*standings, *hours)) {
        const TaskStanding& standing = *one.standing;
        columns.row({std::to_string(standing.task.id.value), standing.task.title,
                     hours_words(standing.left_hours), unlocks_in_words(standing), notes_on(one)});
        Json fields = to_json(standing, *names);
        fields["fits"] = one.fits;
        json.push_back(std::move(fields));
    }
    return Report{columns.empty() ? "nothing can be done now\n" : columns.text(), std::move(json)};
}

struct ShowWish {
    std::string task;
};

void declare_show(CLI::App& verb, ShowWish& wish) {
    verb.add_option("ID", wish.task, "The task")->required();
    verb.footer(std::string("JSON: ") + kTaskFields +
                ";\nand held_up_by [{at, and as in waits_on}], what stands in the way of it or of "
                "what it needs, at\nthe task with that number; photos [{photo, taken, name, "
                "stage}]; entries as in `log --list`.");
}

// What it needs, whether that stands in its way or not.
void add_needs(Columns& facts, const Task& task, const Names& names) {
    for (auto needed : task.needs)
        facts.fact("needs", "task " + std::to_string(needed.value));
    for (const auto& needed : task.positions)
        facts.fact("needs", "position " + names.position(needed.position) + ", " +
                                std::string(word(needed.condition)));
    for (auto delivery : task.deliveries)
        facts.fact("needs", "consignment " + std::to_string(delivery.value));
    if (task.least_temperature_c)
        facts.fact("needs", "at least " + in_degrees(*task.least_temperature_c));
}

std::string facts(const TaskStanding& standing, const std::vector<HeldUpBy>& held,
                  const Names& names) {
    const Task& task = standing.task;
    Columns facts;
    for (const Wait& wait : standing.waits)
        facts.fact("waits for", wait.words);
    const auto said = [&](const HeldUpBy& by) { // among what it waits for itself
        return by.at == task.id || std::ranges::any_of(standing.waits, [&](const Wait& wait) {
                   return wait.task && wait.task == by.wait.task;
               });
    };
    for (const HeldUpBy& by : held)
        if (!said(by)) facts.fact("held up by", by.wait.words);
    add_needs(facts, task, names);
    facts.fact("hours", hours_words(task.estimate_hours));
    facts.fact("spent", standing.spent_hours > 0 ? hours_words(standing.spent_hours) : "");
    facts.fact("unlocks", unlocks_in_words(standing));
    if (standing.on_longest_chain) facts.fact("", "on the longest chain of tasks");
    facts.fact("done on", task.done_on ? to_words(*task.done_on) : "");
    facts.fact("note", task.note);
    return one_line("task " + std::to_string(task.id.value) + "  " + task.title + ", " +
                    std::string(standing_word(standing))) +
           '\n' + facts.text(2);
}

Result<Report> show(const Call& call, const ShowWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto id = parse_id<TaskId>("task", wish.task);
    if (!id) return id.failure();
    if (auto there = task_by_id(*notebook, *id); !there) return there.failure();
    auto standings = list_tasks(*notebook, today());
    if (!standings) return standings.failure();
    const TaskIndex index(*standings);
    const TaskStanding& standing = *index.find(*id);
    const auto held = held_up_by(index, *id);
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
    Json json = to_json(standing, *names);
    json["held_up_by"] = Json::array();
    for (const HeldUpBy& by : held) {
        Json fields = json_of(by.wait, *names);
        fields["at"] = by.at.value;
        json["held_up_by"].push_back(std::move(fields));
    }
    json["photos"] = std::move(*photos);
    json["entries"] = Json::array();
    for (const auto& entry : *entries)
        json["entries"].push_back(to_json(entry, *names));
    return Report{facts(standing, held, *names) + tied.text(2), std::move(json)};
}

} // namespace

void add_task_lists(Line& line, CLI::App& group) {
    add_verb(line, group, "show", "Show a task, what it waits for, its photos and entries",
             declare_show, show);
    add_verb(line, group, "list", "List tasks, or what is ready", declare_list, list);
    add_verb(line, group, "next", "What to do next, by hours, temperature and what it unlocks",
             declare_next, next);
}

} // namespace fettle::cli
