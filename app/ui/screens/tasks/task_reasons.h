// What one task waits for, down to the part and who has it, and what holds it up in the end; each
// reason with where it can be followed.
#pragma once

#include "notebook/tasks.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct ReadReasons {
    bool open = false;
    std::vector<Wait> waits;          // of the task itself
    std::vector<HeldUpBy> in_the_end; // along what it needs; only where that says more
    std::string unlocks, span;        // in words
};
struct TaskReasons {
    Snapshot<ReadReasons, std::pair<Day, std::int64_t>> read;
};

// Nothing for a new task, or one that is over.
void draw_task_reasons(Page& page, Context& context, TaskId task, TaskReasons& reasons);

} // namespace fettle::ui
