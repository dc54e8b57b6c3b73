#include "store/soundness.h"

#include <sqlite3.h>

namespace fettle::store {
namespace {

constexpr int kPagesAtOnce = 512; // 2 MiB at SQLite's usual page size

} // namespace

std::vector<std::string> integrity_faults(Database& database, int most) {
    std::vector<std::string> faults;
    try {
        auto rows = database.query("PRAGMA integrity_check(" + std::to_string(most) + ")");
        while (rows.next())
            if (auto line = rows.get<std::string>(0); line != "ok")
                faults.push_back(std::move(line));
    } catch (const Trouble& trouble) { // so damaged that the check itself cannot go on
        faults.push_back(trouble.failure().detail);
    }
    return faults;
}

std::vector<Dangling> dangling_references(Database& database, int most) {
    std::vector<Dangling> dangling;
    auto rows = database.query("PRAGMA foreign_key_check");
    while (rows.next() && dangling.size() < static_cast<std::size_t>(most))
        dangling.push_back({rows.get<std::string>(0), rows.get<std::string>(2)});
    return dangling;
}

OneState::OneState(Database& database)
    : database_(database), outermost_(sqlite3_get_autocommit(database.connection()) != 0) {
    if (!outermost_) return;
    database_.run_script("BEGIN");
    // The state is that of the first reading, not of BEGIN.
    database_.query("SELECT count(*) FROM sqlite_schema").run();
}

OneState::~OneState() {
    if (outermost_) sqlite3_exec(database_.connection(), "COMMIT", nullptr, nullptr, nullptr);
}

bool copy_database(Database& from, Database& into, const std::stop_token& stop,
                   const std::function<void(int, int)>& progress) {
    // With a reading under way the steps all see its state; without one, each write of another
    // connection would make the copying start over.
    const OneState state(from);
    std::unique_ptr<sqlite3_backup, int (*)(sqlite3_backup*)> copying(
        sqlite3_backup_init(into.connection(), "main", from.connection(), "main"),
        sqlite3_backup_finish);
    int code = copying ? SQLITE_OK : sqlite3_errcode(into.connection());
    while (code == SQLITE_OK && !stop.stop_requested()) {
        code = sqlite3_backup_step(copying.get(), kPagesAtOnce);
        const int all = sqlite3_backup_pagecount(copying.get());
        if (progress) progress(all - sqlite3_backup_remaining(copying.get()), all);
    }
    if (code == SQLITE_DONE) return true;
    if (code == SQLITE_OK) return false;
    const bool damaged = (code & 0xff) == SQLITE_CORRUPT || (code & 0xff) == SQLITE_NOTADB;
    throw Trouble({damaged ? FailureKind::damaged : FailureKind::io,
                   (code & 0xff) == SQLITE_FULL ? "The disk is full: the database was not copied."
                                                : "The notebook's database cannot be copied.",
                   sqlite3_errstr(code)});
}

Database private_copy(Database& from) {
    Database copy({}, Access::write); // an empty name: SQLite's own temporary file
    copy_database(from, copy);
    return copy;
}

} // namespace fettle::store
