#include "store/changes.h"
#include "temp_folder.h"

#include <doctest/doctest.h>

#include <array>
#include <random>

using namespace fettle::store;

namespace {

constexpr std::array kTables = {"parts", "ties"};

struct Bench {
    TempFolder folder;
    Database database{folder / "a.db", Access::write};
    Bench() {
        database.run_script("CREATE TABLE parts(id INTEGER PRIMARY KEY, name TEXT) STRICT;"
                            "CREATE TABLE ties(id INTEGER PRIMARY KEY, "
                            "part_id INTEGER REFERENCES parts(id)) STRICT;");
    }
    std::string all() {
        std::string text;
        for (const char* sql : {"SELECT id || name FROM parts ORDER BY id",
                                "SELECT id || ':' || ifnull(part_id, '') FROM ties ORDER BY id"}) {
            auto rows = database.query(sql);
            while (rows.next())
                text += rows.get<std::string>(0) + "\n";
            text += "--\n";
        }
        return text;
    }
    template <class Act>
    Blob record(Act act) {
        Transaction transaction(database);
        Recorder recorder(database, kTables);
        act();
        auto changes = recorder.changes();
        transaction.commit();
        return changes;
    }
    void replay(const Blob& changes) {
        Transaction transaction(database);
        apply(database, changes);
        transaction.commit();
    }
};

} // namespace

TEST_CASE("recorded changes can be taken back and made again, foreign keys and all") {
    Bench bench;
    const auto empty = bench.all();
    const auto changes = bench.record([&] {
        bench.database.run("INSERT INTO parts VALUES (1, 'hanger')");
        bench.database.run("INSERT INTO ties VALUES (1, 1)");
    });
    const auto full = bench.all();
    bench.replay(inverted(changes));
    CHECK(bench.all() == empty);
    bench.replay(changes);
    CHECK(bench.all() == full);
}

TEST_CASE("random acts undone in turn lead back through every state") {
    Bench bench;
    std::mt19937 random(7);
    std::vector<std::string> states{bench.all()};
    std::vector<Blob> acts;
    for (int act = 0; act < 60; ++act) {
        acts.push_back(bench.record([&] {
            const auto id = static_cast<int>(random() % 8) + 1;
            switch (random() % 4) {
            case 0:
                bench.database.run("INSERT OR IGNORE INTO parts VALUES (?, 'p')", id);
                break;
            case 1:
                bench.database.run("UPDATE parts SET name = name || 'x' WHERE id = ?", id);
                break;
            case 2:
                bench.database.run("INSERT OR IGNORE INTO ties SELECT ?, id FROM parts LIMIT 1",
                                   id);
                break;
            default:
                bench.database.run("DELETE FROM ties WHERE part_id = ?", id);
                bench.database.run("DELETE FROM parts WHERE id = ?", id);
            }
        }));
        states.push_back(bench.all());
    }
    for (auto act = acts.size(); act-- > 0;) {
        bench.replay(inverted(acts[act]));
        REQUIRE(bench.all() == states[act]);
    }
}

TEST_CASE("changes that no longer fit are trouble and change nothing") {
    Bench bench;
    const auto changes =
        bench.record([&] { bench.database.run("INSERT INTO parts VALUES (1, 'hanger')"); });
    bench.database.run("UPDATE parts SET name = 'other'");
    const auto before = bench.all();
    CHECK_THROWS_AS(bench.replay(inverted(changes)), Trouble);
    CHECK(bench.all() == before);
}
