// Tasks by readiness: what can be done now, what waits and for what, what is done. The form for one
// task is in task_form.h.
#pragma once

#include "notebook/tasks.h"
#include "ui/context.h"
#include "ui/screens/task_form.h"

#include <vector>

namespace fettle::ui {

// What a person is in the middle of, and what has been read for it.
struct TasksState {
    TaskForm form;
    bool writing = false; // the form is open
    TaskId at{}, wanted{};
    int last_frame = -1;
    Snapshot<std::vector<TaskStanding>, Day> list;
};

void draw_tasks(Page& page, Context& context, TasksState& state);
// Opens the task with that id.
void lead_to(TasksState& state, const Place& place);

} // namespace fettle::ui
