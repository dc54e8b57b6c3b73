#include "notebook/tasks.h"

#include "notebook/rules.h"
#include "notebook/weather.h"

#include <algorithm>
#include <cstdio>
#include <map>

namespace fettle {
namespace {

constexpr std::string_view kColumns =
    "SELECT id, vehicle_id, title, note, state, estimate_hours, least_temperature_c, waits_for, "
    "       done_on FROM tasks ";

Task task_of(const store::Statement& row) {
    Task task;
    task.id = row.get<TaskId>(0);
    task.vehicle = row.get<VehicleId>(1);
    task.title = row.get<std::string>(2);
    task.note = row.get<std::string>(3);
    task.state = stored_word<TaskState>(row, 4);
    task.estimate_hours = row.get<std::optional<double>>(5);
    task.least_temperature_c = row.get<std::optional<double>>(6);
    task.waits_for = row.get<std::string>(7);
    if (auto day = parse_day(row.get<std::string>(8))) task.done_on = *day;
    return task;
}

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
}

// The way from `task` back to itself along what tasks need, as words; empty when there is none.
std::string circle_through(store::Database& database, TaskId task) {
    auto way = database.query(
        "WITH RECURSIVE way(at, path, depth) AS ("
        "  SELECT needs_id, ?1 || ' needs ' || needs_id, 1 FROM task_needs WHERE task_id = ?1 "
        "  UNION SELECT n.needs_id, path || ' needs ' || n.needs_id, depth + 1 "
        "        FROM way JOIN task_needs n ON n.task_id = way.at "
        "        WHERE way.at <> ?1 AND depth < 200) "
        "SELECT path FROM way WHERE at = ?1 LIMIT 1",
        task);
    return way.next() ? way.get<std::string>(0) : std::string();
}

Done write_needs(store::Database& database, const Task& task, TaskId id) {
    database.run("DELETE FROM task_needs WHERE task_id = ?", id);
    database.run("DELETE FROM task_positions WHERE task_id = ?", id);
    for (auto needed : task.needs) {
        if (needed == id) return Failure{FailureKind::refused, "A task cannot need itself."};
        if (!database.query("SELECT 1 FROM tasks WHERE id IS ?", needed).next())
            return nothing_called("task", std::to_string(needed.value));
        database.run("INSERT OR IGNORE INTO task_needs(task_id, needs_id) VALUES (?, ?)", id,
                     needed);
    }
    for (const auto& needed : task.positions)
        database.run("INSERT OR REPLACE INTO task_positions(task_id, position_id, condition) "
                     "VALUES (?, ?, ?)",
                     id, needed.position, word(needed.condition));
    if (auto circle = circle_through(database, id); !circle.empty())
        return Failure{FailureKind::refused, "Tasks would wait for each other in a circle (" +
                                                 circle + "): leave one of these needs out."};
    return done();
}

Done check_task(const Task& task) {
    if (auto filled = require_text("task title", task.title); !filled) return filled;
    if (task.estimate_hours && !(*task.estimate_hours >= 0 && *task.estimate_hours < 10000))
        return Failure{FailureKind::invalid,
                       "The estimate of a task is 0 to 10000 hours; this one is not."};
    return done();
}

struct Situation {
    std::map<TaskId, Task> tasks;
    std::map<PositionId, std::vector<Condition>> parts; // of the parts intended for each position
    std::map<PositionId, std::string> position_names;
    std::optional<double> temperature_c;
};

bool far_enough(const std::vector<Condition>& conditions, Condition wanted) {
    return std::ranges::any_of(conditions, [&](Condition condition) {
        return condition != Condition::scrap && condition >= wanted;
    });
}

std::string degrees(double celsius) {
    char text[32];
    std::snprintf(text, sizeof text, "%g °C", celsius);
    return text;
}

std::vector<std::string> reasons_to_wait(const Task& task, const Situation& situation) {
    std::vector<std::string> waits;
    for (auto needed : task.needs) {
        auto other = situation.tasks.find(needed);
        if (other != situation.tasks.end() && other->second.state == TaskState::open)
            waits.push_back("task " + std::to_string(needed.value) + ", " + other->second.title);
    }
    for (const auto& needed : task.positions) {
        auto parts = situation.parts.find(needed.position);
        if (parts != situation.parts.end() && far_enough(parts->second, needed.condition)) continue;
        auto name = situation.position_names.find(needed.position);
        waits.push_back((name == situation.position_names.end() ? "a position" : name->second) +
                        ", " + std::string(word(needed.condition)));
    }
    if (!task.waits_for.empty()) waits.push_back(task.waits_for);
    if (task.least_temperature_c && situation.temperature_c &&
        *situation.temperature_c < *task.least_temperature_c)
        waits.push_back("at least " + degrees(*task.least_temperature_c) + "; today " +
                        degrees(*situation.temperature_c));
    return waits;
}

Situation look_round(store::Database& database) {
    Situation situation;
    for (auto& task : all_rows(database.query(kColumns), task_of))
        situation.tasks.emplace(task.id, std::move(task));
    auto needs = database.query("SELECT task_id, needs_id FROM task_needs ORDER BY 1, 2");
    while (needs.next())
        situation.tasks[needs.get<TaskId>(0)].needs.push_back(needs.get<TaskId>(1));
    auto wanted =
        database.query("SELECT task_id, position_id, condition FROM task_positions ORDER BY 1, 2");
    while (wanted.next())
        situation.tasks[wanted.get<TaskId>(0)].positions.push_back(
            {wanted.get<PositionId>(1), stored_word<Condition>(wanted, 2)});
    auto parts =
        database.query("SELECT position_id, condition FROM parts WHERE position_id IS NOT NULL");
    while (parts.next())
        situation.parts[parts.get<PositionId>(0)].push_back(stored_word<Condition>(parts, 1));
    auto names = database.query("SELECT id, name FROM positions");
    while (names.next())
        situation.position_names[names.get<PositionId>(0)] = names.get<std::string>(1);
    return situation;
}

std::map<TaskId, double> hours_spent(store::Database& database) {
    std::map<TaskId, double> spent;
    auto rows = database.query("SELECT t.task_id, sum(e.hours) FROM entry_tasks t "
                               "JOIN entries e ON e.id = t.entry_id GROUP BY t.task_id");
    while (rows.next())
        spent[rows.get<TaskId>(0)] = rows.get<double>(1);
    return spent;
}

} // namespace

