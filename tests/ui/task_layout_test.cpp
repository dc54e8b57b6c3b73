#include "ui/screens/tasks/task_layout.h"

#include <doctest/doctest.h>

#include <random>
#include <set>

using namespace fettle;
using namespace fettle::ui;

namespace {

TaskStanding standing(std::int64_t id, std::vector<std::int64_t> needs = {},
                      TaskState state = TaskState::open) {
    TaskStanding one;
    one.task.id = TaskId{id};
    one.task.title = "task " + std::to_string(id);
    one.task.state = state;
    for (const auto need : needs)
        one.task.needs.push_back(TaskId{need});
    return one;
}

void check_sound(const TaskLayout& layout) {
    std::set<std::pair<int, int>> places;
    for (const TaskNode& node : layout.nodes) {
        CHECK(node.column >= 0);
        CHECK(node.row >= 0);
        CHECK(node.row < layout.rows);
        CHECK(places.emplace(node.column, node.row).second); // two never stand in one place
    }
    for (const TaskLine& line : layout.lines)
        CHECK(layout.nodes[std::size_t(line.from)].column <
              layout.nodes[std::size_t(line.to)].column);
    std::size_t count = 0;
    for (std::size_t column = 0; column < layout.columns.size(); ++column) {
        int row = -1;
        for (const int at : layout.columns[column]) {
            const TaskNode& node = layout.nodes[std::size_t(at)];
            CHECK(std::size_t(node.column) == column);
            CHECK(node.row > row);
            row = node.row;
        }
        count += layout.columns[column].size();
    }
    CHECK(count == layout.nodes.size());
}

} // namespace

TEST_CASE("tasks stand in the column after the last of what they need, chains in one row") {
    const std::vector<TaskStanding> tasks = {standing(1), standing(2, {1}), standing(3, {2}),
                                             standing(4), standing(5, {4, 2})};
    const auto layout = layout_of(tasks);
    check_sound(layout);
    CHECK(layout.node_of(TaskId{1})->column == 0);
    CHECK(layout.node_of(TaskId{3})->column == 2);
    CHECK(layout.node_of(TaskId{5})->column == 2); // after 2, not beside it
    CHECK(layout.node_of(TaskId{1})->row == layout.node_of(TaskId{2})->row);
    CHECK(layout.alone_from == layout.rows); // nothing stands alone
    CHECK(layout.node_of(TaskId{9}) == nullptr);
}

TEST_CASE("what is over is left out unless asked for, and tasks without lines stand below") {
    const std::vector<TaskStanding> tasks = {standing(1, {}, TaskState::done), standing(2, {1}),
                                             standing(3, {2}), standing(4), standing(5)};
    const auto open = layout_of(tasks);
    check_sound(open);
    CHECK(open.nodes.size() == 4);
    CHECK(open.lines.size() == 1);
    CHECK(open.node_of(TaskId{4})->row > open.alone_from);
    const auto all = layout_of(tasks, {.with_over = true});
    check_sound(all);
    CHECK(all.nodes.size() == 5);
    CHECK(all.lines.size() == 2);
}

TEST_CASE("only what hangs on one task is what it needs and what comes after it") {
    // 1 -> 2 -> 3 -> 4, 5 -> 3, 5 -> 6, and 7 on its own.
    const std::vector<TaskStanding> tasks = {
        standing(1), standing(2, {1}), standing(3, {2, 5}), standing(4, {3}),
        standing(5), standing(6, {5}), standing(7)};
    const auto shown = [&](std::int64_t only) {
        const auto layout = layout_of(tasks, {.only = TaskId{only}});
        check_sound(layout);
        std::set<std::int64_t> ids;
        for (const TaskNode& node : layout.nodes)
            ids.insert(node.standing->task.id.value);
        return ids;
    };
    CHECK(shown(2) == std::set<std::int64_t>{1, 2, 3, 4});
    CHECK(shown(3) == std::set<std::int64_t>{1, 2, 3, 4, 5});
    CHECK(shown(6) == std::set<std::int64_t>{5, 6});
    CHECK(shown(7) == std::set<std::int64_t>{7});
}

TEST_CASE("no tasks, one task and a circle in a damaged notebook are drawn without harm") {
    CHECK(layout_of({}).nodes.empty());
    const std::vector<TaskStanding> one = {standing(1)};
    CHECK(layout_of(one).rows == 1);
    const std::vector<TaskStanding> circle = {standing(1, {2}), standing(2, {1})};
    CHECK(layout_of(circle).nodes.size() == 2);
}

TEST_CASE("random graphs of up to hundreds of tasks are laid out without two in one place") {
    std::mt19937 random(8);
    for (int round = 0; round < 30; ++round) {
        std::vector<TaskStanding> tasks;
        for (std::int64_t id = 1; id <= 10 + round * 20; ++id) {
            std::vector<std::int64_t> needs;
            for (int i = 0; i < 2 && id > 1; ++i)
                if (random() % 3 != 0) needs.push_back(1 + std::int64_t(random()) % (id - 1));
            std::ranges::sort(needs);
            needs.erase(std::ranges::unique(needs).begin(), needs.end());
            tasks.push_back(standing(id, needs));
        }
        check_sound(layout_of(tasks));
    }
}
