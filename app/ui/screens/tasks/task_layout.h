// Where the tasks stand in the picture of what waits for what: columns from left to right, each
// task in the column after the last of what it needs, rows so that few lines cross. Worked out once
// when the notebook has changed; pure functions, any thread. Units are columns and rows.
#pragma once

#include "notebook/tasks.h"

#include <unordered_map>
#include <vector>

namespace fettle::ui {

struct TaskNode {
    const TaskStanding* standing = nullptr; // in the list given, which must outlive the layout
    int column = 0, row = 0;
    int in_chain = 0;               // its number in the longest chain, from 1; 0: it is not in it
    std::vector<int> before, after; // nodes it needs, nodes that need it
};

struct TaskLine {
    int from = 0, to = 0; // nodes; `to` needs `from`
    bool in_chain = false;
};

struct TaskLayout {
    std::vector<TaskNode> nodes;
    std::vector<TaskLine> lines;
    std::vector<std::vector<int>> columns; // nodes of each by row
    int rows = 0;
    int alone_from = 0; // the row below which stand tasks that no line leads to
    int chain = 0;      // how many are in the longest chain
    std::unordered_map<std::int64_t, int> by_task;

    const TaskNode* node_of(TaskId id) const;
};

// Which tasks: the open ones, or also those done and dropped; all, or only what one task needs and
// what comes after it, at whatever remove.
struct LayoutWish {
    bool with_over = false;
    TaskId only{};
    bool operator==(const LayoutWish&) const = default;
};
TaskLayout layout_of(const std::vector<TaskStanding>& tasks, const LayoutWish& wish = {});

} // namespace fettle::ui
