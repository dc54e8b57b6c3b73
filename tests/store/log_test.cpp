// The write-ahead log read by our own reader, held against what SQLite itself makes of the same
// bytes.
#include "store/log_mark.h"
#include "store/write_ahead_log.h"
#include "temp_folder.h"

#include <doctest/doctest.h>
#include <sqlite3.h>

#include <random>

using namespace fettle::store;
namespace fs = std::filesystem;

namespace {

// A database whose acts stand in its log alone, copied while it is open: as a kill leaves it.
struct Killed {
    TempFolder folder;
    fs::path file = folder / "a.db", log = log_of(file);
    std::string bytes; // of the log

    Killed() {
        fs::create_directory(folder / "live");
        const auto live = folder / "live" / "a.db";
        Database database(live, Access::write);
        LogMark mark(database, live);
        database.run_script("CREATE TABLE shelf(id INTEGER PRIMARY KEY, name TEXT) STRICT");
        for (int act = 0; act < 12; ++act) {
            Transaction transaction(database);
            for (int row = 0; row < 20; ++row)
                database.run("INSERT INTO shelf(name) VALUES (?)", std::string(100, 'a'));
            transaction.commit();
        }
        for (const auto& entry : fs::directory_iterator(folder / "live"))
            fs::copy_file(entry.path(), folder / entry.path().filename());
        fs::remove(file.native() + "-shm");
        bytes = file_text(log);
    }

    void put_log(const std::string& damaged) const {
        std::ofstream(log, std::ios::binary | std::ios::trunc) << damaged;
    }
    std::optional<LostLog> lost() const {
        auto lost = lost_of_log(file);
        REQUIRE(lost.ok());
        return *lost;
    }
};

// What would be missing had its program been killed now.
bool as_killed_now(const fs::path& live) {
    const TempFolder folder;
    for (const char* ending : {"", "-wal", "-mark"})
        if (fs::exists(live.native() + ending))
            fs::copy_file(live.native() + ending, folder / (live.filename().native() + ending));
    const auto lost = lost_of_log(folder / live.filename());
    REQUIRE(lost.ok());
    return lost->has_value();
}

// How many frames SQLite itself finds, in a copy.
std::size_t frames_by_sqlite(const Killed& killed) {
    const TempFolder folder;
    for (const auto& from : {killed.file, killed.log})
        fs::copy_file(from, folder / from.filename());
    Database database(folder / "a.db", Access::write);
    int frames = 0, in = 0;
    REQUIRE(sqlite3_wal_checkpoint_v2(database.connection(), "main", SQLITE_CHECKPOINT_PASSIVE,
                                      &frames, &in) == SQLITE_OK);
    return static_cast<std::size_t>(std::max(frames, 0));
}

} // namespace

TEST_CASE("so many frames of a log can be read as SQLite reads, whatever bytes are turned") {
    const Killed killed;
    std::mt19937 dice(7);
    std::size_t cut = 0;
    for (int turn = 0; turn < 60; ++turn) {
        std::string damaged = killed.bytes;
        if (turn > 0) damaged[dice() % (turn < 10 ? 32 : damaged.size())] ^= char(1 << dice() % 8);
        if (turn % 5 == 4) damaged.resize(dice() % damaged.size());
        killed.put_log(damaged);
        const auto log = WriteAheadLog::read(killed.file);
        REQUIRE(log.ok());
        CAPTURE(turn);
        CHECK(log->readable() == frames_by_sqlite(killed));
        // What SQLite leaves out is told.
        CHECK(killed.lost().has_value() == (log->readable() < frames_by_sqlite(Killed())));
        cut += killed.lost().has_value();
    }
    CHECK(cut > 40);
}

TEST_CASE("laid over its database a whole log gives what SQLite makes of it") {
    const Killed killed;
    const auto log = WriteAheadLog::read(killed.file);
    REQUIRE(log->lay_over(killed.file).ok());
    fs::remove(killed.log);
    Database database(killed.file, Access::write);
    auto rows =
        database.query("SELECT count(*), (SELECT * FROM pragma_integrity_check) FROM shelf");
    REQUIRE(rows.next());
    CHECK(rows.get<int>(0) == 240);
    CHECK(rows.get<std::string>(1) == "ok");
}

TEST_CASE("behind a damaged frame the others of a log are laid over, too") {
    const Killed killed;
    std::string damaged = killed.bytes;
    damaged[32 + 24 + 4096 + 2000] ^= 1; // in the second frame's page
    killed.put_log(damaged);
    const auto log = WriteAheadLog::read(killed.file);
    CHECK(log->readable() < 2);
    CHECK(log->damaged() == 1);
    REQUIRE(log->lay_over(killed.file).ok());
    fs::remove(killed.log);
    Database database(killed.file, Access::write);
    auto rows = database.query("SELECT count(*) FROM shelf");
    REQUIRE(rows.next());
    CHECK(rows.get<int>(0) > 200); // later acts wrote that page again
}

TEST_CASE("a log that is whole, was begun anew or was closed is not missed, one deleted is") {
    const Killed killed;
    CHECK_FALSE(killed.lost());
    fs::remove(killed.log);
    REQUIRE(killed.lost());
    CHECK(killed.lost()->is_gone);
    forget_log_mark(killed.file);
    CHECK_FALSE(killed.lost());

    const TempFolder folder;
    const auto file = folder / "b.db";
    {
        Database database(file, Access::write);
        const LogMark mark(database, file);
        database.run_script("CREATE TABLE shelf(id INTEGER PRIMARY KEY, name TEXT) STRICT");
        CHECK(fs::exists(file.native() + "-mark"));
        for (int act = 0; act < 700; ++act) { // past the thousand pages, and on
            database.run("INSERT INTO shelf(name) VALUES (?)", std::string(5000, 'a'));
            if (act % 100 == 0) CHECK_FALSE(as_killed_now(file));
        }
        // As a kill between an act's end and its mark leaves it.
        const auto old_mark = file_text(file.native() + "-mark");
        database.run("INSERT INTO shelf(name) VALUES ('b')");
        std::ofstream(file.native() + "-mark") << old_mark;
        CHECK_FALSE(as_killed_now(file));
        fs::remove(log_of(file));
        CHECK(as_killed_now(file));
        CHECK_FALSE(lost_of_log(file)->has_value()); // it is being written to
    }
    CHECK_FALSE(fs::exists(file.native() + "-mark"));
    CHECK_FALSE(fs::exists(log_of(file)));
}

TEST_CASE("a log that a reader still needs stays with its mark") {
    const TempFolder folder;
    const auto file = folder / "a.db";
    std::optional<Database> reader;
    {
        Database database(file, Access::write);
        const LogMark mark(database, file);
        database.run_script("CREATE TABLE shelf(id INTEGER PRIMARY KEY, name TEXT) STRICT");
        reader.emplace(file, Access::read);
        reader->run_script("BEGIN; SELECT * FROM shelf;");
        database.run("INSERT INTO shelf(name) VALUES ('b')");
    }
    reader.reset();
    CHECK(fs::exists(file.native() + "-mark"));
    CHECK_FALSE(lost_of_log(file)->has_value());
    {
        Database database(file, Access::write);
        const LogMark mark(database, file);
        auto rows = database.query("SELECT count(*) FROM shelf");
        REQUIRE(rows.next());
        CHECK(rows.get<int>(0) == 1);
    }
    CHECK_FALSE(fs::exists(file.native() + "-mark"));
}
