#include "ui/screens/tasks/task_picture.h"

#include "ui/frame/input_queue.h"
#include "ui/frame/keyboard_frame.h"
#include "ui/frame/scripts.h"
#include "ui/screens/tasks/task_view.h"
#include "ui/screens/tasks/task_words.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

constexpr std::size_t kMostLines = 3000; // more in sight are a blot

// ---- drawing -------------------------------------------------------------------------------

struct Pen {
    Page& page;
    const TaskLayout& layout;
    const TaskPictureState& state;
    View view;
    ImDrawList* list;
    bool readable;

    bool is_at(const TaskNode& one) const { return one.standing->task.id == state.at; }
};

// First and last node of a column that is in sight: they stand by row.
std::pair<std::size_t, std::size_t> in_sight(const Pen& pen, const std::vector<int>& column) {
    const auto row_of = [&](int at) { return node(pen.layout, at).row; };
    const int first = static_cast<int>(std::floor(pen.view.y / kRow)) - 1;
    const int last = static_cast<int>(std::ceil((pen.view.y + pen.view.tall()) / kRow));
    const auto low = std::ranges::lower_bound(column, first, {}, row_of);
    const auto high = std::ranges::upper_bound(column, last, {}, row_of);
    return {static_cast<std::size_t>(low - column.begin()),
            static_cast<std::size_t>(high - column.begin())};
}

// Along the gutters and, further than to the next column, between two rows, so that no line runs
// through words.
void draw_line(const Pen& pen, const TaskLine& line, Role role, float thick) {
    const TaskNode &from = node(pen.layout, line.from), &to = node(pen.layout, line.to);
    const double start = left_of(from) + kNode, end = left_of(to);
    const double high = top_of(from) + kRule, low = top_of(to) + kRule;
    const double gutter = start + 10 + (from.row % 5) * 7;
    ImVec2 points[6] = {pen.view(start, high)};
    int count = 1;
    if (to.column > from.column + 1) {
        points[count++] = pen.view(gutter, high);
        const double lane = from.row < to.row ? top_of(to) - kRow + kLane : top_of(to) + kLane;
        const double last = end - 12;
        points[count++] = pen.view(gutter, lane);
        points[count++] = pen.view(last, lane);
        points[count++] = pen.view(last, low);
    } else if (from.row != to.row) {
        points[count++] = pen.view(gutter, high);
        points[count++] = pen.view(gutter, low);
    }
    points[count++] = pen.view(end, low);
    const unsigned tone = pen.page.tone(role);
    pen.list->AddPolyline(points, count, tone, 0, thick);
    if (!pen.readable) return;
    const ImVec2 tip = points[count - 1];
    const float arrow = 5 * pen.view.factor;
    pen.list->AddTriangleFilled(tip, ImVec2(tip.x - arrow, tip.y - arrow * 0.6F),
                                ImVec2(tip.x - arrow, tip.y + arrow * 0.6F), tone);
}

bool line_in_sight(const Pen& pen, const TaskLine& line) {
    const TaskNode &from = node(pen.layout, line.from), &to = node(pen.layout, line.to);
    const double left = left_of(from), right = left_of(to) + kNode;
    const auto [high, low] = std::minmax(from.row, to.row);
    return right >= pen.view.x && left <= pen.view.x + pen.view.wide() &&
           (low + 1) * double(kRow) >= pen.view.y &&
           (high - 1) * double(kRow) <= pen.view.y + pen.view.tall();
}

// True when some were left out because there are too many in sight.
bool draw_lines(const Pen& pen) {
    std::vector<const TaskLine*> plain, own, chain;
    for (const TaskLine& line : pen.layout.lines) {
        if (!line_in_sight(pen, line)) continue;
        if (pen.is_at(node(pen.layout, line.from)) || pen.is_at(node(pen.layout, line.to)))
            own.push_back(&line);
        else
            (line.in_chain ? chain : plain).push_back(&line);
    }
    const bool too_many = plain.size() > kMostLines;
    const float thin = pen.page.px(1);
    if (!too_many)
        for (const TaskLine* line : plain)
            draw_line(pen, *line, Role::pencil, thin);
    for (const TaskLine* line : chain)
        draw_line(pen, *line, Role::ink, 3 * thin);
    for (const TaskLine* line : own)
        draw_line(pen, *line, Role::blue_steel, (line->in_chain ? 3 : 2) * thin);
    return too_many;
}

