#include "ui/screens/tasks/task_view.h"

#include <algorithm>

namespace fettle::ui {

View view_of(const Page& page, const Rect& where, const TaskPictureState& state) {
    return {where, state.x, state.y, page.theme.scale * static_cast<float>(state.zoom)};
}

void hold_in(const Page& page, const TaskLayout& layout, const Rect& where,
             TaskPictureState& state) {
    const View view = view_of(page, where, state);
    const double wide = static_cast<double>(layout.columns.size()) * kColumn - (kColumn - kNode);
    const double tall = static_cast<double>(layout.rows) * kRow;
    state.x =
        std::clamp(state.x, double(-kEdge), std::max(double(-kEdge), wide + kEdge - view.wide()));
    state.y =
        std::clamp(state.y, double(-kEdge), std::max(double(-kEdge), tall + kEdge - view.tall()));
}

void zoom_to(const Page& page, const Rect& where, TaskPictureState& state, double zoom, ImVec2 at) {
    const View before = view_of(page, where, state);
    const double across = state.x + (at.x - where.left) / before.factor;
    const double down = state.y + (at.y - where.top) / before.factor;
    state.zoom = std::clamp(zoom, kLeastZoom, kLargestZoom);
    const View now = view_of(page, where, state);
    state.x = across - (at.x - where.left) / now.factor;
    state.y = down - (at.y - where.top) / now.factor;
}

void bring_in(const Page& page, const Rect& where, TaskPictureState& state, const TaskNode& shown) {
    const View view = view_of(page, where, state);
    const double left = left_of(shown) - kEdge, top = top_of(shown) - kEdge;
    const double right = left + kNode + 2 * kEdge, low = top + kRow + 2 * kEdge;
    state.x = std::min(left, std::max(state.x, right - view.wide()));
    state.y = std::min(top, std::max(state.y, low - view.tall()));
}

void show_whole(const Page& page, const TaskLayout& layout, const Rect& where,
                TaskPictureState& state) {
    const double wide = static_cast<double>(layout.columns.size()) * kColumn + 2 * kEdge;
    const double tall = static_cast<double>(layout.rows) * kRow + 2 * kEdge;
    const double fitting = std::min(where.width() / wide, where.height() / tall);
    state.zoom = std::clamp(fitting / page.theme.scale, kLeastZoom, 1.0);
    state.x = state.y = -kEdge;
}

int in_chain(const TaskLayout& layout, int number) {
    for (std::size_t i = 0; i < layout.nodes.size(); ++i)
        if (layout.nodes[i].in_chain == number) return static_cast<int>(i);
    return -1;
}

void place_first(const Page& page, const TaskLayout& layout, const Rect& where,
                 TaskPictureState& state) {
    state.placed = true;
    show_whole(page, layout, where, state);
    if (state.zoom >= kReadable) return;
    state.zoom = 1;
    const TaskNode& at = *layout.node_of(state.at);
    const View view = view_of(page, where, state);
    state.x = left_of(at) - view.wide() / 4;
    state.y = top_of(at) - view.tall() / 2;
}

ImVec2 to_close_in_on(const Page& page, const TaskLayout& layout, const Rect& where,
                      const TaskPictureState& state) {
    if (const TaskNode* at = layout.node_of(state.at)) {
        const ImVec2 there =
            view_of(page, where, state)(left_of(*at) + kNode / 2.0, top_of(*at) + kRule);
        if (there.x > where.left && there.x < where.right && there.y > where.top &&
            there.y < where.bottom)
            return there;
    }
    return {(where.left + where.right) / 2, (where.top + where.bottom) / 2};
}

} // namespace fettle::ui