Result<TaskId> keep_task(Notebook& notebook, const Task& task) {
    return notebook.act(
        (task.id ? "changed task " : "added task ") + task.title,
        [&](store::Database& database) -> Result<TaskId> {
            if (auto fine = check_task(task); !fine) return fine.failure();
            auto id = task.id;
            if (!id) id = {database.insert("INSERT INTO tasks(title) VALUES (?)", task.title)};
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
    const auto words =
        (state == TaskState::done ? "finished task " : "reopened task ") + task->title;
    return notebook.act(words, [&](store::Database& database) -> Done {
        database.run("UPDATE tasks SET state = ?, done_on = ? WHERE id = ?", word(state), done_on,
                     id);
        return done();
    });
}

Result<Task> task_by_id(const Notebook& notebook, TaskId id) {
    auto task = one_row(notebook, "task", std::to_string(id.value), task_of,
                        std::string(kColumns) + "WHERE id IS ?", id);
    if (!task) return task;
    auto read = notebook.read([&](store::Database& database) {
        read_needs(database, *task);
        return Nothing{};
    });
    if (!read) return read.failure();
    return task;
}

Result<std::vector<TaskStanding>> list_tasks(const Notebook& notebook, Day today) {
    auto weather = weather_on(notebook, today);
    if (!weather) return weather.failure();
    return notebook.read([&](store::Database& database) {
        auto situation = look_round(database);
        situation.temperature_c = weather->temperature_c;
        auto spent = hours_spent(database);
        std::vector<TaskStanding> standings;
        for (const auto& [id, task] : situation.tasks)
            standings.push_back({task, reasons_to_wait(task, situation), spent[id]});
        std::ranges::stable_sort(standings, {}, [](const TaskStanding& standing) {
            return standing.ready() ? 0 : standing.task.state == TaskState::open ? 1 : 2;
        });
        return standings;
    });
}

} // namespace fettle
