// Where the picture of tasks is looked at from: which place of the layout stands where on the
// screen, and the ways to move over it and come closer. For the picture only.
#pragma once

#include "ui/screens/tasks/task_picture.h"

#include <imgui.h>

namespace fettle::ui {

// Pixels at zoom 1 and scale 1: what a column and a row take, and where in them things stand.
inline constexpr float kColumn = 296, kNode = 236, kRow = 60;
inline constexpr float kTitle = 4, kRule = 26, kUnder = 30, kFoot = 50, kLane = 55;
inline constexpr float kHead = 28, kEdge = 24;
inline constexpr double kLeastZoom = 0.2, kLargestZoom = 1.5, kReadable = 0.55;

// Maps the layout to the screen.
struct View {
    Rect where;   // of the drawing, below the heads
    double x, y;  // at its upper left
    float factor; // pixels of the screen for one of the layout

    ImVec2 operator()(double across, double down) const {
        return {where.left + static_cast<float>(across - x) * factor,
                where.top + static_cast<float>(down - y) * factor};
    }
    double wide() const { return where.width() / factor; }
    double tall() const { return where.height() / factor; }
};

View view_of(const Page& page, const Rect& where, const TaskPictureState& state);

inline double left_of(const TaskNode& node) {
    return static_cast<double>(node.column) * kColumn;
}
inline double top_of(const TaskNode& node) {
    return static_cast<double>(node.row) * kRow;
}
inline const TaskNode& node(const TaskLayout& layout, int at) {
    return layout.nodes[static_cast<std::size_t>(at)];
}
int in_chain(const TaskLayout& layout, int number); // the node with that number; -1: none

// Keeps the picture in the window.
void hold_in(const Page& page, const TaskLayout& layout, const Rect& where,
             TaskPictureState& state);
// What is at that point of the screen stays there.
void zoom_to(const Page& page, const Rect& where, TaskPictureState& state, double zoom, ImVec2 at);
// Brings a task into sight, moving no further than needed.
void bring_in(const Page& page, const Rect& where, TaskPictureState& state, const TaskNode& shown);
void show_whole(const Page& page, const TaskLayout& layout, const Rect& where,
                TaskPictureState& state);
// The whole when that can be read, else the task one comes with.
void place_first(const Page& page, const TaskLayout& layout, const Rect& where,
                 TaskPictureState& state);
// The task the keys are on while it is in sight, else the middle.
ImVec2 to_close_in_on(const Page& page, const TaskLayout& layout, const Rect& where,
                      const TaskPictureState& state);

} // namespace fettle::ui
