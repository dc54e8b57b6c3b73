#include "ui/screens/tasks/task_layout.h"

#include <algorithm>
#include <cmath>
#include <unordered_set>

namespace fettle::ui {
namespace {

constexpr int kSweeps = 4; // more change little

using Neighbours = std::unordered_map<std::int64_t, std::vector<TaskId>>;

// Adds all that one comes to from a task by way of its neighbours.
void follow(const Neighbours& neighbours, TaskId from, std::unordered_set<std::int64_t>& reached) {
    std::vector<TaskId> ahead{from};
    std::unordered_set<std::int64_t> seen{from.value};
    for (std::size_t next = 0; next < ahead.size(); ++next)
        if (const auto at = neighbours.find(ahead[next].value); at != neighbours.end())
            for (const TaskId neighbour : at->second)
                if (seen.insert(neighbour.value).second) ahead.push_back(neighbour);
    reached.insert(seen.begin(), seen.end());
}

std::unordered_set<std::int64_t> hanging_on(const std::vector<TaskStanding>& tasks, TaskId only) {
    Neighbours before, after;
    for (const TaskStanding& standing : tasks)
        for (const TaskId need : standing.task.needs) {
            before[standing.task.id.value].push_back(need);
            after[need.value].push_back(standing.task.id);
        }
    std::unordered_set<std::int64_t> reached;
    follow(before, only, reached);
    follow(after, only, reached);
    return reached;
}

void add_nodes(TaskLayout& layout, const std::vector<TaskStanding>& tasks, const LayoutWish& wish) {
    std::unordered_set<std::int64_t> shown;
    if (wish.only) shown = hanging_on(tasks, wish.only);
    for (const TaskStanding& standing : tasks) {
        const std::int64_t id = standing.task.id.value;
        if (standing.task.state != TaskState::open && !wish.with_over) continue;
        if (wish.only && !shown.contains(id)) continue;
        layout.by_task.emplace(id, static_cast<int>(layout.nodes.size()));
        layout.nodes.push_back({.standing = &standing});
    }
    for (const TaskStanding* standing : longest_chain(tasks)) {
        ++layout.chain;
        const auto at = layout.by_task.find(standing->task.id.value);
        if (at != layout.by_task.end())
            layout.nodes[static_cast<std::size_t>(at->second)].in_chain = layout.chain;
    }
}

void add_lines(TaskLayout& layout) {
    for (std::size_t to = 0; to < layout.nodes.size(); ++to)
        for (const TaskId need : layout.nodes[to].standing->task.needs) {
            const auto from = layout.by_task.find(need.value);
            if (from == layout.by_task.end()) continue;
            TaskNode& one = layout.nodes[static_cast<std::size_t>(from->second)];
            TaskNode& other = layout.nodes[to];
            one.after.push_back(static_cast<int>(to));
            other.before.push_back(from->second);
            layout.lines.push_back({from->second, static_cast<int>(to),
                                    one.in_chain > 0 && other.in_chain == one.in_chain + 1});
        }
}

void put_in_columns(TaskLayout& layout) {
    TaskGraph graph(layout.nodes.size());
    for (std::size_t i = 0; i < graph.size(); ++i)
        graph[i].needs.assign(layout.nodes[i].before.begin(), layout.nodes[i].before.end());
    const auto levels = levels_of(graph, order_of(graph));
    for (std::size_t i = 0; i < graph.size(); ++i) {
        TaskNode& node = layout.nodes[i];
        if (node.before.empty() && node.after.empty()) continue;
        node.column = levels[i];
        if (layout.columns.size() <= static_cast<std::size_t>(levels[i]))
            layout.columns.resize(static_cast<std::size_t>(levels[i]) + 1);
        layout.columns[static_cast<std::size_t>(levels[i])].push_back(static_cast<int>(i));
    }
}

double mean_row(const TaskLayout& layout, const std::vector<int>& nodes, double otherwise) {
    if (nodes.empty()) return otherwise;
    double sum = 0;
    for (const int node : nodes)
        sum += layout.nodes[static_cast<std::size_t>(node)].row;
    return sum / static_cast<double>(nodes.size());
}

// By the mean row of the neighbours on one side (Sugiyama's barycentre), those without one staying
// about where they are.
void sort_column(TaskLayout& layout, std::vector<int>& column, std::vector<int> TaskNode::*side) {
    std::vector<std::pair<double, int>> wished;
    wished.reserve(column.size());
    for (const int node : column) {
        const TaskNode& one = layout.nodes[static_cast<std::size_t>(node)];
        wished.emplace_back(mean_row(layout, one.*side, one.row), node);
    }
    std::ranges::stable_sort(wished, {}, &std::pair<double, int>::first);
    for (std::size_t row = 0; row < column.size(); ++row) {
        column[row] = wished[row].second;
        layout.nodes[static_cast<std::size_t>(column[row])].row = static_cast<int>(row);
    }
}

// Each as near as can be to the rows of what it needs, so that chains run straight; but within a
// quarter more rows than the fullest column has, or the picture would grow on and on downwards.
void put_in_rows(TaskLayout& layout) {
    std::size_t fullest = 0;
    for (const auto& column : layout.columns)
        fullest = std::max(fullest, column.size());
    const auto rows = static_cast<int>(fullest + fullest / 4);
    for (const auto& column : layout.columns) {
        int next = 0, left = static_cast<int>(column.size());
        for (const int at : column) {
            TaskNode& node = layout.nodes[static_cast<std::size_t>(at)];
            const double wished = mean_row(layout, node.before, next);
            node.row = std::clamp(static_cast<int>(std::floor(wished)), next, rows - left--);
            next = node.row + 1;
        }
        layout.rows = std::max(layout.rows, next);
    }
}

// Tasks without a line stand below, as wide as the picture is and not in one long column.
void put_below(TaskLayout& layout) {
    std::vector<int> alone;
    for (std::size_t i = 0; i < layout.nodes.size(); ++i)
        if (layout.nodes[i].before.empty() && layout.nodes[i].after.empty())
            alone.push_back(static_cast<int>(i));
    layout.alone_from = layout.rows;
    if (alone.empty()) return;
    const auto square = static_cast<std::size_t>(std::sqrt(static_cast<double>(alone.size()) / 4));
    const std::size_t wide = std::max({layout.columns.size(), square, std::size_t{2}});
    layout.columns.resize(wide);
    const int first = layout.rows == 0 ? 0 : layout.rows + 1; // a row for the heading
    for (std::size_t i = 0; i < alone.size(); ++i) {
        TaskNode& node = layout.nodes[static_cast<std::size_t>(alone[i])];
        node.column = static_cast<int>(i % wide);
        node.row = first + static_cast<int>(i / wide);
        layout.columns[i % wide].push_back(alone[i]);
        layout.rows = node.row + 1;
    }
}

} // namespace

const TaskNode* TaskLayout::node_of(TaskId id) const {
    const auto found = by_task.find(id.value);
    return found == by_task.end() ? nullptr : &nodes[static_cast<std::size_t>(found->second)];
}

TaskLayout layout_of(const std::vector<TaskStanding>& tasks, const LayoutWish& wish) {
    TaskLayout layout;
    add_nodes(layout, tasks, wish);
    add_lines(layout);
    put_in_columns(layout);
    for (auto& column : layout.columns)
        for (std::size_t row = 0; row < column.size(); ++row)
            layout.nodes[static_cast<std::size_t>(column[row])].row = static_cast<int>(row);
    for (int sweep = 0; sweep < kSweeps; ++sweep)
        if (sweep % 2 == 0)
            for (auto& column : layout.columns)
                sort_column(layout, column, &TaskNode::before);
        else
            for (auto column = layout.columns.rbegin(); column != layout.columns.rend(); ++column)
                sort_column(layout, *column, &TaskNode::after);
    put_in_rows(layout);
    put_below(layout);
    return layout;
}

} // namespace fettle::ui