std::string standing_words(const Pen& pen, const TaskNode& one) {
    std::string said(standing_word(*one.standing));
    if (one.in_chain > 0)
        said += ", " + std::to_string(one.in_chain) + " of " + std::to_string(pen.layout.chain) +
                " in the longest chain";
    return said;
}

// The same, and what it waits for that is no other task: those are seen.
std::string drawn_words(const Pen& pen, const TaskNode& one) {
    const auto& waits = one.standing->waits;
    const auto outside =
        std::ranges::find_if(waits, [](const Wait& wait) { return wait.on != WaitsOn::task; });
    return standing_words(pen, one) + (outside == waits.end() ? "" : ", for " + outside->words);
}

void write(const Pen& pen, const ImFont* font, ImVec2 at, Role role, const std::string& text) {
    pen.page.reg.see(text);
    pen.list->AddText(font, font->FontSize * static_cast<float>(pen.state.zoom), at,
                      pen.page.tone(role), as_drawn(text, Reading::from_left).c_str());
}

void write_node(const Pen& pen, const TaskNode& one) {
    const float room = pen.page.px(kNode);
    const double left = left_of(one), top = top_of(one);
    const std::string hours = task_hours_words(*one.standing);
    const float aside = hours.empty() ? 0 : width_of(pen.page, hours) + pen.page.px(8);
    write(pen, pen.page.fonts.body, pen.view(left, top + kTitle), Role::ink,
          cut_to(pen.page, one.standing->task.title, room - aside));
    if (aside > 0)
        write(pen, pen.page.fonts.body,
              pen.view(left + double((room - aside) / pen.page.theme.scale) + 8, top + kTitle),
              Role::pencil, hours);
    write(pen, pen.page.fonts.fine, pen.view(left, top + kUnder), role_of(*one.standing),
          cut_to(pen.page, drawn_words(pen, one), room, Face::fine));
}

void draw_node(const Pen& pen, int at, bool hovered) {
    const TaskNode& one = node(pen.layout, at);
    const double left = left_of(one), top = top_of(one);
    const ImVec2 low = pen.view(left - 6, top), high = pen.view(left + kNode + 6, top + kFoot);
    const float thin = pen.page.px(1);
    if (pen.is_at(one) || hovered) {
        pen.list->AddRectFilled(low, high, pen.page.tone(Role::sheet));
        pen.list->AddRect(low, high,
                          pen.page.tone(pen.is_at(one) ? Role::blue_steel : Role::pencil), 0, 0,
                          (pen.is_at(one) ? 2 : 1) * thin);
    }
    const float thick = (one.in_chain > 0 ? 3 : 1) * thin;
    const ImVec2 start = pen.view(left, top + kRule), end = pen.view(left + kNode, top + kRule);
    pen.list->AddRectFilled(ImVec2(start.x, start.y - thick / 2), ImVec2(end.x, end.y + thick / 2),
                            pen.page.tone(one.in_chain > 0 ? Role::ink : Role::pencil));
    if (pen.readable) write_node(pen, one);
    note_area(pen.page, "tasks.node." + std::to_string(one.standing->task.id.value),
              one.standing->task.title, {low.x, low.y, high.x, high.y}, standing_words(pen, one));
}

int node_under(const Pen& pen, ImVec2 pointer) {
    const Rect& where = pen.view.where;
    if (pointer.x < where.left || pointer.x > where.right || pointer.y < where.top ||
        pointer.y > where.bottom)
        return -1;
    const double x = pen.view.x + (pointer.x - where.left) / pen.view.factor;
    const double y = pen.view.y + (pointer.y - where.top) / pen.view.factor;
    const int column = static_cast<int>(std::floor((x + 6) / kColumn));
    const int row = static_cast<int>(std::floor(y / kRow));
    if (column < 0 || std::cmp_greater_equal(column, pen.layout.columns.size())) return -1;
    if (x > column * double(kColumn) + kNode + 6) return -1;
    const auto& nodes = pen.layout.columns[static_cast<std::size_t>(column)];
    const auto at = std::ranges::lower_bound(nodes, row, {},
                                             [&](int one) { return node(pen.layout, one).row; });
    return at != nodes.end() && node(pen.layout, *at).row == row ? *at : -1;
}

