// The form of one task, new or changed: what it is, what must be done first, which positions it
// needs in which condition, what else it waits for. What is wrong stands beside its field.
#pragma once

#include "notebook/tasks.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/tasks/task_reasons.h"
#include "ui/screens/tasks/task_worked.h"
#include "ui/widgets/find_as_you_type.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct NamedNeed {
    TaskId task;
    std::string title;
};
struct NamedPosition {
    NeededPosition needed;
    std::string name;
};

struct NamedDelivery {
    ConsignmentId consignment;
    std::string name;
};

// What a person is in the middle of.
struct TaskForm {
    TaskId wanted{}; // to be read from the notebook into the form; none when it is filled
    Task task;       // as it was, or a new one; the fields below stand over it
    std::string hours, temperature;
    std::vector<NamedNeed> needs;
    std::vector<NamedPosition> positions;
    std::vector<NamedDelivery> deliveries;
    FindLine need, position, delivery;
    std::string title_error, needs_error, hours_error, temperature_error;
    bool take_focus = true;
    Snapshot<std::vector<Candidate>> tasks, places, consignments;
    TaskReasons reasons;
    TaskWorked worked;
};

TaskForm form_of(const Notebook& book, const Task& task);

enum class FormEnd { goes_on, kept, left };
FormEnd draw_task_form(Page& page, Context& context, TaskForm& form);

} // namespace fettle::ui
