// What was worked out for a task: of each worked sheet the newest kept result with its figures and
// charts, so that a series of trials is seen where the work stands.
#pragma once

#include "desk/carrying.h"
#include "notebook/tasks.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/worked/sheet_results.h"

#include <map>
#include <string>
#include <vector>

namespace fettle::ui {

struct WorkedForTask {
    Day day{}; // of the newest
    int kept = 0;
    ShownAnswer newest;
};

struct TaskWorked {
    Snapshot<std::vector<WorkedForTask>, TaskId> results;
    std::map<std::string, bool> working_open; // by sheet
};

// Nothing when nothing was. Where the newest result says that what was wanted is reached, the task
// can be called done here.
void draw_task_worked(Page& page, Context& context, const Task& task, TaskWorked& worked);

} // namespace fettle::ui