void draw_nodes(const Pen& pen, int hovered) {
    const auto& columns = pen.layout.columns;
    for (std::size_t column = 0; column < columns.size(); ++column) {
        const double left = static_cast<double>(column) * kColumn;
        if (left + kNode < pen.view.x || left > pen.view.x + pen.view.wide()) continue;
        const auto [first, end] = in_sight(pen, columns[column]);
        for (std::size_t i = first; i < end; ++i)
            draw_node(pen, columns[column][i], columns[column][i] == hovered);
    }
    if (pen.layout.alone_from > 0 && pen.layout.rows > pen.layout.alone_from && pen.readable)
        write(pen, pen.page.fonts.fine, pen.view(0, pen.layout.alone_from * double(kRow) + kUnder),
              Role::pencil, "on their own, in any order");
}

// Which step a column is, above it, wherever one has moved to.
void draw_heads(const Pen& pen, const Rect& whole) {
    const InFace fine(pen.page, Face::fine);
    const float y = whole.top + pen.page.px(6);
    pen.list->AddRectFilled(ImVec2(whole.left, pen.view.where.top - pen.page.px(1)),
                            ImVec2(whole.right, pen.view.where.top), pen.page.tone(Role::rule));
    if (pen.layout.alone_from == 0) return;
    for (std::size_t column = 0; column < pen.layout.columns.size(); ++column) {
        const std::string said = column == 0 ? "first" : "step " + std::to_string(column + 1);
        const float x = pen.view(static_cast<double>(column) * kColumn, 0).x;
        if (pen.readable || column % 5 == 0) write_at(pen.page, x, y, said, Role::pencil);
    }
}

// ---- keys and pointer ----------------------------------------------------------------------

bool taken(Key key, bool ctrl = false) {
    return key_taken({.key = static_cast<int>(key), .ctrl = ctrl});
}

int nearest_row(const TaskLayout& layout, const std::vector<int>& among, int row) {
    int best = -1;
    for (const int at : among)
        if (best < 0 ||
            std::abs(node(layout, at).row - row) < std::abs(node(layout, best).row - row))
            best = at;
    return best;
}

// The task that a key leads to from the one the keys are on; -1: none.
int led_to(const TaskLayout& layout, const TaskPictureState& state) {
    const TaskNode* at = layout.node_of(state.at);
    if (!at) return -1;
    if (taken(Key::left, true)) return nearest_row(layout, at->before, at->row);
    if (taken(Key::right, true)) return nearest_row(layout, at->after, at->row);
    const auto& column = layout.columns[static_cast<std::size_t>(at->column)];
    const auto place = std::ranges::lower_bound(column, at->row, {},
                                                [&](int one) { return node(layout, one).row; });
    if (taken(Key::up, true)) return place == column.begin() ? -1 : *std::prev(place);
    if (taken(Key::down, true)) return std::next(place) == column.end() ? -1 : *std::next(place);
    if (!pressed({.key = 'L'})) return -1;
    for (int step = 0; step < layout.chain; ++step) // some of it may not be shown
        if (const int next = in_chain(layout, (at->in_chain + step) % layout.chain + 1); next >= 0)
            return next;
    return -1;
}

void note_keys(Register& reg) {
    reg.note_key("+ -", "nearer, further");
    reg.note_key("0", "all of it");
    reg.note_key("arrows", "move it");
    reg.note_key("Ctrl ← →", "to what comes before, to what waits");
    reg.note_key("Ctrl ↑ ↓", "within the step");
    reg.note_key("L", "along the longest chain");
}

void by_keys(const Page& page, const TaskLayout& layout, const Rect& where,
             TaskPictureState& state) {
    note_keys(page.reg);
    const ImVec2 middle = to_close_in_on(page, layout, where, state);
    if (plus_pressed()) zoom_to(page, where, state, state.zoom * 1.25, middle);
    if (pressed({.key = '-'})) zoom_to(page, where, state, state.zoom / 1.25, middle);
    if (pressed({.key = '0'}) || taken(Key::home)) show_whole(page, layout, where, state);
    const View view = view_of(page, where, state);
    if (taken(Key::left)) state.x -= view.wide() / 4;
    if (taken(Key::right)) state.x += view.wide() / 4;
    if (taken(Key::up)) state.y -= view.tall() / 4;
    if (taken(Key::down)) state.y += view.tall() / 4;
    if (const int to = led_to(layout, state); to >= 0) {
        state.pointed = false;
        state.at = node(layout, to).standing->task.id;
        bring_in(page, where, state, node(layout, to));
    }
}

