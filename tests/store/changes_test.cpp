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

TEST_CASE("bytes that are no changes, or changes cut short, are refused before SQLite reads them") {
    Bench bench;
    const auto changes = bench.record([&] {
        bench.database.run("INSERT INTO parts VALUES (1, 'hanger')");
        bench.database.run("INSERT INTO parts VALUES (2, NULL)");
        bench.database.run("INSERT INTO ties VALUES (1, 1)");
    });
    const auto renamed = bench.record([&] {
        bench.database.run("UPDATE parts SET name = 'bracket' WHERE id = 1");
        bench.database.run("DELETE FROM ties");
    });
    CHECK(has_form_of_changes(changes));
    CHECK(has_form_of_changes(renamed));
    CHECK(has_form_of_changes(inverted(renamed)));

    // By the form's own rules; the second is what SQLite 3.40 goes round over for ever.
    for (const std::string_view text :
         {std::string_view("x", 1), std::string_view("T\0", 2), std::string_view("T\x01\x01", 3),
          std::string_view("T\x01\x00parts\0", 9), std::string_view("T\x01\x01\0", 4),
          std::string_view("\x12\0\x05", 3), std::string_view("T\x01\x01parts\0\x12\0\x01\0\0", 13),
          std::string_view("T\x01\x01parts\0\x12\0\x03\x8f\xff\xff\xff\x7f", 16),
          std::string_view("T\x01\x01parts\0\x13\0\x05", 12)}) {
        const auto bytes = std::as_bytes(std::span(text));
        const Blob strange(bytes.begin(), bytes.end());
        CHECK_FALSE(has_form_of_changes(strange));
        CHECK_THROWS_AS(bench.replay(strange), Trouble);
        CHECK_THROWS_AS((void)inverted(strange), Trouble);
        CHECK_THROWS_AS(each_change(strange, [](const Change&) {}), Trouble);
    }
    for (std::size_t size = 1; size < changes.size(); ++size) {
        const Blob cut(changes.begin(), changes.begin() + std::ptrdiff_t(size));
        if (has_form_of_changes(cut)) each_change(cut, [](const Change&) {}); // whole rows of them
    }
}
