#include "notebook/runs.h"

#include "notebook/rules.h"
#include "notebook/runs_within.h"

#include <algorithm>

namespace fettle {
namespace {

std::string photo_count(int count) {
    return count == 1 ? "1 photo" : std::to_string(count) + " photos";
}

constexpr std::string_view kRunColumns =
    "SELECT r.id, r.part_id, a.tag, a.name, r.state, r.stage FROM runs r "
    "JOIN parts a ON a.id = r.part_id ";

Run run_of(const store::Statement& row) {
    Run run;
    run.id = row.get<RunId>(0);
    run.part = row.get<PartId>(1);
    run.tag = row.get<std::string>(2);
    run.part_name = row.get<std::string>(3);
    run.state = stored_word<RunState>(row, 4);
    run.stage = stored_word<Stage>(row, 5);
    return run;
}

void add_photos(store::Database& database, Run& run) {
    auto rows = database.query(
        "SELECT f.id, f.taken, EXISTS (SELECT 1 FROM tag_reads t WHERE t.photo_id = f.id "
        "                              AND t.tag = ?2) "
        "FROM run_photos p JOIN photos f ON f.id = p.photo_id "
        "WHERE p.run_id = ?1 AND p.is_out = 0 ORDER BY f.at, f.original_name, f.id",
        run.id, run.tag);
    while (rows.next()) {
        run.photos.push_back({rows.get<PhotoId>(0), rows.get<bool>(2)});
        auto taken = parse_moment(rows.get<std::string>(1));
        if (!taken) continue;
        if (!run.from) run.from = *taken;
        run.to = *taken;
    }
}

} // namespace

int Run::to_confirm() const {
    if (state != RunState::proposed) return 0;
    return static_cast<int>(
        std::ranges::count_if(photos, [](const RunPhoto& photo) { return !photo.shows_tag; }));
}

Result<StoredRun> stored_run(store::Database& database, RunId id) {
    auto row = database.query(std::string(kRunColumns) + "WHERE r.id IS ?", id);
    if (!row.next()) return nothing_called("run", std::to_string(id.value));
    const Run run = run_of(row);
    return StoredRun{run.id, run.part, run.tag, run.state, run.stage};
}

bool shows_tag_of(store::Database& database, PhotoId photo, PartId part) {
    return database
        .query("SELECT 1 FROM tag_reads t JOIN parts a ON a.tag = t.tag "
               "WHERE t.photo_id = ? AND a.id = ?",
               photo, part)
        .next();
}

void tie_within(store::Database& database, const StoredRun& run, PhotoId photo) {
    auto tie =
        database.query("SELECT 1 FROM ties WHERE photo_id = ? AND part_id = ?", photo, run.part);
    if (!tie.next()) {
        database.run(
            "INSERT INTO ties(id, photo_id, part_id, stage) VALUES (next_id('ties'), ?, ?, ?)",
            photo, run.part, word(run.stage));
        database.run("UPDATE run_photos SET made_tie = 1 WHERE photo_id = ?", photo);
        return;
    }
    database.run("UPDATE ties SET stage = ?3 WHERE photo_id = ?1 AND part_id = ?2 AND EXISTS "
                 "(SELECT 1 FROM run_photos WHERE photo_id = ?1 AND made_tie = 1)",
                 photo, run.part, word(run.stage));
}

void untie_within(store::Database& database, const StoredRun& run, PhotoId photo) {
    database.run("DELETE FROM ties WHERE photo_id = ?1 AND part_id = ?2 AND EXISTS "
                 "(SELECT 1 FROM run_photos WHERE photo_id = ?1 AND made_tie = 1)",
                 photo, run.part);
    database.run("UPDATE run_photos SET made_tie = 0 WHERE photo_id = ?", photo);
}

void join_run(store::Database& database, const StoredRun& run, PhotoId photo) {
    auto before = database.query("SELECT run_id FROM run_photos WHERE photo_id = ?", photo);
    if (!before.next()) {
        database.run(
            "INSERT INTO run_photos(id, run_id, photo_id) VALUES (next_id('run_photos'), ?, ?)",
            run.id, photo);
    } else {
        if (auto other = stored_run(database, before.get<RunId>(0)); other && other->id != run.id)
            untie_within(database, *other, photo);
        database.run("UPDATE run_photos SET run_id = ?, is_out = 0 WHERE photo_id = ?", run.id,
                     photo);
    }
    if (run.state == RunState::accepted) tie_within(database, run, photo);
}

void leave_run(store::Database& database, const StoredRun& run, PhotoId photo) {
    untie_within(database, run, photo);
    database.run("UPDATE run_photos SET is_out = 1 WHERE photo_id = ? AND run_id = ?", photo,
                 run.id);
}

Result<std::vector<Run>> list_runs(const Notebook& notebook, RunState state) {
    return notebook.read([&](store::Database& database) {
        auto runs =
            all_rows(database.query(std::string(kRunColumns) + "WHERE r.state = ? ORDER BY r.id",
                                    word(state)),
                     run_of);
        for (auto& run : runs)
            add_photos(database, run);
        std::erase_if(runs, [](const Run& run) {
            return run.photos.empty() || (run.state == RunState::proposed && run.to_confirm() == 0);
        });
        std::ranges::stable_sort(
            runs, {}, [](const Run& run) { return run.from ? run.from->local : Moment().local; });
        return runs;
    });
}

Result<Run> run_by_id(const Notebook& notebook, RunId id) {
    auto run = one_row(notebook, "run", std::to_string(id.value), run_of,
                       std::string(kRunColumns) + "WHERE r.id IS ?", id);
    if (!run) return run;
    auto filled = notebook.read([&](store::Database& database) {
        add_photos(database, *run);
        return true;
    });
    if (!filled) return filled.failure();
    return run;
}

Done accept_run(Notebook& notebook, RunId id, Stage stage, Step step) {
    auto run = run_by_id(notebook, id);
    if (!run) return run.failure();
    if (run->state != RunState::proposed)
        return Failure{FailureKind::refused, "Run " + std::to_string(id.value) + " is " +
                                                 std::string(word(run->state)) + " already."};
    return notebook.act(
        "tied " + photo_count(int(run->photos.size())) + " to " + run->tag + " " + run->part_name,
        [&](store::Database& database) -> Done {
            database.run("UPDATE runs SET state = ?, stage = ? WHERE id = ?",
                         word(RunState::accepted), word(stage), id);
            const StoredRun accepted{id, run->part, run->tag, RunState::accepted, stage};
            for (const auto& [photo, shows] : run->photos)
                tie_within(database, accepted, photo);
            return done();
        },
        step);
}

Done dismiss_run(Notebook& notebook, RunId id) {
    auto run = run_by_id(notebook, id);
    if (!run) return run.failure();
    if (run->state == RunState::dismissed)
        return Failure{FailureKind::refused,
                       "Run " + std::to_string(id.value) + " is dismissed already."};
    return notebook.act("dismissed the run of " + run->tag + " " + run->part_name,
                        [&](store::Database& database) -> Done {
                            database.run("UPDATE runs SET state = ? WHERE id = ?",
                                         word(RunState::dismissed), id);
                            const StoredRun was{id, run->part, run->tag, run->state, run->stage};
                            for (const auto& [photo, shows] : run->photos)
                                if (!shows) untie_within(database, was, photo);
                            return done();
                        });
}

} // namespace fettle
