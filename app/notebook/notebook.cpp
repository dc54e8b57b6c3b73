#include "notebook/notebook.h"

#include "base/date.h"
#include "notebook/schema/schema.h"
#include "notebook/vehicles.h"
#include "store/changes.h"
#include "store/migrate.h"

#include <array>

namespace fettle {
namespace {

namespace fs = std::filesystem;

// What history records; drafts and history itself are left out.
constexpr std::array kRecordedTables = {"vehicles",
                                        "vehicle_makers",
                                        "positions",
                                        "contacts",
                                        "makers",
                                        "parts",
                                        "photos",
                                        "tasks",
                                        "task_needs",
                                        "task_positions",
                                        "entries",
                                        "entry_parts",
                                        "entry_tasks",
                                        "worked_results",
                                        "ties",
                                        "marks",
                                        "day_conditions",
                                        "clocks",
                                        "tag_reads",
                                        "runs",
                                        "run_photos",
                                        "position_features",
                                        "measurements",
                                        "photo_pairs",
                                        "photo_scales",
                                        "consignments",
                                        "consignment_items",
                                        "consignment_photos",
                                        "evidence",
                                        "task_consignments",
                                        "arrival_looks",
                                        "condition_steps",
                                        "costs",
                                        "helps",
                                        "estimates"};

fs::path database_file(const fs::path& folder) {
    return folder / "notebook.db";
}

Failure no_notebook_in(const fs::path& folder) {
    return {FailureKind::not_found,
            "There is no notebook in " + folder.string() +
                ": make one with `fettlebook start DIR --vehicle NAME`, or name another folder "
                "with --notebook."};
}

} // namespace

Notebook::Notebook(fs::path folder, std::optional<store::FolderLock> lock, store::Database database)
    : folder_(std::move(folder)), lock_(std::move(lock)), database_(std::move(database)) {}

Notebook::Notebook(Notebook&& other) noexcept
    : folder_(std::move(other.folder_)),
      lock_(std::move(other.lock_)),
      database_(std::move(other.database_)),
      change_counter_(other.change_counter_.load()) {}

Notebook::~Notebook() = default;

Result<Notebook> Notebook::create(const fs::path& folder, const std::string& vehicle_name) {
    if (fs::exists(database_file(folder)))
        return Failure{FailureKind::refused, "There is a notebook in " + folder.string() +
                                                 " already; it was left alone."};
    std::error_code error;
    fs::create_directories(folder / "photos", error);
    if (!error) fs::create_directories(folder / "cache", error);
    if (error)
        return Failure{FailureKind::io, "The folder " + folder.string() +
                                            " cannot be made: " + error.message() + "."};
    auto lock = store::FolderLock::take(folder);
    if (!lock) return lock.failure();
    try {
        store::Database database(database_file(folder), store::Access::write);
        store::migrate(database, kApplicationId, kSchemaSteps);
        Notebook notebook(fs::absolute(folder), std::move(*lock), std::move(database));
        auto vehicle = add_vehicle(notebook, {.name = vehicle_name});
        if (!vehicle) {
            fs::remove(database_file(folder), error);
            return vehicle.failure();
        }
        notebook.database_.run("DELETE FROM history"); // the making itself is not to be undone
        return notebook;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Result<Notebook> Notebook::open(const fs::path& folder, store::Access access) {
    std::error_code error;
    if (!fs::is_regular_file(database_file(folder), error)) return no_notebook_in(folder);
    try {
        // A look first: a file that is not ours, or ahead of us, is not touched at all.
        store::Database look(database_file(folder), store::Access::read);
        store::known_schema(look, kApplicationId, kNewestSchema);
        if (access == store::Access::read && look.user_version() == kNewestSchema)
            return Notebook(fs::absolute(folder), std::nullopt, std::move(look));

        auto lock = store::FolderLock::take(folder);
        if (!lock) return lock.failure();
        store::Database database(database_file(folder), store::Access::write);
        store::migrate(database, kApplicationId, kSchemaSteps);
        return Notebook(fs::absolute(folder), std::move(*lock), std::move(database));
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

std::optional<Failure> Notebook::not_writable() const {
    if (writable()) return std::nullopt;
    return Failure{FailureKind::refused, "This notebook is open for reading only."};
}

struct Notebook::Recording::Parts {
    explicit Parts(store::Database& database)
        : transaction(database), recorder(database, kRecordedTables) {}
    store::Transaction transaction;
    store::Recorder recorder; // ends before the transaction does
};

Notebook::Recording::Recording(Notebook& notebook)
    : notebook_(notebook), parts_(std::make_unique<Parts>(notebook.database_)) {
    notebook_.acting_ = true;
}

Notebook::Recording::~Recording() {
    notebook_.acting_ = false;
}

void Notebook::Recording::keep(const std::string& words, Step step) {
    auto& database = notebook_.database_;
    const auto changes = parts_->recorder.changes();
    if (changes.empty()) return;                          // nothing changed, nothing to undo
    database.run("DELETE FROM history WHERE undone = 1"); // what was undone is gone for good
    if (step.number == 0) {
        auto last = database.query("SELECT ifnull(max(step), 0) + 1 FROM history");
        last.next();
        step.number = last.get<std::int64_t>(0);
    }
    database.run("INSERT INTO history(step, words, made, schema, changes) VALUES (?, ?, ?, ?, ?)",
                 step.number, words, to_iso(now()), kNewestSchema, changes);
    parts_->transaction.commit();
    ++notebook_.change_counter_;
}

Result<Step> Notebook::new_step() {
    return read([](store::Database& database) {
        auto row = database.query("SELECT ifnull(max(step), 0) + 1 FROM history");
        row.next();
        return Step{row.get<std::int64_t>(0)};
    });
}

namespace {

// The step to undo is the last one not undone; the step to redo is the first one undone.
constexpr const char* kNextUndo =
    "SELECT step, words FROM history WHERE undone = 0 AND schema = ? ORDER BY step DESC, id DESC";
constexpr const char* kNextRedo =
    "SELECT step, words FROM history WHERE undone = 1 AND schema = ? ORDER BY step, id DESC";

struct NextStep {
    std::int64_t number;
    std::string words;
};

std::optional<NextStep> next_step(store::Database& database, const char* sql) {
    auto row = database.query(sql, kNewestSchema);
    if (!row.next()) return std::nullopt;
    return NextStep{row.get<std::int64_t>(0), row.get<std::string>(1)};
}

// The changes of a step's acts in the order they are to be applied.
std::vector<store::Blob> changes_of(store::Database& database, std::int64_t step, bool back) {
    std::vector<store::Blob> changes;
    auto act = database.query(back ? "SELECT changes FROM history WHERE step = ? ORDER BY id DESC"
                                   : "SELECT changes FROM history WHERE step = ? ORDER BY id",
                              step);
    while (act.next())
        changes.push_back(act.get<store::Blob>(0));
    return changes;
}

std::string words_of_next(const Notebook& notebook, const char* sql) {
    auto next = notebook.read([&](store::Database& database) { return next_step(database, sql); });
    return next && *next ? (*next)->words : std::string();
}

} // namespace

std::string Notebook::next_undo() const {
    return words_of_next(*this, kNextUndo);
}
std::string Notebook::next_redo() const {
    return words_of_next(*this, kNextRedo);
}
Result<std::string> Notebook::undo() {
    return replay(true);
}
Result<std::string> Notebook::redo() {
    return replay(false);
}

Result<std::string> Notebook::replay(bool back) {
    std::scoped_lock hold(held_);
    if (auto failure = not_writable()) return *failure;
    try {
        store::Transaction transaction(database_);
        const auto next = next_step(database_, back ? kNextUndo : kNextRedo);
        if (!next)
            return Failure{FailureKind::not_found,
                           back ? "There is nothing to undo." : "There is nothing to redo."};
        for (const auto& changes : changes_of(database_, next->number, back))
            store::apply(database_, back ? store::inverted(changes) : changes);
        database_.run("UPDATE history SET undone = ? WHERE step = ?", back, next->number);
        transaction.commit();
        ++change_counter_;
        return next->words;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

} // namespace fettle
