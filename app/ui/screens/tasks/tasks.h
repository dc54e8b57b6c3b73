// Tasks by readiness: what can be done now, the best to do next first, what waits and for what,
// what is over; or the picture of what waits for what. The form for one task is in task_form.h, the
// picture in task_picture.h.
#pragma once

#include "notebook/tasks.h"
#include "ui/context.h"
#include "ui/screens/tasks/task_form.h"
#include "ui/screens/tasks/task_picture.h"

#include <vector>

namespace fettle::ui {

// What has been read, once after each change.
struct TaskGroups {
    std::vector<TaskStanding> tasks; // the others point into it
    std::vector<const TaskStanding*> ready, waits, over;
    std::string chain; // the longest one in words; empty: there is none
};

// What a person is in the middle of.
struct TasksState {
    TaskForm form;
    bool writing = false; // the form is open
    TaskId at{}, wanted{};
    int last_frame = -1;
    bool drawn = false; // as a picture instead of a list
    Snapshot<TaskGroups, Day> list;
    TaskPictureState picture; // its layout points into the list
};

void draw_tasks(Page& page, Context& context, TasksState& state);
// Opens the task with that id.
void lead_to(TasksState& state, const Place& place);

} // namespace fettle::ui
