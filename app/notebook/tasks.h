// Tasks, what each needs first, and which are ready. Readiness is computed, never stored.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <vector>

namespace fettle {

struct NeededPosition {
    PositionId position;
    Condition condition = Condition::cleaned; // at least so far along
};

struct Task {
    TaskId id;
    VehicleId vehicle;
    std::string title;
    std::string note;
    TaskState state = TaskState::open;
    std::optional<double> estimate_hours;
    std::optional<double> least_temperature_c;
    std::string waits_for; // a delivery, an answer, in words; empty when nothing
    std::optional<Day> done_on;
    std::vector<TaskId> needs;
    std::vector<NeededPosition> positions;
};

// A task with what stands in its way today. Ready: open, and nothing does.
struct TaskStanding {
    Task task;
    std::vector<std::string> waits; // one line a reason: "task 3, ream the shackle bush"
    double spent_hours = 0;         // of the entries that name it
    bool ready() const { return task.state == TaskState::open && waits.empty(); }
};

// Adds the task, or overwrites the one with its id. A need that would close a circle is refused
// with the circle named.
Result<TaskId> keep_task(Notebook& notebook, const Task& task);
Done set_task_state(Notebook& notebook, TaskId id, TaskState state, Day on);
Result<Task> task_by_id(const Notebook& notebook, TaskId id);
// Open tasks first, ready ones before waiting ones; `today` decides which weather counts.
Result<std::vector<TaskStanding>> list_tasks(const Notebook& notebook, Day today);

} // namespace fettle
