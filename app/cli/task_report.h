// How tasks are reported: the words and fields the verbs about tasks share.
#pragma once

#include "cli/records.h"
#include "cli/verb.h"
#include "notebook/tasks.h"

namespace fettle::cli {

inline constexpr const char* kTaskFields =
    "{task, title, state, ready, waits, waits_on, needs, positions, deliveries,\nwaits_for, "
    "least_temperature_c, hours, spent_hours, left_hours, unlocks, after_tasks,\nafter_hours, "
    "earliest_start_hours, latest_start_hours, slack_hours, on_longest_chain,\ndone_on, note}; "
    "waits lists sentences, waits_on the same as {on: task | position | delivery |\nwords | "
    "warmth, words, task, position, part, consignment}; needs task numbers, positions\n{position, "
    "condition}, deliveries consignment numbers; left_hours is the estimate less what\nwas spent, "
    "1 h where there is no estimate; unlocks counts tasks that wait for this one alone,\n"
    "after_tasks and after_hours all that come after it; starts and slack are hours of work "
    "from\nnow along the critical path";

// "task 3  ready".
Result<Report> task_report(const Notebook& notebook, TaskId id);

// °C of what was typed; none for a blank.
Result<std::optional<double>> parse_celsius(const std::string& text);

} // namespace fettle::cli
