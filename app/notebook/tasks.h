// Tasks, what each needs first, which are ready, and what finishing one unlocks. All of that is
// computed, never stored.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/task_graph.h"
#include "notebook/words.h"

#include <unordered_map>
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
    std::string waits_for; // an answer, a visitor, in words; empty when nothing
    std::optional<Day> done_on;
    std::vector<TaskId> needs;
    std::vector<NeededPosition> positions;
    std::vector<ConsignmentId> deliveries; // that must have come, all of them
};

enum class WaitsOn { task, position, delivery, words, warmth };

// One thing that stands in a task's way, in words, and what of it can be followed.
struct Wait {
    WaitsOn on = WaitsOn::words;
    std::string
        words; // "King pin, cleaned: K1 is stripped, with ... since 3 Mar 2026 for blasting"
    TaskId task{};
    PositionId position{};
    PartId part{};               // that is nearest to filling the position
    ConsignmentId consignment{}; // waited for, or where that part is
    std::string tag, firm;       // of the part and of who has it, to be named by
};

// The hours a task without an estimate is planned with.
inline constexpr double kHoursWithoutEstimate = 1;

// A task with what stands in its way today. Ready: open, and nothing does.
struct TaskStanding {
    Task task;
    std::vector<Wait> waits;
    double spent_hours = 0; // of the entries that name it
    double left_hours = 0;  // of the estimate, less what was spent; never negative
    int unlocks = 0;        // open tasks that wait for this one and nothing else but warmth
    TaskAfter after;        // all open tasks that can only be done after it
    TaskSpan span;          // when it can and must be done, in hours of work from now
    bool on_longest_chain = false;
    int level = 0; // how many tasks deep its needs go
    bool ready() const { return task.state == TaskState::open && waits.empty(); }
};

// What it waits for in one line, "; " between the reasons.
std::string waits_in_words(const TaskStanding& standing);
std::string_view standing_word(const TaskStanding& standing); // "ready", "waits", "done", "dropped"
std::string hours_in_words(double hours);                     // "1.5 h"
// "2 tasks at once, 11 h of work after it"; blank when nothing comes after.
std::string unlocks_in_words(const TaskStanding& standing);

// Adds the task, or overwrites the one with its id. A need that would close a circle is refused
// with the circle named.
Result<TaskId> keep_task(Notebook& notebook, const Task& task);
Done set_task_state(Notebook& notebook, TaskId id, TaskState state, Day on);
Result<Task> task_by_id(const Notebook& notebook, TaskId id);
// Open tasks first, ready ones before waiting ones. `today` decides which weather counts, and what
// is overdue; a temperature given here stands in place of that day's.
Result<std::vector<TaskStanding>> list_tasks(const Notebook& notebook, Day today,
                                             std::optional<double> temperature_c = {});

// The ready tasks, the best to do next first: those that fit into the hours before those that do
// not, then what unlocks most at once, then what most hours of work come after, then the longer.
struct NextTask {
    const TaskStanding* standing = nullptr; // in the list given
    bool fits = true;
};
std::vector<NextTask> what_next(const std::vector<TaskStanding>& tasks,
                                std::optional<double> hours = {});

// Where each task stands in the list given, which must outlive this.
class TaskIndex {
  public:
    explicit TaskIndex(const std::vector<TaskStanding>& tasks);
    const TaskStanding* find(TaskId id) const; // nullptr: it is not in the list

  private:
    std::unordered_map<std::int64_t, const TaskStanding*> by_id_;
};

// What holds an open task up in the end, along all that it needs: what parts, deliveries, words and
// warmth stand in the way there, and which tasks could be done now. The nearest first.
struct HeldUpBy {
    TaskId at{}; // the task in whose way it stands; itself, or one that it needs
    Wait wait;   // for a task that is ready: that task
};
std::vector<HeldUpBy> held_up_by(const TaskIndex& tasks, TaskId id);

// The longest chain of open tasks, the first to be done first; none when no open task needs
// another open one. They stand in the list given.
std::vector<const TaskStanding*> longest_chain(const std::vector<TaskStanding>& tasks);

} // namespace fettle
