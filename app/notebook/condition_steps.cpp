#include "notebook/condition_steps.h"

#include "notebook/rules.h"

namespace fettle {
namespace {

struct Stored {
    std::int64_t id = 0;
    ConditionStep step;
};

std::vector<Stored> steps_of(store::Database& database, PartId part) {
    return all_rows(database.query("SELECT id, condition, on_date FROM condition_steps "
                                   "WHERE part_id = ? ORDER BY on_date, id",
                                   part),
                    [](const store::Statement& row) {
                        Stored stored;
                        stored.id = row.get<std::int64_t>(0);
                        stored.step.condition = stored_word<Condition>(row, 1);
                        if (auto day = parse_day(row.get<std::string>(2))) stored.step.on = *day;
                        return stored;
                    });
}

} // namespace

Result<std::vector<ConditionStep>> list_condition_steps(const Notebook& notebook, PartId part) {
    return notebook.read([&](store::Database& database) {
        std::vector<ConditionStep> steps;
        for (const auto& stored : steps_of(database, part))
            steps.push_back(stored.step);
        return steps;
    });
}

Done set_condition(Notebook& notebook, PartId part, Condition condition, Day on) {
    return notebook.act("changed a condition to " + std::string(word(condition)),
                        [&](store::Database& database) -> Done {
                            database.run("UPDATE parts SET condition = ? WHERE id IS ?",
                                         word(condition), part);
                            if (database.rows_changed() == 0)
                                return nothing_called("part", std::to_string(part.value));
                            note_condition(database, part, condition, on);
                            return done();
                        });
}

namespace {

void insert_step(store::Database& database, PartId part, const ConditionStep& step) {
    database.run("INSERT INTO condition_steps(id, part_id, condition, on_date) "
                 "VALUES (next_id('condition_steps'), ?, ?, ?)",
                 part, word(step.condition), to_iso(step.on));
}

} // namespace

void note_condition(store::Database& database, PartId part, Condition condition, Day on) {
    for (const auto& [id, step] : steps_of(database, part))
        if (step.on == on && step.condition >= condition)
            database.run("DELETE FROM condition_steps WHERE id = ?", id);
    insert_step(database, part, {condition, on});
}

void copy_steps(store::Database& database, PartId from, PartId to) {
    for (const auto& stored : steps_of(database, from))
        insert_step(database, to, stored.step);
}

} // namespace fettle
