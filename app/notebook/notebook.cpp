#include "notebook/notebook.h"

#include "base/date.h"
#include "base/whole_file.h"
#include "notebook/lost_log.h"
#include "notebook/recorded_tables.h"
#include "notebook/schema/schema.h"
#include "notebook/stamps.h"
#include "notebook/vehicles.h"
#include "store/changes.h"
#include "store/migrate.h"

#include <algorithm>

namespace fettle {
namespace {

namespace fs = std::filesystem;

fs::path database_file(const fs::path& folder) {
    return folder / "notebook.db";
}

// Under another name until it is whole: a making that ends early leaves no notebook.
fs::path fresh_file(const fs::path& folder) {
    return folder / "notebook.db.fresh";
}

Failure no_notebook_in(const fs::path& folder) {
    return {FailureKind::not_found,
            "There is no notebook in " + folder.string() +
                ": make one with `fettlebook start DIR --vehicle NAME`, or name another folder "
                "with --notebook."};
}

// What was undone is gone for good. It stands at the end of history, behind the last step that was
// not: the rows before that, which are many, are not looked at.
constexpr const char* kForgetUndone =
    "DELETE FROM history WHERE undone = 1 AND step > ifnull("
    "(SELECT step FROM history WHERE undone = 0 ORDER BY step DESC LIMIT 1), 0)";

} // namespace

Notebook::Notebook(fs::path folder, std::optional<store::FolderLock> lock, store::Database database)
    : folder_(std::move(folder)), lock_(std::move(lock)), database_(std::move(database)) {
    number_rows(database_);
}

// For the connection that writes to the notebook in its place.
void Notebook::mark_log() {
    log_mark_ = std::make_unique<store::LogMark>(database_, database_file(folder_));
}

Notebook::Notebook(Notebook&& other) noexcept
    : folder_(std::move(other.folder_)),
      lock_(std::move(other.lock_)),
      database_(std::move(other.database_)),
      log_mark_(std::move(other.log_mark_)),
      opening_notice_(std::move(other.opening_notice_)),
      change_counter_(other.change_counter_.load()),
      changed_at_(std::move(other.changed_at_)),
      all_changed_at_(other.all_changed_at_) {}

Notebook::~Notebook() = default;

Result<Notebook> Notebook::create_filled(const fs::path& folder, const Filling& fill) {
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
    const fs::path fresh = fresh_file(folder);
    store::remove_database(fresh); // of a making that was ended
    try {
        if (auto made = make(fresh, *lock, fill); !made) {
            store::remove_database(fresh);
            return made.failure();
        }
        fs::rename(fresh, database_file(folder));
        sync_folder(folder);
        Notebook notebook(fs::absolute(folder), std::move(*lock),
                          store::Database(database_file(folder), store::Access::write));
        notebook.mark_log();
        return notebook;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    } catch (const fs::filesystem_error& failed) {
        return Failure{FailureKind::io, "The notebook in " + folder.string() +
                                            " cannot be made: " + failed.code().message() + "."};
    }
}

Result<Notebook> Notebook::create_blank(const fs::path& folder) {
    return create_filled(folder, [](Notebook&) { return done(); });
}

Result<Notebook> Notebook::create(const fs::path& folder, const std::string& vehicle_name) {
    return create_filled(folder, [&](Notebook& notebook) -> Done {
        auto vehicle = add_vehicle(notebook, {.name = vehicle_name});
        if (!vehicle) return vehicle.failure();
        notebook.database_.run("DELETE FROM history"); // the making itself is not to be undone
        return done();
    });
}

Done Notebook::make(const fs::path& file, store::FolderLock& lock, const Filling& fill) {
    Notebook notebook(file.parent_path(), std::move(lock),
                      store::Database(file, store::Access::write));
    store::migrate(notebook.database_, kApplicationId, kSchemaSteps);
    auto filled = fill(notebook);
    lock = std::move(*notebook.lock_);
    if (filled) notebook.database_.gather();
    return filled;
}

std::vector<fs::path> left_of_making(const fs::path& folder) {
    std::vector<fs::path> left;
    for (const auto& file : store::files_of(fresh_file(folder)))
        if (fs::exists(file)) left.push_back(file);
    return left;
}

Result<Notebook> Notebook::open(const fs::path& folder, store::Access access) {
    std::error_code error;
    if (!fs::is_regular_file(database_file(folder), error)) return no_notebook_in(folder);
    try {
        // A look first: a file that is not ours, or ahead of us, is not touched at all.
        store::look_at_schema(database_file(folder), kApplicationId, kNewestSchema);
        if (store::left_half_written(database_file(folder))) {
            auto lock = store::FolderLock::take(folder);
            if (!lock) return lock.failure();
            store::settle_half_written(database_file(folder));
        }
        {
            store::Database look(database_file(folder), store::Access::read);
            const int schema = store::known_schema(look, kApplicationId, kNewestSchema);
            if (access == store::Access::read && schema == kNewestSchema)
                return opened_to_read(folder, std::move(look));
        }
        return open_to_write(folder);
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Result<Notebook> Notebook::opened_to_read(const fs::path& folder, store::Database database) {
    auto notice = tell_lost_log(folder);
    if (!notice) return notice.failure();
    Notebook notebook(fs::absolute(folder), std::nullopt, std::move(database));
    notebook.opening_notice_ = std::move(*notice);
    return notebook;
}

Result<Notebook> Notebook::open_to_write(const fs::path& folder) {
    auto lock = store::FolderLock::take(folder);
    if (!lock) return lock.failure();
    auto notice = put_lost_log_aside(folder);
    if (!notice) return notice.failure();
    store::Database database(database_file(folder), store::Access::write);
    store::migrate(database, kApplicationId, kSchemaSteps);
    Notebook notebook(fs::absolute(folder), std::move(*lock), std::move(database));
    notebook.mark_log();
    notebook.opening_notice_ = std::move(*notice);
    return notebook;
}

// None of the looks of open(): they read the file by handles of their own, and closing one of those
// would let go of the locks that SQLite holds on the file for this process.
Result<Notebook> Notebook::also_to_read() const {
    if (auto failure = not_there()) return *failure;
    try {
        return Notebook(folder_, std::nullopt,
                        store::Database(database_file(folder_), store::Access::read));
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

std::optional<Failure> Notebook::not_there() const {
    if (!database_.moved()) return std::nullopt;
    return Failure{FailureKind::io,
                   "The notebook in " + folder_.string() +
                       " was removed, moved or replaced while it was open: nothing was read or "
                       "written. Put it back (plug in its disk), or close it and open the one "
                       "that is there now."};
}

std::optional<Failure> Notebook::not_writable() const {
    if (!writable())
        return Failure{FailureKind::refused, "This notebook is open for reading only."};
    return not_there();
}

struct Notebook::Recording::Parts {
    explicit Parts(store::Database& database)
        : transaction(database), recorder(database, recorded_names()) {}
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
    if (changes.empty()) return; // nothing changed, nothing to undo
    database.run(kForgetUndone);
    if (step.number == 0) {
        auto last = database.query("SELECT ifnull(max(step), 0) + 1 FROM history");
        last.next();
        step.number = last.get<std::int64_t>(0);
    }
    database.run("INSERT INTO history(step, words, made, schema, changes) VALUES (?, ?, ?, ?, ?)",
                 step.number, words, to_iso(now()), kNewestSchema, changes);
    stamp_changes(database, changes);
    parts_->transaction.commit();
    notebook_.count_changes({&changes, 1});
}

void Notebook::count_changes(std::span<const store::Blob> changes) {
    const std::uint64_t next = change_counter_ + 1;
    for (const auto& each : changes)
        store::each_change(each,
                           [&](const store::Change& change) { changed_at_[change.table] = next; });
    change_counter_ = next;
}

void Notebook::count_change_of_all() {
    all_changed_at_ = change_counter_ + 1;
    change_counter_ = all_changed_at_;
}

bool Notebook::changed_since(std::uint64_t counter, const std::set<std::string>& tables) const {
    std::scoped_lock hold(held_);
    if (change_counter_ == counter) return false;
    return all_changed_at_ > counter || std::ranges::any_of(tables, [&](const std::string& table) {
               const auto at = changed_at_.find(table);
               return !recorded_table(table) || (at != changed_at_.end() && at->second > counter);
           });
}

void Notebook::note_brought_in(const std::string& words) {
    database_.run(kForgetUndone);
    database_.run("INSERT INTO history(step, words, made, schema, met, changes) "
                  "SELECT ifnull(max(step), 0) + 1, ?, ?, ?, 1, x'' FROM history",
                  words, to_iso(now()), kNewestSchema);
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
    "SELECT step, words, met FROM history WHERE undone = 0 AND schema >= ? "
    "ORDER BY step DESC, id DESC";
constexpr const char* kNextRedo =
    "SELECT step, words, met FROM history WHERE undone = 1 AND schema >= ? AND step > ifnull("
    "(SELECT step FROM history WHERE undone = 0 ORDER BY step DESC LIMIT 1), 0) "
    "ORDER BY step, id DESC";

struct NextStep {
    std::int64_t number;
    std::string words;
    bool met; // brought in from another machine
};

std::optional<NextStep> next_step(store::Database& database, const char* sql) {
    auto row = database.query(sql, kSameTablesSince);
    if (!row.next()) return std::nullopt;
    return NextStep{row.get<std::int64_t>(0), row.get<std::string>(1), row.get<bool>(2)};
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

void replay_changes(store::Database& database, const store::Blob& changes) {
    store::apply(database, changes);
    stamp_changes(database, changes);
}

std::string words_of_next(const Notebook& notebook, const char* sql) {
    auto next = notebook.read([&](store::Database& database) { return next_step(database, sql); });
    return next && *next && !(*next)->met ? (*next)->words : std::string();
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
        if (next->met)
            return Failure{FailureKind::refused,
                           "What came when this notebook " + next->words +
                               " is not taken back, nor is what was done before: the other "
                               "machine goes by it. Change it instead."};
        const auto all = changes_of(database_, next->number, back);
        for (const auto& changes : all)
            replay_changes(database_, back ? store::inverted(changes) : changes);
        database_.run("UPDATE history SET undone = ? WHERE step = ?", back, next->number);
        transaction.commit();
        count_changes(all);
        return next->words;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

} // namespace fettle
