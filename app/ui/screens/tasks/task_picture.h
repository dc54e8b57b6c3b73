// The picture of what waits for what, drawn from left to right like a routing sheet: each task a
// line of words on a rule, in the column after what it needs; the rules of a chain run into each
// other. The longest chain is drawn heavy and numbered in words. One moves over it by dragging and
// by keys. What it draws each frame is what is in sight; where things stand is worked out by
// task_layout.h once.
#pragma once

#include "ui/beside/snapshot.h"
#include "ui/frame/page.h"
#include "ui/screens/tasks/task_layout.h"

#include <utility>

namespace fettle::ui {

// What a person is in the middle of.
struct TaskPictureState {
    double x = 0, y = 0; // what is at the upper left, in pixels at zoom 1
    double zoom = 1;
    bool placed = false; // one has looked at it before
    LayoutWish wish;
    TaskId at{}; // the task the keys are on
    bool take_keyboard = false;
    bool pointed = false; // the pointer led last, not the keys
    Snapshot<TaskLayout, std::pair<std::uint64_t, LayoutWish>> layout; // by the reading of the list
};

// The task to open; none when nothing was pressed.
TaskId draw_task_picture(Page& page, const TaskLayout& layout, TaskPictureState& state);

} // namespace fettle::ui
