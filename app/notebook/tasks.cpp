#include "notebook/tasks.h"

#include "base/text.h"
#include "notebook/rules.h"
#include "notebook/task_waits.h"
#include "notebook/weather.h"
#include "store/quoted_name.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <tuple>
#include <unordered_set>

namespace fettle {
namespace {

void read_needs(store::Database& database, Task& task) {
    task.needs = all_rows(
        database.query("SELECT needs_id FROM task_needs WHERE task_id = ? ORDER BY needs_id",
                       task.id),
        [](const store::Statement& row) { return row.get<TaskId>(0); });
    task.positions = all_rows(
        database.query("SELECT position_id, condition FROM task_positions WHERE task_id = ? "
                       "ORDER BY position_id",
                       task.id),
        [](const store::Statement& row) {
            return NeededPosition{row.get<PositionId>(0), stored_word<Condition>(row, 1)};
        });
    task.deliveries =
        all_rows(database.query("SELECT consignment_id FROM task_consignments WHERE task_id = ? "
                                "ORDER BY consignment_id",
                                task.id),
                 [](const store::Statement& row) { return row.get<ConsignmentId>(0); });
}

std::string named(store::Database& database, TaskId id) {
    auto row = database.query("SELECT title FROM tasks WHERE id = ?", id);
    const std::string number = std::to_string(id.value);
    return row.next() ? row.get<std::string>(0) + " (" + number + ")" : number;
}

// The way from `task` back to itself along what tasks need, as words; empty when there is none.
std::string circle_in_words(store::Database& database, TaskId task) {
    std::vector<TaskId> ids;
    std::unordered_map<TaskId, TaskPlace, IdHash> places;
    TaskGraph graph;
    const auto place_of = [&](TaskId id) {
        const auto [found, fresh] = places.emplace(id, static_cast<TaskPlace>(ids.size()));
        if (fresh) {
            ids.push_back(id);
            graph.emplace_back();
        }
        return found->second;
    };
    const TaskPlace start = place_of(task);
    auto needs = database.query("SELECT task_id, needs_id FROM task_needs");
    while (needs.next()) {
        const TaskPlace from = place_of(needs.get<TaskId>(0)), to = place_of(needs.get<TaskId>(1));
        graph[from].needs.push_back(to);
    }
    const auto circle = circle_through(graph, start);
    if (circle.empty()) return {};
    std::vector<std::string> names;
    for (const TaskPlace place : circle)
        names.push_back(named(database, ids[place]));
    names.push_back(names.front());
    return join(names, " needs ");
}

template <class RecordId>
bool is_there(store::Database& database, const char* table, RecordId id) {
    return database.query("SELECT 1 FROM " + store::in_quotes(table) + " WHERE id IS ?", id).next();
}

Done write_needs(store::Database& database, const Task& task, TaskId id) {
    for (const char* table : {"task_needs", "task_positions", "task_consignments"})
        database.run("DELETE FROM " + store::in_quotes(table) + " WHERE task_id = ?", id);
    for (auto needed : task.needs) {
        if (needed == id) return Failure{FailureKind::refused, "A task cannot need itself."};
        if (!is_there(database, "tasks", needed))
            return nothing_called("task", std::to_string(needed.value));
        database.run("INSERT OR IGNORE INTO task_needs(task_id, needs_id) VALUES (?, ?)", id,
                     needed);
    }
    for (const auto& needed : task.positions)
        database.run("INSERT OR REPLACE INTO task_positions(task_id, position_id, condition) "
                     "VALUES (?, ?, ?)",
                     id, needed.position, word(needed.condition));
    for (auto delivery : task.deliveries) {
        if (!is_there(database, "consignments", delivery))
            return nothing_called("consignment", std::to_string(delivery.value));
        database.run("INSERT OR IGNORE INTO task_consignments(id, task_id, consignment_id) "
                     "VALUES (next_id('task_consignments'), ?, ?)",
                     id, delivery);
    }
    if (auto circle = circle_in_words(database, id); !circle.empty())
        return Failure{FailureKind::refused, "Tasks would wait for each other in a circle (" +
                                                 circle + "): leave one of these needs out."};
    return done();
}

Done check_task(const Task& task) {
    if (auto filled = require_text("task title", task.title); !filled) return filled;
    if (task.estimate_hours && !(*task.estimate_hours >= 0 && *task.estimate_hours < 10000))
        return Failure{FailureKind::invalid,
                       "The estimate of a task is 0 to 10000 hours; this one is not."};
    if (task.least_temperature_c &&
        !(*task.least_temperature_c >= -60 && *task.least_temperature_c <= 60))
        return Failure{FailureKind::invalid,
                       "The least temperature of a task is -60 to 60 °C; this one is not."};
    return done();
}

double hours_left(const Task& task, double spent) {
    if (task.state != TaskState::open) return 0;
    return std::max(0.0, task.estimate_hours.value_or(kHoursWithoutEstimate) - spent);
}

TaskGraph graph_of(const Situation& situation) {
    TaskGraph graph(situation.tasks.size());
    for (std::size_t place = 0; place < graph.size(); ++place) {
        const Task& task = situation.tasks[place];
        graph[place].open = task.state == TaskState::open;
        graph[place].hours = hours_left(task, situation.spent[place]);
        graph[place].needs.reserve(task.needs.size());
        for (const TaskId need : task.needs)
            if (const auto found = situation.places.find(need); found != situation.places.end())
                graph[place].needs.push_back(found->second);
    }
    return graph;
}

// The one task it waits for, when nothing else but warmth stands in its way.
std::optional<TaskId> waits_only_for(const std::vector<Wait>& waits) {
    std::optional<TaskId> only;
    for (const Wait& wait : waits) {
        if (wait.on == WaitsOn::warmth) continue;
        if (wait.on != WaitsOn::task || only) return std::nullopt;
        only = wait.task;
    }
    return only;
}

std::vector<TaskStanding> standings_of(Situation situation) {
    const TaskGraph graph = graph_of(situation);
    const TaskOrder order = order_of(graph);
    const CriticalPath critical = critical_path(graph, order);
    const auto levels = levels_of(graph, order);
    const auto after = after_each(graph, order);
    std::vector<TaskStanding> standings(graph.size());
    for (std::size_t place = 0; place < graph.size(); ++place) {
        TaskStanding& standing = standings[place];
        standing.waits = reasons_to_wait(situation.tasks[place], situation);
        standing.spent_hours = situation.spent[place];
        standing.left_hours = graph[place].hours;
        standing.after = after[place];
        standing.span = critical.spans[place];
        standing.level = levels[place];
        if (const auto only = waits_only_for(standing.waits))
            ++standings[situation.places.at(*only)].unlocks;
    }
    if (critical.path.size() > 1)
        for (const TaskPlace place : critical.path)
            standings[place].on_longest_chain = true;
    for (std::size_t place = 0; place < graph.size(); ++place)
        standings[place].task = std::move(situation.tasks[place]);
    return standings;
}

} // namespace

std::string waits_in_words(const TaskStanding& standing) {
    std::vector<std::string> said;
    for (const Wait& wait : standing.waits)
        said.push_back(wait.words);
    return join(said, "; ");
}

std::string_view standing_word(const TaskStanding& standing) {
    if (standing.ready()) return "ready";
    return standing.task.state == TaskState::open ? "waits" : word(standing.task.state);
}

std::string hours_in_words(double hours) {
    char text[32];
    std::snprintf(text, sizeof text, "%g h", std::round(hours * 100) / 100);
    return text;
}

std::string unlocks_in_words(const TaskStanding& standing) {
    std::vector<std::string> said;
    if (standing.unlocks > 0)
        said.push_back(std::to_string(standing.unlocks) +
                       (standing.unlocks == 1 ? " task at once" : " tasks at once"));
    if (standing.after.tasks > 0)
        said.push_back(hours_in_words(standing.after.hours) + " of work after it");
    return join(said, ", ");
}

Result<TaskId> keep_task(Notebook& notebook, const Task& task) {
    return notebook.act(
        (task.id ? "changed task " : "added task ") + task.title,
        [&](store::Database& database) -> Result<TaskId> {
            if (auto fine = check_task(task); !fine) return fine.failure();
            auto id = task.id;
            if (!id)
                id = {database.insert("INSERT INTO tasks(id, title) VALUES (next_id('tasks'), ?)",
                                      task.title)};
            std::optional<std::string> done_on;
            if (task.done_on) done_on = to_iso(*task.done_on);
            database.run("UPDATE tasks SET vehicle_id = ?, title = ?, note = ?, state = ?, "
                         "estimate_hours = ?, least_temperature_c = ?, waits_for = ?, done_on = ? "
                         "WHERE id = ?",
                         task.vehicle, task.title, task.note, word(task.state), task.estimate_hours,
                         task.least_temperature_c, task.waits_for, done_on, id);
            if (database.rows_changed() == 0)
                return nothing_called("task", std::to_string(id.value));
            if (auto written = write_needs(database, task, id); !written) return written.failure();
            return id;
        });
}

Done set_task_state(Notebook& notebook, TaskId id, TaskState state, Day on) {
    auto task = task_by_id(notebook, id);
    if (!task) return task.failure();
    std::optional<std::string> done_on;
    if (state == TaskState::done) done_on = to_iso(on);
    const auto words = (state == TaskState::done      ? "finished task "
                        : state == TaskState::dropped ? "dropped task "
                                                      : "reopened task ") +
                       task->title;
    return notebook.act(words, [&](store::Database& database) -> Done {
        database.run("UPDATE tasks SET state = ?, done_on = ? WHERE id = ?", word(state), done_on,
                     id);
        return done();
    });
}

Result<Task> task_by_id(const Notebook& notebook, TaskId id) {
    auto task = one_row(notebook, "task", std::to_string(id.value), task_of,
                        std::string(kTaskColumns) + "WHERE id IS ?", id);
    if (!task) return task;
    auto read = notebook.read([&](store::Database& database) {
        read_needs(database, *task);
        return Nothing{};
    });
    if (!read) return read.failure();
    return task;
}

Result<std::vector<TaskStanding>> list_tasks(const Notebook& notebook, Day today,
                                             std::optional<double> temperature_c) {
    auto weather = weather_on(notebook, today);
    if (!weather) return weather.failure();
    auto situation =
        notebook.read([&](store::Database& database) { return look_round(database, today); });
    if (!situation) return situation.failure();
    situation->temperature_c = temperature_c ? temperature_c : weather->temperature_c;
    auto standings = standings_of(std::move(*situation));
    const auto group_of = [](const TaskStanding& standing) {
        return standing.ready() ? 0 : standing.task.state == TaskState::open ? 1 : 2;
    };
    std::vector<std::size_t> groups[3]; // sorting the standings would move each one many times
    for (std::size_t place = 0; place < standings.size(); ++place)
        groups[group_of(standings[place])].push_back(place);
    std::vector<TaskStanding> sorted;
    sorted.reserve(standings.size());
    for (const auto& group : groups)
        for (const std::size_t place : group)
            sorted.push_back(std::move(standings[place]));
    return sorted;
}

std::vector<NextTask> what_next(const std::vector<TaskStanding>& tasks,
                                std::optional<double> hours) {
    std::vector<NextTask> next;
    for (const TaskStanding& standing : tasks)
        if (standing.ready())
            next.push_back({&standing, !hours || standing.left_hours <= *hours + 1e-9});
    std::ranges::stable_sort(next, {}, [](const NextTask& one) {
        const TaskStanding& standing = *one.standing;
        return std::tuple(!one.fits, -standing.unlocks, -standing.after.hours,
                          -standing.left_hours);
    });
    return next;
}

TaskIndex::TaskIndex(const std::vector<TaskStanding>& tasks) {
    by_id_.reserve(tasks.size());
    for (const TaskStanding& standing : tasks)
        by_id_.emplace(standing.task.id.value, &standing);
}

const TaskStanding* TaskIndex::find(TaskId id) const {
    const auto found = by_id_.find(id.value);
    return found == by_id_.end() ? nullptr : found->second;
}

std::vector<HeldUpBy> held_up_by(const TaskIndex& tasks, TaskId id) {
    std::vector<HeldUpBy> held, can_be_done;
    std::vector<TaskId> ahead{id};
    std::unordered_set<std::int64_t> seen{id.value};
    std::unordered_set<std::string> said; // two tasks may wait for the same part
    for (std::size_t next = 0; next < ahead.size(); ++next) {
        const TaskStanding* standing = tasks.find(ahead[next]);
        if (!standing) continue;
        if (standing->ready() && standing->task.id != id)
            can_be_done.push_back(
                {standing->task.id,
                 {.on = WaitsOn::task, .words = task_words(standing->task), .task = ahead[next]}});
        for (const Wait& wait : standing->waits)
            if (wait.on != WaitsOn::task) {
                if (said.insert(wait.words).second) held.push_back({standing->task.id, wait});
            } else if (seen.insert(wait.task.value).second)
                ahead.push_back(wait.task);
    }
    held.insert(held.end(), can_be_done.begin(), can_be_done.end());
    return held;
}

std::vector<const TaskStanding*> longest_chain(const std::vector<TaskStanding>& tasks) {
    std::vector<const TaskStanding*> chain;
    for (const TaskStanding& standing : tasks)
        if (standing.on_longest_chain) chain.push_back(&standing);
    std::ranges::sort(chain, {}, [](const TaskStanding* one) {
        return std::tuple(one->span.earliest_start, one->level);
    });
    return chain;
}

} // namespace fettle
