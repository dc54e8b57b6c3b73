// What needs what, as a graph over plain values: an order to work in, the critical path in hours,
// what each task unlocks, levels for drawing, circles. Knows no notebook; pure functions, any
// thread. Tasks are known by their place in the list.
//
// Critical path method after Kelley and Walker (1959): a forward pass gives the earliest times, a
// backward pass from the end of the whole gives the latest; float is what lies between.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace fettle {

using TaskPlace = std::uint32_t;

struct GraphTask {
    double hours = 0;             // of work still to do, not negative
    bool open = true;             // not done and not dropped
    std::vector<TaskPlace> needs; // what must be done first
};
using TaskGraph = std::vector<GraphTask>;

// Every task after what it needs. Tasks in a circle, and what needs them, come last, and needs that
// point onwards in the order are left out of account below.
struct TaskOrder {
    std::vector<TaskPlace> order; // all places
    std::vector<TaskPlace> rank;  // of each place in the order
    std::size_t circular = 0;     // how many at the end are in a circle or need one
    bool follows(TaskPlace task, TaskPlace need) const { return rank[need] < rank[task]; }
};
TaskOrder order_of(const TaskGraph& graph);

// The places of one circle, each needing the next and the last one the first; empty: there is none.
std::vector<TaskPlace> circle_in(const TaskGraph& graph);
// The shortest circle through this task.
std::vector<TaskPlace> circle_through(const TaskGraph& graph, TaskPlace task);

// In hours from now, as if one had hands enough for all that can go side by side; a single person
// needs at least that long. Tasks that are over have all zeros.
struct TaskSpan {
    double earliest_start = 0, earliest_finish = 0;
    double latest_start = 0, latest_finish = 0;
    double slack() const { return latest_start - earliest_start; } // its float
};
struct CriticalPath {
    std::vector<TaskSpan> spans; // by place
    double hours = 0;            // from now to the end of the last task
    std::vector<TaskPlace> path; // one longest chain of open tasks, the first to be done first
};
CriticalPath critical_path(const TaskGraph& graph, const TaskOrder& order);

// 0 for tasks that need nothing, else one more than the greatest level among what they need.
std::vector<int> levels_of(const TaskGraph& graph, const TaskOrder& order);

// The open tasks that can only be done after this open one, at whatever remove.
struct TaskAfter {
    int tasks = 0;
    double hours = 0; // their sum
};
std::vector<TaskAfter> after_each(const TaskGraph& graph, const TaskOrder& order);

} // namespace fettle