void by_pointer(const Page& page, const Rect& where, TaskPictureState& state) {
    const ImGuiIO& io = ImGui::GetIO();
    if (io.MouseDelta.x != 0 || io.MouseDelta.y != 0 || io.MouseDown[0]) state.pointed = true;
    if (ImGui::IsItemHovered() && io.MouseWheel != 0)
        zoom_to(page, where, state, state.zoom * std::pow(1.25, io.MouseWheel), io.MousePos);
    if (!ImGui::IsItemActive() || !ImGui::IsMouseDragging(0)) return;
    const View view = view_of(page, where, state);
    state.x -= io.MouseDelta.x / view.factor;
    state.y -= io.MouseDelta.y / view.factor;
}

// Below the picture: the task the keys or the pointer are on, and what else the keys do.
void draw_foot(const Pen& pen, int hovered, bool too_many) {
    const TaskNode* at =
        hovered >= 0 ? &node(pen.layout, hovered) : pen.layout.node_of(pen.state.at);
    Page& page = pen.page;
    const float room = ImGui::GetContentRegionAvail().x;
    std::string said;
    if (at)
        said = at->standing->task.title + ": " + standing_words(pen, *at) +
               (at->standing->waits.empty() ? "" : ", " + task_under_words(*at->standing));
    words(page, cut_to(page, said, room), at ? role_of(*at->standing) : Role::pencil);
    note(page, "tasks.picture.at", at ? at->standing->task.title : "", said);
    const std::string_view keys =
        too_many ? "too many lines to draw from here: come closer with + or the wheel"
                 : "drag, arrows  move     + - wheel  closer     0  the whole     Ctrl arrows  "
                   "next task     L  chain     Enter  opens";
    fine_words(page, cut_to(page, keys, room, Face::fine));
}

} // namespace

TaskId draw_task_picture(Page& page, const TaskLayout& layout, TaskPictureState& state) {
    if (layout.nodes.empty()) return {};
    const ImVec2 at = ImGui::GetCursorScreenPos(), room = ImGui::GetContentRegionAvail();
    const float foot = page.px(64), head = page.px(kHead);
    const Rect whole{at.x, at.y, at.x + room.x, at.y + std::max(page.px(160), room.y - foot)};
    const Rect where{whole.left, whole.top + head, whole.right, whole.bottom};
    const bool clicked =
        ImGui::InvisibleButton("tasks.picture", ImVec2(whole.width(), whole.height()));
    note(page, "tasks.picture", "what waits for what", std::to_string(layout.nodes.size()));
    if (std::exchange(state.take_keyboard, false)) put_keyboard_here();
    const bool focused = ImGui::IsItemFocused();
    const bool hovers = ImGui::IsItemHovered();
    by_pointer(page, where, state);
    if (!layout.node_of(state.at))
        state.at = node(layout, std::max(0, in_chain(layout, 1))).standing->task.id;
    if (!state.placed) place_first(page, layout, where, state);
    by_keys(page, layout, where, state);
    hold_in(page, layout, where, state);

    const Pen pen{page,
                  layout,
                  state,
                  view_of(page, where, state),
                  ImGui::GetWindowDrawList(),
                  state.zoom >= kReadable};
    const int hovered = hovers && state.pointed ? node_under(pen, ImGui::GetIO().MousePos) : -1;
    pen.list->PushClipRect(ImVec2(whole.left, whole.top), ImVec2(whole.right, whole.bottom), true);
    draw_heads(pen, whole);
    pen.list->PushClipRect(ImVec2(where.left, where.top), ImVec2(where.right, where.bottom), true);
    const bool too_many = draw_lines(pen);
    draw_nodes(pen, hovered);
    pen.list->PopClipRect();
    pen.list->PopClipRect();
    draw_foot(pen, hovered, too_many);

    if (hovered >= 0) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    const bool by_mouse = clicked && ImGui::GetIO().MouseReleased[0];
    if (by_mouse && (hovered < 0 || ImGui::GetIO().MouseDragMaxDistanceSqr[0] > 16)) return {};
    if (by_mouse) state.at = node(layout, hovered).standing->task.id;
    const bool entered = focused && pressed({.key = static_cast<int>(Key::enter)});
    return clicked || entered ? state.at : TaskId{};
}

} // namespace fettle::ui
